"""Writes parts of any outline: what they are cut as, how they lie in a frame of their own, seam by seam."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Protocol

from patterns.engine import geometry
from patterns.engine.arcs import holds_arc, is_arc
from patterns.engine.errors import OtherSeamsNeeded
from patterns.engine.figure_frames import (
    Motion,
    frame_of,
    from_here_to_there,
    in_rows,
    length_of,
    of_placed,
    upright_frame,
)
from patterns.engine.figure_joins import Join, Joins
from patterns.engine.figure_numbers import Spot
from patterns.engine.figure_orders import Figures
from patterns.engine.figure_shapes import hand_of, kind_of, shape_word
from patterns.engine.figures import Mask, Sheet
from patterns.engine.geometry import NO_TURN
from patterns.engine.part_books import PartBook
from patterns.engine.parts import Fitted, Part, Patch, Placed, Point, Rows, Seam, SeamKind, Unit
from patterns.engine.regions import Region
from patterns.engine.surds import Number, ceiling

_QUARTER, _HALF_INCH = Fraction(1, 4), Fraction(1, 2)
_STRAIGHT = 2  # points of a straight path
_EQUAL_PARTS = {2: "half", 4: "quarter"}
_HALVED: Mapping[str, Mapping[int, str]] = {"half": {2: "quarter"}, "quarter": {}}


class RowsOf(Protocol):
    """Writes a rectangle that rows of known units make, and places it with its top left corner at (0, 0)."""

    def __call__(self, upright: Region, *, step: Number, name: str) -> Placed:
        """Lengths of the region x step are inches."""
        ...


@dataclass(frozen=True, slots=True)
class _Made:
    """A part that was written: the motion from its frame to where it lay, and its form's first side."""

    part: str
    motion: Motion
    side: tuple[Point, Point]


@dataclass(slots=True, kw_only=True)
class FigureWriter:
    """Writes each form once; all points it gives are inches of the drawing."""

    figures: Figures
    inch: Number  # inches of one length of the drawing
    book: PartBook
    rows_of: RowsOf
    made: dict[int, _Made] = field(default_factory=dict)  # by form

    def lay(self, sheet: Sheet, mask: Mask, *, name: str) -> tuple[str, Motion]:
        """Write a part where it is new; give its id, and the motion from its frame to the sheet."""
        form = self.figures.forms.form(sheet, mask)
        here = [(self._point(sheet, start), self._point(sheet, end)) for start, end in form.starts]
        if form.number not in self.made:
            part, motion = self._written(sheet, mask, name)
            self.made[form.number] = _Made(part, motion, here[0])
            return part, motion
        known = self.made[form.number]
        motions = [from_here_to_there(known.side, side) for side in here]
        straight = next((motion for motion in motions if motion.turned_by == NO_TURN), motions[0])
        return known.part, straight.after(known.motion)

    def _point(self, sheet: Sheet, spot: int) -> Point:
        x, y = sheet.spots[spot]
        number = self.figures.scale.number
        return number(x) * self.inch, number(y) * self.inch

    def _written(self, sheet: Sheet, mask: Mask, name: str) -> tuple[str, Motion]:
        rows = self.figures.is_rows(sheet, mask)
        if rows is not None:
            placed = self.rows_of(rows.region, step=rows.step * self.inch, name=name)
            upright = rows.motion.scaled(self.inch)
            return placed.part, upright.after(of_placed(placed, size=self.book.sizes[placed.part]))
        frame = frame_of(sheet, mask, self.figures.scale).scaled(self.inch)
        cells = self.figures.cells(sheet, mask)
        if not cells:
            part: Part = self._unit(sheet, mask, frame)
        elif self._is_in_rows(sheet, mask, cells):
            part = self._rows(sheet, cells, frame=frame, name=name)
        else:
            part = self._fitted(sheet, mask, frame=frame, name=name)
        return self.book.add(part), frame

    def _in_frame(self, sheet: Sheet, spots: Sequence[int], frame: Motion) -> tuple[Point, ...]:
        back = frame.back()
        return tuple(back.point(self._point(sheet, spot)) for spot in spots)

    def _unit(self, sheet: Sheet, mask: Mask, frame: Motion) -> Unit:
        patch = mask.bit_length() - 1
        corners = self._in_frame(sheet, sheet.polygons[patch], frame)
        fabric = sheet.letters[patch]
        return Unit(
            id="",
            kind=kind_of(sheet, patch),
            width=max(x for x, _ in corners),
            height=max(y for _, y in corners),
            fabrics=(fabric,),
            hand=hand_of(sheet, patch),
            patches=(Patch(fabric, corners),),
            outline=corners,
        )

    def _is_in_rows(self, sheet: Sheet, mask: Mask, cells: Sequence[Mask]) -> bool:
        if not all(sheet.is_rectangle(each) for each in (mask, *cells)) or not _spans(sheet, mask, cells):
            return False
        return upright_frame(sheet, mask, self.figures.scale) is not None

    def _rows(self, sheet: Sheet, cells: Sequence[Mask], *, frame: Motion, name: str) -> Rows:
        """Lay rectangles side by side, or one below the other."""
        back, laid = frame.back(), []
        for cell, called in zip(cells, self._names(sheet, cells, name), strict=True):
            part, motion = self.lay(sheet, cell, name=called)
            size = self.book.sizes[part]
            placed = in_rows(part, back.after(motion), size=size)
            laid.append((placed.at[::-1], placed, size if placed.turn % 2 == 0 else size[::-1]))
        laid.sort(key=lambda each: each[0])
        placed_cells = tuple(placed for _, placed, _ in laid)
        is_row = len({at[0] for at, _, _ in laid}) == 1
        (down, across), _, (width, height) = laid[-1]
        return Rows(
            id="",
            width=across + width,
            height=down + height,
            rows=(placed_cells,) if is_row else tuple((cell,) for cell in placed_cells),
            name=name,
        )

    def _fitted(self, sheet: Sheet, mask: Mask, *, frame: Motion, name: str) -> Fitted:
        joins = Joins(sheet=sheet, cells_of=lambda cell: self.figures.cells(sheet, cell))
        joins.sew(self.figures.cells(sheet, mask))
        masks = [join.mask for join in joins.found]
        placed = []
        for cell, called in zip(masks, self._names(sheet, masks, name), strict=True):
            part, motion = self.lay(sheet, cell, name=called)
            own = frame.back().after(motion)
            placed.append(Placed(part=part, at=own.by, turn=0, turned_by=own.turned_by))
        corners = self._in_frame(sheet, sheet.round(mask).corners, frame)
        return Fitted(
            id="",
            width=max(x for x, _ in corners),
            height=max(y for _, y in corners),
            outline=corners,
            placed=tuple(placed),
            seams=tuple(self._seams(sheet, joins.found, frame)),
            name=name,
        )

    def _seams(self, sheet: Sheet, joins: Sequence[Join], frame: Motion) -> Iterator[Seam]:
        stops: dict[Mask, tuple[int, Point]] = {}
        for number, join in enumerate(joins[1:], start=1):
            path = self._in_frame(sheet, join.path, frame)
            if join.open_at is None:
                yield Seam(part=number, path=path, kind=_kind(path))
            else:
                start, end = path if join.path[-1] == join.open_at else path[::-1]
                stops[join.mask] = number, stop_before(end, start)
                yield Seam(part=number, path=(start, stops[join.mask][1], end), kind=SeamKind.PARTIAL)
            for mask, end_spot in join.closes:
                part, stop = stops[mask]
                (last,) = self._in_frame(sheet, (end_spot,), frame)
                yield Seam(part=part, path=(stop, last), kind=SeamKind.CLOSING)

    def _names(self, sheet: Sheet, cells: Sequence[Mask], within: str) -> list[str]:
        """Say what the cells of a part of that name are called."""
        alike = {self.figures.forms.form(sheet, cell).number for cell in cells}
        equal = _HALVED.get(within, _EQUAL_PARTS)
        if len(alike) == 1 and len(cells) in equal:
            return [equal[len(cells)]] * len(cells)
        return [shape_word(sheet, cell) for cell in cells]


