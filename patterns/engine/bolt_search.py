"""Which bolts to buy, in whole numbers: column generation, diving, a small integer program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import gcd

from patterns.engine.knapsack import Knapsack, TooManyFillings
from patterns.engine.solver import MARGIN, Program, Relaxed

_ROUNDS = 300
_NODES = 2000
_LISTED = 5000  # cuttings in one integer program


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolts:
    """Bolts to be had (price and usable length, longest first) and cuts wanted, all in one unit."""

    prices: tuple[int, ...]
    usable: tuple[int, ...]
    cuts: tuple[int, ...]
    demand: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Cutting:
    """One bolt and how many of each cut it gives."""

    bolt: int
    counts: tuple[int, ...]


def buy(bolts: Bolts) -> tuple[dict[Cutting, int], int]:
    """Give the bolts with the lowest price found, and a price that none can beat."""
    search = _Search(bolts)
    relaxed = search.generate(bolts.demand)
    common = gcd(*bolts.prices)
    bound = -(-relaxed.bound // common) * common
    best = search.dive(relaxed)
    while bound < search.price(best):
        cuttings = search.cheap(relaxed, slack=bound - relaxed.value)
        found, refuted = search.within(cuttings or search.cuttings, bound)
        if found:
            return found, bound
        if not refuted or cuttings is None:
            break
        bound += common
    return best, bound


class _Search:
    def __init__(self, bolts: Bolts) -> None:
        self.bolts = bolts
        self.cuttings: list[Cutting] = []
        self.program = Program(bolts.demand)
        for place, cut in enumerate(bolts.cuts):
            for bolt, usable in enumerate(bolts.usable):
                if usable >= cut:
                    self.add(
                        Cutting(bolt, tuple(usable // cut * (at == place) for at in range(len(bolts.cuts))))
                    )

    def add(self, cutting: Cutting) -> bool:
        if cutting in self.cuttings:
            return False
        self.cuttings.append(cutting)
        entries = {row: count for row, count in enumerate(cutting.counts) if count}
        self.program.add_column(cost=self.bolts.prices[cutting.bolt], entries=entries)
        return True

    def price(self, chosen: Mapping[Cutting, int]) -> int:
        return sum(self.bolts.prices[cutting.bolt] * number for cutting, number in chosen.items())

    def generate(self, demand: Sequence[int]) -> Relaxed:
        """Solve in fractions, adding cuttings until none pays."""
        self.program.demand(demand)
        relaxed = self.program.relax()
        for _ in range(_ROUNDS):
            if not [cutting for cutting in list(self._paying(relaxed)) if self.add(cutting)]:
                return relaxed
            relaxed = self.program.relax()
        return Relaxed(0, relaxed.prices, relaxed.numbers)  # not converged: no bound

    def dive(self, relaxed: Relaxed) -> dict[Cutting, int]:
        """Fix whole numbers, or else the likeliest cutting, and solve the rest again."""
        chosen: dict[Cutting, int] = {}
        left = list(self.bolts.demand)
        while any(left):
            fixed = {at: int(n + MARGIN) for at, n in enumerate(relaxed.numbers) if n + MARGIN >= 1}
            if not fixed:
                fixed = {max(range(len(relaxed.numbers)), key=lambda at: relaxed.numbers[at]): 1}
            for at, number in fixed.items():
                cutting = self.cuttings[at]
                chosen[cutting] = chosen.get(cutting, 0) + number
                left = [max(0, want - n * number) for want, n in zip(left, cutting.counts, strict=True)]
            relaxed = self.generate(left)
        return chosen

    def cheap(self, relaxed: Relaxed, *, slack: float) -> list[Cutting] | None:
        """List the cuttings that a purchase within the slack can hold; None when they are too many."""
        sack = self._sack(relaxed)
        found: list[Cutting] = []
        try:
            for bolt, usable in enumerate(self.bolts.usable):
                worth = self.bolts.prices[bolt] - slack - MARGIN
                found += [
                    self._cutting(bolt, counts) for counts in sack.fillings(capacity=usable, worth=worth)
                ]
        except TooManyFillings:
            return None
        return found if len(found) <= _LISTED else None

    def within(self, cuttings: list[Cutting], price: int) -> tuple[dict[Cutting, int], bool]:
        """Look for a purchase at this price in whole numbers; say too whether there is none."""
        program = Program(self.bolts.demand)
        for cutting in cuttings:
            entries = {row: count for row, count in enumerate(cutting.counts) if count}
            program.add_column(cost=self.bolts.prices[cutting.bolt], entries=entries)
        whole = program.whole(at_most=price, nodes=_NODES)
        found = {c: n for c, n in zip(cuttings, whole.numbers, strict=False) if n > 0}
        made = [sum(c.counts[row] * n for c, n in found.items()) for row in range(len(self.bolts.cuts))]
        enough = all(number >= want for number, want in zip(made, self.bolts.demand, strict=True))
        return (found if enough else {}), whole.finished and not found

    def _sack(self, relaxed: Relaxed) -> Knapsack:
        sack = Knapsack(max(self.bolts.usable))
        for place, cut in enumerate(self.bolts.cuts):
            sack.add(place, width=cut, value=relaxed.prices[place], limit=self.bolts.demand[place])
        return sack

    def _cutting(self, bolt: int, counts: Mapping[int, int]) -> Cutting:
        return Cutting(bolt, tuple(counts.get(at, 0) for at in range(len(self.bolts.cuts))))

    def _paying(self, relaxed: Relaxed) -> Iterator[Cutting]:
        sack = self._sack(relaxed)
        for bolt, usable in enumerate(self.bolts.usable):
            if float(sack.rows[sack.mark][usable]) > self.bolts.prices[bolt] + MARGIN:
                yield self._cutting(bolt, sack.take(sack.mark, capacity=usable))
