"""The shared yardage calculator: from a cut list and stated allowances to what is bought.

*Minimum* is the strip plan, exact hits not bumped.  *Suggested* is the plan with its allowances,
rounded up to what is sold, and one step more where less than 1/2 in would be left over.  All lengths
are inches of fabric; pieces are sizes as cut.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from typing import Any

from patterns.engine import precut_sizes
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import (
    EIGHTH,
    EIGHTH_YARD,
    YARD,
    Units,
    show_fabric_length,
    up_to_step,
    write_inches,
)
from patterns.engine.precut_sizes import Precut
from patterns.engine.strips import Demand, StripPlan, plan_strips

LEAST_LEFT_OVER = Fraction(1, 2)  # less is not trusted: one crooked cut eats it
_HALF_YARD = YARD / 2


class FabricForm(StrEnum):
    """How fabric comes in a packet."""

    LENGTH = "length"
    FAT_QUARTER = "fat quarter"
    FAT_EIGHTH = "fat eighth"
    PIECE = "piece"


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What is added to a plan; settings of the program, printed on the sheet.

    `squaring_up` inches per cut of fabric; `cutting_tolerance` inches that the shop adds per started
    half yard; `shrinkage` as a share, so that 5 % is 1/20; `sold_by` the step of sale in inches.
    """

    squaring_up: Fraction = Fraction(1)
    cutting_tolerance: Fraction = Fraction(1, 2)
    shrinkage: Fraction = Fraction(0)
    spare_strip: bool = False
    sold_by: Fraction = EIGHTH_YARD

    def needed(self, length: Fraction) -> Fraction:
        """Add squaring up, then what washing takes: final / (1 - shrinkage)."""
        return (length + self.squaring_up) / (1 - self.shrinkage)

    def washed(self, width: Fraction) -> Fraction:
        """Give what washing leaves of a usable width, rounded down to 1/8 in; the width itself unwashed.

        >>> Allowances(shrinkage=Fraction(1, 20)).washed(Fraction(42))  # 39.9 in
        Fraction(319, 8)
        """
        return width * (1 - self.shrinkage) // EIGHTH * EIGHTH if self.shrinkage else width

    def suggested(self, length: Fraction) -> Fraction:
        """Round what is needed up to what is sold, with 1/2 in at least left over.

        >>> Allowances().suggested(Fraction(36))  # 1 yd exactly becomes 1 1/8 yd
        Fraction(81, 2)
        """
        needed = self.needed(length)
        sold = up_to_step(needed, self.sold_by)
        return sold if sold - needed >= LEAST_LEFT_OVER else sold + self.sold_by

    def cut_length(self, suggested: Fraction) -> Fraction:
        """Add the shop's tolerance for every half yard that is begun."""
        return suggested + self.cutting_tolerance * -(-suggested // _HALF_YARD)


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallCut:
    """A form of fabric that is not full width: usable inches across and along, and how it is cut.

    A full-width cut of `cut_length` inches gives `per_cut` of them.
    """

    form: FabricForm
    across: Fraction
    along: Fraction
    cut_length: Fraction
    per_cut: int


def _half_width(form: FabricForm, precut: Precut) -> SmallCut:
    """Two of it lie side by side in a cut as long as it is sold."""
    across, along = precut.usable
    return SmallCut(form=form, across=across, along=along, cut_length=precut.nominal[1], per_cut=2)


FAT_QUARTER = _half_width(FabricForm.FAT_QUARTER, precut_sizes.FAT_QUARTER)
FAT_EIGHTH = _half_width(FabricForm.FAT_EIGHTH, precut_sizes.FAT_EIGHTH)
_LARGEST_PIECE = 10  # inches; the large square that shops cut anyway (value PC-08)


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketLine:
    """One fabric of a packet.

    `minimum` and `suggested` are inches of full-width fabric; a form that is not full width takes its
    share.  A shop cuts `cut_length` inches for `per_cut` packets.  `plan` is None for lengths that are
    never cut into strips; its strips run along the fabric where `strips_along`.
    """

    form: FabricForm
    plan: StripPlan | None
    minimum: Fraction
    suggested: Fraction
    cut_length: Fraction
    per_cut: int = 1
    side: Fraction | None = None  # of a square piece
    strips_along: bool = False

    def bought(self, units: Units) -> str:
        """Say in plain text what one asks for: "3/8 yd", "0.35 m", "fat quarter", "6 x 6 in"."""
        if self.form == FabricForm.LENGTH:
            return show_fabric_length(self.suggested, units)
        if self.side is None:
            return self.form.value
        side = write_inches(self.side)
        return f"{side} x {side} in"

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data, lengths as text."""
        return {
            "form": self.form.value,
            "minimum": write_inches(self.minimum),
            "suggested": write_inches(self.suggested),
            "bought": self.bought(Units.INCHES),
            "plan": self.plan.as_data() if self.plan else None,
        }


def packet_line(
    demands: Iterable[Demand],
    *,
    usable_width: Fraction,
    allowances: Allowances,
    forms: tuple[FabricForm, ...] = (FabricForm.LENGTH,),
) -> PacketLine:
    """Plan one fabric of a packet in the form, of those allowed, that takes the least fabric.

    Full width is always allowed.  Of forms that take the same the first named is taken.  Raises
    PieceWiderThanFabric when a piece fits no full-width strip.
    """
    wanted = tuple(demands)
    lines = {FabricForm.LENGTH: _full_width(wanted, usable_width=usable_width, allowances=allowances)}
    for form in forms:
        if form != FabricForm.LENGTH:
            small = _small_line(wanted, form, usable_width=usable_width, shrinkage=allowances.shrinkage)
            lines |= {form: small} if small else {}
    order = [*dict.fromkeys((*forms, FabricForm.LENGTH))]
    return min((lines[form] for form in order if form in lines), key=lambda line: line.suggested)


def length_line(length: Fraction, *, allowances: Allowances) -> PacketLine:
    """Give the line of a length of fabric that is not cut into strips, such as backing."""
    suggested = allowances.suggested(length)
    return PacketLine(
        form=FabricForm.LENGTH,
        plan=None,
        minimum=length,
        suggested=suggested,
        cut_length=allowances.cut_length(suggested),
    )


def _full_width(demands: tuple[Demand, ...], *, usable_width: Fraction, allowances: Allowances) -> PacketLine:
    plan = plan_strips(demands, usable_width=usable_width)
    spare = max((strip.height for strip in plan.strips), default=Fraction(0)) if allowances.spare_strip else 0
    line = length_line(plan.total_length + spare, allowances=allowances)
    return replace(line, plan=plan, minimum=plan.total_length)


def _small_line(
    demands: tuple[Demand, ...], form: FabricForm, *, usable_width: Fraction, shrinkage: Fraction
) -> PacketLine | None:
    """Give the line in a small form, the first cut either way; None when the pieces do not fit."""
    for small in _small_cuts(form, usable_width):
        left = 1 - shrinkage
        for along in (False, True):
            plan = _plan_within(demands, small.across * left, small.along * left, strips_along=along)
            if plan:
                share = small.cut_length / small.per_cut
                side = small.cut_length if form == FabricForm.PIECE else None
                return PacketLine(
                    form=form,
                    plan=plan,
                    minimum=share,
                    suggested=share,
                    cut_length=small.cut_length,
                    per_cut=small.per_cut,
                    side=side,
                    strips_along=along,
                )
    return None


def _small_cuts(form: FabricForm, usable_width: Fraction) -> Iterator[SmallCut]:
    """Give the sizes that a form comes in, smallest first; a piece is squared up by 1/2 in each way."""
    if form == FabricForm.FAT_QUARTER:
        yield FAT_QUARTER
    elif form == FabricForm.FAT_EIGHTH:
        yield FAT_EIGHTH
    elif form == FabricForm.PIECE:
        for inches in range(2, _LARGEST_PIECE + 1):
            side = Fraction(inches)
            usable = side - LEAST_LEFT_OVER
            yield SmallCut(
                form=form, across=usable, along=usable, cut_length=side, per_cut=int(usable_width // side)
            )


def _plan_within(
    demands: tuple[Demand, ...], across: Fraction, along: Fraction, *, strips_along: bool
) -> StripPlan | None:
    if strips_along:
        across, along = along, across
        demands = tuple(replace(demand, width=demand.length, length=demand.width) for demand in demands)
    area = sum(demand.width * demand.length * demand.count for demand in demands)
    if area > across * along:
        return None
    try:
        plan = plan_strips(demands, usable_width=across)
    except PieceWiderThanFabric:
        return None
    return plan if plan.total_length <= along else None
