"""Half-rectangle triangles: both hands, sizes tried upward until they go together, faults caught."""

from __future__ import annotations

from copy import deepcopy
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.methods import HouseStyle, Style, admitted_methods, draft_unit, fitting, unit_key
from patterns.engine.parts import Hand, Unit, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.units.half_rectangle import exact_size
from tests.engine.drawings import Drawing, block, drawing, patch
from tests.engine.unit_samples import METRIC, proof

OVERSIZED, EXACT = "from oversized triangles", "from triangles"
CLOSE = Fraction(1, 10_000)


def halves(
    size: tuple[int, int], hand: Hand, letters: str = "AB", *, at: tuple[int, int] = (0, 0)
) -> list[Drawing]:
    """Draw a half-rectangle, left and right of its seam."""
    (w, h), (x, y) = size, at
    corners = {"tl": (x, y), "tr": (x + w, y), "br": (x + w, y + h), "bl": (x, y + h)}
    shapes = ("tl br bl", "tl tr br") if hand is Hand.LEFT else ("tl tr bl", "tr br bl")
    return [
        patch(letter, *(corners[name] for name in shape.split()))
        for letter, shape in zip(letters, shapes, strict=True)
    ]


def unit(size: tuple[int, int], hand: Hand = Hand.LEFT, *, turn: int = 0, letters: str = "AB") -> Unit:
    (found,) = sewing_order(block(size, *halves(size, hand, letters)).turned(turn)).parts
    assert isinstance(found, Unit)
    return found


@pytest.mark.parametrize("turn", range(4))
@pytest.mark.parametrize("hand", [Hand.LEFT, Hand.RIGHT])
@pytest.mark.parametrize("letters", ["AB", "BA"])
def test_it_stands_upright_and_keeps_its_hand_however_it_is_turned(
    letters: str, hand: Hand, turn: int
) -> None:
    found = unit((2, 4), hand, turn=turn, letters=letters)
    assert (found.kind, found.hand, found.fabrics) == (UnitKind.HALF_RECTANGLE, hand, ("A", "B"))
    assert (found.width, found.height) == (2, 4)


def test_exact_size() -> None:
    """Derived: 2 x 4 in finished is cut 2.6545 x 5.3090 in."""
    wide, long = exact_size((Fraction(2), Fraction(4)), Fraction(1, 4))
    assert abs(wide - Fraction("2.6545")) < CLOSE
    assert abs(long - Fraction("5.3090")) < CLOSE


@pytest.mark.parametrize(
    ("size", "step", "cut"),
    [
        ((2, 4), "1/8", ("11/4", "43/8")),
        ((2, 4), "1/16", ("43/16", "43/8")),  # 2 11/16 x 5 5/16, rounded side by side, leaves nothing to trim
        ((1, 2), "1/16", ("27/16", "27/8")),  # 1 11/16 x 3 5/16
        ((3, 6), "1/16", ("59/16", "59/8")),  # 3 11/16 x 7 5/16
        ((3, 4), "1/8", ("31/8", "41/8")),  # exactly 3 3/4 x 5: no room for a dot that is off
    ],
)
def test_sizes_are_tried_upward_until_they_go_together(
    size: tuple[int, int], step: str, cut: tuple[str, str]
) -> None:
    sample = unit(size)
    style = Style(step=Fraction(step), overrides={unit_key(sample): EXACT})
    _, draft = draft_unit(sample, 2, style)
    assert {(need.width, need.length) for need in draft.needs} == {(Fraction(cut[0]), Fraction(cut[1]))}
    exact = exact_size((Fraction(size[0]), Fraction(size[1])), style.seam)
    assert all(side >= least for side, least in zip(map(Fraction, cut), exact, strict=True))


def test_it_is_oversized_unless_the_exact_size_is_asked_for() -> None:
    sample = unit((2, 4))
    for house in HouseStyle:
        assert admitted_methods(sample, 2, Style(house=house))[0] == OVERSIZED
    _, draft = draft_unit(sample, 2, Style())
    assert {(need.width, need.length, need.count) for need in draft.needs} == {
        (Fraction(3), Fraction(47, 8), 1)
    }


@pytest.mark.parametrize("hand", [Hand.LEFT, Hand.RIGHT])
@pytest.mark.parametrize("size", [(2, 4), (2, 3), (1, 3), (4, 5)])
@pytest.mark.parametrize("style", [Style(), METRIC], ids=["exact", "cm"])
def test_every_ratio_and_hand_is_made(size: tuple[int, int], hand: Hand, style: Style) -> None:
    sample = unit(size, hand)
    for name in (OVERSIZED, EXACT):
        asked = replace(style, overrides={unit_key(sample): name})
        chosen, draft = draft_unit(sample, 3, asked)
        assert all(need.then == "cut once diagonally" for need in draft.needs)
        assert [spare.count for spare in draft.spares] == [1, 1]
        nudge = fitting(chosen, sample, style)
        assert proof(sample, name, make=3, style=style, nudge=nudge).goes_together


def pair_block() -> Drawing:
    """Draw a left and a right unit side by side: a tall triangle of A."""
    left, right = halves((2, 4), Hand.RIGHT, "BA"), halves((2, 4), Hand.LEFT, "AB", at=(2, 0))
    return drawing((4, 4), *left, *right)


def pair_data() -> dict[str, Any]:
    drawn = pair_block()
    order = sewing_order(block((4, 4), *drawn["patches"]))
    return deepcopy(write_recipe(order, name="", style=Style()).as_data())


def test_left_and_right_are_kept_apart_and_cut_along_different_diagonals() -> None:
    drawn = pair_block()
    order = sewing_order(block((4, 4), *drawn["patches"]))
    hands = {part.hand: order.make[part.id] for part in order.parts if isinstance(part, Unit)}
    if Hand.EITHER not in hands:  # not taken for a triangle in a square
        assert hands == {Hand.LEFT: 1, Hand.RIGHT: 1}
    assert prove(pair_data(), drawn).goes_together


@pytest.mark.parametrize("fault", ["hand", "short", "narrow", "dot", "diagonal", "count"])
def test_faults_are_caught(fault: str) -> None:
    drawn = drawing((2, 4), *halves((2, 4), Hand.LEFT))
    order = sewing_order(block((2, 4), *drawn["patches"]))
    style = Style(overrides={unit_key(unit((2, 4))): EXACT})
    data = deepcopy(write_recipe(order, name="", style=style).as_data())
    assert prove(data, drawn).goes_together
    *cuts, join = data["steps"][0]["operations"]
    if fault == "hand":
        for cut in cuts:
            cut["along"] = "rising diagonal"
    elif fault == "diagonal":
        cuts[0]["along"] = "rising diagonal"
    elif fault in ("short", "narrow"):
        side, less = {"short": ("length", "21/4"), "narrow": ("width", "21/8")}[fault]
        for piece in data["pieces"]:
            piece[side] = less
        join["a_edge"] = join["b_edge"] = [data["pieces"][0]["width"], data["pieces"][0]["length"]]
    elif fault == "dot":
        join["match"] = "end"
    else:
        data["pieces"][0]["count"] = 2
    assert not prove(data, drawn).goes_together
