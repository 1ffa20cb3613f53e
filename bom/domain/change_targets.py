"""What of a program can be changed by a form: how each is read as plain data, and written again."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal
from typing import TYPE_CHECKING, Any, Protocol

from django.utils.translation import gettext as _

from bom.domain.lengths import units_of
from bom.domain.planning import back_to_rule, move_installment, schedule_by_rule
from bom.domain.unit_methods import methods_of
from bom.errors import ProgramError
from patterns.domain.wording import day_text, length_text
from patterns.engine.measure import inches, write_inches
from patterns.models import (
    QUILT_BLOCKS,
    QUILT_BORDERS,
    QUILT_CHOICES,
    QUILT_LETTERS,
    ColorwayFabric,
    Fabric,
)

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment, Program
    from patterns.models import PlacedBlock, User

Values = dict[str, Any]
BORDER_WIDTHS = tuple(f"{border}_width" for border in QUILT_BORDERS)
QUILT_LENGTHS = ("block_size", "sashing_width", *BORDER_WIDTHS, "binding_strip", "backing_overage")
QUILT_AS_KEPT = (
    *QUILT_LETTERS,
    *QUILT_CHOICES,
    *(f"{name}_id" for name in QUILT_BLOCKS),
    "rows",
    "columns",
    "sashing_outside",
)

ALLOWANCE_LENGTHS = ("squaring_up", "cutting_tolerance", "binding_tail", "sold_by")
PLAIN_ALLOWANCES = ("spare_strip", "prewash", "shrinkage_percent", "precuts")


class Write(Protocol):
    """Write the values of a target."""

    def __call__(self, program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:
        """Write, or raise ProgramError."""


class Read(Protocol):
    """Read the values of a target."""

    def __call__(self, program: Program, key: str) -> Values:
        """Read as plain data."""


class Tell(Protocol):
    """Say what is now so."""

    def __call__(self, program: Program, key: str) -> list[str]:
        """Give sentences."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The three things that can be done with a target."""

    read: Read
    write: Write
    told: Tell


def _placed(program: Program, key: str) -> PlacedBlock:
    return program.quilt.placed_blocks.select_related("block", "quilt").get(pk=int(key))


def _read_block(program: Program, key: str) -> Values:
    placed = _placed(program, key)
    return {
        "own_size": None if placed.own_size is None else write_inches(placed.own_size),
        "frame_letter": placed.frame_letter,
        "turn": placed.turn,
        "letters": placed.letters,
        "methods": placed.methods,
    }


