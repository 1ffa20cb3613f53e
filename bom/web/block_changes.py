"""Changing a placed block and the setting of the quilt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render

from bom.domain.cloth import cloths_of
from bom.domain.cut_sources import block_keys
from bom.domain.drawings import placed_drawing
from bom.domain.lengths import units_of
from bom.domain.quilt_borders import coping_widths
from bom.domain.unit_methods import unit_choices
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.forms import BlockForm, QuiltForm
from bom.web.installment_parts import unit_name, unit_picture
from bom.web.pages import changed, page
from bom.web.year_pictures import first_colorway, quilt_plates
from bom.web.year_rows import work_or_fault
from patterns.domain.pictures import block_svg
from patterns.domain.size_words import size_notes
from patterns.engine.beds import bed_under
from patterns.engine.blocks import block_from_data
from patterns.engine.errors import DrawingError
from patterns.engine.finishing import batting
from patterns.engine.hanging import packaged_batting
from patterns.models import PlacedBlock, Quilt

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse
    from django.utils.safestring import SafeString

    from bom.domain.unit_methods import UnitChoice
    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.engine.hatches import Cloths
    from patterns.engine.quilts import QuiltTop

PLATE = 420  # px


@login_required
def block(request: HttpRequest, slug: str, pk: int) -> HttpResponse:
    """Change one placed block."""
    program = get_program_for(request.user, slug, to_edit=True)
    placed = _placed(program, pk)
    units = _units(program, placed)
    letters = list(program.quilt.letters.all())
    form = BlockForm(request.POST or None, placed=placed, letters=letters, units=units)
    is_sent = request.method == "POST" and form.is_valid()
    if is_sent and changed(request, program, form, target=f"block:{placed.pk}"):
        return redirect("block-change", slug=slug, pk=pk)
    colorway = first_colorway(program)
    cloths = cloths_of(colorway) if colorway else {}
    part = getattr(placed, "installment_part", None)
    context = {
        "form": form,
        "placed": placed,
        "picture": _picture(placed, cloths),
        "size_notes": _size_notes(program, placed),
        "methods": _methods(form, cloths),
        "installment": part.installment if part else None,
        "cut_lists": _cut_lists(program, placed),
    }
    return render(request, "designer/block.html", page(request, program, "blocks", **context))


@login_required
def quilt(request: HttpRequest, slug: str) -> HttpResponse:
    """Change the setting of the quilt."""
    program = get_program_for(request.user, slug, to_edit=True)
    letters = list(program.quilt.letters.all())
    typed = Quilt.objects.get(pk=program.quilt_id)
    form = QuiltForm(request.POST or None, instance=typed, letters=letters)
    is_sent = request.method == "POST" and form.is_valid()
    if is_sent and changed(request, program, form, target="quilt"):
        return redirect("quilt-change", slug=slug)
    work, _fault = work_or_fault(program)
    top = work.top if work else None
    context = {
        "form": form,
        "top": top,
        "coping": coping_widths(top) if top else (),
        "batting": _batting(program, top) if top else "",
        "bed": bed_under(top.width, top.height) if top else None,
        **_plates(program, work),
    }
    return render(request, "designer/quilt.html", page(request, program, "blocks", **context))


def _plates(program: Program, work: ProgramWork | None) -> dict[str, SafeString]:
    colorway = first_colorway(program)
    return quilt_plates(work, cloths_of(colorway), program.quilt) if work and colorway else {}


def _batting(program: Program, top: QuiltTop) -> str:
    """Name the smallest packaged batting that covers a top with its overage."""
    overage = program.quilt.backing_overage
    return packaged_batting(*batting(top.width, top.height, overage=overage))


def _placed(program: Program, pk: int) -> PlacedBlock:
    found = program.quilt.placed_blocks.select_related(
        "block", "quilt__program", "installment_part__installment"
    )
    placed = found.filter(pk=pk).first()
    if placed is None:
        raise Http404
    return placed


def _units(program: Program, placed: PlacedBlock) -> tuple[UnitChoice, ...]:
    work, _fault = work_or_fault(program)
    try:
        return unit_choices(placed_drawing(placed), work.style) if work else ()
    except ProgramError:
        return ()


def _cut_lists(program: Program, placed: PlacedBlock) -> list[tuple[str, str]]:
    work, _fault = work_or_fault(program)
    return block_keys(work, placed.pk) if work else []


def _picture(placed: PlacedBlock, cloths: Cloths) -> SafeString | str:
    try:
        drawing = placed_drawing(placed)
    except ProgramError:
        return ""
    size = (drawing.width, drawing.height)
    return block_svg(drawing.cloth, size, cloths=cloths, width_px=PLATE, name=placed.block.name)


def _size_notes(program: Program, placed: PlacedBlock) -> tuple[str, ...]:
    try:
        drawing = block_from_data(placed.block.drawing)
    except DrawingError:
        return ()
    drawn = drawing.at_size(placed.size, placed.size)
    return size_notes(drawing, drawn, step=program.cutting_step, units=units_of(program))


def _methods(form: BlockForm, cloths: Cloths) -> list[dict[str, object]]:
    return [
        {
            "field": field,
            "choice": choice,
            "name": unit_name(choice.unit.kind, choice.unit.fabrics),
            "picture": unit_picture(choice, cloths),
        }
        for choice, field in form.method_fields
    ]
