"""The methods of every kind of unit, and the choice among them.

A program's house style says exact or oversized; a unit may override its method. A unit is named by its
*key*: kind, fabric letters in the order of `parts.Unit`, finished size and hand, e.g. "flying geese
A-B-B 3 x 3/2 either". The key does not change when other units of the block do, so that an override
stays with its unit.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from patterns.engine.errors import PatternError
from patterns.engine.laying import units_in_whole
from patterns.engine.parts import Assembly, Patch, Unit, UnitKind
from patterns.engine.rebuild import Proof, prove
from patterns.engine.steps import Phrase, Piece, Recipe, Spare, Step
from patterns.engine.surds import write_number
from patterns.engine.units import (
    corner_flip,
    crossing,
    drunkards_path,
    flying_geese,
    foundations,
    half_rectangle,
    half_square,
    plain,
    quarter_square,
    setting_triangles,
    slices,
    square_in_a_square,
    strips,
    templates,
    triangle_in_a_square,
)
from patterns.engine.units.base import UNIT, Draft, HouseStyle, Job, Method, Style
from patterns.engine.units.prints import scattered

__all__ = [
    "METHODS",
    "HouseStyle",
    "NoMethod",
    "Style",
    "admitted_methods",
    "choose",
    "draft_unit",
    "fitting",
    "is_one_piece",
    "unit_key",
]

METHODS: tuple[Method, ...] = (
    *plain.METHODS,
    *half_square.METHODS,
    *crossing.METHODS,
    *quarter_square.METHODS,
    *flying_geese.METHODS,
    *square_in_a_square.METHODS,
    *corner_flip.METHODS,
    *half_rectangle.METHODS,
    *triangle_in_a_square.METHODS,
    *drunkards_path.METHODS,
    *strips.METHODS,
    *setting_triangles.METHODS,
    *foundations.METHODS,
    *slices.METHODS,
    *templates.METHODS,
)
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


class NoMethod(PatternError):
    """No method makes this unit in this style; `asked` is a method that was asked for by name."""

    def __init__(self, *, unit: str, asked: str = "") -> None:
        """Keep the unit's key."""
        super().__init__(f"no method {asked!r} for {unit}")
        self.unit = unit
        self.asked = asked


def unit_key(unit: Unit) -> str:
    """Name a unit for overrides: kind, letters, finished size in inches, hand."""
    size = f"{write_number(unit.width)} x {write_number(unit.height)}"
    return f"{unit.kind.value} {'-'.join(unit.fabrics)} {size} {unit.hand.value}"


def admitted_methods(unit: Unit, make: int, style: Style | None = None) -> tuple[str, ...]:
    """Give the names of the methods that can make a unit, the preferred one first.

    Those that keep the direction of a print come before those that turn it.
    """
    job = Job(unit=unit, make=make, style=style or Style())
    turned = job.style.directions
    methods = [m for m in METHODS if m.kind is unit.kind and m.admits(job)]
    return tuple(
        m.name
        for m in sorted(methods, key=lambda m: (len(scattered(unit, m.name, turned)), not m.prefers(job)))
    )


def choose(unit: Unit, make: int, style: Style) -> Method:
    """Give the method that is asked for, or else the preferred one; NoMethod when it is not admitted."""
    asked = style.overrides.get(unit_key(unit), "")
    names = admitted_methods(unit, make, style)
    name = asked or (names[0] if names else "")
    if name not in names:
        raise NoMethod(unit=unit_key(unit), asked=asked)
    return next(m for m in METHODS if m.kind is unit.kind and m.name == name)


def is_one_piece(unit: Unit, style: Style) -> bool:
    """Say whether a unit is sewn as it is cut, by the name of its piece, and not cut apart from a strip."""
    return templates.is_cut_piece(unit) and choose(unit, 1, style).name != slices.FROM_STRIPS


def triangle_methods(assembly: Assembly) -> dict[str, str]:
    """Choose for single triangles: the long side on the straight grain where it lies on the whole's edge."""
    units = {part.id: part for part in assembly.parts if isinstance(part, Unit)}
    last = assembly.parts[-1]
    sides = (last.height, last.width) if assembly.whole.turn % 2 else (last.width, last.height)
    found = {}
    for lying in units_in_whole(assembly):
        unit = units[lying.unit]
        if unit.kind is UnitKind.TRIANGLE and templates.is_right_isosceles(unit):
            start, end = templates.long_side(lying.patches[0].points)
            if any(start[k] == end[k] and start[k] in (0, sides[k]) for k in (0, 1)):
                found[unit_key(unit)] = templates.CUT_TWICE
    return found


def draft_unit(unit: Unit, make: int, style: Style) -> tuple[Method, Draft]:
    """Write how a unit is made, with the smallest cut sizes that virtual sewing passes."""
    method = choose(unit, make, style)
    nudge = fitting(method, unit, style)
    return method, method.draft(Job(unit=unit, make=make, style=style, nudge=nudge))


def fitting(method: Method, unit: Unit, style: Style) -> int:
    """Give the cutting steps above the exact size that virtual sewing asks for, mostly 0."""
    return _fitting(method, _plain_letters(unit), replace(style, overrides={}, dark={}, directions={}))


@cache
def _fitting(method: Method, unit: Unit, style: Style) -> int:
    """Try sizes upward until one unit goes together; A, B ... stand for its letters."""
    for nudge in range(method.tries):
        job = Job(unit=unit, make=1, style=style, nudge=nudge)
        if prove_unit(job, method).goes_together:
            return nudge
    return 0  # the proof of the whole names what is wrong


def prove_unit(job: Job, method: Method) -> Proof:
    """Sew one unit by itself and compare it with its drawing."""
    unit = job.unit
    drawing = {
        "grid": [write_number(unit.width), write_number(unit.height)],
        "patches": [
            {"fabric": p.fabric, "points": [list(map(write_number, q)) for q in p.points]}
            for p in unit.patches
        ],
    }
    return prove(unit_recipe(job, method.draft(job)).as_data(), drawing)


def unit_recipe(job: Job, draft: Draft) -> Recipe:
    """Write the recipe of one unit."""
    pieces = tuple(
        Piece(
            id=n.ref,
            fabric=n.fabric,
            width=n.width,
            length=n.length,
            count=n.count,
            then=n.then,
            outline=n.outline,
        )
        for n in draft.needs
    )
    step = Step(number=1, title=Phrase(""), words=(), check=None, operations=draft.operations)
    return Recipe(
        name="",
        finished=(job.unit.width, job.unit.height),
        seam=job.seam,
        order="straight",
        units=(),
        pieces=pieces,
        steps=(step,),
        spares=_one_taken(draft.spares, job),
        warnings=(),
        place={"ref": UNIT, "turn": 0},
    )


def _one_taken(spares: tuple[Spare, ...], job: Job) -> tuple[Spare, ...]:
    """Give the spares when `make` units are made and one is looked at."""
    kept = tuple(spare for spare in spares if spare.ref != UNIT)
    over = sum(spare.count for spare in spares if spare.ref == UNIT) + job.make - 1
    return (*kept, *job.spare(over))


def _plain_letters(unit: Unit) -> Unit:
    """Name the fabrics A, B ... in the order they come."""
    names = {letter: LETTERS[i] for i, letter in enumerate(dict.fromkeys(unit.fabrics))}
    patches = tuple(Patch(names[p.fabric], p.points) for p in unit.patches)
    fabrics = tuple(names[letter] for letter in unit.fabrics)
    return replace(unit, id="", name="", fabrics=fabrics, patches=patches)
