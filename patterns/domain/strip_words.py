"""Strip plans in words: what is proven of one, and the order in which it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import length_text
from patterns.engine.strip_cliffs import LESS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from patterns.engine.measure import Units
    from patterns.engine.strip_cliffs import Cliff
    from patterns.engine.strips import Cut, Strip, StripPlan
    from patterns.engine.yardage import Allowances

NEAR = Fraction(1, 4)  # inches: strips so alike are mistaken for one another at the table (common practice)
Column = tuple[tuple[str, Fraction, Fraction], ...]  # label, width, length of each piece, from the bottom


@dataclass(frozen=True, slots=True, kw_only=True)
class StripOrder:
    """One line of the cutting order: the strips to cut, and what each is cut into, in that order."""

    strips: str
    pieces: tuple[str, ...]


def proof_words(plan: StripPlan, allowances: Allowances, units: Units) -> str:
    """Say how good a plan is known to be: proven, no smaller purchase possible, or the open gap."""
    used, bound = length_text(plan.total_length, units), length_text(plan.lower_bound, units)
    if plan.proven:
        return _("Minimum {used}, proven: no layout in strips takes less.").format(used=used)
    if allowances.suggested(plan.lower_bound) == allowances.suggested(plan.total_length):
        words = _("Minimum {used}; no smaller purchase is possible: at least {bound} is needed.")
        return words.format(used=used, bound=bound)
    words = _("Minimum {used}; no layout in strips can take less than {bound}, up to {gap} is open.")
    gap = length_text(plan.gap, units)
    return words.format(used=used, bound=bound, gap=gap)


def answer_words(plan: StripPlan, allowances: Allowances, units: Units) -> str:
    """Say the same of a plan whose length stands beside it."""
    if plan.proven:
        return _("Proven: no layout in strips takes less.")
    bound = length_text(plan.lower_bound, units)
    if allowances.suggested(plan.lower_bound) == allowances.suggested(plan.total_length):
        return _("No smaller purchase is possible: at least {bound} is needed.").format(bound=bound)
    words = _("No layout in strips takes less than {bound}; {gap} is open.")
    return words.format(bound=bound, gap=length_text(plan.gap, units))


def cliff_words(found: Iterable[Cliff], *, usable_width: Fraction, units: Units) -> tuple[str, ...]:
    """Say below which widths a plan takes more fabric; with a warning where 1/2 in less does."""
    return tuple(_cliff(cliff, usable_width, units) for cliff in found)


def _cliff(cliff: Cliff, usable_width: Fraction, units: Units) -> str:
    needs, length = length_text(cliff.needs_width, units), length_text(cliff.length, units)
    if cliff.longer is None:
        words = _("Narrower than {needs} of usable width: a piece no longer fits across.").format(needs=needs)
    else:
        words = _("Narrower than {needs} of usable width: {longer} in place of {length}.").format(
            needs=needs, longer=length_text(cliff.longer, units), length=length
        )
    if cliff.needs_width <= usable_width - LESS:
        return words
    return words + " " + _("Half an inch less costs another strip: measure the fabric first.")


def cutting_order(plan: StripPlan, units: Units) -> tuple[StripOrder, ...]:
    """Say strip by strip what to cut, the highest strip first, and in each the largest pieces first."""
    return tuple(
        StripOrder(strips=_strips(strip, units), pieces=tuple(_pieces(strip, units))) for strip in plan.strips
    )


def order_lead(plan: StripPlan) -> str:
    """Say why the order matters, where it does."""
    heights = {strip.height for strip in plan.strips}
    if len(heights) > 1:
        return _(
            "Cut the strips in this order, the widest first: a strip that is spoiled can still give those "
            "that follow. Cut each strip from its left end; cut nothing down before its strip is cut across."
        )
    return _("Cut each strip across from its left end; cut nothing down before its strip is cut across.")


def near_words(plan: StripPlan, units: Units) -> tuple[str, ...]:
    """Point out strips that are almost of one width, and what cutting them alike would take."""
    counts: dict[Fraction, int] = {}
    for strip in plan.strips:
        counts[strip.height] = counts.get(strip.height, 0) + strip.repeat
    heights = sorted(counts, reverse=True)
    words = _("Strips of {high} and {low} are nearly equal: cut all {high} wide, it takes {more} more.")
    return tuple(
        words.format(
            high=length_text(high, units),
            low=length_text(low, units),
            more=length_text((high - low) * counts[low], units),
        )
        for high, low in pairwise(heights)
        if high - low <= NEAR
    )


def _strips(strip: Strip, units: Units) -> str:
    words = ngettext(
        "{number} strip {height} wide, across the fabric",
        "{number} strips {height} wide, across the fabric",
        strip.repeat,
    )
    return words.format(number=strip.repeat, height=length_text(strip.height, units))


def _pieces(strip: Strip, units: Units) -> Iterator[str]:
    columns = (_column(list(cuts)) for _x, cuts in groupby(strip.cuts, key=lambda cut: cut.x))
    for column, alike in groupby(columns):
        yield _column_words(column, len(list(alike)), strip=strip, units=units)


def _column(cuts: list[Cut]) -> Column:
    return tuple((cut.label, cut.width, cut.length) for cut in cuts)


def _column_words(column: Column, count: int, *, strip: Strip, units: Units) -> str:
    width = length_text(column[0][1], units)
    if len(column) > 1:
        cuts = ", ".join(f"{label} {length_text(length, units)}" for label, _width, length in column)
        words = _("{count} × {width} long, each cut again into {cuts}")
        return words.format(count=count, width=width, cuts=cuts)
    label, _side, length = column[0]
    words = _("{count} × {label}, {width} long")
    if length < strip.height:
        words = _("{count} × {label}, {width} long, then cut down to {length}")
    return words.format(count=count, label=label, width=width, length=length_text(length, units))
