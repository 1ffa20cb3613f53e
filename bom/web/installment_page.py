"""The context of one installment's page: every number from the chain."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.urls import reverse
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from bom.domain.audit import subject_of
from bom.domain.care_words import care_html, hours_html
from bom.domain.carrying import may_carry
from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.corrections import changes_to_come
from bom.domain.edition_words import change_rows, names_of
from bom.domain.keeping import Kept, hash_of
from bom.domain.lengths import units_of
from bom.domain.packets import packet
from bom.domain.records import read_colorways
from bom.domain.sheets.carried import month_cut_rows
from bom.domain.sheets.finishing import finishing_rows
from bom.domain.sheets.steps import PartRows, part_rows
from bom.domain.sheets.variants import Variant
from bom.domain.times import time_of
from bom.enums import InstallmentState, Paper, PrintSize, UnitsChoice
from bom.errors import ProgramError
from bom.models import AuditEntry
from bom.web.installment_parts import plates, unit_rows
from bom.web.packet_rows import packet_rows, plan_rows
from bom.web.year_rows import is_open, is_past, proofs_of
from patterns.domain.wording import say

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from bom.domain.proofs import Check, InstallmentProof
    from bom.domain.work import InstallmentWork, ProgramWork
    from bom.models import Installment
    from patterns.models import Colorway

MOVED = "said why the day moved"
_kept: Kept[list[PartRows]] = Kept(most=48)


def installment_page(installment: Installment, *, colorway: str, now: datetime) -> dict[str, Any]:
    """Gather what the page shows, in the colorway asked for or the first."""
    program = installment.program
    colorways = read_colorways(program)
    chosen = next((each for each in colorways if each.slug == colorway), None) or next(iter(colorways), None)
    editions = list(installment.editions.select_related("made_by").order_by("-number"))
    proof = proofs_of(program).get(installment.number)
    is_out = is_open(installment, now=now)
    context: dict[str, Any] = {
        "installment": installment,
        "colorways": colorways,
        "chosen": chosen,
        "thumbs": thumbs(installment),
        "states": states(installment, is_out=is_out),
        "is_out": is_out,
        "proof": proof,
        "checks": check_rows(proof),
        "editions": editions,
        "reason": reason_of(installment),
        "problems": list(installment.problems.select_related("reporter", "edition")[:8]),
    }
    return context | _numbers(installment, chosen, colorways)


def _numbers(
    installment: Installment, chosen: Colorway | None, colorways: Sequence[Colorway]
) -> dict[str, Any]:
    """Gather what the chain says; only the fault where it cannot say it."""
    if chosen is None:
        return {"fault": _("There is no colorway yet. The program file brings them.")}
    try:
        work = work_of(installment.program)
        coming = changes_to_come(installment)
        return {
            **_sewing(installment, work, chosen),
            "packets": packet_rows(installment.program, work, colorways, number=installment.number),
            "coming": change_rows(coming, colorways=names_of(colorways), units=units_of(installment.program)),
            "variants": _variants(installment, chosen),
        }
    except ProgramError as error:
        return {"fault": error.remedy}


def _sewing(installment: Installment, work: ProgramWork, chosen: Colorway) -> dict[str, Any]:
    mine, cloths, variant = (
        work.installment(installment.number),
        cloths_of(chosen),
        _variant(installment, chosen),
    )
    fabric = packet(installment.program, work, chosen, mine.number)
    sewn = _steps(mine, work.content_hash, variant)
    return {
        "mine": mine,
        "time": hours_html(mine),
        "care": care_html(mine, variant.measures),
        "assumed": say(time_of(mine).assumed),
        "of": len(work.installments),
        "plates": plates(mine.parts, cloths, variant.measures),
        "units": unit_rows(mine.parts, cloths, work.style, units=variant.measures),
        "cuts": month_cut_rows(mine, cloths, variant),
        "carried": sorted(mine.carried.items()),
        "may_carry": mine.number > 1 and bool(may_carry(mine)),
        "plans": plan_rows(fabric, cloths, installment.program),
        "parts": sewn,
        "finishing": finishing_rows(mine.parts, variant),
    }


def _steps(mine: InstallmentWork, numbers: str, variant: Variant) -> list[PartRows]:
    """Set the steps with their drawings, kept by all that they were made from."""
    cloths = cloths_of(variant.colorway)
    names = [part.title for part in mine.parts]
    key = hash_of(
        [numbers, mine.number, names, sorted(map(str, cloths.values())), variant.units, get_language()]
    )
    return _kept.get(key, lambda: part_rows(mine.parts, cloths, variant))


def _variant(installment: Installment, chosen: Colorway) -> Variant:
    """Give the form in which the page shows sizes: in the units that the program is made in."""
    is_metric = installment.program.centimetres
    return Variant(colorway=chosen, units=UnitsChoice.CENTIMETRES if is_metric else UnitsChoice.INCHES)


def thumbs(installment: Installment) -> list[dict[str, Any]]:
    """Give the thumb index of the program's installments."""
    slug = installment.program.slug
    found = installment.program.installments.order_by("number").values_list("number", "title")
    return [
        {
            "number": number,
            "title": title,
            "url": reverse("installment", args=(slug, number)),
            "current": number == installment.number,
        }
        for number, title in found
    ]


