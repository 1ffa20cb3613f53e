"""The only file that knows SVG: a canvas that writes one picture, ready for a page or a sheet.

Each picture carries its size, a name for those who do not see it, and patterns whose ids begin with
the picture's own prefix: two different pictures on one page must not share them.
"""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

from patterns.engine.drawing import (
    GREY,
    NOTE,
    PLAIN_LETTERS,
    RED,
    Bend,
    Lettering,
    Outline,
    Pixel,
    Stroke,
    thousandths,
)
from patterns.engine.hatches import INK, Cloth, hatch_colour, hatch_tile

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

FONT = "Atkinson Hyperlegible Next"
PAGE_COLOURS: Mapping[str, str] = {  # for charts that stand on the page itself and follow its light or dark
    INK: "currentColor", RED: "var(--rub)", GREY: "var(--ink3)", NOTE: "var(--ink2)",
}  # fmt: skip

_FRACTION = re.compile(r"(?<![\d/])(?P<space> ?)(?P<top>\d+)/(?P<bottom>\d+)(?![\d/])")
_PREFIX = "\x00"  # stands for the prefix until the picture is done; no text can hold it
_FINE = Fraction(3, 5)  # px, the least width of a hatch line


@dataclass(slots=True, kw_only=True)
class SvgCanvas:
    """Writes SVG.  `colours` replaces some colours, see PAGE_COLOURS.

    `prefix` begins the ids of this picture; without one it follows from what is drawn, so the same
    drawing is the same text on every machine.
    """

    prefix: str = ""
    colours: Mapping[str, str] = field(default_factory=dict)
    _size: Pixel = (Fraction(0), Fraction(0))
    _shapes: list[str] = field(default_factory=list)
    _patterns: dict[str, str] = field(default_factory=dict)

    def page(self, width: Fraction, height: Fraction) -> None:
        """Set the size of the picture, px."""
        self._size = (width, height)

    def polygon(self, points: Outline, *, fill: str = "", edge: Stroke | None = None) -> None:
        """Write a polygon."""
        join = ' stroke-linejoin="round"' if edge else ""
        self._shapes.append(
            f'<polygon points="{_points(points)}"{self._fill(fill)}{self._stroke(edge)}{join}/>'
        )

    def polygons(self, outlines: Sequence[Outline], *, fill: str, edge: Stroke) -> None:
        """Write many polygons as one path."""
        path = "".join(f"M{_points(points)}Z" for points in outlines)
        self._shapes.append(
            f'<path d="{path}"{self._fill(fill)}{self._stroke(edge)} stroke-linejoin="round"/>'
        )

    def contour(self, points: Outline, bends: Mapping[int, Bend], *, edge: Stroke) -> None:
        """Write a line round a shape, its bent edges as arcs."""
        path = "M" + _points(points[:1])
        for i, end in enumerate((*points[1:], points[0])):
            bend = bends.get(i)
            arc = f"A{_n(bend.radius)} {_n(bend.radius)} 0 0 {int(bend.clockwise)} " if bend else "L"
            path += arc + _points((end,))
        self._shapes.append(f'<path d="{path}Z" fill="none"{self._stroke(edge)} stroke-linejoin="round"/>')

    def hatch(self, points: Outline, *, cloth: Cloth, tile: Fraction) -> None:
        """Write the same polygon again, filled with the cloth's pattern; nothing for a plain cloth."""
        name = self._pattern(cloth, tile)
        if name:
            self._shapes.append(f'<polygon points="{_points(points)}" fill="url(#{_PREFIX}{name})"/>')

    def line(self, start: Pixel, end: Pixel, *, stroke: Stroke) -> None:
        """Write a line."""
        ends = f'x1="{_n(start[0])}" y1="{_n(start[1])}" x2="{_n(end[0])}" y2="{_n(end[1])}"'
        self._shapes.append(f"<line {ends}{self._stroke(stroke)}/>")

    def disc(self, centre: Pixel, radii: Pixel, *, fill: str, edge: Stroke | None = None) -> None:
        """Write an ellipse."""
        where = f'cx="{_n(centre[0])}" cy="{_n(centre[1])}" rx="{_n(radii[0])}" ry="{_n(radii[1])}"'
        self._shapes.append(f"<ellipse {where}{self._fill(fill)}{self._stroke(edge)}/>")

    def text(self, at: Pixel, words: str, *, style: Lettering = PLAIN_LETTERS) -> None:
        """Write words, fractions in them set small."""
        x, y = _n(at[0]), _n(at[1])
        where = f'transform="translate({x},{y}) rotate(-90)"' if style.turned else f'x="{x}" y="{y}"'
        weight = ' font-weight="700"' if style.bold else ""
        look = f'font-size="{_n(style.size)}" text-anchor="{style.anchor}"{weight}{self._fill(style.colour)}'
        self._shapes.append(f"<text {where} {look}>{_set_fractions(words, style.size)}</text>")

    def svg(self, name: str, *, kind: str = "") -> str:
        """Give the whole picture; `name` says in words what it shows, `kind` is a class for the page."""
        width, height = (_n(side) for side in self._size)
        size = f'width="{width}" height="{height}" viewBox="0 0 {width} {height}"'
        reading = f'role="img" aria-label={quoteattr(_printable(name))}'
        reading += f" class={quoteattr(kind)}" if kind else ""
        prefix = self.prefix or f"p{hashlib.sha256(''.join(self._shapes).encode()).hexdigest()[:10]}"
        font = f"font-family=\"'{FONT}', Verdana, sans-serif\""
        patterns = f"<defs>{''.join(self._patterns.values())}</defs>" if self._patterns else ""
        head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {reading} {font}>'
        body = f"{patterns}{''.join(self._shapes)}".replace(_PREFIX, prefix)
        return f"{head}<title>{_safe(name)}</title>{body}</svg>"

    def _pattern(self, cloth: Cloth, tile: Fraction) -> str:
        shape = hatch_tile(cloth.hatch)
        if not (shape.lines or shape.dots):
            return ""
        colour = hatch_colour(cloth.colour)
        name = f"-{cloth.hatch}-{_n(tile).replace('.', '_')}-{colour[1:]}"
        if name not in self._patterns:
            turned = f' patternTransform="rotate({shape.turned})"' if shape.turned else ""
            side = _n(tile)
            frame = (
                f'id="{_PREFIX}{name}" width="{side}" height="{side}" patternUnits="userSpaceOnUse"{turned}'
            )
            self._patterns[name] = f"<pattern {frame}>{_marks(cloth, tile)}</pattern>"
        return name

    def _fill(self, colour: str) -> str:
        return f' fill="{self.colours.get(colour, colour) or "none"}"'

    def _stroke(self, stroke: Stroke | None) -> str:
        if stroke is None:
            return ""
        dashes = f' stroke-dasharray="{" ".join(map(_n, stroke.dashes))}"' if stroke.dashes else ""
        colour = self.colours.get(stroke.colour, stroke.colour)
        return f' stroke="{colour}" stroke-width="{_n(stroke.width)}"{dashes}'


