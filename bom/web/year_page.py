"""The context of the year: the sentence, gates, monthly table, hours, what comes next, stops and advice."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.places import country_of
from bom.enums import GateName, InstallmentState, ProgramState
from bom.web.year_pictures import year_pictures
from bom.web.year_rows import PlanCell, YearRow, proof_words, work_or_fault, year_rows
from bom.web.year_sentence import sentence
from patterns.domain.pictures import bars_svg
from patterns.domain.wording import fractions_html, hours_text
from patterns.engine.drawing_counts import Bar
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date, datetime

    from django.utils.safestring import SafeString

    from bom.models import Gate, Program

HOURS_PX = 1120
FULL = Fraction(3, 2)  # a month that takes so many times the mean is called full
MOST_TASKS = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One line of what is next: by when, of which installment, what."""

    day: date
    row: YearRow
    words: str
    is_late: bool


def year_page(program: Program, *, now: datetime) -> dict[str, Any]:
    """Gather what the page shows, every date in the program's own zone."""
    today = now.astimezone(ZoneInfo(program.zone)).date()
    work, fault = work_or_fault(program)
    rows = year_rows(program, work, now=now, today=today)
    pictures = year_pictures(program, work)
    coming = next((row for row in rows if not row.is_out), None)
    return {
        "today": today,
        "country": country_of(program.zone),
        "fault": fault,
        "rows": rows,
        "columns": [_column(row, pictures, coming) for row in rows],
        "lines": _lines(rows, coming),
        "sentence": sentence(program, rows, today=today),
        "gates": gates(program),
        "has_days": any(row.installment.wall_day for row in rows),
        **_hours(rows),
        "tasks": _tasks(rows, today)[:MOST_TASKS],
        "stops": [row for row in rows if row.proof and row.proof.stops],
        "looks": [row for row in rows if row.proof and row.proof.looks and not row.proof.stops],
        "advice": _advice(program, rows),
    }


def gates(program: Program) -> list[dict[str, str]]:
    """Write the program's gates out, the next one marked."""
    passed: dict[str, Gate] = {gate.name: gate for gate in program.gates.all()}
    left = [name for name in GateName if name not in passed]
    rows = []
    for name in GateName:
        gate = passed.get(name)
        words = f"{_date(gate.passed_on)}{', ' if gate.note else ''}{gate.note}" if gate else _("not yet")
        state = "done" if gate else "next" if left[:1] == [name] else ""
        rows.append({"title": str(name.label).capitalize(), "words": words, "state": state})
    return rows


def _date(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _column(row: YearRow, pictures: dict[int, list[SafeString]], coming: YearRow | None) -> dict[str, Any]:
    is_now = row.late is not None
    return {
        "row": row,
        "pictures": pictures.get(row.installment.number, []),
        "proof": proof_words(row),
        "is_now": is_now,
        "is_next": coming is not None and row is coming,
        "hours": hours_words(row),
    }


def hours_words(row: YearRow) -> SafeString | str:
    """Say how long a month takes."""
    quick, unhurried = row.hours
    if not unhurried:
        return _("no sewing")
    if quick == unhurried:
        return fractions_html(hours_text(unhurried))
    return fractions_html(
        _("{quick} to {unhurried}").format(quick=write_inches(quick), unhurried=hours_text(unhurried))
    )


def _lines(rows: list[YearRow], coming: YearRow | None) -> list[dict[str, Any]]:
    """Turn the plan over: one line for each thing, one cell for each installment."""
    names = {
        "words": _("Words"),
        "edit": _("Edit"),
        "approve": _("Approve"),
        "cutting": _("Cutting day"),
        "post": _("Post"),
        "release": _("Release"),
    }
    cells = {key: [(row, _cell(row, key)) for row in rows] for key in names}
    return [{"key": key, "title": names[key], "cells": cells[key], "next": coming} for key in names]


def _cell(row: YearRow, key: str) -> PlanCell:
    return next(cell for cell in row.cells if cell.key == key)


def _hours(rows: list[YearRow]) -> dict[str, Any]:
    sewn = [row for row in rows if row.hours[1]]
    if not sewn:
        return {}
    mean = sum((row.hours[1] for row in sewn), Fraction(0)) / len(sewn)
    bars = [
        Bar(
            label=str(row.installment.number),
            parts=(row.hours[0], row.hours[1] - row.hours[0]) if row.hours[1] else (),
            words=write_inches(row.hours[1]) if row.hours[1] else _("rest"),
        )
        for row in rows
    ]
    drawn = bars_svg(bars, width_px=HOURS_PX, name=_("Hours of sewing by installment"))
    quarters = Fraction(-(-mean * 4 // 1), 4)
    return {"hours_picture": drawn, "mean": fractions_html(hours_text(quarters)), "sewing_months": len(sewn)}


def _tasks(rows: list[YearRow], today: date) -> list[Task]:
    tasks = [task for row in rows if not row.is_out for task in _row_tasks(row, today)]
    return sorted(tasks, key=lambda task: (task.day, task.row.installment.number))


def _row_tasks(row: YearRow, today: date) -> Iterator[Task]:
    words = {
        "words": _("Write the story and the tips"),
        "edit": _("Technical edit"),
        "approve": _("Read it through and approve"),
        "cutting": _("Shops cut their packets"),
        "post": _("Shops post their packets"),
        "release": _release_words(row),
    }
    for cell in row.cells:
        if cell.day and cell.state != "done":
            note = _blocked(row) if cell.key in {"edit", "approve"} else ""
            yield Task(day=cell.day, row=row, words=f"{words[cell.key]}{note}", is_late=cell.day < today)


def _blocked(row: YearRow) -> str:
    if row.proof and row.proof.stops:
        return _("; take the stop of the proof away first")
    if row.proof and row.proof.looks:
        return _("; {count} to look at").format(count=row.proof.looks)
    return ""


def _release_words(row: YearRow) -> str:
    state = row.installment.state
    if state == InstallmentState.SCHEDULED:
        return _("Nothing. It opens at {time} by itself").format(time=f"{row.installment.wall_time:%H:%M}")
    if state == InstallmentState.APPROVED:
        return _("Schedule it, so that it opens by itself")
    return _("It opens only once it is approved and scheduled")


def _advice(program: Program, rows: list[YearRow]) -> list[dict[str, Any]]:
    """Name the full months, the months without a block, and what moving a block would change."""
    sewn = [row for row in rows if row.hours[1]]
    if not sewn:
        return []
    mean = sum((row.hours[1] for row in sewn), Fraction(0)) / len(sewn)
    full = [row for row in sewn if row.hours[1] >= FULL * mean and not row.is_out]
    light = [row for row in rows if not row.hours[1] and not row.is_out]
    return [_full(program, row, light) for row in full[:2]]


def _full(program: Program, row: YearRow, light: list[YearRow]) -> dict[str, Any]:
    words = [
        _("{title} takes {hours}.").format(title=row.installment.title, hours=hours_text(row.hours[1])),
    ]
    if light:
        names = ", ".join(each.installment.title for each in light)
        words.append(
            ngettext("{names} has no block.", "{names} have no block.", len(light)).format(names=names)
        )
    if program.state in {ProgramState.OPEN, ProgramState.RUNNING}:
        words.append(
            _("Sign-ups are open: moving a block would change the packets and prices of two months.")
        )
    elif not program.is_frozen:
        words.append(_("Before the fabric freeze a block can still move to another month."))
    return {"title": _("A full month"), "words": fractions_html(" ".join(words)), "row": row}
