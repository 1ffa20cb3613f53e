"""A block from an SVG picture: filled shapes, snapped to an exact grid.

Read are polygons, rectangles, polylines, and paths of straight edges and quarter or half circles, in groups
with transforms; every fill colour is a fabric letter.  Lines and words are passed over.  Shapes in a group
that says data-applique="true" are appliqué on the patches; nothing else is taken for that.  What would change
the picture and is not read (other curves, clones, nested pictures, skews) is refused by name, never drawn
approximately.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.engine.blocks import (
    MOST_CORNERS,
    MOST_CORNERS_OF_A_SHAPE,
    MOST_PATCHES,
    MOST_SHAPES,
    MOST_SPOTS,
    Block,
    TooManyShapes,
    block_from_data,
)
from patterns.engine.errors import BadSvg, NoPatches, OffGrid, TooLarge, TooManyPatches
from patterns.engine.parts import Point
from patterns.engine.surds import root, sign, write_number
from patterns.engine.svg_arcs import Arc, Entry
from patterns.engine.svg_letters import Look, Rules, class_rules, letters_of, look_of
from patterns.engine.svg_numbers import Matrix, Spot, length, numbers, transform
from patterns.engine.svg_outlines import SHAPES, outlines
from patterns.engine.svg_snapping import Grid, Snapped, snapped
from patterns.engine.svg_tree import Node, read_tree

_GROUPS = ("g", "a")
_NOT_READ = ("svg", "use", "switch")  # they draw what is not seen where they stand
_COUNT = re.compile(r"[0-9]{1,9}", re.ASCII)
_WIDTH = re.compile(r"(-?[0-9]{1,18}) (-?[0-9]{1,18})", re.ASCII)
_SIDES = 4
_MOST_ROOTS = 9_999  # looked through for every corner
_TOUCHING = Fraction(1, 1_000)  # of the width


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    """A filled outline in the picture's own numbers."""

    name: str
    look: Look
    spots: tuple[Spot, ...]
    arcs: Mapping[int, Arc]  # that lead to a corner from the one before


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """The rectangle that is the block, in the picture's own numbers."""

    left: Fraction
    top: Fraction
    width: Fraction
    height: Fraction

    @property
    def ratio(self) -> Fraction:
        """Give the height as a share of the width."""
        return self.height / self.width

    def shares(self, spot: Spot) -> Spot:
        """Give a point as shares of the width, from the top left corner."""
        return (spot[0] - self.left) / self.width, (spot[1] - self.top) / self.width

    def is_page_round(self, other: _Frame) -> bool:
        """Say whether another rectangle lies inside and touches no side."""
        left, top = self.shares((other.left, other.top))
        right, bottom = self.shares((other.left + other.width, other.top + other.height))
        across = left > _TOUCHING and right < 1 - _TOUCHING
        return across and top > _TOUCHING and bottom < self.ratio - _TOUCHING


def block_from_svg(text: str, *, name: str = "Block") -> Block:
    """Read a picture as a block, and prove that its patches tile it.

    `name` is used where the picture has no title.  Raises a DrawingError with its place: BadSvg,
    UnsafeSvg, OutsideReference, TooLarge, TooManyPatches, Curve, BadTransform, NoPatches, OffGrid, and
    those of `block_from_data`.
    """
    return block_from_data(svg_as_data(text, name=name))


def svg_as_data(text: str, *, name: str = "Block") -> dict[str, Any]:
    """Give a picture as the drawing file; errors as `block_from_svg`, save those of `block_from_data`."""
    picture = read_tree(text)
    shapes = _shapes(picture)
    frame = _frame(picture, shapes)
    grid = _snapped(shapes, frame, stated=_stated_grid(picture))
    letters = letters_of([shape.look for shape in shapes])
    rows: dict[bool, list[dict[str, Any]]] = {False: [], True: []}
    for shape, letter in zip(shapes, letters, strict=True):
        rows[shape.look.lies_on].append({"fabric": letter, "points": _corners(shape, frame, grid)})
    return {
        **_words(picture, name),
        "grid": [write_number(grid.width), write_number(grid.numbers[frame.ratio])],
        "patches": rows[False],
        **({"applique": rows[True]} if rows[True] else {}),
    }


def _shapes(picture: Node) -> list[_Shape]:
    shapes: list[_Shape] = []
    count = 0
    for shape in _inside(picture, Look(), Matrix(), rules=class_rules(picture)):
        shapes.append(shape)
        count += len(shape.spots)
        most = MOST_CORNERS_OF_A_SHAPE if shape.look.lies_on else MOST_CORNERS
        if len(shape.spots) > most or count > MOST_SPOTS:
            raise TooLarge(where=shape.name)
    laid = sum(shape.look.lies_on for shape in shapes)
    if laid > MOST_SHAPES:
        raise TooManyShapes(where=picture.name, count=laid, most=MOST_SHAPES)
    if len(shapes) - laid > MOST_PATCHES:
        raise TooManyPatches(where=picture.name, count=len(shapes) - laid, most=MOST_PATCHES)
    if not shapes:
        raise NoPatches(where=picture.name)
    return shapes


def _inside(node: Node, above: Look, outer: Matrix, *, rules: Rules) -> Iterator[_Shape]:
    """Give the filled shapes of a group, or a shape itself, in the order in which they are drawn."""
    look = look_of(node, above, rules)
    if not look.shown:
        return
    where = f"{node.name}.transform"
    matrix = outer.then_inside(transform(node.attributes.get("transform", ""), where), where)
    if node.tag in SHAPES:
        if look.is_patch:
            for outline in outlines(node):
                spots = tuple(map(matrix.of, outline.spots))
                arcs = {place: arc.moved(matrix, node.name) for place, arc in outline.arcs.items()}
                yield _Shape(name=node.name, look=look, spots=spots, arcs=arcs)
        return
    for child in node.children:
        if child.tag in _NOT_READ:
            raise BadSvg(where=child.name)
        if child.tag in _GROUPS or child.tag in SHAPES:
            yield from _inside(child, look, matrix, rules=rules)


