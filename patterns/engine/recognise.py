"""Which unit is a region?  Each kind is compared with its shape in the frame that `parts.Unit` states."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from patterns.engine import geometry
from patterns.engine.arcs import quarter
from patterns.engine.blocks import letter_order
from patterns.engine.geometry import QUARTERS, Box, Coordinate, Corner, Polygon
from patterns.engine.parts import Hand, UnitKind
from patterns.engine.regions import Region, grid_boxes

MOST_STRIPS = 9  # no unit has more patches
MOST_FLIPPED = 5  # a body and four corners
_PAIR, _TRIPLE = 2, 3
_OF_STRIPS = (UnitKind.FOUR_PATCH, UnitKind.NINE_PATCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class Recognised:
    """A region is this unit after `turn` quarter turns clockwise; polygons and fabrics by role."""

    kind: UnitKind
    fabrics: tuple[str, ...]
    polygons: tuple[Polygon, ...]
    turn: int
    hand: Hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """Where two mirror images have their fabrics alike, `hand` tells which this one is."""

    kind: UnitKind
    polygons: tuple[Polygon, ...]
    hand: Hand = Hand.EITHER


def recognise(region: Region) -> Recognised | None:
    """Say which unit a region is, or None.

    Where several turns fit, the one whose fabrics come first by letter is taken, so that equal units
    are equal.  A unit that differs from its mirror image is LEFT when its own fabrics come first; where
    they are alike, when its slanting seam leans to the left.
    """
    own = _best_turn(region) if len(region.polygons) <= MOST_STRIPS else None
    if own is None or own.hand is not Hand.EITHER:
        return own
    mirrored = _best_turn(region.mirrored())
    if mirrored is None or _rank(mirrored) == _rank(own):
        return own
    return replace(own, hand=Hand.LEFT if _rank(own) < _rank(mirrored) else Hand.RIGHT)


def _best_turn(region: Region) -> Recognised | None:
    """Try every turn; corners may be flipped only where the region is nothing better known."""
    turns = [(region.turned(turn), turn) for turn in range(QUARTERS)]
    for shapes in (_shapes, flipped_corners):
        found = [match for turned, turn in turns for match in _matches(turned, turn, shapes(turned))]
        if found:
            return min(found, key=lambda match: (*_rank(match), match.turn))
    return None


def _rank(match: Recognised) -> tuple[list[tuple[int, str]], tuple[Polygon, ...]]:
    return [letter_order(fabric) for fabric in match.fabrics], match.polygons


def _matches(region: Region, turn: int, shapes: Iterable[Shape]) -> Iterator[Recognised]:
    letters = dict(zip(region.polygons, region.letters, strict=True))
    for shape in shapes:
        if letters.keys() == set(shape.polygons):
            yield Recognised(
                kind=shape.kind,
                fabrics=tuple(letters[polygon] for polygon in shape.polygons),
                polygons=shape.polygons,
                turn=turn,
                hand=shape.hand,
            )


def _shapes(region: Region) -> Iterator[Shape]:
    """Give the shapes that fit the size and the number of patches.

    Strips and squares of one fabric only are no strip set, four-patch or nine-patch: nobody would cut
    strips of one fabric to sew them together again.
    """
    width, height = region.size
    count = len(region.polygons)
    if count == 1 and width >= height:
        kind = UnitKind.SQUARE if width == height else UnitKind.RECTANGLE
        yield Shape(kind=kind, polygons=(_rectangle((0, 0, width, height)),))
    plain = len(set(region.letters)) == 1
    if width == height:
        fitting = (shape for shape in _square_shapes(width) if len(shape.polygons) == count)
        yield from (shape for shape in fitting if not plain or shape.kind not in _OF_STRIPS)
    if count == _TRIPLE:
        yield _pointed(width, height)
    if count == _PAIR and height > width:
        yield from _half_rectangles(width, height)
    if count == _PAIR and height == width:
        yield from _quarter_circles(region)
    if count <= MOST_STRIPS and not plain:
        yield from _strips(region)


@lru_cache(maxsize=256)
def _square_shapes(side: Coordinate) -> tuple[Shape, ...]:
    """Give the shapes that fill a square: a search asks many times for few sizes."""
    return tuple(_draw_square_shapes(side))


def _draw_square_shapes(side: Coordinate) -> Iterator[Shape]:
    middle = geometry.half(side)
    left_top, right_top, right_bottom, left_bottom = (0, 0), (side, 0), (side, side), (0, side)
    centre = (middle, middle)
    top, right, bottom, left = (middle, 0), (side, middle), (middle, side), (0, middle)
    below = (left_top, right_bottom, left_bottom)
    upper = (left_top, right_top, centre)
    outer = (right_top, right_bottom, centre)
    yield _shape(UnitKind.HALF_SQUARE, below, (left_top, right_top, right_bottom))
    yield _shape(
        UnitKind.QUARTER_SQUARE,
        upper,
        outer,
        (right_bottom, left_bottom, centre),
        (left_bottom, left_top, centre),
    )
    yield _shape(UnitKind.THREE_PATCH, below, upper, outer)
    yield _shape(
        UnitKind.SQUARE_IN_A_SQUARE,
        (top, right, bottom, left),
        (left_top, top, left),
        (top, right_top, right),
        (right, right_bottom, bottom),
        (bottom, left_bottom, left),
    )
    yield _squares(UnitKind.FOUR_PATCH, side, (middle,))
    third = geometry.exact(side) / 3
    yield _squares(UnitKind.NINE_PATCH, side, (third, 2 * third))


def _pointed(width: Coordinate, height: Coordinate) -> Shape:
    """Give a triangle pointing to the middle of the upper edge: a goose where it is twice as wide as high."""
    point = (geometry.half(width), 0)
    return _shape(
        UnitKind.FLYING_GEESE if width == 2 * height else UnitKind.TRIANGLE_IN_A_SQUARE,
        ((0, height), point, (width, height)),
        ((0, 0), point, (0, height)),
        (point, (width, 0), (width, height)),
    )


def _half_rectangles(width: Coordinate, height: Coordinate) -> Iterator[Shape]:
    """Give both hands, left and right of the seam: its upper end tells which way it leans."""
    left_top, right_top, right_bottom, left_bottom = (0, 0), (width, 0), (width, height), (0, height)
    falling = _shape(
        UnitKind.HALF_RECTANGLE,
        (left_top, right_bottom, left_bottom),
        (left_top, right_top, right_bottom),
    )
    rising = _shape(
        UnitKind.HALF_RECTANGLE,
        (left_top, right_top, left_bottom),
        (right_top, right_bottom, left_bottom),
    )
    yield replace(falling, hand=Hand.LEFT)
    yield replace(rising, hand=Hand.RIGHT)


def _quarter_circles(region: Region) -> Iterator[Shape]:
    """Give the quarter circle round the top left corner, whose radius a patch there tells, and the rest."""
    side = region.size[0]
    for polygon in region.polygons:
        radius = max((x for x, y in polygon if y == 0 and (0, 0) in polygon), default=side)
        if 0 < radius < side:
            right, below = (radius, 0), (0, radius)
            arc = quarter(right, below, centre=(0, 0))
            outer = ((side, 0), (side, side), (0, side))
            yield _shape(
                UnitKind.DRUNKARDS_PATH, ((0, 0), right, *arc, below), (*outer, below, *reversed(arc), right)
            )


def _squares(kind: UnitKind, side: Coordinate, stops: Sequence[Coordinate]) -> Shape:
    rows = grid_boxes((side, side), stops, stops)
    return Shape(kind=kind, polygons=tuple(_rectangle(box) for row in rows for box in row))


def _strips(region: Region) -> Iterator[Shape]:
    """Give the strips side by side; two of unequal width are no strip set, only two pieces sewn together."""
    height = region.size[1]
    strips = sorted(region.polygons)
    bounds = [geometry.bounds(strip) for strip in strips]
    upright = all(
        strip == _rectangle((box[0], 0, box[2], height)) for strip, box in zip(strips, bounds, strict=True)
    )
    widths = {right - left for left, _, right, _ in bounds}
    if upright and (len(widths) == 1 or len(strips) > _PAIR):
        yield Shape(kind=UnitKind.STRIP_SET, polygons=tuple(strips))


def flipped_corners(region: Region) -> Iterator[Shape]:
    """Give a rectangle, lying or square, whose corners are cut off alike at 45 degrees."""
    width, height = region.size
    if width < height or not _PAIR <= len(region.polygons) <= MOST_FLIPPED:
        return
    corners = sorted(found for polygon in region.polygons if (found := _corner(polygon, region.size)))
    bodies = tuple(polygon for polygon in region.polygons if not _corner(polygon, region.size))
    if corners and len(bodies) == 1 and len({leg for _, leg, _ in corners}) == 1:
        polygons = (*bodies, *(polygon for _, _, polygon in corners))
        yield Shape(kind=UnitKind.CORNER_FLIP, polygons=polygons)


def _corner(polygon: Polygon, size: Corner) -> tuple[int, Coordinate, Polygon] | None:
    """Say which corner of a rectangle, clockwise from top left, a triangle with two equal legs is."""
    width, height = size
    left, _, right, _ = geometry.bounds(polygon)
    leg = right - left
    for number, (x, y) in enumerate(((0, 0), (width, 0), (width, height), (0, height))):
        inward, down = (-leg if x else leg), (-leg if y else leg)
        if {(x, y), (x + inward, y), (x, y + down)} == set(polygon):
            return number, leg, polygon
    return None


def _rectangle(box: Box) -> Polygon:
    left, top, right, bottom = box
    return geometry.tidied(((left, top), (right, top), (right, bottom), (left, bottom)))


def _shape(kind: UnitKind, *polygons: Sequence[Corner]) -> Shape:
    return Shape(kind=kind, polygons=tuple(geometry.tidied(polygon) for polygon in polygons))
