"""The bounded knapsack: the best filling of one width, for every limit of pieces at once."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

_VISITS = 60_000


class TooManyFillings(Exception):
    """A list of fillings would be too long to be worked with."""


class Knapsack:
    """Pieces are added one kind at a time; after each, the best value for every capacity is known.

    Values may be whole numbers or prices from a linear program.  Memory: one row of numbers per
    power of two in each limit.
    """

    def __init__(self, capacity: int) -> None:
        """Begin with nothing to take."""
        import numpy  # noqa: PLC0415 -- slow import, not needed by most requests

        self._maximum = numpy.maximum
        self.capacity = capacity
        self.rows: list[Any] = [numpy.zeros(capacity + 1)]
        self.steps: list[tuple[int, int, int]] = []  # item, how many of it, their width
        self._kinds: list[tuple[int, int, float, int, int]] = []  # item, width, value, limit, steps before

    def add(self, item: int, *, width: int, value: float, limit: int) -> None:
        """Allow up to `limit` of an item: every number of them is a sum of powers of two."""
        self._kinds.append((item, width, value, limit, len(self.steps)))
        left, number = min(limit, self.capacity // width), 1
        while left > 0 and value > 0:
            number = min(number, left)
            row = self.rows[-1].copy()
            shift = number * width
            row[shift:] = self._maximum(row[shift:], self.rows[-1][: len(row) - shift] + number * value)
            self.rows.append(row)
            self.steps.append((item, number, shift))
            left -= number
            number *= 2

    @property
    def mark(self) -> int:
        """Say how far the pieces have been added, for `value` and `take`."""
        return len(self.steps)

    def value(self, mark: int) -> float:
        """Give the best value of the whole capacity with the pieces added up to the mark."""
        return float(self.rows[mark][self.capacity])

    def take(self, mark: int, *, capacity: int | None = None) -> dict[int, int]:
        """Give how many of each item make up the best value of a capacity, the whole one if none is named."""
        counts: dict[int, int] = {}
        capacity = self.capacity if capacity is None else capacity
        for place in range(mark - 1, -1, -1):
            item, number, shift = self.steps[place]
            if self.rows[place + 1][capacity] != self.rows[place][capacity]:
                counts[item] = counts.get(item, 0) + number
                capacity -= shift
        return counts

    def fillings(self, *, capacity: int, worth: float) -> Iterator[dict[int, int]]:
        """List every full way to fill a capacity that reaches a value: how many of each item.

        Full means that no item fits in any more.  Walks from the last kind to the first; the rows say
        which beginnings can still reach the value.  Raises TooManyFillings after a counted walk.
        """
        visits = 0
        waiting: list[tuple[int, int, float, dict[int, int]]] = [(len(self._kinds), capacity, worth, {})]
        while waiting:
            visits += 1
            if visits > _VISITS:
                raise TooManyFillings
            depth, left, short, counts = waiting.pop()
            mark = self.mark if depth == len(self._kinds) else self._kinds[depth][4]
            if float(self.rows[mark][left]) < short:
                continue
            if depth == 0:
                if all(left < kind[1] or counts.get(kind[0], 0) >= kind[3] for kind in self._kinds):
                    yield counts
                continue
            item, width, value, limit, _ = self._kinds[depth - 1]
            for number in range(min(limit, left // width) + 1):
                taken = {**counts, item: number} if number else counts
                waiting.append((depth - 1, left - number * width, short - number * value, taken))
