"""A drawing board: seams on a numbered grid and the letters of the patches they make, as plain data too."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from patterns.engine.blocks import (
    Block,
    block_as_data,
    block_from_data,
    patches_as_data,
    shapes_from_data,
)
from patterns.engine.measure import inches, write_inches
from patterns.engine.seam_lines import Seam, seams_of
from patterns.engine.subdivision import (
    Subdivision,
    letter_points,
    letters_over,
    patches_of,
)
from patterns.engine.surds import parse_number, write_number

if TYPE_CHECKING:
    from collections.abc import Mapping

    from patterns.engine.parts import Point, Shape
    from patterns.engine.surds import Number

LEAST_GRID, MOST_GRID, USUAL_GRID = 2, 16, 4
_MOST_PARTS = 48  # of a grid step
_LONGEST = 24  # characters of a typed number
_UNNAMED = "Block"


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A drawing in work.  Numbers are grid steps; `letters` are remembered by a point inside each patch.

    Appliqué shapes are kept as the drawing has them.
    """

    name: str = ""
    names: tuple[str, ...] = ()
    category: str = ""
    width: Number = Fraction(USUAL_GRID)
    height: Number = Fraction(USUAL_GRID)
    seams: tuple[Seam, ...] = ()
    letters: Mapping[Point, str] = field(default_factory=dict)
    applique: tuple[Shape, ...] = ()

    def divided(self) -> Subdivision:
        """Divide the grid by the seams."""
        return patches_of(self.width, self.height, self.seams, letters=self.letters)

    def block(self) -> Block:
        """Give the drawing, seams that divide nothing left out, as its file would be read back.

        DrawingError where the file could not hold it: too many patches or corners, or a crossing whose
        place is no short fraction.
        """
        drawn = Block(
            name=self.name or _UNNAMED,
            names=self.names,
            category=self.category,
            width=self.width,
            height=self.height,
            patches=self.divided().patches,
            applique=self.applique,
        )
        return block_from_data(block_as_data(drawn))

    def with_seams(self, seams: tuple[Seam, ...]) -> Board:
        """Draw these seams instead; every patch keeps the letter that lay there.  Errors as `block`."""
        return self._drawn_again(replace(self, seams=seams))

    def sized(self, width: Number, height: Number) -> Board:
        """Give the grid another size; SeamOutside where a seam does not fit it."""
        return self._drawn_again(replace(self, width=width, height=height))

    def lettered(self, letters: Mapping[Point, str]) -> Board:
        """Give the patches that hold these points these letters."""
        others = {point: letter for point, letter in self.letters.items() if point not in letters}
        chosen = {**letters, **others}  # the first that lies in a patch counts
        patches = patches_of(self.width, self.height, self.seams, letters=chosen).patches
        return replace(self, letters=letter_points(patches))

    def _drawn_again(self, changed: Board) -> Board:
        changed = replace(changed, letters={})
        letters = letters_over(changed.divided().patches, self.divided().patches)
        changed = replace(changed, letters=letters)
        changed.block()
        return changed


def board_of(block: Block) -> Board:
    """Lay a drawing on the board."""
    return Board(
        name=block.name,
        names=block.names,
        category=block.category,
        width=block.width,
        height=block.height,
        seams=seams_of(block.width, block.height, block.patches),
        letters=letter_points(block.patches),
        applique=block.applique,
    )


def board_as_data(board: Board) -> dict[str, Any]:
    """Write a board as plain data; `board_from_data` reads it back."""
    return {
        "name": board.name,
        "names": list(board.names),
        "category": board.category,
        "grid": _written((board.width, board.height)),
        "seams": [_seam_as_data(seam) for seam in board.seams],
        "letters": [[*_written(point), letter] for point, letter in board.letters.items()],
        "applique": patches_as_data(board.applique),
    }


def board_from_data(data: dict[str, Any]) -> Board:
    """Read a board that `board_as_data` wrote."""
    width, height = map(parse_number, data["grid"])
    return Board(
        name=data["name"],
        names=tuple(data["names"]),
        category=data["category"],
        width=width,
        height=height,
        seams=tuple(map(_seam_from_data, data["seams"])),
        letters={(parse_number(x), parse_number(y)): letter for x, y, letter in data["letters"]},
        applique=shapes_from_data(data.get("applique", [])),
    )


def read_point(text: str) -> Point:
    """Read a typed point, "3, 1" or "1 1/2, 2"; ValueError where it is none."""
    across, comma, down = text.replace(";", ",").partition(",")
    if not comma:
        raise ValueError(text)
    return read_number(across), read_number(down)


def read_number(text: str) -> Fraction:
    """Read a number of grid steps: "3", "1 1/2", "1.5"; ValueError where it is none, or finer than 1/48."""
    if len(text) > _LONGEST:
        raise ValueError(text)
    try:
        number = inches(text.strip())
    except ZeroDivisionError as error:
        raise ValueError(text) from error
    if number.denominator > _MOST_PARTS:
        raise ValueError(text)
    return number


def point_text(point: Point) -> str:
    """Say a point as it is typed: "1 1/2, 2"."""
    return f"{number_text(point[0])}, {number_text(point[1])}"


def number_text(number: Number) -> str:
    """Say a number of grid steps as it is typed."""
    return write_inches(number) if isinstance(number, Fraction) else write_number(number)


def _seam_as_data(seam: Seam) -> list[str]:
    """Write both ends; of a quarter circle its centre too."""
    points = (seam.start, seam.end, *((seam.centre,) if seam.centre else ()))
    return [text for point in points for text in _written(point)]


def _seam_from_data(numbers: list[str]) -> Seam:
    across, down = (tuple(map(parse_number, numbers[k::2])) for k in (0, 1))
    start, end, *centre = zip(across, down, strict=True)
    return Seam(start=start, end=end, centre=centre[0] if centre else None)


def _written(point: Point) -> list[str]:
    return [write_number(number) for number in point]
