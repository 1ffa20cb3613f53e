"""Which lines of a net hold together so well that every round between them is free of itself.

Two lines belong together when a round goes through both; such a net is found by one walk in depth
(R. Tarjan, Depth-first search and linear graph algorithms, SIAM Journal on Computing, 1972).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.geometry import Corner

Line: TypeAlias = tuple[Corner, Corner]
Lines: TypeAlias = set[Line]  # each with its lesser end first
Ways: TypeAlias = dict[Corner, list[Corner]]


def ways_of(lines: Iterable[Line]) -> Ways:
    """Give for each point where its lines lead."""
    ways: Ways = defaultdict(list)
    for start, end in sorted(lines):
        ways[start].append(end)
        ways[end].append(start)
    return ways


def joined_with(lines: Lines, one: Line) -> Lines:
    """Give the lines that lie on a round together with `one`, and `one` itself."""
    walk = _Walk(ways=ways_of(lines))
    return next(part for part in walk.parts(one[0]) if one in part)


def groups(lines: Lines) -> list[Lines]:
    """Divide lines into those that hang together."""
    ways, left, found = ways_of(lines), set(lines), []
    while left:
        ahead, seen = [min(left)[0]], set[Corner]()
        while ahead:
            point = ahead.pop()
            if point not in seen:
                seen.add(point)
                ahead.extend(ways[point])
        found.append({line for line in left if line[0] in seen})
        left -= found[-1]
    return found


@dataclass(slots=True, kw_only=True)
class _Walk:
    """A walk in depth: when each point was reached, and the earliest that leads back from beyond it."""

    ways: Ways
    reached: dict[Corner, int] = field(default_factory=dict)
    back_to: dict[Corner, int] = field(default_factory=dict)
    stack: list[Line] = field(default_factory=list)

    def parts(self, root: Corner) -> Iterator[Lines]:
        """Give the parts that hold together, of all that can be reached from a point."""
        self._reach(root)
        path = [(root, root, iter(self.ways[root]))]
        while path:
            point, above, rest = path[-1]
            ahead = next(rest, None)
            if ahead is None:
                path.pop()
                yield from self._left(point, above)
            elif ahead not in self.reached:
                self.stack.append((point, ahead))
                self._reach(ahead)
                path.append((ahead, point, iter(self.ways[ahead])))
            elif ahead != above and self.reached[ahead] < self.reached[point]:
                self.stack.append((point, ahead))
                self.back_to[point] = min(self.back_to[point], self.reached[ahead])

    def _reach(self, point: Corner) -> None:
        self.reached[point] = self.back_to[point] = len(self.reached)

    def _left(self, point: Corner, above: Corner) -> Iterator[Lines]:
        """Go back to the point above; what lies beyond it is a part where nothing leads further back."""
        if point == above:
            return
        self.back_to[above] = min(self.back_to[above], self.back_to[point])
        if self.back_to[point] >= self.reached[above]:
            first = self.stack.index((above, point))
            part = {(min(line), max(line)) for line in self.stack[first:]}
            del self.stack[first:]
            yield part
