"""Precuts beside yardage: which of those a program allows give a cut list, and how much cloth each takes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bom.domain.packets import allowances_of, packets
from patterns.domain.wording import length_text
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import EIGHTH, up_to_step
from patterns.engine.precut_sizes import PRECUTS
from patterns.engine.precuts import PrecutPlan, fewest_precuts

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from bom.domain.packets import FabricLine, Packet
    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.engine.measure import Units
    from patterns.engine.precut_sizes import Precut
    from patterns.engine.strips import Demand
    from patterns.models import Colorway

LABELS = {
    "fat quarter 18 x 22": gettext_lazy("Fat quarters, 18 x 22 in"),
    "fat quarter 18 x 21": gettext_lazy("Fat quarters, 18 x 21 in"),
    "fat quarter 20 x 22": gettext_lazy("Fat quarters, 20 x 22 in"),
    "fat quarter 50 x 55 cm": gettext_lazy("Fat quarters, 50 x 55 cm"),
    "fat quarter 50 x 50 cm": gettext_lazy("Fat quarters, 50 x 50 cm"),
    "fat eighth 9 x 22": gettext_lazy("Fat eighths, 9 x 22 in"),
    "fat eighth 18 x 11": gettext_lazy("Fat eighths, 18 x 11 in"),
    "5 in square": gettext_lazy("Squares, 5 in"),
    "10 in square": gettext_lazy("Squares, 10 in"),
    "2 1/2 in strip": gettext_lazy("Strips, 2 1/2 in wide"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PrecutChoice:
    """One kind of precut for a list: its plan, and the length of fabric so wide that is as much cloth."""

    plan: PrecutPlan
    as_length: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class LineChoices:
    """A fabric of a packet and the precuts that give it, the least cloth first; none where none fits."""

    number: int
    line: FabricLine
    choices: tuple[PrecutChoice, ...]

    @property
    def saves(self) -> bool:
        """Whether the best precut takes less cloth than the length in the packet."""
        return bool(self.choices) and self.choices[0].as_length < self.line.line.suggested


def precut_choices(
    program: Program, demands: tuple[Demand, ...], *, nominal_width: Fraction
) -> tuple[PrecutChoice, ...]:
    """Plan a list on every kind of precut that the program allows, the least cloth first.

    Kinds that a piece does not fit are left out; where fabric is washed first, precuts are too.
    """
    shrinkage = allowances_of(program).shrinkage
    allowed = (precut.washed(shrinkage) for precut in PRECUTS if precut.name in program.precuts)
    plans = [plan for precut in allowed if demands and (plan := _planned(demands, precut))]
    choices = (
        PrecutChoice(plan=plan, as_length=plan.count * plan.precut.area / nominal_width) for plan in plans
    )
    return tuple(sorted(choices, key=lambda choice: choice.as_length))


def year_choices(program: Program, work: ProgramWork, colorway: Colorway) -> tuple[LineChoices, ...]:
    """Give the precuts of every fabric of every packet that is cut into pieces; ProgramError as `packet`."""
    return tuple(
        found for packet in packets(program, work, colorway) for found in _of_packet(program, packet)
    )


def precut_text(plan: PrecutPlan) -> str:
    """Say what is bought: "2 fat quarters, 18 x 22 in"."""
    size = str(LABELS[plan.precut.name]).partition(", ")[2]
    return f"{_counted(plan)}, {size}"


def cloth_text(choice: PrecutChoice, units: Units) -> str:
    """Say how much cloth that is, as a length of the fabric, and whether fewer would do."""
    length = length_text(up_to_step(choice.as_length, EIGHTH), units)
    if choice.plan.proven:
        return _("as much cloth as {length}; fewer are not possible").format(length=length)
    words = ngettext(
        "as much cloth as {length}; at least {least} is needed",
        "as much cloth as {length}; at least {least} are needed",
        choice.plan.lower_bound,
    )
    return words.format(length=length, least=choice.plan.lower_bound)


def _of_packet(program: Program, packet: Packet) -> Iterator[LineChoices]:
    for line in packet.lines:
        if line.demands:
            width = line.fabric.nominal_width
            choices = precut_choices(program, line.demands, nominal_width=width)
            yield LineChoices(number=packet.number, line=line, choices=choices)


@lru_cache(maxsize=4096)
def _planned(demands: tuple[Demand, ...], precut: Precut) -> PrecutPlan | None:
    try:
        return fewest_precuts(demands, precut=precut)
    except PieceWiderThanFabric:
        return None


def _counted(plan: PrecutPlan) -> str:
    name, count = plan.precut.name, plan.count
    if name.startswith("fat quarter"):
        words = ngettext("{count} fat quarter", "{count} fat quarters", count)
    elif name.startswith("fat eighth"):
        words = ngettext("{count} fat eighth", "{count} fat eighths", count)
    elif name.endswith("square"):
        words = ngettext("{count} square", "{count} squares", count)
    else:
        words = ngettext("{count} strip", "{count} strips", count)
    return words.format(count=count)
