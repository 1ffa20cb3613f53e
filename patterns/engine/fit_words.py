"""What a step says that fits parts together which are no rows: seam after seam, and how each is pressed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

from patterns.engine.fit_data import AWAY, OPEN, TOWARD, Fitting, is_rectangle
from patterns.engine.geometry import area
from patterns.engine.likeness import are_mirrored
from patterns.engine.methods import is_one_piece
from patterns.engine.parts import Fitted, Seam, SeamKind, Unit, UnitKind
from patterns.engine.row_words import PLAIN, Joint, laid_words
from patterns.engine.step_checks import edge_checks
from patterns.engine.steps import Fact, Phrase
from patterns.engine.surds import Number
from patterns.engine.templates import exact_length, way

JOINED_PART = Phrase("the joined part")
PRESSED = {
    TOWARD: "Press toward {piece}.",
    AWAY: "Press away from {piece}.",
    OPEN: "Press the seam open, or all seams that meet there in one turning direction.",
}
THE = {  # one part that is joined, as a sentence names it
    UnitKind.HALF_SQUARE: Phrase("the half-square triangle"),
    UnitKind.QUARTER_SQUARE: Phrase("the quarter-square triangle"),
    UnitKind.THREE_PATCH: Phrase("the three-patch unit"),
    UnitKind.FLYING_GEESE: Phrase("the flying goose"),
    UnitKind.SQUARE_IN_A_SQUARE: Phrase("the square in a square"),
    UnitKind.STRIP_SET: Phrase("the segment of the strip set"),
    UnitKind.FOUR_PATCH: Phrase("the four-patch"),
    UnitKind.NINE_PATCH: Phrase("the nine-patch"),
    UnitKind.SIDE_TRIANGLE: Phrase("the side triangle"),
    UnitKind.CORNER_TRIANGLE: Phrase("the corner triangle"),
    UnitKind.FINISHED_BLOCK: Phrase("the block"),
    UnitKind.HALF_RECTANGLE: Phrase("the half-rectangle triangle"),
    UnitKind.CORNER_FLIP: Phrase("the corner-flip square"),
    UnitKind.TRIANGLE_IN_A_SQUARE: Phrase("the triangle in a square"),
    UnitKind.DRUNKARDS_PATH: Phrase("the drunkard's path"),
    UnitKind.TRIANGLE: Phrase("the triangle"),
    UnitKind.DIAMOND: Phrase("the diamond"),
    UnitKind.TEMPLATE: Phrase("the slanting patch"),  # one of several from a strip
    UnitKind.FOUNDATION: Phrase("the foundation section"),
}
LARGER, SMALLER = "{unit} that is larger", "{unit} that is smaller"
AS_SHOWN = Phrase("Press as the arrow shows.")
HOW_TO_SET_IN = (
    "On the wrong side, mark a dot {seam} from both edges at every corner that the picture shows with a "
    "dot. Sew from dot to dot, never into the seam allowance. At a dot between, stop with the needle down, "
    "pivot, and lay the next edges together."
)
STOP_AT_DOTS = (
    "Where a seam ends at a dot, stop there and backstitch: what fills that corner is set in later."
)
SET_IN_AS_BEFORE = Phrase("Mark the dots, and sew from dot to dot as before.")
STOP_AS_BEFORE = Phrase("Mark the dots. Where a seam ends at a dot, stop there and backstitch.")
SEWN = {
    SeamKind.STRAIGHT: "Sew on {piece}.",
    SeamKind.SET_IN: "Set in {piece}.",
    SeamKind.CURVED: "Crease the middle and the quarters of both curves, pin {piece} on there and at the "
    "ends, and sew with the hollow curve on top, easing as you go.",
    SeamKind.PARTIAL: "Sew {piece} on from the outer edge, and stop {open} before the corner. The rest stays "
    "open for now.",
    SeamKind.CLOSING: "Sew the seam of {piece} on, from where it stopped to the outer edge.",
}
BIAS = Phrase("Edges cut on the bias stretch: pin them, and do not pull.")


def fit_words(fitting: Fitting, press: list[int]) -> tuple[Phrase, ...]:
    """Say what is laid out, and how every seam is sewn and pressed."""
    joint = Joint(part=fitting.part, parts=fitting.parts, style=fitting.style)
    return (
        *laid_words(joint),
        *_dot_words(fitting),
        *(words for run in _alike(fitting, press) for words in _seam_words(fitting, run, press[run[0]])),
        *([BIAS] if _is_first(fitting, _has_bias) else []),
        *_mirror_words(fitting),
        *([] if is_rectangle(fitting.part) else edge_checks(fitting.part.outline)),
    )


def _alike(fitting: Fitting, press: list[int]) -> list[list[int]]:
    """Put seams together that follow each other and are said in the same words."""
    runs: list[list[int]] = []
    seams = fitting.part.seams
    said = [(seam.kind, fitting.part.placed[seam.part].part, press[i]) for i, seam in enumerate(seams)]
    for i, words in enumerate(said):
        if runs and said[runs[-1][-1]] == words:
            runs[-1].append(i)
        else:
            runs.append([i])
    return runs


def _dot_words(fitting: Fitting) -> tuple[Phrase, ...]:
    """Explain dots, in full the first time: how a patch is set in, or that a seam must stop."""
    facts: dict[str, Fact] = {"seam": fitting.style.seam}
    if _sets_in(fitting):
        return (Phrase(HOW_TO_SET_IN, facts) if _is_first(fitting, _sets_in) else SET_IN_AS_BEFORE,)
    if not fitting.dots:
        return ()
    mark = "On the wrong side, mark a dot {seam} from both edges at every corner shown with a dot."
    return (Phrase(mark, facts), Phrase(STOP_AT_DOTS)) if _is_first(fitting, _stops) else (STOP_AS_BEFORE,)


def _is_first(fitting: Fitting, such: Callable[[Fitting], bool]) -> bool:
    """Say whether a part is the first of the whole of which something is true."""
    fitted = (part for part in fitting.parts.values() if isinstance(part, Fitted))
    firsts = (part for part in fitted if such(replace(fitting, part=part)))
    return next(firsts, None) == fitting.part


def _sets_in(fitting: Fitting) -> bool:
    return any(seam.kind is SeamKind.SET_IN for seam in fitting.part.seams)


def _stops(fitting: Fitting) -> bool:
    return bool(fitting.dots)


def _seam_words(fitting: Fitting, run: list[int], pressed: int) -> tuple[Phrase, ...]:
    seam = fitting.part.seams[run[0]]
    sewn = _sewn(fitting, seam)
    facts: dict[str, Fact] = {"sewn": sewn, "first": run[0] + 1, "last": run[-1] + 1}
    if len(run) > 1:
        words = "Seams {first} and {last}. {sewn}" if len(run) == 2 else "Seams {first} to {last}. {sewn}"  # noqa: PLR2004 -- "to" would leave nothing out
        sewn = Phrase(words, facts)
    elif len(fitting.part.seams) > 1:
        sewn = Phrase("Seam {first}. {sewn}", facts)
    press = Phrase(PRESSED[pressed], {"piece": _named(fitting, seam)})
    if pressed != OPEN and _is_alike(fitting, seam):
        press = AS_SHOWN
    return (sewn,) if seam.kind is SeamKind.PARTIAL else (sewn, press)


def _is_alike(fitting: Fitting, seam: Seam) -> bool:
    """Say whether nothing but what a seam adds goes by its name, so that the name tells no side."""
    names = [str(_named(fitting, Seam(part=i, path=seam.path))) for i in range(seam.part + 1)]
    return set(names) == {names[seam.part]} and len(names) > 1


def _sewn(fitting: Fitting, seam: Seam) -> Phrase:
    facts: dict[str, Fact] = {"piece": _named(fitting, seam)}
    if seam.kind is SeamKind.PARTIAL:
        facts["open"] = exact_length(way(*seam.path[1:])) or Fraction(0)
    if seam.kind is SeamKind.STRAIGHT and len(fitting.part.placed) == 2:  # noqa: PLR2004 -- a pair is sewn in one seam
        return Phrase("Sew them together, as drawn.")
    return Phrase(SEWN[seam.kind], facts)


def _named(fitting: Fitting, seam: Seam) -> Fact:
    """Name one part: a piece by its name, a unit by its kind, and by what tells it from its like."""
    part = fitting.added(seam)
    if not isinstance(part, Unit):
        return JOINED_PART
    if is_one_piece(part, fitting.style):
        return part.id
    return _told_apart(part, _like(fitting, part))


def _like(fitting: Fitting, part: Unit) -> list[Unit]:
    """Give the other units of the step that are of the same kind."""
    units = {placed.part: fitting.parts[placed.part] for placed in fitting.part.placed}
    return [
        unit
        for unit in units.values()
        if isinstance(unit, Unit) and unit.kind == part.kind and unit.id != part.id
    ]


def _told_apart(part: Unit, others: list[Unit]) -> Phrase:
    """Name the fabric where units of one kind differ in it, else which of two is the larger."""
    the = THE[part.kind]
    if all(other.fabrics != part.fabrics for other in others):
        letters = " ".join(dict.fromkeys(part.fabrics))
        return Phrase("{unit} ({fabric})", {"unit": the, "fabric": letters}) if others else the
    sizes = [_size(unit) for unit in (part, *others)]
    if len(others) > 1 or sizes[0] == sizes[1]:
        return the
    return Phrase(LARGER if sizes[0] > sizes[1] else SMALLER, {"unit": the})


def _size(unit: Unit) -> Number:
    return area(unit.outline) if unit.outline else unit.width * unit.height


def _mirror_words(fitting: Fitting) -> list[Phrase]:
    """Warn of two templates of one fabric that are mirror images, the first time that one is sewn."""
    templates = [
        part
        for part in fitting.parts.values()
        if isinstance(part, Unit) and part.outline and is_one_piece(part, fitting.style)
    ]
    used = {placed.part for placed in fitting.part.placed}
    words = "{piece} and {other} are mirror images: cut one with the template face up, the other face down."
    return [
        Phrase(words, {"piece": first.id, "other": second.id})
        for first, second in combinations(templates, 2)
        if first.id in used
        and first.fabrics == second.fabrics
        and are_mirrored(first.outline, second.outline)
    ]


def _has_bias(fitting: Fitting) -> bool:
    """Say whether a patch of no upright outline is among the parts."""
    parts = (fitting.parts[placed.part] for placed in fitting.part.placed)
    return any(isinstance(part, Unit) and bool(part.outline) and part.kind not in PLAIN for part in parts)
