"""Blocks: a partition of a rectangle into patches, each with a fabric letter; the drawing file in and out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from patterns.engine import geometry
from patterns.engine.drawing_fields import (
    list_field,
    plain_number,
    read_patch,
    read_point,
    refuse_unknown,
    text_field,
)
from patterns.engine.errors import (
    BadField,
    BadNumber,
    BadSize,
    DrawingError,
    TooLarge,
    TooManyPatches,
    UnknownLetter,
)
from patterns.engine.partition import check_outline, check_partition
from patterns.engine.parts import Patch, Point, Shape
from patterns.engine.surds import Number, Surd, sign

MOST_PATCHES = 1500
MOST_CORNERS = 40  # of one patch
MOST_SPOTS = 10_000  # corners of all patches together
MOST_NAMES = 40
MOST_SHAPES = 200  # appliqué shapes on one block
MOST_CORNERS_OF_A_SHAPE = 240  # of one of them: twenty quarter circles

_FIELDS = ("name", "names", "category", "grid", "patches", "applique")


class TooManyShapes(TooManyPatches):
    """A drawing has more appliqué shapes than anybody sews on one block."""

    kind = "too-many-shapes"
    remedy = "draw-fewer-shapes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A drawing: patches in the numbers of its grid, or in finished inches after `at_size`.

    The patches are pieced.  Appliqué shapes lie on them, each on those before it.
    """

    name: str
    width: Number
    height: Number
    patches: tuple[Patch, ...]
    names: tuple[str, ...] = ()  # other names the block goes by
    category: str = ""
    applique: tuple[Shape, ...] = ()

    @property
    def letters(self) -> tuple[str, ...]:
        """Give the fabric letters, each once: A to Z, then AA."""
        return tuple(sorted({patch.fabric for patch in self.cloth}, key=letter_order))

    @property
    def cloth(self) -> tuple[Patch, ...]:
        """Give what is seen, from the lowest to the topmost: the patches, then the appliqué shapes."""
        return (*self.patches, *self.applique)

    @property
    def laid_over(self) -> set[tuple[str, str]]:
        """Give the letters of each appliqué shape and of what lies below it, by their upright boxes."""
        boxes = [(each.fabric, geometry.bounds(each.points)) for each in self.cloth]
        first = len(self.patches)
        return {
            (fabric, below)
            for number, (fabric, box) in enumerate(boxes[first:], first)
            for below, other in boxes[:number]
            if geometry.boxes_meet(box, other)
        }

    @property
    def is_plain(self) -> bool:
        """Whether it is one piece of one fabric, with nothing on it."""
        return len(self.cloth) == 1

    def turned(self, quarters: int) -> Block:
        """Turn clockwise by quarter turns."""
        size = (self.width, self.height)
        width, height = reversed(size) if quarters % 2 else size
        return self._redrawn(
            lambda points: exact_points(geometry.quarter_turned(points, quarters, size=size)),
            (width, height),
        )

    def mirrored(self) -> Block:
        """Mirror left and right."""
        return self._redrawn(
            lambda points: tuple((self.width - x, y) for x, y in reversed(points)), (self.width, self.height)
        )

    def relettered(self, mapping: Mapping[str, str]) -> Block:
        """Translate every letter; UnknownLetter names one that is not in the list."""
        for number, patch in enumerate(self.cloth):
            if patch.fabric not in mapping:
                pieced = (number,) if number < len(self.patches) else ()
                raise UnknownLetter(where=patch.fabric, patches=pieced)
        return replace(
            self,
            patches=tuple(replace(patch, fabric=mapping[patch.fabric]) for patch in self.patches),
            applique=tuple(replace(shape, fabric=mapping[shape.fabric]) for shape in self.applique),
        )

    def at_size(self, width: Number, height: Number) -> Block:
        """Draw to finished inches; BadSize when a side is not above zero."""
        if sign(width) <= 0 or sign(height) <= 0:
            raise BadSize(where="size")
        across, down = width / self.width, height / self.height
        return self._redrawn(lambda points: tuple((x * across, y * down) for x, y in points), (width, height))

    def moved(self, way: Point) -> Block:
        """Move every patch and shape; the size stays."""
        return self._redrawn(
            lambda points: tuple((x + way[0], y + way[1]) for x, y in points), (self.width, self.height)
        )

    def _redrawn(self, change: Callable[[tuple[Point, ...]], tuple[Point, ...]], size: Point) -> Block:
        """Give the block with other corners, width and height."""
        return replace(
            self,
            width=size[0],
            height=size[1],
            patches=tuple(replace(patch, points=change(patch.points)) for patch in self.patches),
            applique=tuple(replace(shape, points=change(shape.points)) for shape in self.applique),
        )


def letter_order(letter: str) -> tuple[int, str]:
    """Sort letters as they are given out: A to Z, then AA."""
    return len(letter), letter