def _write_block(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    placed = _placed(program, key)
    own = inches(values["own_size"]) if values["own_size"] else None
    placed.own_size = None if own == placed.quilt.block_size else own
    placed.frame_letter, placed.turn = values["frame_letter"], values["turn"]
    placed.letters = values["letters"]
    placed.methods = methods_of(placed, values["chosen"]) if "chosen" in values else values["methods"]
    placed.save()


def _told_block(program: Program, key: str) -> list[str]:
    placed = _placed(program, key)
    words = _("{block} is now {size} finished.")
    return [words.format(block=placed.block.name, size=length_text(placed.size, units_of(program)))]


def _read_quilt(program: Program, key: str) -> Values:  # noqa: ARG001 -- the way every target is read
    program.quilt.refresh_from_db()
    lengths = {name: write_inches(getattr(program.quilt, name)) for name in QUILT_LENGTHS}
    return {**lengths, **{name: getattr(program.quilt, name) for name in QUILT_AS_KEPT}}


def _write_quilt(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    for name, value in values.items():
        setattr(program.quilt, name, inches(value) if name in QUILT_LENGTHS else value)
    program.quilt.save()


def _read_colorway(program: Program, key: str) -> Values:
    rows = ColorwayFabric.objects.filter(colorway__quilt=program.quilt, colorway__slug=key)
    return {row.letter.letter: row.fabric_id for row in rows.select_related("letter")}


def _write_colorway(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    known = set(Fabric.objects.filter(collection__owner=program.designer).values_list("pk", flat=True))
    for row in ColorwayFabric.objects.filter(
        colorway__quilt=program.quilt, colorway__slug=key
    ).select_related("letter"):
        chosen = values[row.letter.letter]
        if chosen not in known:
            raise ProgramError("fabrics", _("Choose one of your own fabrics."))
        if chosen != row.fabric_id:
            row.fabric_id = chosen
            row.save(update_fields=("fabric",))


def _installment(program: Program, key: str) -> Installment:
    return program.installments.select_related("program").get(number=int(key))


def _read_day(program: Program, key: str) -> Values:
    installment = _installment(program, key)
    return {
        "day": str(installment.wall_day or ""),
        "time": str(installment.wall_time or ""),
        "fold": installment.fold,
        "by_exception": installment.by_exception,
    }


def _write_day(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:
    installment = _installment(program, key)
    if not values["by_exception"]:
        back_to_rule(installment, by=by, now=now)
        return
    move_installment(
        installment,
        day=date.fromisoformat(values["day"]),
        time=time.fromisoformat(values["time"]),
        fold=values["fold"],
        by=by,
        now=now,
    )


def _told_day(program: Program, key: str) -> list[str]:
    installment = _installment(program, key)
    if installment.wall_day is None or installment.wall_time is None:
        return []
    words = _("{title} opens on {day} at {time}.").format(
        title=installment.title,
        day=day_text(installment.wall_day, year=True),
        time=f"{installment.wall_time:%H:%M}",
    )
    return [words, *_told_before(installment)]


def _told_before(installment: Installment) -> list[str]:
    """Say by when the month before is to be shown: the day that moved."""
    before = installment.program.installments.filter(number=installment.number - 1).first()
    if before is None or before.due_day is None:
        return []
    words = _("{title} is now to be shown by {day}.")
    return [words.format(title=before.title, day=day_text(before.due_day, year=True))]


def _read_calendar(program: Program, key: str) -> Values:  # noqa: ARG001 -- the way every target is read
    program.refresh_from_db(fields=("rule", "first_day", "release_time"))
    return {
        "rule": program.rule,
        "first_day": str(program.first_day),
        "release_time": f"{program.release_time:%H:%M}",
    }


def _write_calendar(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    program.rule = values["rule"]
    program.first_day = date.fromisoformat(values["first_day"])
    program.release_time = time.fromisoformat(values["release_time"])
    program.save(update_fields=("rule", "first_day", "release_time"))
    schedule_by_rule(program, by=by, now=now)


def _told_calendar(program: Program, key: str) -> list[str]:  # noqa: ARG001 -- the way every target is told
    days = [each.wall_day for each in program.installments.order_by("number") if each.wall_day]
    if not days:
        return []
    words = _("The year runs from {first} to {last}.")
    return [words.format(first=day_text(days[0], year=True), last=day_text(days[-1], year=True))]


def _read_allowances(program: Program, key: str) -> Values:  # noqa: ARG001 -- the way every target is read
    program.refresh_from_db(fields=(*ALLOWANCE_LENGTHS, *PLAIN_ALLOWANCES))
    lengths = {name: write_inches(getattr(program, name)) for name in ALLOWANCE_LENGTHS}
    return {
        **lengths,
        "spare_strip": program.spare_strip,
        "prewash": program.prewash,
        "shrinkage_percent": str(program.shrinkage_percent),
        "precuts": list(program.precuts),
    }


def _write_allowances(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    for name in ALLOWANCE_LENGTHS:
        setattr(program, name, inches(values[name]))
    program.spare_strip, program.prewash = values["spare_strip"], values["prewash"]
    program.shrinkage_percent = Decimal(values["shrinkage_percent"])
    program.precuts = values.get("precuts", program.precuts)
    program.save(update_fields=(*ALLOWANCE_LENGTHS, *PLAIN_ALLOWANCES))


def _read_carried(program: Program, key: str) -> Values:
    return dict(_installment(program, key).carried)


def _write_carried(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    installment = _installment(program, key)
    installment.carried = values
    installment.save(update_fields=("carried",))


def _told_carried(program: Program, key: str) -> list[str]:
    installment = _installment(program, key)
    words = _("Letter {letter} of {title} is cut from packet {number} and kept.")
    return [
        words.format(letter=letter, title=installment.title, number=number)
        for letter, number in sorted(installment.carried.items())
    ]


def _nothing(program: Program, key: str) -> list[str]:  # noqa: ARG001 -- the way every target is told
    return []


TARGETS: dict[str, Target] = {
    "block": Target(read=_read_block, write=_write_block, told=_told_block),
    "allowances": Target(read=_read_allowances, write=_write_allowances, told=_nothing),
    "quilt": Target(read=_read_quilt, write=_write_quilt, told=_nothing),
    "colorway": Target(read=_read_colorway, write=_write_colorway, told=_nothing),
    "carried": Target(read=_read_carried, write=_write_carried, told=_told_carried),
    "day": Target(read=_read_day, write=_write_day, told=_told_day),
    "calendar": Target(read=_read_calendar, write=_write_calendar, told=_told_calendar),
}