def check_rows(proof: InstallmentProof | None) -> list[dict[str, Any]]:
    """Word the checks of a proof: stops first, then what to look at."""
    if proof is None:
        return []
    order = {"stop": 0, "look": 1, "passed": 2}
    checks = sorted(proof.checks, key=lambda each: order[each.result.value])
    return [{"check": each, "title": _check_title(each), "result": each.result.value} for each in checks]


def _check_title(check: Check) -> str:
    """Name a check, unless its fact begins with the name."""
    title = _(check.name).capitalize()
    return "" if check.fact.text.startswith(check.name.capitalize()) else f"{title}."


def states(installment: Installment, *, is_out: bool) -> list[dict[str, str]]:
    """Write the five states out: when and by whom each was reached, the next one marked."""
    subject = subject_of(installment)
    done = {
        entry.verb: entry
        for entry in AuditEntry.objects.filter(subject=subject).select_related("actor").order_by("at", "pk")
    }
    rows, before = [], True
    for each in InstallmentState:
        reached = is_past(installment, each) or (is_out and each == InstallmentState.RELEASED)
        entry = done.get(each.value) if reached else None
        rows.append(
            {
                "title": str(each.label).capitalize(),
                "words": _state_words(installment, each, entry) if reached or before else "",
                "state": "done" if reached else "next" if before else "",
            }
        )
        before = reached
    return rows


def _state_words(installment: Installment, each: InstallmentState, entry: AuditEntry | None) -> str:
    if entry:
        by = f", {entry.actor}" if entry.actor else ""
        return f"{entry.at.day} {entry.at:%b}{by}"
    if each == InstallmentState.DRAFT:
        return _("words kept") if installment.story else _("no words yet")
    if each == InstallmentState.RELEASED and installment.wall_day:
        return f"{installment.wall_day.day} {installment.wall_day:%b}"
    return ""


def reason_of(installment: Installment) -> str:
    """Say why the day was moved by hand, where it was."""
    if not installment.by_exception:
        return ""
    said = AuditEntry.objects.filter(subject=subject_of(installment), verb=MOVED).first()
    return str(said.facts.get("reason", "")) if said else ""


def _variants(installment: Installment, chosen: Colorway) -> list[dict[str, str]]:
    """Give the forms in which the sheet can be set."""
    address = reverse("installment-sheet", args=(installment.program.slug, installment.number))
    own, other = UnitsChoice.INCHES, (UnitsChoice.CENTIMETRES, _("A4 in centimetres"))
    papers = [(Paper.LETTER, _("Letter")), (Paper.A4, _("A4"))]
    if installment.program.centimetres:
        own, other = UnitsChoice.CENTIMETRES, (UnitsChoice.INCHES, _("A4 in inches"))
        papers.reverse()
    forms = [
        *((paper, own, PrintSize.USUAL, words) for paper, words in papers),
        (Paper.A4, other[0], PrintSize.USUAL, other[1]),
        (papers[0][0], own, PrintSize.LARGE, _("large print")),
    ]
    return [
        {
            "url": f"{address}?colorway={chosen.slug}&paper={paper}&units={units}&print_size={size}",
            "words": words,
        }
        for paper, units, size, words in forms
    ]
