"""Bolts: whole cuts from bolts of one or several lengths, the fewest inches bought.

Never total yards divided by the bolt's length: 45 cuts of 2/3 yd need three bolts of 15 yd, not two.
A bolt gives its length less an end loss (straightening).  One-dimensional cutting stock by column
generation; the bound is rounded up to a sum of bolt lengths.  All lengths are inches.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from patterns.engine.bolt_search import Bolts, Cutting, buy
from patterns.engine.errors import CutLongerThanBolt

_Counts = tuple[tuple[Fraction, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltCuts:
    """One bolt, `repeat` of them cut alike: (length, how many), the longest cuts first, and what is left."""

    length: Fraction
    cuts: _Counts
    left_over: Fraction
    repeat: int = 1
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltPlan:
    """Bolts to buy: inches bought, and inches that no other choice of bolts can beat."""

    bolts: tuple[BoltCuts, ...]
    bought: Fraction
    lower_bound: Fraction

    @property
    def proven(self) -> bool:
        """Whether no other choice of bolts is shorter."""
        return self.bought == self.lower_bound

    @property
    def left_over(self) -> Fraction:
        """Add up what is left on all bolts."""
        return sum((bolt.left_over * bolt.repeat for bolt in self.bolts), start=Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Assignment:
    """What real bolts give: the cuts on each, and the cuts that none of them has left."""

    bolts: tuple[BoltCuts, ...]
    missing: _Counts

    @property
    def complete(self) -> bool:
        """Whether everybody is served."""
        return not self.missing


def whole_cuts(bolt_length: Fraction, cut: Fraction, *, end_loss: Fraction = Fraction(0)) -> int:
    """Count the whole cuts of one length on a bolt: 22 of 24 in on 540 in.

    >>> whole_cuts(Fraction(540), Fraction(24))
    22
    """
    return max(0, int((bolt_length - end_loss) // cut))


def plan_bolts(
    cuts: Mapping[Fraction, int], *, bolt_lengths: Sequence[Fraction], end_loss: Fraction = Fraction(0)
) -> BoltPlan:
    """Choose bolts for whole cuts, as many of each length as wished, the fewest inches bought.

    Raises CutLongerThanBolt when a cut fits on no bolt.
    """
    wanted = {length: count for length, count in sorted(cuts.items(), reverse=True) if count}
    usable = {length: length - end_loss for length in sorted(set(bolt_lengths), reverse=True)}
    usable = {length: gives for length, gives in usable.items() if gives > 0}
    if not wanted:
        return BoltPlan(bolts=(), bought=Fraction(0), lower_bound=Fraction(0))
    longest = max(usable.values(), default=Fraction(0))
    if next(iter(wanted)) > longest:
        raise CutLongerThanBolt(length=next(iter(wanted)), longest=longest)
    unit = _unit([*wanted, *usable, *usable.values()])
    bolts = Bolts(
        prices=tuple(int(length / unit) for length in usable),
        usable=tuple(int(length / unit) for length in usable.values()),
        cuts=tuple(int(length / unit) for length in wanted),
        demand=tuple(wanted.values()),
    )
    chosen, bound = buy(bolts)
    return BoltPlan(
        bolts=_bolt_cuts(chosen, tuple(wanted.items()), tuple(usable.items())),
        bought=sum(bolts.prices[cutting.bolt] * n for cutting, n in chosen.items()) * unit,
        lower_bound=bound * unit,
    )


def assign_bolts(
    cuts: Mapping[Fraction, int], *, bolts: Mapping[str, Fraction], end_loss: Fraction = Fraction(0)
) -> Assignment:
    """Lay cuts on the bolts that came, named and measured: the shortest bolts are used up first.

    Each bolt in turn gives what fills it best of what is still wanted.  The rest is missing.
    """
    wanted = {length: count for length, count in sorted(cuts.items(), reverse=True) if count}
    given: list[BoltCuts] = []
    for name, length in sorted(bolts.items(), key=lambda bolt: (bolt[1], bolt[0])):
        usable = length - end_loss
        taken = _fill(wanted, usable)
        used = sum((cut * count for cut, count in taken.items()), start=Fraction(0))
        for cut, count in taken.items():
            wanted[cut] -= count
        given.append(BoltCuts(name=name, length=length, cuts=tuple(taken.items()), left_over=usable - used))
    return Assignment(bolts=tuple(given), missing=tuple((cut, n) for cut, n in wanted.items() if n))


def _fill(wanted: Mapping[Fraction, int], usable: Fraction) -> dict[Fraction, int]:
    from patterns.engine.knapsack import Knapsack  # noqa: PLC0415 -- numpy is slow to import

    unit = _unit([*wanted, usable])
    sack = Knapsack(max(0, int(usable / unit)))
    lengths = list(wanted)
    for place, length in enumerate(lengths):
        width = int(length / unit)
        sack.add(place, width=width, value=width, limit=wanted[length])
    counts = sack.take(sack.mark)
    return {lengths[place]: counts[place] for place in sorted(counts)}


def _bolt_cuts(
    chosen: Mapping[Cutting, int],
    wanted: Sequence[tuple[Fraction, int]],
    usable: Sequence[tuple[Fraction, Fraction]],
) -> tuple[BoltCuts, ...]:
    """Write cuttings as bolts; cuts beyond the demand stay uncut on their bolt."""
    left = [count for _, count in wanted]
    written: dict[BoltCuts, int] = {}
    for cutting in [cutting for cutting, number in sorted(chosen.items(), key=_key) for _ in range(number)]:
        length, whole = usable[cutting.bolt]
        counts = [min(left[at], count) for at, count in enumerate(cutting.counts)]
        left = [before - now for before, now in zip(left, counts, strict=True)]
        cuts = tuple((wanted[at][0], count) for at, count in enumerate(counts) if count)
        used = sum((cut * count for cut, count in cuts), start=Fraction(0))
        bolt = BoltCuts(length=length, cuts=cuts, left_over=whole - used)
        written[bolt] = written.get(bolt, 0) + 1
    return tuple(
        BoltCuts(length=bolt.length, cuts=bolt.cuts, left_over=bolt.left_over, repeat=repeat)
        for bolt, repeat in written.items()
    )


def _key(chosen: tuple[Cutting, int]) -> tuple[int, tuple[int, ...]]:
    cutting = chosen[0]
    return cutting.bolt, tuple(-count for count in cutting.counts)


def _unit(lengths: Sequence[Fraction]) -> Fraction:
    """Find the largest unit that every length is a multiple of."""
    parts = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * parts) for length in lengths)), parts)
