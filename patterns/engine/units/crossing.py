"""Quarter-square triangles from two half-square triangles.

Two are laid right sides together, sewn beside the other diagonal and cut apart: out come a unit and its
mirror image, so this is admitted only where the unit equals its own mirror image, turned perhaps. The
half-square triangles are trimmed to finished + (2 + sqrt 2) seams, the squares for them cut finished +
(2 + 2 sqrt 2) seams (derived geometry), both with room to trim where units are oversized.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase, Spare
from patterns.engine.units.base import (
    HALF_SQUARE,
    UNIT,
    Draft,
    Job,
    Method,
    Need,
    draw_words,
    pair,
    share,
    text,
)
from patterns.engine.units.half_square import FALLING, RISING, both_sides, lay_words, line
from patterns.engine.units.quarter_square import PURPOSE, trim, trim_words

QUARTER_TURNS = ((-1, 1), (-1, -1), (1, -1), (1, 1))  # the mirrored part's seam, turned clockwise


def crossed(job: Job) -> Draft:
    """Lay half-square triangles crosswise, sew both sides of the other diagonal, cut: two units."""
    top, right, bottom, left = job.unit.fabrics
    times = share(job.make, 2)
    first, second = (left, top), (right, bottom)  # below left and above right of the falling seam
    alike = second in (first, first[::-1])
    counts = {first: 2 * times} if alike else {first: times, second: times}
    needs: list[Need] = []
    operations: list[dict[str, Any]] = []
    spares: list[Spare] = []
    for i, (letters, count) in enumerate(counts.items()):
        needs += _squares(job, letters, i, pairs=share(count, 2))
        operations.append(_half_squares(job, i, share(count, 2)))
        spares += _spare(job, letters, i, count=2 * share(count, 2) - count)
    top_ref, turn = ("half-square 0", 3 if second == first[::-1] else 1) if alike else ("half-square 1", 1)
    operations.append(_cross(job, times, top=top_ref, turn=turn))
    spares += job.spare(2 * times - job.make)
    words = (*_pair_words(job, needs), _cross_words(job, alike=alike), *_finish_words(job))
    return Draft(needs=tuple(needs), operations=tuple(operations), words=words, spares=tuple(spares))


def half_square_size(job: Job) -> Fraction:
    """Give the size the half-square triangles are trimmed to: that of a plain square in their place."""
    return job.half_square(job.unit.width)


def _squares(job: Job, letters: tuple[str, str], i: int, *, pairs: int) -> list[Need]:
    least = job.up(half_square_size(job) + (HALF_SQUARE - 2) * job.seam)
    size = max(job.quarter_square(job.unit.width), least)
    below, above = letters
    return [
        Need(ref=f"base {i}", fabric=above, width=size, length=size, count=pairs, purpose=PURPOSE),
        Need(ref=f"top {i}", fabric=below, width=size, length=size, count=pairs, purpose=PURPOSE),
    ]


def _half_squares(job: Job, i: int, pairs: int) -> dict[str, Any]:
    finished = text(half_square_size(job) - 2 * job.seam)
    align = {"how": "slide", "seam": "s1", "at": pair(0, 0), "along": pair(1, 1)}
    cut_down = {"width": finished, "height": finished, "allowance": text(job.seam), "align": align}
    return {
        "op": "stack",
        "times": pairs,
        "base": f"base {i}",
        "top": [{"ref": f"top {i}", "corner": "every"}],
        "sew": both_sides(FALLING, text(job.seam)),
        "cut": [line(FALLING)],
        "seam": "s1",
        "gives": [{"id": f"half-square {i}", "at": "each", "trim": cut_down}],
    }


def _spare(job: Job, letters: tuple[str, str], i: int, *, count: int) -> list[Spare]:
    size = half_square_size(job)
    return [Spare(ref=f"half-square {i}", count=count, fabrics=letters, size=(size, size))] if count else []


def _cross(job: Job, times: int, *, top: str, turn: int) -> dict[str, Any]:
    """Sew the second across the first; the part at the lower right is the mirror image, and is turned."""
    mirror = mirror_turns(job.unit.fabrics)
    return {
        "op": "stack",
        "times": times,
        "base": "half-square 0",
        "top": [{"ref": top, "corner": "every", "turn": turn}],
        "sew": both_sides(RISING, text(job.seam)),
        "cut": [line(RISING)],
        "seam": "s2",
        "gives": [
            {"id": UNIT, "at": "top left", "trim": trim(job, (1, -1))},
            {"id": UNIT, "at": "bottom right", "trim": trim(job, QUARTER_TURNS[mirror or 0])},
        ],
    }


def mirror_turns(fabrics: tuple[str, ...]) -> int | None:
    """Give the quarter turns that take the mirror image into the unit itself; None when none does."""
    top, right, bottom, left = fabrics
    mirrored = (right, top, left, bottom)
    for turns in range(4):
        if mirrored[4 - turns :] + mirrored[: 4 - turns] == fabrics:
            return turns
    return None


def crossed_with_square(job: Job) -> Draft:
    """Lay a half-square triangle on a plain square, sew both sides of the other diagonal, cut: two units."""
    half, top, right = job.unit.fabrics
    times = share(job.make, 2)
    pairs = share(times, 2)
    size = half_square_size(job)
    letters = (top, right)
    plain = Need(ref="plain", fabric=half, width=size, length=size, count=times, purpose=PURPOSE)
    needs = (*_squares(job, letters, 0, pairs=pairs), plain)
    operations = (_half_squares(job, 0, pairs), _cross_plain(job, times))
    spares = (*_spare(job, letters, 0, count=2 * pairs - times), *job.spare(2 * times - job.make))
    words = (*_pair_words(job, needs[:2]), *_plain_words(job, plain), *_finish_words(job))
    return Draft(needs=needs, operations=operations, words=words, spares=spares)


def _cross_plain(job: Job, times: int) -> dict[str, Any]:
    """Write the stack: both parts alike, since the two small patches are of one fabric."""
    return {
        "op": "stack",
        "times": times,
        "base": "half-square 0",
        "top": [{"ref": "plain", "corner": "every"}],
        "sew": both_sides(RISING, text(job.seam)),
        "cut": [line(RISING)],
        "seam": "s2",
        "gives": [{"id": UNIT, "at": "each", "trim": trim(job, (1, 1))}],
    }


def _small_alike(job: Job) -> bool:
    """Only then is the unit its own mirror image."""
    return job.unit.fabrics[1] == job.unit.fabrics[2]


def _pair_words(job: Job, needs: Sequence[Need]) -> list[Phrase]:
    """Say how the half-square triangles are made from squares, a base and a top of each kind."""
    words: list[Phrase] = []
    for base, top in zip(needs[::2], needs[1::2], strict=True):
        words += draw_words([top])
        dark = job.style.darker((base.fabric, top.fabric))
        words.append(lay_words(top.count, base.ref))
        words.append(
            Phrase(
                "Sew {seam} from the line, on both sides of it. Cut on the line and press toward fabric "
                "{fabric}.",
                {"seam": job.seam, "fabric": dark},
            )
        )
    size = half_square_size(job)
    words.append(Phrase("Trim these half-square triangles to {size}.", {"size": (size, size)}))
    return words


def _cross_words(job: Job, *, alike: bool) -> Phrase:
    words = (
        "Lay two of them right sides together, each fabric on the other one; the seams nest. Draw the "
        "diagonal that crosses the seam. Sew {seam} from it, on both sides, and cut on it."
        if alike
        else "Lay one of each kind right sides together, turned as drawn; the seams nest. Draw the "
        "diagonal that crosses the seam. Sew {seam} from it, on both sides, and cut on it."
    )
    return Phrase(words, {"seam": job.seam})


def _plain_words(job: Job, plain: Need) -> tuple[Phrase, ...]:
    return (
        *draw_words([plain]),
        Phrase(
            "Lay each on a half-square triangle, right sides together, the line across the seam. Sew {seam} "
            "from the line, on both sides of it. Cut on the line.",
            {"seam": job.seam},
        ),
    )


def _finish_words(job: Job) -> tuple[Phrase, ...]:
    return (Phrase("Press this seam to one side, as the arrow shows."), trim_words(job))


def _own_mirror(job: Job) -> bool:
    return mirror_turns(job.unit.fabrics) is not None


NAME = "from two half-square triangles"
METHODS = (
    Method(name=NAME, kind=UnitKind.QUARTER_SQUARE, admits=_own_mirror, draft=crossed),
    Method(
        name="from a half-square triangle and a square",
        kind=UnitKind.THREE_PATCH,
        admits=_small_alike,
        draft=crossed_with_square,
    ),
)
