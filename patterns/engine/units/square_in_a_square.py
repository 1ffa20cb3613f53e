"""A square in a square: from triangles, which cannot end exact, and by flipping corners, which does.

Sizes: centre f / sqrt 2 + 2 seams, corner squares f / 2 + (2 + sqrt 2) seams, cut once (derived geometry).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling, root
from patterns.engine.units.base import (
    HALF_SQUARE,
    TWO,
    UNIT,
    Draft,
    Job,
    Method,
    Need,
    draw_words,
    pair,
    text,
)
from patterns.engine.units.folds import ACROSS, flip, flip_words
from patterns.engine.units.triangles import Apart, Triangles, cut_once

FAR = Fraction(1, 16)  # inches; a point that misses by more is a stop
PURPOSE = "squares in a square"
CORNERS = tuple(ACROSS)  # top left, top right, bottom right, bottom left
OPPOSITE_FIRST = (0, 2, 1, 3)
EDGES = ((0, -1), (1, 0), (0, 1), (-1, 0))  # of the centre, before it is turned


def centre(job: Job) -> Number:
    """Give the exact cut size of the centre square."""
    return job.unit.width / root(2) + 2 * job.seam


def centre_cut(job: Job) -> Fraction:
    """Round the centre up to the coarsest mark that leaves its points within 1/16 in of their place."""
    exact = centre(job)
    found = job.up(exact)
    for finer in (2, 4):
        if (found - exact) / root(2) <= FAR:
            break
        found = ceiling(exact, job.style.step / finer)
    return found


def corner_cut(job: Job, size: Fraction) -> Fraction:
    """Round the corner squares up, oversized only as far as no tip reaches past the next seam.

    A tip may reach two seams beyond the centre's edge: then less than a seam of it lies open.
    """
    finished = job.unit.width / TWO
    most = -ceiling(-(size + 4 * job.seam) / root(2), job.style.step)
    return min(job.half_square(finished), max(job.up(finished + HALF_SQUARE * job.seam), most))


def from_triangles(job: Job) -> Draft:
    """Sew triangles to the four sides of a square, opposite sides first; states by how much points miss."""
    size = centre_cut(job)
    leg = corner_cut(job, size)
    corners = [
        cut_once(
            Triangles(name=f"corner {letter}", fabric=letter, number=count, purpose=PURPOSE),
            ref=f"p{letter}",
            size=leg,
        )
        for letter, count in _corner_counts(job).items()
    ]
    return Draft(
        needs=(_middle(job, size), *(each.need for each in corners)),
        operations=(*(each.operation for each in corners), *_around(job)),
        words=_words(job, corners),
        spares=tuple(spare for each in corners for spare in each.spares),
    )


def _middle(job: Job, size: Fraction) -> Need:
    """Ask for the squares that lie below the corners."""
    return Need(
        ref="p0", fabric=job.unit.fabrics[0], width=size, length=size, count=job.make, purpose=PURPOSE
    )


def _corner_counts(job: Job) -> dict[str, int]:
    corners = job.unit.fabrics[1:]
    return {letter: corners.count(letter) * job.make for letter in dict.fromkeys(corners)}


def _around(job: Job) -> list[dict[str, Any]]:
    """Join the corners: top and bottom, then right and left of the centre as it was cut."""
    operations = []
    base = "p0"
    for place in OPPOSITE_FIRST:
        last = place == OPPOSITE_FIRST[-1]
        gives: dict[str, Any] = {"id": UNIT, "trim": _trim(job)} if last else {"id": f"round {place}"}
        operations.append(
            {
                "op": "join",
                "times": job.make,
                "a": base,
                "b": f"corner {job.unit.fabrics[1 + place]}",
                "a_edge": pair(*EDGES[place]),
                "b_edge": pair(1, 1),
                "match": "middle",
                "flush": False,
                "seam": text(job.seam),
                "name": f"s{place + 1}",
                "gives": gives,
            }
        )
        base = gives["id"]
    return operations


def _trim(job: Job) -> dict[str, Any]:
    """Trim with the middle between the points on the middle of the square."""
    middle = pair(job.unit.width / TWO, job.unit.height / TWO)
    align = {
        "how": "middle",
        "seams": ["s1", "s2", "s3", "s4"],
        "seam": "s1",
        "along": pair(-1, 1),
        "at": middle,
    }
    patches = [{"fabric": p.fabric, "points": [pair(*q) for q in p.points]} for p in job.unit.patches]
    return {**job.trim(align), "ideal": {"patches": patches}}


def _words(job: Job, corners: list[Apart]) -> tuple[Phrase, ...]:
    return (
        *(each.words for each in corners),
        Phrase(
            "Crease the middle of each long side of the triangles, and of each side of {piece}.",
            {"piece": "p0"},
        ),
        Phrase(
            "Sew triangles to two opposite sides of {piece}, middles matched. Press away from the centre.",
            {"piece": "p0"},
        ),
        Phrase("Sew triangles to the two sides that are left, middles matched. Press away from the centre."),
        Phrase("Trim to {size}, with {seam} beyond each point.", {"size": job.unfinished, "seam": job.seam}),
    )


def corners_flipped(job: Job) -> Draft:
    """Flip a square over each corner of a larger one: exact, with left-overs."""
    size, corner = job.up(job.unfinished[0]), job.up(job.unit.width / TWO + 2 * job.seam)
    needs = [_middle(job, size)]
    for letter, count in _corner_counts(job).items():
        needs.append(
            Need(ref=f"p{letter}", fabric=letter, width=corner, length=corner, count=count, purpose=PURPOSE)
        )
    operations = []
    base = "p0"
    for i, place in enumerate(CORNERS):
        last = i == len(CORNERS) - 1
        gives: dict[str, Any] = (
            {"id": UNIT, "trim": job.trim({"how": "exact"})} if last else {"id": f"corner {i}"}
        )
        operations.append(flip(job, base=base, top=f"p{job.unit.fabrics[1 + i]}", corner=place, gives=gives))
        base = gives["id"]
    words = (
        *draw_words(needs[1:]),
        Phrase(
            "Lay one on a corner of each {piece}, right sides together, the line across the corner. "
            "Sew on the line.",
            {"piece": "p0"},
        ),
        flip_words(job),
        Phrase("Do the same at the other three corners, as drawn."),
    )
    return Draft(needs=tuple(needs), operations=tuple(operations), words=words)


def _fits(job: Job) -> bool:
    return job.on_step(job.unfinished[0], job.unit.width / TWO)


METHODS = (
    Method(name="corners flipped", kind=UnitKind.SQUARE_IN_A_SQUARE, admits=_fits, draft=corners_flipped),
    Method(name="from triangles", kind=UnitKind.SQUARE_IN_A_SQUARE, draft=from_triangles),
)
