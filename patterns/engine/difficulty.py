"""How much care a recipe asks for: what is counted, a grade from it, and the reasons in words.

The thresholds are common practice without a single source: a quilter calls small patches, many points to
match, stretching edges and set-in or curved seams what makes a block hard.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from patterns.engine.applique import PURPOSE as SHAPES
from patterns.engine.parts import Patch, Point, SeamKind, UnitKind
from patterns.engine.steps import Operation, Phrase, Piece, Recipe
from patterns.engine.surds import Number

PLAIN, SOME_CARE, CAREFUL = 1, 2, 3
BIAS_EDGES = {"cut once diagonally": 2, "cut twice diagonally": 8}  # of one square's triangles together
MATCHING = 4  # patches whose corners meet at a point that is matched
MANY_REASONS = 4  # so much that asks for some care asks for a careful hand together
MOST_PIECES, MOST_JOINTS, MOST_BIAS = (24, 60), (8, 24), (0, 16)  # up to here plain; up to here some care
SMALLEST = (Fraction(3, 2), Fraction(1))  # inches finished: from here on plain; from here on some care
DIAGONAL = ("stack",)  # operations sewn from a corner on a bias line


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """What is counted in a recipe: pieces cut, points to match, seams that need a careful hand, shapes.

    `smallest` is the lesser side of the box round the smallest finished patch, in inches.
    """

    pieces: int
    joints: int
    bias_edges: int
    diagonal_seams: int
    set_in: int
    partial: int
    curved: int
    foundations: int
    shapes: int
    smallest: Number | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Difficulty:
    """Grade 1 (plain) to 3 (a careful hand), with the reasons that raise it, the heaviest first."""

    grade: int
    reasons: tuple[Phrase, ...]
    counts: Counts


def difficulty_of(recipe: Recipe, patches: Sequence[Patch] = ()) -> Difficulty:
    """Grade a recipe; `patches` are those of its drawing, in finished inches, where it has one."""
    counts = count_work(recipe, patches)
    reasons = sorted(_reasons(counts), key=lambda reason: -reason[0])
    grade = max((level for level, _ in reasons), default=PLAIN)
    if len(reasons) >= MANY_REASONS:
        grade = CAREFUL
    return Difficulty(grade=grade, reasons=tuple(phrase for _, phrase in reasons), counts=counts)


def count_work(recipe: Recipe, patches: Sequence[Patch] = ()) -> Counts:
    """Count what a recipe asks for; a top without a drawing of its own matches where its rows cross."""
    operations = [operation for step in recipe.steps for operation in step.operations]
    kinds = Counter(seam["kind"] for o in operations if o["op"] == "fit" for seam in o["seams"])
    units: Counter[UnitKind] = Counter()
    for row in recipe.units:
        units[row.kind] += row.count
    sides = [_lesser_side(patch.points) for patch in patches]
    sides = sides or [min(row.finished) for row in recipe.units]
    return Counts(
        pieces=sum(piece.count for piece in recipe.pieces),
        joints=_matched(patches, recipe) if patches else sum(map(_crossings, operations)),
        bias_edges=sum(_bias_edges(piece) for piece in recipe.pieces) + sum(map(_slanting_edges, operations)),
        diagonal_seams=sum(o["times"] * len(o["sew"]) for o in operations if o["op"] in DIAGONAL),
        set_in=kinds[SeamKind.SET_IN.value],
        partial=kinds[SeamKind.PARTIAL.value],
        curved=units[UnitKind.DRUNKARDS_PATH] + _curves_between_parts(recipe, operations),
        foundations=units[UnitKind.FOUNDATION],
        shapes=len(recipe.applique),
        smallest=min(sides, default=None),
    )


def _curves_between_parts(recipe: Recipe, operations: Sequence[Operation]) -> int:
    """Count the curved seams that no unit has inside it."""
    units = {row.part for row in recipe.units}
    fits = (o for o in operations if o["op"] == "fit" and o["gives"] not in units)
    return sum(seam["kind"] == SeamKind.CURVED.value for o in fits for seam in o["seams"])


def _matched(patches: Sequence[Patch], recipe: Recipe) -> int:
    """Count the inner points where the corners of four patches or more meet."""
    width, height = recipe.finished
    corners = Counter(point for patch in patches for point in dict.fromkeys(patch.points))
    return sum(count >= MATCHING and 0 < x < width and 0 < y < height for (x, y), count in corners.items())


def _crossings(operation: Operation) -> int:
    """Count where the seams of rows meet, as many as two rows below each other can have."""
    if operation["op"] != "rows":
        return 0
    lengths = [len(row) - 1 for row in operation["rows"]]
    return int(operation["times"]) * sum(min(pair) for pair in pairwise(lengths))


def _bias_edges(piece: Piece) -> int:
    """Count the edges that are cut across the grain and stretch; those of shapes are turned under."""
    if piece.purpose == SHAPES:
        return 0
    if not piece.outline:
        return BIAS_EDGES.get(piece.then, 0) * piece.count
    corners = (*piece.outline, piece.outline[0])
    return piece.count * sum(a[0] != b[0] and a[1] != b[1] for a, b in pairwise(corners))


def _slanting_edges(operation: Operation) -> int:
    """Count the edges of pieces cut from strips at an angle that lie across the grain: two of each."""
    return 2 * int(operation["times"]) * int(operation["pieces"]) if operation["op"] == "slice" else 0


def _lesser_side(points: Sequence[Point]) -> Number:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(max(xs) - min(xs), max(ys) - min(ys))


def _reasons(counts: Counts) -> Iterator[tuple[int, Phrase]]:
    """Give each reason that raises the grade above plain, and to what."""
    for count, words, limits in _counted(counts):
        level = PLAIN + (count > limits[0]) + (count > limits[1])
        if level > PLAIN:
            yield level, Phrase(words[count > 1], {"count": count})
    smallest = counts.smallest
    if smallest is not None and smallest < SMALLEST[0]:
        level = SOME_CARE if smallest >= SMALLEST[1] else CAREFUL
        yield level, Phrase("smallest patch {length}", {"length": smallest})


def _counted(counts: Counts) -> Iterator[tuple[int, tuple[str, str], tuple[int, int]]]:
    """Give counts with their words and the limits of plain and of some care."""
    yield counts.set_in, ("{count} set-in seam", "{count} set-in seams"), (0, 0)
    yield counts.curved, ("{count} curved seam", "{count} curved seams"), (0, 0)
    yield counts.partial, ("{count} partial seam", "{count} partial seams"), (0, 4)
    yield counts.shapes, ("{count} appliqué shape", "{count} appliqué shapes"), (0, 8)
    yield counts.foundations, ("{count} foundation section", "{count} foundation sections"), (0, 8)
    yield counts.joints, ("{count} point to match", "{count} points to match"), MOST_JOINTS
    yield counts.bias_edges, ("{count} edge that stretches", "{count} edges that stretch"), MOST_BIAS
    yield counts.diagonal_seams, ("{count} diagonal seam", "{count} diagonal seams"), (0, 60)
    yield counts.pieces, ("{count} piece", "{count} pieces"), MOST_PIECES
