"""Lengths that no strip plan can beat, without a solver."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from patterns.engine.strip_model import PlanMode, Problem

_FINEST = 40  # dual feasible functions tried; one fabric holds about this many pieces side by side
_LONGEST = 2_000_000  # units up to which sums of heights are worked out


def lower_bound(problem: Problem) -> int:
    """Give the largest of the area and layer-cake bounds, rounded up to a sum of strip heights."""
    return next_reachable(problem, max(area_bound(problem), layer_bound(problem)))


def area_bound(problem: Problem) -> int:
    """Give the length whose area is that of the pieces."""
    shapes = (problem.shapes_of[size][0] for size in range(len(problem.demand)))
    area = sum(shape.width * shape.height * n for shape, n in zip(shapes, problem.demand, strict=True))
    return -(-area // problem.width)


def layer_bound(problem: Problem) -> int:
    """Cut the fabric into layers: so many strips are at least so high, or in EXACT, exactly so high."""
    levels = strips_at_least(problem)
    total = below = 0
    for height in problem.heights:
        total += (height - below) * levels.get(height, 0)
        below = height
    return max(total, sum(height * number for height, number in strips_exactly(problem).items()))


def strips_exactly(problem: Problem) -> Mapping[int, int]:
    """Give for each height how many strips of it there must be at least; none unless in EXACT."""
    if problem.mode != PlanMode.EXACT:
        return {}
    return {
        height: bins_needed(
            problem.width,
            (
                (min(shape.width for shape in shapes), problem.demand[size])
                for size, shapes in problem.shapes_of.items()
                if {shape.height for shape in shapes} == {height}
            ),
        )
        for height in problem.heights
    }


def strips_at_least(problem: Problem) -> Mapping[int, int]:
    """Give for each height how many strips at least are so high or higher, whatever the plan.

    Pieces that are at least so high however they are laid need that many strips by their widths.  In
    a stack two such pieces may share a width, unless two of them are higher than any strip.
    """
    stacked = problem.mode == PlanMode.STACK
    return {
        height: bins_needed(problem.width, _widths(problem, height))
        for height in problem.heights
        if not (stacked and 2 * height <= problem.heights[-1])
    }


def bins_needed(capacity: int, widths: Iterable[tuple[int, int]]) -> int:
    """Bound the number of bins for (width, number) pairs by dual feasible functions.

    u_k(x) = x where (k + 1) x is whole, else floor((k + 1) x) / k, with x the share of the capacity.
    """
    pairs = [(width, number) for width, number in widths if number]
    best = -(-sum(width * number for width, number in pairs) // capacity)
    for k in range(1, _FINEST):
        total = 0  # in capacity x k
        for width, number in pairs:
            shares, rest = divmod((k + 1) * width, capacity)
            total += number * (shares * capacity if rest else width * k)
        best = max(best, -(-total // (capacity * k)))
    return best


def next_reachable(problem: Problem, length: int) -> int:
    """Round up to a length that some number of strips adds up to: with 20 and 52, 61 becomes 72."""
    limit = length + problem.heights[-1]
    if limit > _LONGEST:
        return length
    sums = _sums(problem.heights, 1 << limit.bit_length())
    rest = sums >> length
    return length + (rest & -rest).bit_length() - 1


@lru_cache(maxsize=16)
def _sums(heights: tuple[int, ...], limit: int) -> int:
    """Give the sums of heights up to a limit, one bit each."""
    sums = 1
    for height in heights:
        reach = height
        while reach <= limit:
            sums |= sums << reach
            reach *= 2
        sums &= (1 << (limit + 1)) - 1
    return sums


def _widths(problem: Problem, height: int) -> list[tuple[int, int]]:
    found = []
    for size, number in enumerate(problem.demand):
        shapes = problem.shapes_of[size]
        if min(shape.height for shape in shapes) >= height:
            found.append((min(shape.width for shape in shapes), number))
    return found
