"""Published sizes of units, settings and printouts; fixtures/check_values/cutting.toml names their sources.

How `expected` is compared follows from the kind of the value: what was derived is met to a millionth of an
inch, what was rounded is met on the cutting step, an amount of oversize is met under the same setting, and
a published error is shown to be too small.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate
from pathlib import Path
from typing import Any

import pytest

from patterns.engine.layout import PlacedDrawing
from patterns.engine.measure import CENTIMETRE, inches
from patterns.engine.methods import prove_unit, unit_recipe
from patterns.engine.parts import Patch, Unit, UnitKind
from patterns.engine.print_scale import A4, LETTER, fitted_scale, print_again_at
from patterns.engine.rebuild import prove
from patterns.engine.settings_straight import straight_set
from patterns.engine.surds import Number, parse_number, root, write_number
from patterns.engine.units.base import Draft, HouseStyle, Job, Style
from tests.engine import unit_samples as drawn
from tests.engine.drawings import traditional

FIXTURES = Path(__file__).parents[2] / "fixtures"
Row = dict[str, Any]
VALUES: list[Row] = tomllib.loads((FIXTURES / "check_values/cutting.toml").read_text("utf-8"))["value"]
FINE = Fraction(1, 10**7)  # a step so fine that rounding up to it cannot be seen
MILLIONTH = Fraction(1, 10**6)
EIGHTH = Fraction(1, 8)
PAPERS = {"letter": LETTER, "a4": A4}


def triangle(kind: UnitKind) -> Unit:
    return drawn.unit(kind, (1, 1), "A", patches=[drawn.patch("A", (0, 0), (1, 0), (0, 1))])


SAMPLES = {
    UnitKind.SQUARE: drawn.square(1),
    UnitKind.HALF_SQUARE: drawn.half_square(1),
    UnitKind.QUARTER_SQUARE: drawn.quarter_square(1, "ABCD"),
    UnitKind.SQUARE_IN_A_SQUARE: drawn.square_in_a_square(1),
    UnitKind.FOUR_PATCH: drawn.checks(UnitKind.FOUR_PATCH, "ABBA", columns=2, cell="1/2"),
    UnitKind.SIDE_TRIANGLE: triangle(UnitKind.SIDE_TRIANGLE),
    UnitKind.CORNER_TRIANGLE: triangle(UnitKind.CORNER_TRIANGLE),
}


def sample(row: Row, finished: Number) -> Unit:
    """Draw the unit of a row at a finished size."""
    unit = SAMPLES[UnitKind(row["unit"])]
    patches = tuple(
        Patch(patch.fabric, tuple((x * finished, y * finished) for x, y in patch.points))
        for patch in unit.patches
    )
    return replace(unit, width=finished, height=finished, patches=patches)


def read(text: str) -> Number:
    """Read 2 1/2, or a number with a root: 5r2."""
    return parse_number(text) if "r" in text else inches(text)


def draft(row: Row, finished: Number, style: Style) -> Draft:
    method = drawn.method(sample(row, finished), row["method"])
    return method.draft(Job(unit=sample(row, finished), make=row.get("make", 1), style=style))


def size(row: Row, finished: Number, style: Style) -> Fraction:
    """Give the longer side of the piece of the fabric that the row asks for."""
    needs = draft(row, finished, style).needs
    return max(max(need.width, need.length) for need in needs if need.fabric == row["fabric"])


def goes_together(row: Row, finished: Number, *, style: Style, side: Fraction) -> bool:
    """Sew the unit with the pieces of one fabric cut to another size."""
    unit, made = sample(row, finished), draft(row, finished, style)
    needs = tuple(
        replace(need, width=side, length=side) if need.fabric == row["fabric"] else need
        for need in made.needs
    )
    job = Job(unit=unit, make=1, style=style)
    outline = [
        {"fabric": p.fabric, "points": [[write_number(n) for n in q] for q in p.points]} for p in unit.patches
    ]
    drawing = {"grid": [write_number(unit.width), write_number(unit.height)], "patches": outline}
    recipe = unit_recipe(job, replace(made, needs=needs))
    return prove(recipe.as_data(), drawing).goes_together


def cut(row: Row) -> None:
    style = Style(step=inches(row.get("step", "1/8")), seam=inches(row.get("seam", "1/4")))
    assert size(row, read(row["finished"]), style) == inches(row["expected"])


def exact(row: Row) -> None:
    assert abs(size(row, read(row["finished"]), Style(step=FINE)) - inches(row["expected"])) < MILLIONTH


def count(row: Row) -> None:
    needs = draft(row, read(row["finished"]), Style()).needs
    assert sum(need.count for need in needs if need.fabric == row["fabric"]) == row["expected"]


def oversized(row: Row) -> None:
    finished = read(row["finished"])
    over = inches(row["over"])
    style = Style(house=HouseStyle.OVERSIZED, half_square_over=over, quarter_square_over=over)
    assert size(row, finished, style) == inches(row["expected"])
    assert size(row, finished, style) >= size(row, finished, Style(step=FINE))


def convention(row: Row) -> None:
    finished = read(row["finished"])
    assert size(row, finished, Style(step=inches(row["step"]))) == inches(row["expected"])
    assert inches(row["expected"]) >= size(row, finished, Style(step=FINE))


def factor(row: Row) -> None:
    """Ask for the addition at a seam of 1, rounded up to halves."""
    ten = Fraction(10)
    added = [size(row, ten, Style(seam=Fraction(1), step=step)) - ten for step in (Fraction(1, 2), FINE)]
    assert added[0] == inches(row["expected"])
    assert added[1] <= inches(row["expected"])


def metric(row: Row) -> tuple[Number, Style]:
    style = Style(seam=inches(row["seam_cm"]) * CENTIMETRE, step=FINE)
    return 10 * CENTIMETRE, style


def exact_addition(row: Row) -> None:
    finished, style = metric(row)
    added = (size(row, finished, style) - finished) / CENTIMETRE
    assert abs(added - inches(row["expected"])) < MILLIONTH


def too_small(row: Row) -> None:
    finished, style = metric(row)
    published = finished + inches(row["expected"]) * CENTIMETRE
    assert size(row, finished, style) > published
    assert not goes_together(row, finished, style=style, side=published)
    assert goes_together(row, finished, style=style, side=size(row, finished, style))


def published_error(row: Row) -> None:
    finished, printed = read(row["finished"]), inches(row["printed"])
    ours = size(row, finished, Style(step=FINE))
    assert abs(ours - inches(row["expected"])) < MILLIONTH
    assert printed < ours
    assert not goes_together(row, finished, style=Style(), side=printed)


def square_that_gives(row: Row) -> None:
    """Go the other way: a square of this size gives an unfinished unit of `expected`."""
    within = inches(row.get("within", "0.000001"))
    finished = inches(row["expected"]) - Fraction(1, 2)
    assert abs(size(row, finished, Style(step=FINE)) - inches(row["square"])) < 2 * within


def setting(row: Row) -> None:
    """Meet a rule that rounds its parts: at most 1/8 in smaller, and never under the exact size."""
    ours = size(row, inches(row["block"]), Style())
    assert 0 <= inches(row["expected"]) - ours <= EIGHTH
    assert ours > inches(row["exact"]) - Fraction(1, 10**4)


def cut_setting(row: Row) -> None:
    assert size(row, inches(row["block"]), Style()) == inches(row["expected"])


def exact_setting(row: Row) -> None:
    assert abs(size(row, inches(row["block"]), Style(step=FINE)) - inches(row["expected"])) < MILLIONTH


def joined(row: Row) -> None:
    """Sew strips of these cut widths side by side: every seam takes 1/2 in."""
    cuts = [inches(width) for width in row["cut"].split(", ")]
    ends = [Fraction(0), *accumulate(width - Fraction(1, 2) for width in cuts)]
    strips = [
        drawn.patch(letter, (left, 0), (right, 0), (right, 4), (left, 4))
        for letter, left, right in zip("ABCD", ends, ends[1:], strict=False)
    ]
    letters = "ABCD"[: len(strips)]
    unit = drawn.unit(UnitKind.STRIP_SET, (ends[-1], 4), letters, patches=strips)
    job = Job(unit=unit, make=1, style=Style())
    method = drawn.method(unit, "from single pieces")
    assert [need.width for need in method.draft(job).needs] == cuts
    assert job.unfinished[0] == inches(row["expected"])
    assert prove_unit(job, method).goes_together


def blocks(row: Row) -> None:
    block = PlacedDrawing(block=traditional("four-patch", 6))
    top = straight_set([[block] * row["columns"]] * row["rows"])
    assert len(top.blocks) == row["expected"]


def print_again(row: Row) -> None:
    scale = print_again_at(inches(row["true"]), printed=inches(row["printed"]))
    assert abs(scale - inches(row["expected"])) < MILLIONTH


def fitted(row: Row) -> None:
    scale = fitted_scale(PAPERS[row["page"]], paper=PAPERS[row["paper"]])
    assert abs(inches(row["true"]) * scale - inches(row["expected"])) < Fraction(1, 200)


CHECKS = {
    check.__name__.replace("_", " "): check
    for check in (
        cut, exact, count, oversized, convention, factor, exact_addition, too_small, published_error,
        square_that_gives, setting, cut_setting, exact_setting, joined, blocks, print_again, fitted,
    )
}  # fmt: skip


@pytest.mark.parametrize("row", VALUES, ids=[row["id"] for row in VALUES])
def test_a_published_number_is_met(row: Row) -> None:
    assert row["title"]
    assert row["publisher"]
    CHECKS[row["kind"]](row)


def test_the_side_of_a_square_on_point_is_the_long_side_of_its_corner_triangles() -> None:
    """C06: 6 7/8 in would be right for legs of 6 in; the case is a public account, common practice."""
    row = {"unit": "square in a square", "method": "from triangles", "fabric": "B"}
    assert size(row, 12, Style()) == inches("6 7/8")
    assert size(row, 6 * root(2), Style()) == inches("5 1/8")