def _kind(path: tuple[Point, ...]) -> SeamKind:
    """Say how a seam without a stop is sewn; a curve that runs on round a corner is for appliqué."""
    if len(path) == _STRAIGHT:
        return SeamKind.STRAIGHT
    if is_arc(path):
        return SeamKind.CURVED
    if holds_arc(path):
        raise OtherSeamsNeeded(where=path[0], patches=(), needs="appliqué")
    return SeamKind.SET_IN


def _spans(sheet: Sheet, mask: Mask, cells: Sequence[Mask]) -> bool:
    """Say whether every cell reaches from one side of a rectangle to the other, all the same way."""
    return any(all(side in _sides(sheet, cell) for cell in cells) for side in _sides(sheet, mask))


def _sides(sheet: Sheet, mask: Mask) -> set[Spot]:
    """Give the ways from corner to corner of a part, in either direction."""
    corners = [sheet.spots[spot] for spot in sheet.round(mask).corners]
    ways = [(x - corners[i - 1][0], y - corners[i - 1][1]) for i, (x, y) in enumerate(corners)]
    return {*ways, *((-x, -y) for x, y in ways)}


def stop_before(end: Point, start: Point) -> Point:
    """Give where a partial seam from `start` stops: half stays open, on the quarter inch where that fits.

    At least half an inch is sewn, and half an inch left open, on any seam of an inch or more; down to three
    quarters of an inch less stays open.  Inches.
    """
    vector = geometry.minus(start, end)
    length = length_of((geometry.exact(vector[0]), geometry.exact(vector[1])))
    share: Number = Fraction(1, 2)
    if length is not None and length >= 2 * _HALF_INCH:
        stays_open = ceiling(length / 2, _QUARTER)
        share = (stays_open if length - stays_open >= _HALF_INCH else _HALF_INCH) / length
    elif length is not None and length >= _HALF_INCH + _QUARTER:
        share = (length - _HALF_INCH) / length
    return end[0] + vector[0] * share, end[1] + vector[1] * share
