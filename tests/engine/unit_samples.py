"""Units drawn by hand for the tests of the methods, and their proof by themselves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

from patterns.engine.methods import METHODS, admitted_methods, prove_unit, unit_key
from patterns.engine.parts import Assembly, Hand, Patch, Unit, UnitKind
from patterns.engine.rebuild import Proof
from patterns.engine.units.base import Draft, Job, Method, Style

METRIC = Style(seam=Fraction(75, 254), step=Fraction(25, 254))  # 0.75 cm and 0.25 cm


def patch(letter: str, *corners: tuple[object, object]) -> Patch:
    return Patch(letter, tuple((Fraction(x), Fraction(y)) for x, y in corners))


def unit(
    kind: UnitKind,
    size: tuple[object, object],
    letters: str,
    *,
    patches: list[Patch],
    hand: Hand = Hand.EITHER,
) -> Unit:
    return Unit(
        id="unit-1",
        kind=kind,
        width=Fraction(size[0]),
        height=Fraction(size[1]),
        fabrics=tuple(letters),
        hand=hand,
        patches=tuple(patches),
    )


def square(f: object, letter: str = "A") -> Unit:
    return unit(UnitKind.SQUARE, (f, f), letter, patches=[patch(letter, (0, 0), (f, 0), (f, f), (0, f))])


def half_square(f: object, letters: str = "AB") -> Unit:
    below, above = letters
    patches = [patch(below, (0, 0), (f, f), (0, f)), patch(above, (0, 0), (f, 0), (f, f))]
    return unit(UnitKind.HALF_SQUARE, (f, f), letters, patches=patches)


def quarter_square(f: object, letters: str = "ABAB") -> Unit:
    m = Fraction(f) / 2
    corners = [(0, 0), (f, 0), (f, f), (0, f)]
    patches = [patch(letters[i], corners[i], corners[(i + 1) % 4], (m, m)) for i in range(4)]
    return unit(UnitKind.QUARTER_SQUARE, (f, f), letters, patches=patches)


def three_patch(f: object, letters: str = "ABC") -> Unit:
    m = Fraction(f) / 2
    half, top, right = letters
    patches = [
        patch(half, (0, 0), (f, f), (0, f)),
        patch(top, (0, 0), (f, 0), (m, m)),
        patch(right, (f, 0), (f, f), (m, m)),
    ]
    return unit(UnitKind.THREE_PATCH, (f, f), letters, patches=patches, hand=Hand.LEFT)


def goose(w: object, letters: str = "ABB") -> Unit:
    h = Fraction(w) / 2
    patches = [
        patch(letters[0], (0, h), (h, 0), (w, h)),
        patch(letters[1], (0, 0), (h, 0), (0, h)),
        patch(letters[2], (w, 0), (w, h), (h, 0)),
    ]
    return unit(UnitKind.FLYING_GEESE, (w, h), letters, patches=patches)


def square_in_a_square(f: object, letters: str = "ABBBB") -> Unit:
    m = Fraction(f) / 2
    patches = [
        patch(letters[0], (m, 0), (f, m), (m, f), (0, m)),
        patch(letters[1], (0, 0), (m, 0), (0, m)),
        patch(letters[2], (m, 0), (f, 0), (f, m)),
        patch(letters[3], (f, m), (f, f), (m, f)),
        patch(letters[4], (m, f), (0, f), (0, m)),
    ]
    return unit(UnitKind.SQUARE_IN_A_SQUARE, (f, f), letters, patches=patches)


def checks(kind: UnitKind, letters: str, *, columns: int, cell: object = 1) -> Unit:
    c = Fraction(cell)
    patches = []
    for i, letter in enumerate(letters):
        x, y = c * (i % columns), c * (i // columns)
        patches.append(patch(letter, (x, y), (x + c, y), (x + c, y + c), (x, y + c)))
    return unit(kind, (c * columns, c * (len(letters) // columns)), letters, patches=patches)


def method(sample: Unit, name: str) -> Method:
    return next(m for m in METHODS if m.kind is sample.kind and m.name == name)


def draft(sample: Unit, name: str, make: int = 1, *, style: Style | None = None) -> Draft:
    return method(sample, name).draft(Job(unit=sample, make=make, style=style or Style()))


def cut_sizes(
    sample: Unit, name: str, make: int = 1, *, style: Style | None = None
) -> dict[str, tuple[Fraction, Fraction, int]]:
    """Give width, length and count by fabric, the largest piece of each."""
    sizes: dict[str, tuple[Fraction, Fraction, int]] = {}
    for need in draft(sample, name, make, style=style).needs:
        sizes[need.fabric] = max(
            sizes.get(need.fabric, (Fraction(0), Fraction(0), 0)), (need.width, need.length, need.count)
        )
    return sizes


def proof(sample: Unit, name: str, make: int = 1, *, style: Style | None = None, nudge: int = 0) -> Proof:
    job = Job(unit=sample, make=make, style=style or Style(), nudge=nudge)
    return prove_unit(job, method(sample, name))


def with_methods_by_chance(order: Assembly, style: Style, chance: Random) -> Style:
    units = [part for part in order.parts if isinstance(part, Unit)]
    chosen = {u: admitted_methods(u, order.make[u.id], style) for u in units}
    return replace(style, overrides={unit_key(u): chance.choice(names) for u, names in chosen.items()})
