"""How long an installment takes, as ranges, with the assumptions stated (common practice)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.enums import PartKind
from patterns.engine.parts import Order, UnitKind
from patterns.engine.steps import Phrase

if TYPE_CHECKING:
    from bom.domain.work import InstallmentWork, PartWork

Range = tuple[Fraction, Fraction]


def _span(minutes: Range) -> str:
    return f"{minutes[0]} to {minutes[1]}"


# Minutes for a quick and for an unhurried hand; common practice, no single source.
PER_FABRIC: Range = (Fraction(5), Fraction(10))  # press, square up, cut the strips
PER_PIECE: Range = (Fraction(1, 4), Fraction(1, 2))
PER_SEAM: Range = (Fraction(1), Fraction(2))  # sew and press
PER_TRIM: Range = (Fraction(1, 2), Fraction(1))
FINISHING: dict[PartKind, Range] = {
    PartKind.BACKING: (Fraction(30), Fraction(60)),
    PartKind.BINDING: (Fraction(180), Fraction(360)),  # by machine, then turned and sewn down by hand
}
ASSUMED = Phrase(
    "Minutes for a quick and for an unhurried hand, with a rotary cutter and a machine at home: "
    "{fabric} a fabric, {piece} a piece to cut, {seam} a seam to sew and press, {trim} a unit to trim.",
    {
        "fabric": _span(PER_FABRIC),
        "piece": _span(PER_PIECE),
        "seam": _span(PER_SEAM),
        "trim": _span(PER_TRIM),
    },
)
PLAIN = {
    UnitKind.SQUARE,
    UnitKind.RECTANGLE,
    UnitKind.STRIP_SET,
    UnitKind.FOUR_PATCH,
    UnitKind.NINE_PATCH,
    UnitKind.FINISHED_BLOCK,
}
CAREFUL = {
    UnitKind.FLYING_GEESE,
    UnitKind.SQUARE_IN_A_SQUARE,
    UnitKind.SIDE_TRIANGLE,
    UnitKind.CORNER_TRIANGLE,
    UnitKind.HALF_RECTANGLE,
    UnitKind.TRIANGLE_IN_A_SQUARE,
    UnitKind.DRUNKARDS_PATH,
    UnitKind.DIAMOND,
    UnitKind.HEXAGON,
    UnitKind.KITE,
    UnitKind.TEMPLATE,
    UnitKind.FOUNDATION,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeEstimate:
    """Minutes, quick and unhurried hand, of cutting and of sewing; difficulty 1 (plain) to 3 (careful).

    Quilting is not in it: it takes far longer than the top, or is sent out.
    """

    cutting: tuple[int, int]
    sewing: tuple[int, int]
    difficulty: int
    assumed: Phrase = ASSUMED


def time_of(work: InstallmentWork) -> TimeEstimate:
    """Estimate one installment from the fabrics and pieces it cuts and the seams it sews.

    Rounded up to the next five minutes; an installment without parts takes none.
    """
    pieces = sum(piece.count for cut in work.pieces.values() for piece in cut)
    cutting = _times((PER_FABRIC, len(work.pieces)), (PER_PIECE, pieces))
    sewing = [_sewing(part) for part in work.parts]
    return TimeEstimate(
        cutting=_rounded(cutting),
        sewing=_rounded(_times(*((each, 1) for each in sewing))),
        difficulty=max((_difficulty(part) for part in work.parts), default=1),
    )


def _sewing(part: PartWork) -> Range:
    if part.recipe is None:
        return FINISHING[part.kind]
    trims = sum(row.count for row in part.recipe.units if row.kind not in PLAIN)
    return _times((PER_SEAM, _seams(part)), (PER_TRIM, trims))


def _seams(part: PartWork) -> int:
    """Count seams: each joins two, so there is one less than the patches, or than the parts of a top."""
    if part.kind == PartKind.BLOCK and part.drawing:
        return len(part.drawing.patches) - 1
    joined = sum(row.count for row in part.recipe.units) if part.recipe else 0
    return max(0, joined - 1)


def _difficulty(part: PartWork) -> int:
    kinds = {row.kind for row in part.recipe.units} if part.recipe else set()
    if kinds & CAREFUL or (part.recipe and part.recipe.order != Order.STRAIGHT):
        return 3
    return 1 if kinds <= PLAIN else 2


def _times(*counted: tuple[Range, int]) -> Range:
    quick = sum((each[0] * count for each, count in counted), Fraction(0))
    unhurried = sum((each[1] * count for each, count in counted), Fraction(0))
    return quick, unhurried


def _rounded(minutes: Range) -> tuple[int, int]:
    quick, unhurried = (int(-(-each // 5)) * 5 for each in minutes)
    return quick, unhurried
