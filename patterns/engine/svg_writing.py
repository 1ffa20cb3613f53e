"""A block as a plain SVG picture, which `svg_reading` reads back as the same block.

Coordinates are the grid's own numbers times its common denominator, so that a drawing without roots
has whole numbers only; roots are written with 12 decimals.  The picture states its grid
(data-grid-...), each patch its letter (data-letter); appliqué shapes lie in a group (data-applique).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm
from xml.sax.saxutils import escape, quoteattr

from patterns.engine.blocks import Block
from patterns.engine.errors import BadNumber
from patterns.engine.parts import Patch, Point
from patterns.engine.surds import Number, Surd
from patterns.engine.svg_arcs import folded, is_clockwise, radius
from patterns.engine.svg_letters import APPLIQUE
from patterns.engine.svg_numbers import nearly

PIXELS = 600  # the wider side, where a picture is shown at its own size

_PLACES = 12
_STEPS = (47, 83, 113)  # each without a factor in common with 180
_NOT_XML = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def block_as_svg(block: Block) -> str:
    """Write a block as a picture; BadNumber when it has roots of two kinds.

    `block_from_svg` reads the same block back, but for corners given twice in a row, and characters
    and runs of spaces in its name that XML does not keep.
    """
    grid = _Grid.of(block)
    sides = f"{grid.written(block.width)} {grid.written(block.height)}"
    facts = f'{_size(block)} viewBox="0 0 {sides}" {grid.stated(block.width)}{_other_names(block)}'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {facts}>'
    title = f"<title>{escape(_kept(block.name))}</title>"
    pieced, shapes = ([_polygon(patch, grid) for patch in drawn] for drawn in (block.patches, block.applique))
    group = (f'<g {APPLIQUE}="true">', *shapes, "</g>") if shapes else ()
    return "\n".join((head, title, *pieced, *group, "</svg>", ""))


def _polygon(patch: Patch, grid: _Grid) -> str:
    """Write a patch; as a path where quarter circles are among its edges."""
    look = f'data-letter="{patch.fabric}" fill="{fill_of(patch.fabric)}"'
    corners = folded(patch.points)
    if any(centre for _, centre in corners):
        return f'<path {look} d="{_path(corners, grid)}"/>'
    points = " ".join(map(grid.spot, patch.points))
    return f'<polygon {look} points="{points}"/>'


def _path(corners: Sequence[tuple[Point, Point | None]], grid: _Grid) -> str:
    """Draw from corner to corner, straight or round the centre that is given."""
    ends = [corner for corner, _ in (*corners[1:], corners[0])]
    drawn = [f"M{grid.spot(corners[0][0])}"]
    for (start, centre), end in zip(corners, ends, strict=True):
        if centre is None:
            drawn.append(f"L{grid.spot(end)}")
        else:
            size = grid.written(radius(start, centre))
            way_round = int(is_clockwise(start, end, centre))
            drawn.append(f"A{size},{size} 0 0 {way_round} {grid.spot(end)}")
    return " ".join((*drawn, "Z"))


def fill_of(letter: str) -> str:
    """Give the colour a letter is drawn in, another for each of the first 180."""
    number = 0
    for sign in letter:
        number = number * 26 + ord(sign) - ord("A") + 1
    return "#" + "".join(f"{60 + number * step % 180:02x}" for step in _STEPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """The numbers (a + b sqrt(d)) / parts that all coordinates of a block are."""

    parts: int
    under_root: int
    most_roots: int

    @classmethod
    def of(cls, block: Block) -> _Grid:
        """Find the grid of a block."""
        points = (
            (block.width, block.height),
            *(point for patch in block.cloth for point, _ in folded(patch.points)),
        )
        terms = [term for point in points for number in point for term in _terms(number)]
        roots = {n for n, _ in terms if n > 1}
        if len(roots) > 1:
            raise BadNumber(where="grid")
        parts = lcm(*(coefficient.denominator for _, coefficient in terms))
        most = max((abs(coefficient * parts) for n, coefficient in terms if n > 1), default=0)
        return cls(parts=parts, under_root=max(roots, default=1), most_roots=int(most))

    def stated(self, width: Number) -> str:
        """Write the grid, with the width in its steps."""
        steps = dict(_terms(width * self.parts))
        rooted = steps.get(self.under_root, 0) if self.most_roots else 0
        return (
            f'data-grid-parts="{self.parts}" data-grid-root="{self.under_root}" '
            f'data-grid-most-roots="{self.most_roots}" data-grid-width="{steps.get(1, 0)} {rooted}"'
        )

    def spot(self, point: Point) -> str:
        """Write a point."""
        return f"{self.written(point[0])},{self.written(point[1])}"

    def written(self, number: Number) -> str:
        """Write a coordinate in steps of the grid: whole, or with twelve decimals where it has a root."""
        steps = nearly(number * self.parts)
        if steps.denominator == 1:
            return str(steps.numerator)
        whole, rest = divmod(round(abs(steps) * 10**_PLACES), 10**_PLACES)
        return f"{'-' if steps < 0 else ''}{whole}.{rest:0{_PLACES}d}"


def _terms(number: Number) -> Iterable[tuple[int, Fraction]]:
    return number.terms if isinstance(number, Surd) else ((1, number),)


def _size(block: Block) -> str:
    """Give width and height in px for where the picture stands alone."""
    width, height = nearly(block.width), nearly(block.height)
    scale = PIXELS / max(width, height)
    return f'width="{max(round(width * scale), 1)}" height="{max(round(height * scale), 1)}"'


def _other_names(block: Block) -> str:
    names = f" data-names={quoteattr(json.dumps(block.names))}" if block.names else ""
    return names + (f" data-category={quoteattr(_kept(block.category))}" if block.category else "")


def _kept(words: str) -> str:
    """Leave out what XML cannot hold."""
    return _NOT_XML.sub("", words)
