"""The bounded knapsack: the best filling of one width, for every limit of pieces at once."""

from __future__ import annotations

from typing import Any


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

    def add(self, item: int, *, width: int, value: float, limit: int) -> None:
        """Allow up to `limit` of an item: every number of them is a sum of powers of two."""
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

    def take(self, mark: int) -> dict[int, int]:
        """Give how many of each item make up that value."""
        counts: dict[int, int] = {}
        capacity = self.capacity
        for place in range(mark - 1, -1, -1):
            item, number, shift = self.steps[place]
            if self.rows[place + 1][capacity] != self.rows[place][capacity]:
                counts[item] = counts.get(item, 0) + number
                capacity -= shift
        return counts
