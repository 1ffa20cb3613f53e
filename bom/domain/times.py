"""How long an installment takes, as ranges, with the assumptions stated (common practice)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.enums import PartKind
from patterns.engine.difficulty import Difficulty, difficulty_of
from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase

if TYPE_CHECKING:
    from bom.domain.work import InstallmentWork, PartWork

Range = tuple[Fraction, Fraction]


def _span(minutes: Range) -> Phrase:
    return Phrase("{quick} to {unhurried}", {"quick": str(minutes[0]), "unhurried": str(minutes[1])})


# Minutes for a quick and for an unhurried hand; common practice, no single source.
PER_FABRIC: Range = (Fraction(5), Fraction(10))  # press, square up, cut the strips
PER_PIECE: Range = (Fraction(1, 4), Fraction(1, 2))
PER_SEAM: Range = (Fraction(1), Fraction(2))  # sew and press
PER_TRIM: Range = (Fraction(1, 2), Fraction(1))
PER_JOINT: Range = (Fraction(1, 4), Fraction(1, 2))  # a point to match and pin
PER_TURN: Range = (Fraction(2), Fraction(4))  # more for a set-in, partial or curved seam
PER_FOUNDATION: Range = (Fraction(3), Fraction(6))  # to copy or print one, and to tear the paper off
PER_SHAPE: Range = (Fraction(10), Fraction(30))  # to mark, turn, baste and sew down an appliqué shape
FINISHING: dict[PartKind, Range] = {
    PartKind.BACKING: (Fraction(30), Fraction(60)),
    PartKind.BINDING: (Fraction(180), Fraction(360)),  # by machine, then turned and sewn down by hand
}
ASSUMED = Phrase(
    "Minutes for a quick and for an unhurried hand, with a rotary cutter and a machine at home: "
    "{fabric} a fabric, {piece} a piece to cut, {seam} a seam to sew and press, {trim} a unit to trim, "
    "{joint} a point to match, {turn} more for a seam that is set in, partial or curved, {foundation} for a "
    "foundation, {shape} for an appliqué shape.",
    {
        "fabric": _span(PER_FABRIC),
        "piece": _span(PER_PIECE),
        "seam": _span(PER_SEAM),
        "trim": _span(PER_TRIM),
        "joint": _span(PER_JOINT),
        "turn": _span(PER_TURN),
        "foundation": _span(PER_FOUNDATION),
        "shape": _span(PER_SHAPE),
    },
)
PLAIN = {  # nothing to trim
    UnitKind.SQUARE,
    UnitKind.RECTANGLE,
    UnitKind.STRIP_SET,
    UnitKind.FOUR_PATCH,
    UnitKind.NINE_PATCH,
    UnitKind.FINISHED_BLOCK,
    UnitKind.TRIANGLE,
    UnitKind.DIAMOND,
    UnitKind.HEXAGON,
    UnitKind.KITE,
    UnitKind.TEMPLATE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeEstimate:
    """Minutes, quick and unhurried hand, of cutting and of sewing; difficulty 1 (plain) to 3 (careful).

    The difficulty is that of the hardest part, and `reasons` are what raises it.  Quilting is not in it: it
    takes far longer than the top, or is sent out.
    """

    cutting: tuple[int, int]
    sewing: tuple[int, int]
    difficulty: int
    reasons: tuple[Phrase, ...] = ()
    assumed: Phrase = ASSUMED


def time_of(work: InstallmentWork) -> TimeEstimate:
    """Estimate one installment from the fabrics and pieces it cuts and the seams it sews.

    Rounded up to the next five minutes; an installment without parts takes none.
    """
    pieces = sum(piece.count for cut in work.packed.values() for piece in cut)
    cutting = _times((PER_FABRIC, len(work.packed)), (PER_PIECE, pieces))
    hard = [_difficulty(part) for part in work.parts]
    hardest = max((each for each in hard if each), key=lambda each: each.grade, default=None)
    sewing = [_sewing(part, each) for part, each in zip(work.parts, hard, strict=True)]
    return TimeEstimate(
        cutting=_rounded(cutting),
        sewing=_rounded(_times(*((each, 1) for each in sewing))),
        difficulty=hardest.grade if hardest else 1,
        reasons=hardest.reasons if hardest else (),
    )


def _difficulty(part: PartWork) -> Difficulty | None:
    if part.recipe is None:
        return None
    patches = part.drawing.patches if part.kind == PartKind.BLOCK and part.drawing else ()
    return difficulty_of(part.recipe, patches)


def _sewing(part: PartWork, hard: Difficulty | None) -> Range:
    if part.recipe is None or hard is None:
        return FINISHING[part.kind]
    counts = hard.counts
    trims = sum(row.count for row in part.recipe.units if row.kind not in PLAIN)
    return _times(
        (PER_SEAM, _seams(part)),
        (PER_TRIM, trims),
        (PER_JOINT, counts.joints),
        (PER_TURN, counts.set_in + counts.partial + counts.curved),
        (PER_FOUNDATION, counts.foundations),
        (PER_SHAPE, counts.shapes),
    )


def _seams(part: PartWork) -> int:
    """Count seams: each joins two, so there is one less than the patches, or than the parts of a top."""
    if part.kind == PartKind.BLOCK and part.drawing:
        return len(part.drawing.patches) - 1
    joined = sum(row.count for row in part.recipe.units) if part.recipe else 0
    return max(0, joined - 1)


def _times(*counted: tuple[Range, int]) -> Range:
    quick = sum((each[0] * count for each, count in counted), Fraction(0))
    unhurried = sum((each[1] * count for each, count in counted), Fraction(0))
    return quick, unhurried


def _rounded(minutes: Range) -> tuple[int, int]:
    quick, unhurried = (int(-(-each // 5)) * 5 for each in minutes)
    return quick, unhurried
