"""The sentence that matters today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.humanize.templatetags.humanize import apnumber
from django.utils.html import conditional_escape, format_html
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.enums import InstallmentState
from patterns.domain.wording import day_text

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from django.utils.safestring import SafeString

    from bom.models import Program
    from bom.web.year_rows import YearRow

FAR = 60  # days


def sentence(program: Program, rows: list[YearRow], *, today: date) -> SafeString:
    """Say in one to three sentences what is out, what opens next, and what is late."""
    if not rows:
        return conditional_escape(_("This program has no installments yet."))
    if not any(row.installment.wall_day for row in rows):
        return conditional_escape(_("The year has no days yet. Give it its days by a rule."))
    parts = [*_out(rows), *_next(rows, today), *_late(rows, today), *_freeze(program)]
    return mark_safe(" ".join(parts))  # noqa: S308 -- every part is escaped


def _out(rows: list[YearRow]) -> Iterator[SafeString]:
    out = sum(row.is_out for row in rows)
    if out == len(rows):
        yield conditional_escape(_("All installments are out."))
        return
    words = ngettext("{count} installment is out.", "{count} installments are out.", out)
    count = str(apnumber(out)).capitalize() if out else _("No")
    if not out:
        words = _("{count} installment is out yet.")
    yield conditional_escape(words.format(count=count))


def _next(rows: list[YearRow], today: date) -> Iterator[SafeString]:
    row = next((row for row in rows if not row.is_out), None)
    if row is None or row.installment.wall_day is None:
        return
    words = {
        InstallmentState.DRAFT: _("{title} should open {when} and is still a draft."),
        InstallmentState.EDITED: _("{title} should open {when} and is edited."),
        InstallmentState.APPROVED: _("{title} should open {when} and is approved."),
        InstallmentState.SCHEDULED: _("{title} opens {when} and is scheduled."),
    }
    state = InstallmentState(row.installment.state)
    title = format_html("<b>{}</b>", row.installment.title)
    when = _when(row.installment.wall_day, today)
    yield format_html(words.get(state, "{title}"), title=title, when=when)


def _when(day: date, today: date) -> str:
    """Say how soon a day is, or which day it is where that is far off."""
    days = (day - today).days
    if days > FAR:
        return _("on {day}").format(day=day_text(day, year=True))
    return ngettext("in {days} day", "in {days} days", days).format(days=days) if days > 0 else _("today")


def _late(rows: list[YearRow], today: date) -> Iterator[SafeString]:
    """Name the installment that is behind by the most, and say how many more are."""
    late = [row for row in rows if row.late and not row.is_out]
    if not late:
        return
    names = {"words": _("its words were"), "edit": _("its edit was"), "approve": _("its approval was")}
    row = min(late, key=lambda each: (each.late.day, each.installment.number))  # type: ignore[union-attr]  # late ones only
    cell = row.late
    if cell is None or cell.day is None:
        return
    days = (today - cell.day).days
    lead = ngettext("{title} is {days} day behind:", "{title} is {days} days behind:", days)
    lead = lead.format(title=row.installment.title, days=days)
    words = _("{what} due on {day}.").format(what=names.get(cell.key, cell.key), day=day_text(cell.day))
    yield format_html('<b class="rub">{}</b> {}', lead, words)
    if len(late) > 1:
        others = len(late) - 1
        yield conditional_escape(
            ngettext("{count} more is late.", "{count} more are late.", others).format(
                count=str(apnumber(others)).capitalize()
            )
        )


def _freeze(program: Program) -> Iterator[SafeString]:
    if not program.is_frozen:
        yield conditional_escape(_("The fabric is not frozen yet: drawings and sizes may still change."))
