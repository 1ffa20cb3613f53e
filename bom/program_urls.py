"""Addresses of the designer's pages."""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

from bom.web import (
    allowances,
    block_changes,
    carried,
    chart,
    colorways,
    documents,
    downloads,
    drawing_board,
    drawing_files,
    freeze,
    installments,
    lists,
    plan,
    precuts,
    sewing,
    strips,
    traditional_blocks,
    year,
)

installment_urls: list[URLPattern | URLResolver] = [
    path("", installments.installment, name="installment"),
    path("words/", installments.words, name="installment-words"),
    path("state/", installments.state, name="installment-state"),
    path("day/", plan.day, name="installment-day"),
    path("carried/", carried.carried, name="installment-carried"),
    path("sheet.pdf", downloads.sheet, name="installment-sheet"),
]

draw_urls: list[URLPattern | URLResolver] = [
    path("", drawing_board.draw, name="draw-new"),
    path("drawing.json", drawing_files.drawing_file, {"kind": "json"}, name="draw-new-file"),
    path("drawing.svg", drawing_files.drawing_file, {"kind": "svg"}, name="draw-new-picture"),
    path("traditional/", traditional_blocks.traditional_blocks, name="traditional-blocks"),
    path("<int:pk>/", drawing_board.draw, name="draw-block"),
    path("<int:pk>/drawing.json", drawing_files.drawing_file, {"kind": "json"}, name="draw-block-file"),
    path("<int:pk>/drawing.svg", drawing_files.drawing_file, {"kind": "svg"}, name="draw-block-picture"),
]

program_urls: list[URLPattern | URLResolver] = [
    path("", year.year, name="program-year"),
    path("installments/", lists.installments, name="installment-list"),
    path("days/", plan.calendar, name="program-calendar"),
    path("blocks/", lists.blocks, name="program-blocks"),
    path("blocks/<int:pk>/", block_changes.block, name="block-change"),
    path("draw/", include(draw_urls)),
    path("quilt/", block_changes.quilt, name="quilt-change"),
    path("fabrics/", colorways.fabrics, name="program-fabrics"),
    path("fabrics/<slug:colorway>/", colorways.colorway, name="colorway-change"),
    path("strips/", strips.strips, name="program-strips"),
    path("precuts/", precuts.precuts, name="program-precuts"),
    path("allowances/", allowances.allowances, name="program-allowances"),
    path("sewing/", sewing.sewing, name="program-sewing"),
    path("freeze/", freeze.freeze, name="program-freeze"),
    path("take-back/", plan.take_back, name="change-take-back"),
    path("chart/", chart.chart, name="program-chart"),
    path("chart.pdf", chart.chart_file, name="program-chart-pdf"),
    path("document.pdf", documents.document, name="program-document"),
    path("program.json", downloads.program_file, name="program-export"),
    path("yardage.<slug:kind>", downloads.yardage, {"of": "year"}, name="program-yardage"),
    path("packets.<slug:kind>", downloads.yardage, {"of": "packets"}, name="program-packets"),
    path("<int:number>/", include(installment_urls)),
]

urlpatterns = [
    path("program/", lists.programs, name="program-list"),
    path("program/<slug:slug>/", include(program_urls)),
]