def _marks(cloth: Cloth, tile: Fraction) -> str:
    """Write the inside of a pattern: lines as one path, dots as circles."""
    shape, colour = hatch_tile(cloth.hatch), hatch_colour(cloth.colour)
    width = _n(max(_FINE, tile * Fraction(13, 100)))
    lines = "".join(
        f"M{_n(a * tile)} {_n(b * tile)}L{_n(c * tile)} {_n(d * tile)}" for (a, b), (c, d) in shape.lines
    )
    path = f'<path d="{lines}" stroke="{colour}" stroke-width="{width}" fill="none"/>' if lines else ""
    radius = _n(max(_FINE, tile * Fraction(3, 20)))
    dots = (
        f'<circle cx="{_n(x * tile)}" cy="{_n(y * tile)}" r="{radius}" fill="{colour}"/>'
        for x, y in shape.dots
    )
    return path + "".join(dots)


def _set_fractions(words: str, size: Fraction) -> str:
    """Escape words; set "2 1/2" as 2 with a small raised 1, a slash and a small 2."""
    small, up = _n(size * Fraction(74, 100)), _n(size * Fraction(3, 10))
    drop = _n(size * Fraction(1, 20))
    written, end = "", 0
    for found in _FRACTION.finditer(words):
        top = found["space"] + found["top"]
        written += (
            f"{_rest(words[end : found.start()], drop if end else '')}"
            f'<tspan font-size="{small}" dy="-{up}">{top}</tspan><tspan dy="{up}">⁄</tspan>'
            f'<tspan font-size="{small}" dy="{drop}">{found["bottom"]}</tspan>'
        )
        end = found.end()
    return written + _rest(words[end:], drop if end else "")


def _rest(words: str, drop: str) -> str:
    """Write words between fractions, lifted back to the line when one stands before them."""
    return f'<tspan dy="-{drop}">{_safe(words)}</tspan>' if words and drop else _safe(words)


def _safe(words: str) -> str:
    return escape(_printable(words))


def _printable(words: str) -> str:
    """Leave out characters that XML cannot hold."""
    return "".join(letter for letter in words if letter.isprintable() or letter in "\n\u00a0")


def _points(points: Outline) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: Fraction) -> str:
    """Write a number with at most three decimals."""
    count = thousandths(number)
    whole, rest = divmod(abs(count), 1000)
    sign = "-" if count < 0 else ""
    return f"{sign}{whole}" + (f".{rest:03d}".rstrip("0") if rest else "")
