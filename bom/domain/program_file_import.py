"""Import of a program file: all of it in one transaction, or nothing."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record, subject_of
from bom.domain.planning import rule_days, wall_instant
from bom.domain.program_file_cloth import checked, read_blocks, read_fabrics
from bom.domain.program_file_quilt import read_colorways, read_place, read_quilt
from bom.domain.program_file_reading import Entry
from bom.domain.wall_times import zone_named
from bom.enums import PartKind
from bom.errors import BadProgramFile, ProgramError
from bom.models import Installment, InstallmentPart, Program
from patterns.engine.precut_sizes import PRECUTS
from patterns.enums import HouseStyleChoice, UnnestedChoice

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date, datetime, time

    from patterns.models import PlacedBlock, User

    Placed = dict[tuple[int, int], PlacedBlock]

FORMAT = 1
MOST_FOLD = 1
PRICE = re.compile(r"[0-9]{1,7}(\.[0-9]{1,2})?")
MOST_TENTHS = 500  # of a per cent
SETTINGS = {
    "seam": "1/4",
    "cutting_step": "1/8",
    "half_square_over": "1/8",
    "quarter_square_over": "1/4",
    "squaring_up": "1",
    "cutting_tolerance": "1/2",
    "binding_tail": "10",
    "sold_by": "4 1/2",
}
ABOVE_NOTHING = ("seam", "cutting_step", "sold_by")
WORDS = {"slug": 60, "title": 120, "language": 8, "zone": 60}


@transaction.atomic
def import_program(data: Mapping[str, Any], *, designer: User, now: datetime) -> Program:
    """Make a program, in draft, from a program file; the designer owns all that is made.

    BadProgramFile names the path of the first entry that cannot be used, and the remedy; then nothing
    at all has been written.
    """
    file = Entry(data)
    file.whole("format", least=FORMAT, most=FORMAT)
    program = _program(file, designer)
    blocks = read_blocks(file, designer=designer)
    fabrics = read_fabrics(file, designer=designer)
    program.quilt, placed = read_quilt(file, designer=designer, blocks=blocks)
    read_colorways(file, program.quilt, fabrics)
    rows = file.entries("installments")
    file.done()
    days = _days(file, program, count=len(rows))
    program.save()
    _installments(rows, program, placed=placed, days=days)
    facts = {"installments": len(rows), "format": FORMAT}
    record("imported", actor=designer, subject=subject_of(program), facts=facts, now=now)
    return Program.objects.select_related("quilt", "designer").get(pk=program.pk)


def with_first_day(data: Mapping[str, Any], first_day: date) -> dict[str, Any]:
    """Give a copy of a program file whose year begins at another day; moved days keep their distance.

    Days by rule are left out, so that the import takes them from the rule.  BadProgramFile as on import.
    """
    file = Entry(data)
    calendar, rows = file.entry("calendar"), file.entries("installments")
    rule = calendar.text("rule")
    before, after = (
        _rule_days(rule, first_day=day, count=len(rows)) for day in (calendar.day("first_day"), first_day)
    )
    moved = []
    for row, old, new in zip(rows, before, after, strict=True):
        day = new + (row.day("day") - old) if row.has("day") and row.flag("moved") else None
        moved.append({**_plain(row), "day": day.isoformat() if day else None})
    return {
        **data,
        "calendar": {**_plain(calendar), "first_day": first_day.isoformat()},
        "installments": moved,
    }


def _plain(entry: Entry) -> dict[str, Any]:
    return {name: entry.raw(name) for name in entry}


def _program(file: Entry, designer: User) -> Program:
    """Read what the program itself says; the quilt comes later."""
    settings, calendar = file.entry("settings"), file.entry("calendar")
    program = Program(
        designer=designer,
        lead=file.text("lead", blank=True),
        studio=file.text("studio", blank=True, most=120),
        invented=file.flag("invented"),
        **_suggested(file),
        centimetres=settings.flag("centimetres"),
        spare_strip=settings.flag("spare_strip"),
        prewash=settings.flag("prewash"),
        shrinkage_percent=_shrinkage(settings),
        precuts=_precuts(settings),
        house_style=settings.choice("house_style", HouseStyleChoice, default=HouseStyleChoice.OVERSIZED),
        unnested=settings.choice("unnested", UnnestedChoice, default=UnnestedChoice.CLASSES),
        rule=calendar.text("rule", most=200),
        first_day=calendar.day("first_day"),
        release_time=calendar.clock("release_time"),
        **{name: file.text(name, most=most) for name, most in WORDS.items()},
        **{name: settings.length(name, default=usual) for name, usual in SETTINGS.items()},
    )
    settings.done()
    calendar.done()
    for name in ABOVE_NOTHING:
        if not getattr(program, name):
            raise settings.bad(name, _("This length must be more than 0."))
    return _addressed(file, checked(program, file, "slug", "title", "language"))


def _precuts(settings: Entry) -> list[str]:
    """Read the names of the precuts that may be used."""
    names = settings.values("precuts")
    known = [precut.name for precut in PRECUTS]
    if any(name not in known for name in names):
        raise settings.bad("precuts", _("Write some of these: {known}."), known=", ".join(known))
    return [name for name in known if name in names]


def _suggested(file: Entry) -> dict[str, Any]:
    """Read the designer's price, where there is one."""
    if not file.has("suggested_monthly"):
        return {}
    text = file.text("suggested_monthly", most=12)
    if not PRICE.fullmatch(text):
        raise file.bad("suggested_monthly", _("Write an amount such as 15.00."))
    return {
        "suggested_monthly": Decimal(text),
        "suggested_currency": file.text("suggested_currency", most=3),
    }


