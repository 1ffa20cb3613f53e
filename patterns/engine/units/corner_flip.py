"""Corner-flip squares: a square or rectangle with one to four corners sewn across and flipped.

Sizes: body finished + 2 seams, corner squares leg + 2 seams.  The corners that fall off may be sewn
together first, two seams from the first seam: bonus half-square triangles of leg - 2 sqrt 2 seams finished
(derived geometry), trimmed down to the cutting step.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from typing import Any

from patterns.engine.parts import Patch, Point, UnitKind
from patterns.engine.steps import Phrase, Spare
from patterns.engine.surds import Number, ceiling, root, sign
from patterns.engine.units.base import UNIT, Draft, Job, Method, draw_words, pair, text
from patterns.engine.units.folds import ACROSS, flip, flip_twice, flip_words
from patterns.engine.units.plain import Plain, rectangle

PURPOSE = "corner-flip squares"
CORNERS = {
    "top left": Phrase("upper left"),
    "top right": Phrase("upper right"),
    "bottom right": Phrase("lower right"),
    "bottom left": Phrase("lower left"),
}


def corners_flipped(job: Job) -> Draft:
    """Flip a square over each corner: exact, with left-overs."""
    body, squares = _body(job), _squares(job)
    words = (*_words(job, body, squares, flipped=flip_words(job)), *_offer(job))
    return _draft(body, squares, operations=_flips(job, body, squares), words=words)


def with_bonus(job: Job) -> Draft:
    """Flip a square over each corner, and sew what falls off to half-square triangles."""
    body, squares = _body(job), _squares(job)
    operations = [
        flip_twice(row, corner=place, gives={"id": f"bonus {letter}", "trim": _bonus_trim(job, place)})
        for row, (place, letter) in zip(_flips(job, body, squares), places(job).items(), strict=True)
    ]
    words = _words(job, body, squares, flipped=_twice_words(job))
    draft = _draft(body, squares, operations=operations, words=words)
    return Draft(
        needs=draft.needs,
        operations=draft.operations,
        words=words,
        spares=_bonus_spares(job),
        warnings=draft.warnings,
    )


def leg(job: Job) -> Number:
    """Give the finished leg of the corners."""
    xs = [x for x, _ in job.unit.patches[1].points]
    return max(xs) - min(xs)


def places(job: Job) -> dict[str, str]:
    """Give the corners that are flipped, clockwise from the top left, each with its fabric."""
    right, bottom = job.unit.width, job.unit.height
    left = top = Fraction(0)
    spots = dict(zip(ACROSS, ((left, top), (right, top), (right, bottom), (left, bottom)), strict=True))
    return {
        next(place for place, spot in spots.items() if spot == _square_corner(patch)): patch.fabric
        for patch in job.unit.patches[1:]
    }


def _square_corner(patch: Patch) -> Point:
    """Give the corner of a triangle that has another one beside it and one above or below."""
    xs, ys = zip(*patch.points, strict=True)
    return next((x, y) for x, y in patch.points if xs.count(x) == ys.count(y) == 2)  # noqa: PLR2004 -- itself and one more


def bonus(job: Job) -> Fraction:
    """Give the finished size of the bonus half-square triangles, down to the cutting step."""
    raw = leg(job) + 2 * job.seam - 2 * root(2) * job.seam
    return -ceiling(-raw, job.style.step) - 2 * job.seam


def _body(job: Job) -> Plain:
    size = {"width": job.unit.width, "height": job.unit.height}
    return rectangle(job, job.unit.fabrics[0], **size, count=job.make, purpose=PURPOSE)


def _squares(job: Job) -> dict[str, Plain]:
    letters = list(places(job).values())
    size = {"width": leg(job), "height": leg(job)}
    return {
        letter: rectangle(job, letter, **size, count=letters.count(letter) * job.make, purpose=PURPOSE)
        for letter in dict.fromkeys(letters)
    }


def _flips(job: Job, body: Plain, squares: dict[str, Plain]) -> list[dict[str, Any]]:
    operations = []
    base, corners = body.ref, places(job)
    for i, (place, letter) in enumerate(corners.items(), 1):
        last = i == len(corners)
        gives: dict[str, Any] = (
            {"id": UNIT, "trim": job.trim({"how": "exact"})} if last else {"id": f"corner {i}"}
        )
        operations.append(flip(job, base=base, top=squares[letter].ref, corner=place, gives=gives))
        base = gives["id"]
    return operations


def _draft(
    body: Plain,
    squares: dict[str, Plain],
    *,
    operations: list[dict[str, Any]],
    words: tuple[Phrase, ...],
) -> Draft:
    cut = (body, *squares.values())
    eased = [operation for each in cut for operation in each.operations]
    warnings = dict.fromkeys(warning for each in cut for warning in each.warnings)
    return Draft(
        needs=tuple(each.need for each in cut),
        operations=(*eased, *operations),
        words=words,
        warnings=tuple(warnings),
    )


def _words(job: Job, body: Plain, squares: dict[str, Plain], *, flipped: Phrase) -> tuple[Phrase, ...]:
    """Say how the first corner is sewn, and where the others go."""
    first, *others = places(job).items()
    lay = Phrase(
        "Lay one {piece} on the {corner} corner of each {other}, right sides together, the line across the "
        "corner. Sew on the line.",
        {"piece": squares[first[1]].need.ref, "corner": CORNERS[first[0]], "other": body.need.ref},
    )
    again = "Do the same with one {piece} at the {corner} corner."
    rest = [Phrase(again, {"piece": squares[letter].need.ref, "corner": CORNERS[p]}) for p, letter in others]
    return (*draw_words(plain.need for plain in squares.values()), lay, flipped, *rest)


def _twice_words(job: Job) -> Phrase:
    size = bonus(job) + 2 * job.seam
    words = (
        "Sew a second seam {second} from the first, on the side of the corner. Cut between the two. Flip the "
        "triangle outward and press. Press the small half-square triangle that is cut off and trim it to "
        "{size}: a bonus for another quilt."
    )
    return Phrase(words, {"second": 2 * job.seam, "size": (size, size)})


def _offer(job: Job) -> tuple[Phrase, ...]:
    """Say what could be made of the corners that fall off, where it is worth it."""
    if not _bonus_fits(job):
        return ()
    size = bonus(job) + 2 * job.seam
    words = (
        "The corners that fall off may be kept: sewn {second} from the first seam before they are cut, they "
        "give bonus half-square triangles of {size} unfinished, {count} in all."
    )
    count = job.make * len(places(job))
    return (Phrase(words, {"second": 2 * job.seam, "size": (size, size), "count": count}),)


def _bonus_trim(job: Job, place: str) -> dict[str, Any]:
    size = text(bonus(job))
    align = {"how": "slide", "seam": f"seam {place}", "at": pair(0, 0), "along": pair(1, 1)}
    return {"width": size, "height": size, "allowance": text(job.seam), "align": align}


def _bonus_spares(job: Job) -> tuple[Spare, ...]:
    """Name the bonus half-square triangles, one sort for each fabric of the corners."""
    size, letters = bonus(job), list(places(job).values())
    body = job.unit.fabrics[0]
    zero = Fraction(0)
    falling, below, above = ((zero, zero), (size, size)), (zero, size), (size, zero)
    return tuple(
        Spare(
            ref=f"bonus {letter}",
            count=letters.count(letter) * job.make,
            fabrics=(letter, body),
            size=(size + 2 * job.seam, size + 2 * job.seam),
            patches=(Patch(letter, (*falling, below)), Patch(body, (falling[0], above, falling[1]))),
        )
        for letter in dict.fromkeys(letters)
    )


def _bonus_fits(job: Job) -> bool:
    """Admit the bonus where it finishes two seams or more, and no corner lies over another."""
    reach = 2 * leg(job) + 2 * job.seam
    room = [sign(side - reach) >= 0 for side in (job.unit.width, job.unit.height)]
    for first, second in combinations(places(job), 2):
        apart = [a != b for a, b in zip(first.split()[::-1], second.split()[::-1], strict=True)]
        if not any(is_apart and wide for is_apart, wide in zip(apart, room, strict=True)):
            return False
    return bonus(job) >= 2 * job.seam


METHODS = (
    Method(name="corners flipped", kind=UnitKind.CORNER_FLIP, draft=corners_flipped),
    Method(
        name="corners flipped, with bonus half-squares",
        kind=UnitKind.CORNER_FLIP,
        admits=_bonus_fits,
        draft=with_bonus,
    ),
)
