"""The risk of running short: how many packets are wanted after some people have left.

Each person stays through a chance to leave with the same probability, independently of the others:
an assumption, to be said wherever a number of this module is shown (people leave in groups too).
Everybody is there in installment 1; installment k has passed k - 1 chances to leave.  Probabilities
are exact binary fractions of 192 places.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import comb

_BITS = 192
_ONE = 1 << _BITS


@dataclass(frozen=True, slots=True, kw_only=True)
class Cohort:
    """People who joined together and have passed `chances` chances to leave."""

    people: int
    retention: Fraction
    chances: int

    @property
    def stay(self) -> Fraction:
        """Give the probability that one of them is still there: retention to the power of the chances."""
        return self.retention**self.chances


@dataclass(frozen=True, slots=True)
class Wanted:
    """How likely each number is: `weights[x]` in parts of 2 to the power 192."""

    weights: tuple[int, ...]

    @property
    def mean(self) -> Fraction:
        """Give the expected number."""
        return sum((Fraction(x * weight, _ONE) for x, weight in enumerate(self.weights)), start=Fraction(0))

    @property
    def variance(self) -> Fraction:
        """Give the variance."""
        squares = sum(
            (Fraction(x * x * weight, _ONE) for x, weight in enumerate(self.weights)), start=Fraction(0)
        )
        return squares - self.mean**2

    def short(self, order: int) -> Fraction:
        """Give the probability that more than `order` are wanted."""
        return Fraction(sum(self.weights[max(0, order + 1) :]), _ONE)

    def order_for_risk(self, risk: Fraction) -> int:
        """Give the smallest order that runs short with no more than this probability."""
        order, short = len(self.weights) - 1, 0
        while order > 0 and short + self.weights[order] <= risk * _ONE:
            short += self.weights[order]
            order -= 1
        return order


def wanted(cohorts: Iterable[Cohort]) -> Wanted:
    """Add cohorts up: each is binomial, their sum by convolution."""
    total = [_ONE]
    for cohort in cohorts:
        total = _convolved(total, _binomial(cohort.people, cohort.stay))
    return Wanted(tuple(total))


def wanted_in_the_year(*, people: int, retention: Fraction, cuts: Sequence[int]) -> Wanted:
    """Give what one stock for the whole year must serve: `cuts[k - 1]` cuts each in installment k.

    One person takes the cuts up to the installment of leaving; all persons by convolution.
    """
    one = [0] * (sum(cuts) + 1)
    taken = 0
    for k, number in enumerate(cuts, 1):
        taken += number
        leaves_after = 1 - retention if k < len(cuts) else Fraction(1)
        one[taken] += _weight(retention ** (k - 1) * leaves_after)
    total, power = [_ONE], people
    while power:
        if power & 1:
            total = _convolved(total, one)
        one, power = _convolved(one, one) if power > 1 else one, power >> 1
    return Wanted(tuple(total))


def any_installment_short(*, people: int, retention: Fraction, orders: Sequence[int]) -> Fraction:
    """Give the probability that in some installment more than its own order is wanted.

    Who leaves stays away, so the numbers of the installments hang together: followed step by step.
    """
    steps = [_binomial(there, retention) for there in range(people + 1)]
    fine = [0] * people + [_ONE]  # everybody is there in installment 1
    for k, order in enumerate(orders):
        if k:
            after = [0] * (people + 1)
            for there, weight in enumerate(fine):
                for stay, chance in enumerate(steps[there] if weight else ()):
                    after[stay] += weight * chance >> _BITS
            fine = after
        fine = [weight if there <= order else 0 for there, weight in enumerate(fine)]
    return 1 - Fraction(sum(fine), _ONE)


def risk_from_money(*, cost_over: Fraction, cost_short: Fraction) -> Fraction:
    """Give the risk that balances the money: cost over / (cost over + cost short), each per packet."""
    return Fraction(cost_over) / (cost_over + cost_short)


def _binomial(people: int, stay: Fraction) -> list[int]:
    here, gone = _powers(_weight(stay), people), _powers(_weight(1 - stay), people)
    return [comb(people, x) * here[x] * gone[people - x] >> _BITS for x in range(people + 1)]


def _powers(base: int, most: int) -> list[int]:
    powers = [_ONE]
    for _ in range(most):
        powers.append(powers[-1] * base >> _BITS)
    return powers


def _weight(probability: Fraction) -> int:
    return probability.numerator * _ONE // probability.denominator


def _convolved(one: Sequence[int], other: Sequence[int]) -> list[int]:
    total = [0] * (len(one) + len(other) - 1)
    for x, a in enumerate(one):
        for y, b in enumerate(other if a else ()):
            total[x + y] += a * b
    return [weight >> _BITS for weight in total]
