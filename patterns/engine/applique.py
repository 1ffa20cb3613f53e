"""Appliqué: shapes cut with templates, a turn-under outside their finished line, laid on the sewn block.

Shapes that are alike, however they are turned, are cut with one template; mirror images have their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from patterns.engine.blocks import exact_points
from patterns.engine.geometry import tidied
from patterns.engine.likeness import turns_between
from patterns.engine.naming import Cut
from patterns.engine.parts import Assembly, Point, Shape
from patterns.engine.print_directions import BY_PLACE
from patterns.engine.steps import Phrase, Step
from patterns.engine.surds import Number, sign
from patterns.engine.templates import Template, box_of, template
from patterns.engine.units.base import Need, Style, pair, text
from patterns.engine.units.prints import NONE, TWO_WAY

APPLIQUE = "appliqué"  # the block with its shapes
PURPOSE = "appliqué shapes"
MARK_THEM = (
    "Draw the finished line of every shape on its right side, {seam} inside the cut edge: what lies outside "
    "it is turned under."
)
TURN_THEM = Phrase(
    "Clip corners that point inward, then turn the edge under along the line and baste it. An edge that "
    "another shape covers stays flat."
)
LAY_THEM = (
    "Lay the shapes on the block in this order, each on those before it. Measure from the finished edges "
    "of the block, {seam} inside its raw edges, to the finished line of the shape."
)
WHERE = "{number}: {piece}, {left} from the left, {top} from the top."
SEW_THEM = Phrase(
    "Sew every shape down before the next one covers it: by hand with small hidden stitches, or by machine "
    "close to its edge."
)
FUSED = Phrase(
    "With fusible web the shapes are traced in mirror image and cut on the finished line. Try it on a scrap "
    "first, and follow the maker's instructions for iron, needle and washing."
)
MEASURE = Phrase("Press from the wrong side on a towel, then measure: sewing may have drawn the block in.")


@dataclass(slots=True, kw_only=True)
class _Alike:
    """Shapes of one fabric that are cut with one template."""

    ref: str
    fabric: str
    outline: tuple[Point, ...]  # of the first of them, as the drawing has it
    laid: Template
    turns: list[Point] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Laying:
    """What the shapes of a block take: pieces, the step in which they are laid, and what must be said.

    `place` names the block with its shapes, as the drawing has it.  All is empty where there are none.
    """

    cuts: tuple[Cut, ...] = ()
    steps: tuple[Step, ...] = ()
    warnings: tuple[Phrase, ...] = ()
    place: Mapping[str, Any] = field(default_factory=dict)


def lay_shapes(assembly: Assembly, style: Style, *, number: int, finished: Point) -> Laying:
    """Write how the shapes of a block, if it has any, are laid, as step `number`.

    `finished` is the size of the block in inches as the drawing has it.
    """
    if not assembly.applique:
        return Laying()
    groups: list[_Alike] = []
    rows = [_laid(shape, groups, style) for shape in assembly.applique]
    operation = {
        "op": "applique",
        "on": assembly.whole.part,
        "turn": assembly.whole.turn,
        "turn_under": text(style.seam),
        "shapes": rows,
        "gives": APPLIQUE,
    }
    raw = (finished[0] + 2 * style.seam, finished[1] + 2 * style.seam)
    step = Step(
        number=number,
        title=Phrase("Appliqué"),
        words=tuple(_words(assembly.applique, rows, style.seam)),
        check=raw,
        operations=(operation,),
    )
    return Laying(
        cuts=tuple(map(_cut, groups)),
        steps=(step,),
        warnings=tuple(_warnings(groups, style)),
        place={"ref": APPLIQUE, "turn": 0},
    )


def _laid(shape: Shape, groups: list[_Alike], style: Style) -> dict[str, Any]:
    """Say which template a shape is cut with, how it is turned, and where its box begins."""
    outline = exact_points(tidied(shape.points))
    for group in groups:
        turn = next(turns_between(group.outline, outline), None) if group.fabric == shape.fabric else None
        if turn is not None:
            break
    else:
        turn = (Fraction(1), Fraction(0))
        laid = template(outline, seam=style.seam, step=style.step)
        ref = f"{APPLIQUE}/{len(groups) + 1}"
        group = _Alike(ref=ref, fabric=shape.fabric, outline=outline, laid=laid)
        groups.append(group)
    turned_by = _both(group.laid.turned_by, turn)
    group.turns.append(turned_by)
    corner, _ = box_of(outline)
    return {"of": group.ref, "at": pair(*corner), "turned_by": pair(*turned_by)}


def _both(first: Point, second: Point) -> Point:
    """Give one turn after another, each a unit vector."""
    return first[0] * second[0] - first[1] * second[1], first[0] * second[1] + first[1] * second[0]


def _cut(group: _Alike) -> Cut:
    return Cut(
        need=Need(
            ref=group.ref,
            fabric=group.fabric,
            width=group.laid.width,
            length=group.laid.length,
            count=len(group.turns),
            purpose=PURPOSE,
            outline=group.laid.outline,
        )
    )


def _words(shapes: Sequence[Shape], rows: Sequence[dict[str, Any]], seam: Fraction) -> Iterator[Phrase]:
    yield Phrase(MARK_THEM, {"seam": seam})
    yield TURN_THEM
    yield Phrase(LAY_THEM, {"seam": seam})
    for number, (shape, row) in enumerate(zip(shapes, rows, strict=True), 1):
        (left, top), _ = box_of(shape.points)
        yield Phrase(WHERE, {"number": number, "piece": row["of"], "left": left, "top": top})
    yield SEW_THEM
    yield FUSED
    yield MEASURE


def _warnings(groups: Sequence[_Alike], style: Style) -> Iterator[Phrase]:
    """Name fabrics with a direction in their print that lie in several; half a turn is none where two-way."""
    ways: dict[str, set[Point]] = {}
    for group in groups:
        direction = style.directions.get(group.fabric, NONE)
        if direction != NONE:
            found = ways.setdefault(group.fabric, set())
            found.update(_way(turn, two_way=direction in TWO_WAY) for turn in group.turns)
    for letter, found in sorted(ways.items()):
        if len(found) > 1:
            yield Phrase(BY_PLACE, {"fabric": letter, "count": len(found)})


def _way(turn: Point, *, two_way: bool) -> Point:
    first: Number = next(number for number in turn if sign(number))
    return (-turn[0], -turn[1]) if two_way and sign(first) < 0 else turn