def _frame(picture: Node, shapes: Sequence[_Shape]) -> _Frame:
    """Give the picture's own rectangle; the shapes' where the picture has none, or is a page round them."""
    xs, ys = zip(*(spot for shape in shapes for spot in shape.spots), strict=True)
    left, top = min(xs), min(ys)
    drawn = _Frame(left=left, top=top, width=max(xs) - left, height=max(ys) - top)
    if not drawn.width or not drawn.height:
        raise NoPatches(where=picture.name)
    page = _page(picture)
    return drawn if page is None or page.is_page_round(drawn) else page


def _page(picture: Node) -> _Frame | None:
    """Read viewBox, else width and height; None where these are left out or in per cent."""
    said, name = picture.attributes, picture.name
    if "none" in said.get("preserveAspectRatio", ""):
        raise BadSvg(where=f"{name}.preserveAspectRatio")
    if "viewBox" in said:
        sides = numbers(said["viewBox"], f"{name}.viewBox", most=_SIDES)
    elif any(said.get(key, "%").strip().endswith(("%", "auto")) for key in ("width", "height")):
        return None
    else:
        sizes = [length(said[key], f"{name}.{key}") for key in ("width", "height")]
        sides = [Fraction(0), Fraction(0), *sizes]
    if len(sides) != _SIDES or min(sides[2:]) <= 0:
        raise BadSvg(where=f"{name}.viewBox" if "viewBox" in said else f"{name}.width")
    left, top, width, height = sides
    return _Frame(left=left, top=top, width=width, height=height)


def _snapped(shapes: Sequence[_Shape], frame: _Frame, *, stated: Grid | None) -> Snapped:
    """Find the grid of all corners; OffGrid names one that misses it: its shape, and the point as drawn."""
    first: dict[Fraction, tuple[str, Spot]] = {}
    for shape in shapes:
        for spot in shape.spots:
            for share in frame.shares(spot):
                first.setdefault(share, (shape.name, spot))
    found = snapped([frame.ratio, Fraction(1), *first], stated=stated)
    if isinstance(found, Snapped):
        return found
    if found not in first:
        raise OffGrid(where="svg.viewBox")
    name, (x, y) = first[found]
    raise OffGrid(where=f"{name} {_written(x)},{_written(y)}")


def _written(number: Fraction) -> str:
    """Write a coordinate with at most three decimals."""
    thousandths = round(number * 1000)
    whole, rest = divmod(abs(thousandths), 1000)
    return f"{'-' if thousandths < 0 else ''}{whole}" + f".{rest:03d}".rstrip("0").rstrip(".")


def _corners(shape: _Shape, frame: _Frame, grid: Snapped) -> list[Entry]:
    """Write the corners on the grid and the arcs between them; a corner on the one before is left out."""
    points = [(grid.numbers[x], grid.numbers[y]) for x, y in map(frame.shares, shape.spots)]
    rows: list[list[Entry]] = [
        [*_between(shape, points, frame, place=i), [*map(write_number, point)]]
        if point != points[i - 1]
        else []
        for i, point in enumerate(points)
    ]
    kept = [*rows[0][-1:], *(entry for row in rows[1:] for entry in row), *rows[0][:-1]]
    return kept or [[*map(write_number, points[0])]] * 3  # nothing is left: named as one without area


def _between(shape: _Shape, points: Sequence[Point], frame: _Frame, *, place: int) -> Iterator[Entry]:
    """Give the arc that leads to a corner, if one does; Curve names one that is no quarter or half circle."""
    arc = shape.arcs.get(place)
    if arc is not None:
        before = shape.spots[place - 1]
        where = f"{shape.name} {_written(before[0])},{_written(before[1])}"
        quarters = arc.quarters((before, shape.spots[place]), width=frame.width, where=where)
        yield from arc.entries(points[place - 1], points[place], quarters=quarters)


def _words(picture: Node, name: str) -> dict[str, Any]:
    """Give the title as the block's name, and the other names and category that we write."""
    titles = (child.text for child in picture.children if child.tag == "title")
    words: dict[str, Any] = {"name": " ".join(next(titles, "").split()) or name}
    if "data-names" in picture.attributes:
        try:
            words["names"] = json.loads(picture.attributes["data-names"])
        except (ValueError, RecursionError) as error:
            raise BadSvg(where=f"{picture.name}.data-names") from error
    if "data-category" in picture.attributes:
        words["category"] = picture.attributes["data-category"]
    return words


def _stated_grid(picture: Node) -> Grid | None:
    """Read the grid that a picture of ours states; None where it states none, or not as we do."""
    said = picture.attributes
    counts = [said.get(f"data-grid-{key}", "") for key in ("parts", "root", "most-roots")]
    width = _WIDTH.fullmatch(said.get("data-grid-width", ""))
    if width is None or not all(map(_COUNT.fullmatch, counts)):
        return None
    parts, under_root, most_roots = map(int, counts)
    if not parts or not 0 < under_root <= _MOST_ROOTS or most_roots > _MOST_ROOTS:
        return None
    across = (int(width[1]) + root(under_root) * int(width[2])) / parts
    if sign(across) <= 0:
        return None
    return Grid(width=across, parts=parts, under_root=under_root, most_roots=most_roots)
