"""A triangle in a square or rectangle: its sides are mirror images, cut with a ruler or with templates."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.methods import HouseStyle, Style, admitted_methods, draft_unit, unit_key
from patterns.engine.parts import Hand, Unit, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.recipe_data import BIAS
from patterns.engine.recipes import write_recipe
from tests.engine.drawings import Drawing, block, box, drawing, patch
from tests.engine.unit_samples import METRIC

RULER, TEMPLATES = "from oversized triangles", "with templates"


def pointed(size: tuple[Any, Any], letters: str = "ABC") -> Drawing:
    w, h = Fraction(size[0]), Fraction(size[1])
    m, (w, h) = str(w / 2), (str(w), str(h))
    return drawing(
        (w, h),
        patch(letters[0], (0, h), (m, 0), (w, h)),
        patch(letters[1], (0, 0), (m, 0), (0, h)),
        patch(letters[2], (m, 0), (w, 0), (w, h)),
    )


def unit(size: tuple[Any, Any], letters: str = "ABC", *, turn: int = 0) -> Unit:
    drawn = pointed(size, letters)
    (found,) = sewing_order(block(drawn["grid"], *drawn["patches"]).turned(turn)).parts
    assert isinstance(found, Unit)
    return found


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize(("letters", "hand"), [("ABC", Hand.LEFT), ("ACB", Hand.RIGHT), ("ABB", Hand.EITHER)])
def test_it_points_up_and_knows_its_hand(letters: str, hand: Hand, turn: int) -> None:
    found = unit((3, 3), letters, turn=turn)
    assert (found.kind, found.fabrics, found.hand) == (UnitKind.TRIANGLE_IN_A_SQUARE, tuple(letters), hand)


def test_twice_as_wide_as_high_is_a_goose() -> None:
    assert unit((4, 2)).kind is UnitKind.FLYING_GEESE


@pytest.mark.parametrize(
    ("size", "names"),
    [
        ((3, 3), (RULER, TEMPLATES)),
        ((3, 4), (RULER, TEMPLATES)),
        ((4, 3), (RULER, TEMPLATES)),
        ((6, 2), (TEMPLATES,)),  # too blunt: the first side would cover the second seam
        (("19/8", "29/8"), (TEMPLATES,)),  # no rectangle of that proportion lies near on eighths
    ],
)
@pytest.mark.parametrize(
    "style", [Style(), Style(house=HouseStyle.OVERSIZED), METRIC], ids=["exact", "over", "cm"]
)
def test_every_admitted_method_makes_it(size: tuple[Any, Any], names: tuple[str, ...], style: Style) -> None:
    drawn, sample = pointed(size), unit(size)
    if style is not METRIC:
        assert admitted_methods(sample, 1, style) == names
    order = sewing_order(block(drawn["grid"], *drawn["patches"]))
    for name in admitted_methods(sample, 1, style):
        asked = replace(style, overrides={unit_key(sample): name})
        assert prove(write_recipe(order, name="", style=asked).as_data(), drawn).findings == ()


def test_cut_sizes() -> None:
    """Derived: the large triangle 3 x 3 in finished takes 3.8090 in, sides of 1 1/2 x 3 in 2.1545 in wide."""
    _, draft = draft_unit(unit((3, 3), "ABB"), 3, Style())
    large, left, right = draft.needs
    assert (large.width, large.length, large.count, large.then) == (
        Fraction(31, 8),
        Fraction(31, 8),
        3,
        "cut to a point",
    )
    assert (left.width, left.length) == (right.width, right.length) == (Fraction(5, 2), Fraction(5))
    assert (left.count, right.count) == (2, 2)
    assert [(spare.ref, spare.count) for spare in draft.spares] == [("left side", 1), ("right side", 1)]
    assert BIAS[large.then] == ["left", "right"]


def test_a_star_of_four_goes_together() -> None:
    """Pointed units round a square, as in the traditional 54-40 or Fight (from memory)."""
    single = pointed((2, 2), "ABB")["patches"]
    turned = {(1, 0): 0, (2, 1): 1, (1, 2): 2, (0, 1): 3}
    patches = [box("C", x, y, width=2, height=2) for x, y in ((0, 0), (4, 0), (4, 4), (0, 4), (2, 2))]
    for (column, row), quarters in turned.items():
        for shape in single:
            points = [(Fraction(x), Fraction(y)) for x, y in shape["points"]]
            for _ in range(quarters):
                points = [(2 - y, x) for x, y in points]
            moved = [[str(x + 2 * column), str(y + 2 * row)] for x, y in points]
            patches.append({"fabric": shape["fabric"], "points": moved})
    drawn = drawing((6, 6), *patches)
    order = sewing_order(block((6, 6), *patches))
    pointed_unit = next(p for p in order.parts if getattr(p, "kind", "") == UnitKind.TRIANGLE_IN_A_SQUARE)
    assert order.make[pointed_unit.id] == 4
    assert prove(write_recipe(order, name="", style=Style()).as_data(), drawn).goes_together


@pytest.mark.parametrize("fault", ["side", "large", "hands", "match", "seam", "trim"])
def test_faults_are_caught(fault: str) -> None:
    drawn = pointed((3, 3))
    order = sewing_order(block(drawn["grid"], *drawn["patches"]))
    data = deepcopy(write_recipe(order, name="", style=Style()).as_data())
    assert prove(data, drawn).goes_together
    operations = data["steps"][0]["operations"]
    if fault == "side":
        data["pieces"][1]["width"] = "2"
    elif fault == "large":
        data["pieces"][0]["width"] = "15/4"
    elif fault == "hands":
        operations[1]["along"], operations[2]["along"] = operations[2]["along"], operations[1]["along"]
    elif fault == "match":
        operations[-1]["match"] = "end dot"
    elif fault == "seam":
        operations[-1]["seam"] = "3/8"
    else:
        operations[-1]["gives"]["trim"]["align"]["at"] = ["13/8", "0"]
    assert not prove(data, drawn).goes_together


def test_a_half_rectangle_with_templates() -> None:
    drawn = drawing((2, 3), patch("A", (0, 0), (2, 3), (0, 3)), patch("B", (0, 0), (2, 0), (2, 3)))
    order = sewing_order(block((2, 3), *drawn["patches"]))
    (half,) = order.parts
    assert isinstance(half, Unit)
    style = Style(overrides={unit_key(half): TEMPLATES})
    data = write_recipe(order, name="", style=style).as_data()
    assert prove(data, drawn).goes_together
    assert {row["then"] for row in data["pieces"]} == {""}
