"""Borders and rounds: what goes round a centre, from the inside out.  All sizes are finished inches.

A plain border is butted (sides first, then top and bottom), has corner squares, or is mitred.  A pieced
border repeats one block along every side, with a corner block; where it does not fit, a coping strip
fills what is missing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.blocks import Block
from patterns.engine.border_words import (
    CORNER_SQUARE,
    END_BORDER,
    END_COPING,
    END_WITH_CORNERS,
    MITRED_STRIP,
    PIECED_END,
    PIECED_SIDE,
    SIDE_BORDER,
    SIDE_COPING,
)
from patterns.engine.errors import BadField, BadSize, BorderDoesNotFit
from patterns.engine.geometry import QUARTERS
from patterns.engine.layout import ORIGIN, Leaves, PlacedDrawing, rectangle
from patterns.engine.orders import joined
from patterns.engine.parts import Assembly, Fitted, Placed, Point, Rows, Seam, SeamKind
from patterns.engine.surds import Number, ceiling, sign

ONE = Fraction(1)
TURNS: tuple[Point, ...] = tuple((Fraction(x), Fraction(y)) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)))


class Corners(StrEnum):
    """What becomes of the corners of a plain border."""

    BUTTED = "butted"
    SQUARES = "corner squares"
    MITRED = "mitred"


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """Strips of one fabric; corner squares have a fabric of their own, `corner`.

    Mitred strips are cut with slanting ends and set in: virtual sewing proves each corner as one bent seam.
    Cut straight and mitred by eye they are `finishing.mitred_border_length` long.
    """

    width: Number
    fabric: str
    corners: Corners = Corners.BUTTED
    corner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecedBorder:
    """A block repeated along every side, drawn as it lies at the top, and the block at the top left corner.

    `across` and `down` count the blocks along a side between the corners; 0 takes the fewest that reach.
    What the centre is too small by is filled by coping strips of fabric `coping`.
    """

    unit: PlacedDrawing
    corner: PlacedDrawing
    coping: str = ""
    across: int = 0
    down: int = 0


AnyBorder: TypeAlias = Border | PiecedBorder


@dataclass(frozen=True, slots=True, kw_only=True)
class Surrounded:
    """A centre with its borders: the sewing order, the whole size, and where the centre lies in it."""

    assembly: Assembly
    width: Number
    height: Number
    at: Point


def units_along(side: Number, *, unit: Number) -> int:
    """Count the fewest blocks of a pieced border, each `unit` long, that reach along a side.

    >>> units_along(Fraction(50), unit=Fraction(4))
    13
    """
    return max(1, int(ceiling(side / unit, ONE)))


def coping_width(side: Number, *, needed: Number, where: str = "border") -> Number:
    """Give the finished width of the coping strip at both ends of a side: half of what is missing, exactly.

    BorderDoesNotFit where the side is longer than the pieced border, so that no strip can help: take more
    blocks, or larger ones.

    >>> coping_width(Fraction(50), needed=Fraction(52))
    Fraction(1, 1)
    """
    if sign(needed - side) < 0:
        raise BorderDoesNotFit(where=where, side=side, needed=needed)
    return (needed - side) / 2


def surrounded(
    centre: Block, borders: Sequence[AnyBorder], *, name: str, where: str = "border"
) -> Surrounded:
    """Sew borders round a finished centre, one after the other from the inside out.

    The assembly brings the centre as one finished block; its last part is called `name`.  BadSize names a
    width that is not above zero, or a corner block that does not fit; BadField a letter that is missing;
    BorderDoesNotFit a side that a pieced border cannot reach round.
    """
    writer = _Writer(centre=centre)
    for number, border in enumerate(borders):
        place = where if len(borders) == 1 else f"{where}[{number}]"
        if isinstance(border, PiecedBorder):
            writer.pieced(border, place)
        else:
            writer.plain(border, place)
    return writer.done(name)


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Grows outward: `inner` is what has been sewn so far, `at` where the centre lies in it."""

    centre: Block
    leaves: Leaves = field(default_factory=Leaves)
    joints: list[Rows | Fitted] = field(default_factory=list)
    inner: str = ""
    width: Number = ORIGIN[0]
    height: Number = ORIGIN[0]
    at: Point = ORIGIN

    def __post_init__(self) -> None:
        """Begin with the centre, whole as it is."""
        self.width, self.height = self.centre.width, self.centre.height
        self.inner = self.leaves.finished(self.centre)

    def plain(self, border: Border, where: str) -> None:
        """Sew on strips of one fabric."""
        if sign(border.width) <= 0:
            raise BadSize(where=f"{where}.width")
        if border.corners is Corners.MITRED:
            self._mitred(border)
        elif border.corners is Corners.SQUARES:
            self._with_squares(border, where)
        else:
            self._butted(border.fabric, (border.width, border.width), names=(SIDE_BORDER, END_BORDER))

    def pieced(self, border: PiecedBorder, where: str) -> None:
        """Sew on blocks in rows, a coping strip first where they do not fit."""
        long, deep = border.unit.size
        if border.corner.size != (deep, deep):
            raise BadSize(where=f"{where}.corner")
        across = border.across or units_along(self.width, unit=long)
        down = border.down or units_along(self.height, unit=long)
        missing = (
            coping_width(self.width, needed=across * long, where=f"{where}.across"),
            coping_width(self.height, needed=down * long, where=f"{where}.down"),
        )
        if any(sign(width) for width in missing):
            if not border.coping:
                raise BadField(where=f"{where}.coping")
            self._butted(border.coping, missing, names=(SIDE_COPING, END_COPING))
        self._sides(self._row(border, down, name=PIECED_SIDE), deep)
        self._ends(self._row(border, across, name=PIECED_END), deep)

    def done(self, name: str) -> Surrounded:
        """Name what was sewn last, and give the whole."""
        last = replace(self.joints.pop(), id="top", name=name)
        assembly = joined((*self.leaves.parts, *self.joints, last), Placed(part="top", at=ORIGIN, turn=0))
        return Surrounded(assembly=assembly, width=self.width, height=self.height, at=self.at)

    def _butted(self, fabric: str, widths: Point, *, names: tuple[str, str]) -> None:
        """Sew strips to the sides, then to top and bottom; a strip without width is left out."""
        if sign(widths[0]):
            self._sides(self._strip(fabric, (self.height, widths[0]), name=names[0]), widths[0])
        if sign(widths[1]):
            self._ends(self._strip(fabric, (self.width, widths[1]), name=names[1]), widths[1])

    def _with_squares(self, border: Border, where: str) -> None:
        """Sew strips to the sides; those for top and bottom get a square at both ends first."""
        if not border.corner:
            raise BadField(where=f"{where}.corner")
        wide, across = border.width, self.width
        strip = self._strip(border.fabric, (across, wide), name=END_BORDER)
        square = self._strip(border.corner, (wide, wide), name=CORNER_SQUARE)
        self._sides(self._strip(border.fabric, (self.height, wide), name=SIDE_BORDER), wide)
        row = (square, _moved(strip, wide), _moved(square, wide + across))
        self._ends(self._joint((row,), (across + 2 * wide, wide), name=END_WITH_CORNERS), wide)

    def _row(self, border: PiecedBorder, count: int, *, name: str) -> Placed:
        """Join the blocks along one side; those at top and bottom get the corner blocks at their ends."""
        long, deep = border.unit.size
        ends = name == PIECED_END
        start = deep if ends else ORIGIN[0]
        row = [self.leaves.sewn(border.unit, at=(start + n * long, ORIGIN[1])) for n in range(count)]
        if ends:
            right = PlacedDrawing(block=border.corner.block, turn=border.corner.turn + 1)
            row.insert(0, self.leaves.sewn(border.corner, at=ORIGIN))
            row.append(self.leaves.sewn(right, at=(start + count * long, ORIGIN[1])))
        if len(row) == 1:
            return row[0]
        return self._joint((tuple(row),), (2 * start + count * long, deep), name=name)

    def _sides(self, side: Placed, wide: Number) -> None:
        """Sew a part, placed as it lies at the top, to the left and the right side."""
        zero, right = ORIGIN[0], wide + self.width
        row = (
            replace(side, turn=(side.turn + 3) % QUARTERS),
            Placed(part=self.inner, at=(wide, zero), turn=0),
            replace(side, at=(right, zero), turn=(side.turn + 1) % QUARTERS),
        )
        self.width += 2 * wide
        self.at = (self.at[0] + wide, self.at[1])
        self.inner = self._joint((row,), (self.width, self.height), name="centre with sides").part

    def _ends(self, end: Placed, wide: Number) -> None:
        """Sew a part, placed as it lies at the top, to top and bottom."""
        zero, bottom = ORIGIN[0], wide + self.height
        rows = (
            (end,),
            (Placed(part=self.inner, at=(zero, wide), turn=0),),
            (replace(end, at=(zero, bottom), turn=(end.turn + 2) % QUARTERS),),
        )
        self.height += 2 * wide
        self.at = (self.at[0], self.at[1] + wide)
        self.inner = self._joint(rows, (self.width, self.height), name="centre with border").part

    def _mitred(self, border: Border) -> None:
        """Sew a strip to each side, ends left free, and each corner from the inside out on the slant."""
        wide = border.width
        inner = rectangle((self.width, self.height))
        inner = tuple((x + wide, y + wide) for x, y in inner)
        outer = rectangle((self.width + 2 * wide, self.height + 2 * wide))
        placed = [Placed(part=self.inner, at=inner[0], turn=0)]
        for side, turned_by in enumerate(TURNS):
            long = self.height if side % 2 else self.width
            part = self.leaves.trapezoid(border.fabric, (long, wide), name=MITRED_STRIP)
            placed.append(Placed(part=part, at=outer[side], turn=0, turned_by=turned_by))
        self.width, self.height = outer[2]
        self.at = (self.at[0] + wide, self.at[1] + wide)
        whole = Fitted(
            id=self._name("mitred"),
            width=self.width,
            height=self.height,
            outline=outer,
            placed=tuple(placed),
            seams=tuple(_mitre_seams(inner, outer)),
            name="centre with border",
        )
        self.joints.append(whole)
        self.inner = whole.id

    def _joint(self, rows: tuple[tuple[Placed, ...], ...], size: Point, *, name: str) -> Placed:
        part = Rows(id=self._name(name), width=size[0], height=size[1], rows=rows, name=name)
        self.joints.append(part)
        return Placed(part=part.id, at=ORIGIN, turn=0)

    def _strip(self, fabric: str, size: Point, *, name: str) -> Placed:
        return self.leaves.strip(fabric, size, at=ORIGIN, name=name)

    def _name(self, name: str) -> str:
        slug = name.replace(" ", "-")
        count = sum(part.id.startswith(slug) for part in self.joints)
        return f"{slug}-{count + 1}" if count else slug


def _moved(placed: Placed, x: Number) -> Placed:
    return replace(placed, at=(x, ORIGIN[1]))


def _mitre_seams(inner: Sequence[Point], outer: Sequence[Point]) -> Iterator[Seam]:
    """Give the seam of each strip, clockwise from the top: along its side, and the corners it closes."""
    yield Seam(part=1, path=(inner[0], inner[1]))
    for side in (1, 2):
        path = (outer[side], inner[side], inner[side + 1])
        yield Seam(part=side + 1, path=path, kind=SeamKind.SET_IN)
    yield Seam(part=4, path=(outer[3], inner[3], inner[0], outer[0]), kind=SeamKind.SET_IN)
