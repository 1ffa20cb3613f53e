"""Where a part of a drawing may be divided: straight seams at any angle, super-patches, what peels off."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from patterns.engine.figures import BORDER, Edge, Line, Mask, Path, Sheet, members

MOST_FIRST_AXES = 8  # tried when patches are merged
FEW_LINES = 4
TRIANGLE = 3


@dataclass(frozen=True, slots=True)
class Cells:
    """Parts in their order of sewing; `bends` and `partials` count what is not straight."""

    masks: tuple[Mask, ...]
    bends: int = 0
    partials: int = 0

    @property
    def is_straight(self) -> bool:
        """Say whether all are sewn from end to end."""
        return not self.bends and not self.partials


def straight_cells(sheet: Sheet, mask: Mask, atoms: Sequence[Mask]) -> list[Cells]:
    """Give the ways worth a try to divide a part by straight seams that cut none of the atoms.

    Where seams square to the sides divide a rectangle, only those count; elsewhere the corners that seams
    cut off come together, too.
    """
    if not sheet.is_convex(mask):
        return [Cells(pair) for pair in _runs(sheet, mask, atoms)]
    lines = [line for line in sheet.lines if _divides(line, mask, atoms)]
    if sheet.is_rectangle(mask):
        framed = _square_to_sides(sheet, mask, lines)
        if framed:
            return _parallel(mask, framed)
    return [*_corners(sheet, mask, lines), *_parallel(mask, lines)]


def _divides(line: Line, mask: Mask, atoms: Sequence[Mask]) -> bool:
    if mask & ~(line.low | line.high) or not mask & line.low or not mask & line.high:
        return False
    return all(not atom & line.low or not atom & line.high for atom in atoms)


def _square_to_sides(sheet: Sheet, mask: Mask, lines: Sequence[Line]) -> list[Line]:
    outline = sheet.round(mask)
    axes = {way // 2 for way in outline.ways}
    return [line for line in lines if line.axis in axes]


def _parallel(mask: Mask, lines: Sequence[Line]) -> list[Cells]:
    """Give, axis by axis, all seams at once and single ones; the axis with the most seams first."""
    by_axis = [list(group) for _, group in groupby(lines, key=lambda line: line.axis)]
    by_axis.sort(key=len, reverse=True)
    found = [Cells(_strips(mask, group)) for group in by_axis]
    for group in by_axis:
        if len(group) > 1:
            few = group if len(group) <= FEW_LINES else (group[len(group) // 2], group[0], group[-1])
            found += [Cells((mask & line.low, mask & line.high)) for line in few]
    return found


def _strips(mask: Mask, lines: Sequence[Line]) -> tuple[Mask, ...]:
    """Divide along parallel lines, from low to high."""
    strips, left = [], mask
    for line in lines:
        strips.append(left & line.low)
        left &= ~line.low
    return (*strips, left)


def _corners(sheet: Sheet, mask: Mask, lines: Sequence[Line]) -> Iterator[Cells]:
    """Give the middle and the triangles that seams cut off it, if two or more; opposite ones first."""
    cut: list[tuple[Line, Mask]] = []
    for line in lines:
        for part in (mask & line.low, mask & line.high):
            outline = sheet.outline(part)
            if outline and len(outline.corners) == TRIANGLE and not any(part & other for _, other in cut):
                cut.append((line, part))
    middle = mask & ~sum(part for _, part in cut)
    if len(cut) > 1 and middle:
        yield Cells((middle, *(part for _, part in cut)))


def _runs(sheet: Sheet, mask: Mask, atoms: Sequence[Mask]) -> Iterator[tuple[Mask, Mask]]:
    """Divide a part with inward corners along each straight run of inner edges from border to border."""
    outline = sheet.round(mask)
    border = {edge.start for edge in outline.edges}
    seen: set[tuple[int, int]] = set()
    for start in sorted(border):
        for way, beside in sorted(sheet.leaving.get(start, {}).items()):
            if all(mask >> patch & 1 for patch in beside):
                run = _run_from(sheet, mask, start=start, way=way)
                end = run[-1].end
                if end in border and (end, start) not in seen:
                    seen.add((start, end))
                    yield from _sides(sheet, mask, run=run, atoms=atoms)


def _run_from(sheet: Sheet, mask: Mask, *, start: int, way: int) -> list[Edge]:
    """Follow inner edges straight on, up to the border or to where they end."""
    outline = sheet.round(mask)
    border = {edge.start for edge in outline.edges}
    run: list[Edge] = []
    spot = start
    while True:
        beside = sheet.leaving.get(spot, {}).get(way)
        if beside is None or not all(mask >> patch & 1 for patch in beside):
            return run
        edge = next(edge for edge in sheet.edges[beside[0]] if edge.start == spot and edge.way == way)
        run.append(edge)
        spot = edge.end
        if spot in border:
            return run


def _sides(
    sheet: Sheet, mask: Mask, *, run: Sequence[Edge], atoms: Sequence[Mask]
) -> Iterator[tuple[Mask, Mask]]:
    blocked = {(edge.start, edge.end) for edge in run}
    beside = sheet.leaving[run[0].start][run[0].way]
    first = _flooded(sheet, mask, start=beside[0], blocked=blocked)
    rest = mask & ~first
    is_whole = rest >> beside[1] & 1 and all(not atom & first or not atom & rest for atom in atoms)
    if is_whole and sheet.outline(first) and sheet.outline(rest):
        yield first, rest


def _flooded(sheet: Sheet, mask: Mask, *, start: int, blocked: set[tuple[int, int]]) -> Mask:
    found, todo = 1 << start, [start]
    while todo:
        for edge in sheet.edges[todo.pop()]:
            if edge.beyond == BORDER or not (mask & ~found) >> edge.beyond & 1:
                continue
            if (edge.start, edge.end) not in blocked and (edge.end, edge.start) not in blocked:
                found |= 1 << edge.beyond
                todo.append(edge.beyond)
    return found


def super_patches(sheet: Sheet, mask: Mask) -> tuple[Mask, ...]:
    """Merge neighbours as long as the two together stay convex, one axis after the other.

    Each axis is tried first, and the fewest super-patches are kept.
    """
    patches = tuple(1 << patch for patch in members(mask))
    axes = sorted({edge.way // 2 for patch in members(mask) for edge in sheet.edges[patch]})
    tries = []
    for turn in range(min(len(axes), MOST_FIRST_AXES)):
        atoms = patches
        for axis in axes[turn:] + axes[:turn]:
            atoms = _merged_along(sheet, atoms, axis)
        tries.append(atoms)
    return min(tries, key=len)


def _merged_along(sheet: Sheet, atoms: Sequence[Mask], axis: int) -> tuple[Mask, ...]:
    """Merge across edges of one axis until nothing more merges."""
    home = {patch: atom for atom in atoms for patch in members(atom)}
    waiting = sorted(home)
    while waiting:
        patch = waiting.pop(0)
        for edge in sheet.edges[patch]:
            other = home.get(edge.beyond)
            if edge.way // 2 != axis or other is None or other == home[patch]:
                continue
            both = home[patch] | other
            if all(sheet.is_convex(each) for each in (home[patch], other, both)):
                home |= dict.fromkeys(members(both), both)
                waiting = sorted({*waiting, *members(both)})
                break
    return tuple(dict.fromkeys(home[patch] for patch in sorted(home)))


def peeled_cells(sheet: Sheet, mask: Mask, classes: Sequence[Sequence[Mask]]) -> list[Cells]:
    """Give the ways to take atoms off a part so that each is sewn to the rest along one path.

    `classes` holds the atoms that are congruent; a whole class comes off together, or one atom alone.
    What needs the fewest set-in bends and leaves a straight seam comes first.
    """
    found = []
    for alike in classes:
        singles = [cells for atom in alike if (cells := _peeled(sheet, mask, [atom]))]
        together = _peeled(sheet, mask, alike) if len(alike) > 1 else None
        if together and len(together.masks) > 2:  # noqa: PLR2004 -- the rest and two others
            found.append(together)
        found += singles
    return sorted(found, key=lambda cells: _reluctance(sheet, cells))


def _reluctance(sheet: Sheet, cells: Cells) -> tuple[int, int, int, int]:
    rest, count = cells.masks[0], len(cells.masks) - 1
    divides = rest & (rest - 1) == 0 or any(straight_cells(sheet, rest, ()))
    return 100 * cells.bends // count, int(not divides), 100 * cells.partials // count, -count


def _peeled(sheet: Sheet, mask: Mask, atoms: Sequence[Mask]) -> Cells | None:
    rest, taken = mask, []
    for atom in atoms:
        left = rest & ~atom
        if left and sheet.outline(left):
            rest = left
            taken.append(atom)
    if not taken:
        return None
    bends = partials = 0
    base = rest
    for atom in reversed(taken):
        bent, eased = count_bends(sheet, base, sheet.path(base, atom))
        bends, partials = bends + bent, partials + eased
        base |= atom
    return Cells((rest, *reversed(taken)), bends=bends, partials=partials)


def count_bends(sheet: Sheet, base: Mask, path: Path) -> tuple[int, int]:
    """Count the bends of a seam that must be set in, and those that a partial seam saves."""
    bends, eased = len(path) - 2, 0
    for way_in in (path, path[::-1]):
        if bends and runs_on(sheet, base, end=way_in[0], bend=way_in[1]) is not None:
            bends, eased = bends - 1, eased + 1
    return bends, eased


def runs_on(sheet: Sheet, base: Mask, *, end: int, bend: int) -> tuple[int, int] | None:
    """Give the patches beside the seam of `base` that the leg from `end` to `bend` runs on straight along."""
    beside = sheet.leaving.get(bend, {}).get(sheet.way(end, bend))
    if beside is None or not all(base >> patch & 1 for patch in beside):
        return None
    return beside


def congruent(masks: Sequence[Mask], number: dict[Mask, int]) -> list[list[Mask]]:
    """Group parts by the number of their form, in the order given."""
    groups: dict[int, list[Mask]] = defaultdict(list)
    for mask in masks:
        groups[number[mask]].append(mask)
    return list(groups.values())
