"""How a fitted part's seams are pressed, where sewing stops, and its row of virtual sewing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from patterns.engine.geometry import area, cross, dot, minus, on_segment, twice_area
from patterns.engine.laying import moved, patches_of
from patterns.engine.parts import Fitted, Part, Point, Rows, Seam, SeamKind, Unit
from patterns.engine.surds import ceiling, sign, write_number
from patterns.engine.templates import edges_of, upper_length, way
from patterns.engine.units.base import Style, pair, text

TOWARD, AWAY, OPEN = 1, -1, 0  # the part that is added; what it is sewn to; neither
NIL = Fraction(0)
ROUGH = Fraction(1, 256)  # in which an arrow's direction is written
CROWDED = 6  # patches that meet at one point of a seam: it is pressed open


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """A part to be fitted, with all parts of the whole by name."""

    part: Fitted
    parts: Mapping[str, Part]
    style: Style

    def added(self, seam: Seam) -> Part:
        """Give the part that a seam adds, or whose partial seam it closes."""
        return self.parts[self.part.placed[seam.part].part]

    @property
    def dots(self) -> frozenset[Point]:
        """Give the finished corners where sewing stops: bends of set-in seams, and inner corners left."""
        bends = {p for seam in self.part.seams if seam.kind is SeamKind.SET_IN for p in seam.path[1:-1]}
        ends = {p for seam in self.part.seams for p in (seam.path[0], seam.path[-1])}
        return frozenset(bends | (ends & _inner_corners(self.part.outline)))


def press_fit(fitting: Fitting) -> list[int]:
    """Say of every seam which way it is pressed: toward the part it adds, away from it, or open."""
    ways: dict[int, int] = {}
    for seam in fitting.part.seams:
        ways.setdefault(seam.part, _way(fitting, seam))
    return [ways[seam.part] for seam in fitting.part.seams]


def is_rectangle(part: Fitted) -> bool:
    """Say whether a fitted part fills the box round it."""
    return sign(area(part.outline) - part.width * part.height) == 0


def fit_operation(fitting: Fitting, make: int, *, press: list[int]) -> dict[str, Any]:
    """Write the row of virtual sewing; `pressed` and `dots` are for pictures."""
    part = fitting.part
    return {
        "op": "fit",
        "times": make,
        "parts": [[p.part, p.turn, pair(*p.at), pair(*p.turned_by)] for p in part.placed],
        "seams": [
            {"part": seam.part, "path": [pair(*p) for p in seam.path], "kind": seam.kind.value}
            for seam in part.seams
        ],
        "outline": [pair(*p) for p in part.outline],
        "seam": text(fitting.style.seam),
        "gives": part.id,
        "pressed": [_pressed(fitting, seam, way_) for seam, way_ in zip(part.seams, press, strict=True)],
        "dots": [pair(*p) for p in sorted(fitting.dots)],
    }


def _pressed(fitting: Fitting, seam: Seam, pressed: int) -> dict[str, Any]:
    """Say where a seam's arrow lies, in the middle of its longest stretch, and which way it points."""
    runs = list(pairwise(seam.path))
    start, end = max(runs, key=lambda run: upper_length(way(*run)))
    at = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    x, y = way(start, end)
    long = upper_length((x, y))
    inward: Point = (ceiling(-y / long, ROUGH), ceiling(x / long, ROUGH))
    sign_ = pressed or TOWARD
    if not _goes_round(fitting, seam.part, (start, end)):
        sign_ = -sign_
    row: dict[str, Any] = {"at": pair(*at), "toward": pair(inward[0] * sign_, inward[1] * sign_)}
    return row if pressed else {**row, "open": True}


def _goes_round(fitting: Fitting, number: int, run: tuple[Point, Point]) -> bool:
    """Say whether a stretch of a seam runs clockwise round the part: then the part lies at its right hand."""
    placed = fitting.part.placed[number]
    part = fitting.parts[placed.part]
    outline = part.outline if not isinstance(part, Rows) else ()
    corners = outline or ((NIL, NIL), (part.width, NIL), (part.width, part.height), (NIL, part.height))
    laid = moved(corners, placed, size=(part.width, part.height))
    if sign(twice_area(laid)) < 0:
        laid = laid[::-1]
    along = way(*run)
    return any(
        on_segment(run[0], *edge) and on_segment(run[1], *edge) and sign(dot(way(*edge), along)) > 0
        for edge in edges_of(laid)
    )


def _way(fitting: Fitting, seam: Seam) -> int:
    if seam.kind in (SeamKind.SET_IN, SeamKind.CURVED):
        return AWAY
    if seam.kind is SeamKind.PARTIAL:
        return TOWARD
    if _is_crowded(fitting, seam):
        return OPEN
    return _darker(fitting, seam)


def _is_crowded(fitting: Fitting, seam: Seam) -> bool:
    """Say whether six or more patches meet at a point inside a seam, as in the middle of a star."""
    start, end = seam.path[0], seam.path[-1]
    meeting: Counter[Point] = Counter(
        corner
        for patch in patches_of(fitting.part, fitting.parts)
        for corner in patch.points
        if corner not in (start, end) and on_segment(corner, start, end)
    )
    return max(meeting.values(), default=0) >= CROWDED


def _darker(fitting: Fitting, seam: Seam) -> int:
    """Press toward the one plain part, or the darker of two; where nothing speaks, toward what is added."""
    added = fitting.added(seam)
    before = [fitting.parts[placed.part] for placed in fitting.part.placed[: seam.part]]
    letters = {letter for part in before for letter in _letters(part)}
    if not _letters(added) or len(letters) != 1:
        return TOWARD if _letters(added) or not letters else AWAY
    mine, theirs = _letters(added)[0], letters.pop()
    return TOWARD if mine == theirs or fitting.style.darker((mine, theirs)) == mine else AWAY


def _letters(part: Part) -> tuple[str, ...]:
    """Give the letter of a part of one fabric."""
    letters = part.fabrics if isinstance(part, Unit) else ()
    return letters if len(letters) == 1 else ()


def _inner_corners(outline: tuple[Point, ...]) -> set[Point]:
    """Give the corners at which an outline turns inward."""
    clockwise = outline if sign(twice_area(outline)) > 0 else outline[::-1]
    return {
        corner
        for i, corner in enumerate(clockwise)
        if sign(cross(minus(corner, clockwise[i - 1]), minus(clockwise[(i + 1) % len(clockwise)], corner)))
        < 0
    }


def given_block(unit: Unit, make: int) -> dict[str, Any]:
    """Bring a finished block: its patches, and its shapes if it has any, stand as they are."""
    patches, shapes = (
        [{"fabric": p.fabric, "points": [pair(*q) for q in p.points]} for p in laid]
        for laid in (unit.patches, unit.applique)
    )
    size = [write_number(unit.width), write_number(unit.height)]
    return {"count": make, "size": size, "patches": patches, **({"applique": shapes} if shapes else {})}
