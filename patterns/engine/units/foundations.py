"""Foundation piecing: patches are sewn one by one onto printed paper, along its lines."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from patterns.engine import geometry
from patterns.engine.foundation_order import joining_edge
from patterns.engine.parts import Patch, Point, Unit, UnitKind
from patterns.engine.steps import Phrase, UnitRow, listed
from patterns.engine.surds import Number, ceiling
from patterns.engine.templates import upper_length
from patterns.engine.units.base import UNIT, Draft, Job, Method, Need, pair

MARGIN = Fraction(1, 4)  # inches beyond the seam on every side (common practice)

HOW = Phrase(
    "Lay the first piece right side up on the unprinted side, over its patch and {seam} all round. Lay "
    "the next one face down on it along the line between them, turn over and sew on the line with short "
    "stitches, two beyond each end. Trim that seam to {seam}, fold the piece over and press. Go on so."
)
AS_BEFORE = "Lay, sew, trim each seam to {seam} and press as before."
WORDS = (
    Phrase(
        "Copy the foundation {count} times. It is printed in mirror image, since fabric lies on its back; "
        "measure the printed inch before you sew."
    ),
    Phrase("Sew in the order of its numbers: {order}."),
    HOW,
    Phrase("Trim {seam} outside the outer line. Leave the paper in until what comes next to it is sewn on."),
)


def on_a_foundation(job: Job) -> Draft:
    """Cut a rectangle for each patch: its seams and a margin all round, one side along its seam."""
    patches = job.unit.patches
    needs = tuple(_need(job, number) for number in range(len(patches)))
    rows = [
        {"of": need.ref, "points": [pair(*p) for p in patch.points]}
        for need, patch in zip(needs, patches, strict=True)
    ]
    operation: dict[str, Any] = {
        "op": "foundation",
        "times": job.make,
        "patches": rows,
        "outline": [pair(*p) for p in job.unit.outline or _corners(job)],
        "gives": UNIT,
    }
    order = listed(
        [Phrase("{number} {piece}", {"number": n, "piece": need.ref}) for n, need in enumerate(needs, 1)]
    )
    facts = {"count": job.make, "order": order, "seam": job.seam}
    return Draft(needs=needs, operations=(operation,), words=tuple(_told(words, facts) for words in WORDS))


def told_once(unit: Unit, words: tuple[Phrase, ...], rows: Sequence[UnitRow]) -> tuple[Phrase, ...]:
    """Tell at length how the first foundation of a recipe's rows is sewn; the others are sewn as before."""
    first = next((row.part for row in rows if row.kind is UnitKind.FOUNDATION), unit.id)
    if unit.kind is not UnitKind.FOUNDATION or first == unit.id:
        return words
    return tuple(Phrase(AS_BEFORE, each.facts) if each.text == HOW.text else each for each in words)


def _told(words: Phrase, facts: dict[str, Any]) -> Phrase:
    return Phrase(words.text, {name: fact for name, fact in facts.items() if f"{{{name}}}" in words.text})


def _corners(job: Job) -> tuple[Point, ...]:
    width, height = job.unit.width, job.unit.height
    zero = Fraction(0)
    return ((zero, zero), (width, zero), (width, height), (zero, height))


def _need(job: Job, number: int) -> Need:
    patch = job.unit.patches[number]
    sides = [
        ceiling(span + 2 * (job.seam + MARGIN), job.style.step) for span in _spans(job.unit.patches, number)
    ]
    return Need(
        ref=f"p{number + 1}",
        fabric=patch.fabric,
        width=min(sides),
        length=max(sides),
        count=job.make,
        purpose="foundation sections",
    )


def _spans(patches: Sequence[Patch], number: int) -> tuple[Number, Number]:
    """Give how far a patch reaches along the line it is sewn on, and across; never less."""
    start, end = _line(patches, number)
    along = (end[0] - start[0], end[1] - start[1])
    share = upper_length(along) / geometry.exact(geometry.dot(along, along))
    points = patches[number].points
    return _span(points, along) * share, _span(points, (-along[1], along[0])) * share


def _span(points: Sequence[Point], way: geometry.Corner) -> Number:
    heights = [geometry.dot(way, point) for point in points]
    return geometry.exact(max(heights)) - geometry.exact(min(heights))


def _line(patches: Sequence[Patch], number: int) -> tuple[Point, Point]:
    """Give the line a patch is sewn on: the first one's is the second's."""
    later = max(number, 1)
    edge = joining_edge(patches[later], patches[:later])
    if edge is None:
        raise ValueError(f"patch {later} cannot be added along one line")
    return edge


METHODS = (Method(name="on a foundation", kind=UnitKind.FOUNDATION, draft=on_a_foundation),)