def _shrinkage(settings: Entry) -> Decimal:
    """Read the per cent that washing takes, to a tenth."""
    tenths = settings.length("shrinkage_percent", default="5") * 10
    if tenths.denominator != 1 or tenths >= MOST_TENTHS:
        raise settings.bad("shrinkage_percent", _("Write a per cent below 50, to a tenth."))
    return Decimal(int(tenths)) / 10


def _addressed(file: Entry, program: Program) -> Program:
    """See that the address is free and the zone is one."""
    if Program.objects.filter(slug=program.slug).exists():
        raise file.bad(
            "slug", _("There is a program {slug} already. Choose another address."), slug=program.slug
        )
    try:
        zone_named(program.zone)
    except ProgramError as error:
        raise file.bad("zone", error.remedy) from error
    return program


def _days(file: Entry, program: Program, *, count: int) -> tuple[date, ...]:
    if not count:
        raise file.bad("installments", _("A program needs one installment at least."))
    return _rule_days(program.rule, first_day=program.first_day, count=count)


def _rule_days(rule: str, *, first_day: date, count: int) -> tuple[date, ...]:
    try:
        return rule_days(rule, first_day=first_day, count=count)
    except ProgramError as error:
        raise BadProgramFile("calendar.rule", error.remedy) from error


def _installments(rows: list[Entry], program: Program, *, placed: Placed, days: tuple[date, ...]) -> None:
    """Make the installments in order, with their days and parts."""
    made = [_installment(row, program, number=n) for n, row in enumerate(rows, start=1)]
    for row, installment, day in zip(rows, made, days, strict=True):
        _give_day(row, installment, day)
    for installment, follower in pairwise(made):
        installment.due_day = follower.wall_day
    Installment.objects.bulk_create(made)
    parts: list[InstallmentPart] = []
    for row, installment in zip(rows, made, strict=True):
        for position, value in enumerate(row.values("parts")):
            part = _part(row, f"parts[{position}]", value, placed=placed)
            part.installment, part.position = installment, position
            if any((part.kind, part.placed_block) == (each.kind, each.placed_block) for each in parts):
                raise row.bad(f"parts[{position}]", _("This part stands in two places. Keep one of them."))
            parts.append(part)
        row.done()
    InstallmentPart.objects.bulk_create(parts)


def _installment(row: Entry, program: Program, *, number: int) -> Installment:
    if row.whole("number") != number:
        raise row.bad(
            "number", _("Installments are numbered in order; here should be {number}."), number=number
        )
    return Installment(
        program=program,
        number=number,
        title=row.text("title", most=120),
        story=row.text("story", blank=True),
        tips=row.text("tips", blank=True),
        by_exception=row.flag("moved"),
        fold=row.whole("fold", most=MOST_FOLD, default=0),
        carried=_carried(row, number=number),
    )


def _carried(row: Entry, *, number: int) -> dict[str, int]:
    """Read which letters come from the packet of which earlier installment."""
    if not row.has("carried"):
        return {}
    read = row.entry("carried")
    if number == 1 and list(read):
        raise row.bad("carried", _("The first installment has none before it that could hold fabric."))
    return {letter: read.whole(letter, least=1, most=number - 1) for letter in read}


def _give_day(row: Entry, installment: Installment, by_rule: date) -> None:
    """Take the day and time of the file, or those of the rule where it gives none."""
    at: time | None = row.clock("time") if row.has("time") else None
    installment.wall_day = row.day("day") if row.has("day") else by_rule
    installment.wall_time = at or installment.program.release_time
    instant = wall_instant(installment)
    installment.release_at = instant.utc if instant else None


def _part(row: Entry, key: str, value: object, *, placed: Placed) -> InstallmentPart:
    """Read a place, [row, column], or a part of the whole quilt by its name."""
    if isinstance(value, list):
        place = read_place(value, row, key)
        if place not in placed:
            raise row.bad(
                key, _("No block lies in {place}. Choose a place of quilt.placed."), place=list(place)
            )
        return InstallmentPart(kind=PartKind.BLOCK, placed_block=placed[place])
    kinds = {str(kind.value): kind for kind in PartKind if kind != PartKind.BLOCK}
    if not isinstance(value, str) or value not in kinds:
        known = ", ".join(kinds)
        raise row.bad(
            key, _("Write the place of a block, [row, column], or one of these: {known}."), known=known
        )
    return InstallmentPart(kind=kinds[value])