def letters_in(drawing: Mapping[str, Any]) -> list[str]:
    """Give the letters of a drawing file that has been proved, each once: A to Z, then AA."""
    rows = (*drawing["patches"], *drawing.get("applique", ()))
    return sorted({row["fabric"] for row in rows}, key=letter_order)


def exact_points(polygon: geometry.Polygon) -> tuple[Point, ...]:
    """Make whole coordinates Fractions."""
    return tuple((geometry.exact(x), geometry.exact(y)) for x, y in polygon)


def block_from_data(data: Mapping[str, Any]) -> Block:
    """Read a block drawing file that has been loaded from JSON, and prove that it is a partition.

    Raises a DrawingError with the field or the place: BadField, UnknownField, BadNumber, BadSize,
    BadLetter, TooManyPatches, TooManyShapes, TooLarge, and the faults of `check_partition`; those of an
    appliqué shape name its field.
    """
    if not isinstance(data, Mapping):
        raise BadField(where="drawing")
    refuse_unknown(data, _FIELDS, "")
    width, height = read_point(data.get("grid"), "grid")
    if sign(width) <= 0 or sign(height) <= 0:
        raise BadSize(where="grid")
    patches = _patches(data.get("patches"))
    names = list_field(data.get("names", []), "names", most=MOST_NAMES, least=0)
    block = Block(
        name=text_field(data.get("name"), "name"),
        width=width,
        height=height,
        patches=patches,
        names=tuple(text_field(name, f"names[{number}]") for number, name in enumerate(names)),
        category=text_field(data.get("category", ""), "category", least=0),
        applique=shapes_from_data(data.get("applique", [])),
    )
    _refuse_second_root(block)
    check_partition(width, height, patches)
    _check_shapes(block)
    return block


def block_as_data(block: Block) -> dict[str, Any]:
    """Write the drawing file; `block_from_data` reads the same block back."""
    data: dict[str, Any] = {"name": block.name}
    if block.names:
        data["names"] = list(block.names)
    if block.category:
        data["category"] = block.category
    data |= {
        "grid": [plain_number(block.width), plain_number(block.height)],
        "patches": patches_as_data(block.patches),
    }
    return data | {"applique": patches_as_data(block.applique)} if block.applique else data


def patches_as_data(patches: Sequence[Patch]) -> list[dict[str, Any]]:
    """Write patches or appliqué shapes as a drawing file has them."""
    return [
        {"fabric": patch.fabric, "points": [[plain_number(x), plain_number(y)] for x, y in patch.points]}
        for patch in patches
    ]


def shapes_from_data(data: object) -> tuple[Shape, ...]:
    """Read the appliqué shapes of a drawing file; where they lie is not looked at."""
    if isinstance(data, list | tuple) and len(data) > MOST_SHAPES:
        raise TooManyShapes(where="applique", count=len(data), most=MOST_SHAPES)
    drawn = list_field(data, "applique", most=MOST_SHAPES, least=0)
    most = MOST_CORNERS_OF_A_SHAPE
    found = [read_patch(shape, f"applique[{number}]", most=most) for number, shape in enumerate(drawn)]
    for number, each in enumerate(found):
        if len(each.points) > most:
            raise TooLarge(where=f"applique[{number}].points")
    shapes = tuple(Shape(each.fabric, each.points) for each in found)
    if sum(len(shape.points) for shape in shapes) > MOST_SPOTS:
        raise TooLarge(where="applique")
    return shapes


def _check_shapes(block: Block) -> None:
    """Refuse a shape that is no proper outline, or that does not lie wholly on the block."""
    for number, shape in enumerate(block.applique):
        try:
            check_outline(block.width, block.height, shape)
        except DrawingError as error:
            raise type(error)(where=f"applique[{number}].points") from error


def _patches(data: object) -> tuple[Patch, ...]:
    if isinstance(data, list | tuple) and len(data) > MOST_PATCHES:
        raise TooManyPatches(where="patches", count=len(data), most=MOST_PATCHES)
    drawn = list_field(data, "patches", most=MOST_PATCHES)
    patches = tuple(
        read_patch(patch, f"patches[{number}]", most=MOST_CORNERS) for number, patch in enumerate(drawn)
    )
    if sum(len(patch.points) for patch in patches) > MOST_SPOTS:
        raise TooLarge(where="patches")
    return patches


def _refuse_second_root(block: Block) -> None:
    """Refuse a drawing with two different roots: no grid has both sqrt(2) and sqrt(3)."""
    roots = _roots(block.width) | _roots(block.height)
    drawn = [(f"patches[{i}]", patch) for i, patch in enumerate(block.patches)]
    drawn += [(f"applique[{i}]", shape) for i, shape in enumerate(block.applique)]
    for where, patch in drawn:
        for n, point in enumerate(patch.points):
            roots |= _roots(point[0]) | _roots(point[1])
            if len(roots) > 1:
                raise BadNumber(where=f"{where}.points[{n}]")


def _roots(number: Number) -> set[int]:
    return {n for n, _ in number.terms if n > 1} if isinstance(number, Surd) else set()
