"""Numbers, lengths and transforms of SVG: exact, and refused by name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.errors import BadSvg, BadTransform, TooLarge
from patterns.engine.svg_numbers import TURNS, length, number, numbers, tokens, transform

F = Fraction


def test_decimals_are_read_exactly() -> None:
    # Forms of SVG 1.1, 8.3.9: numbers need no space before a sign or a second point.
    assert numbers("1.5.25-3,+4e1 -.5E-1", "x", most=9) == [F(3, 2), F(1, 4), -3, 40, F(-1, 20)]


def test_letters_come_as_they_stand() -> None:
    assert list(tokens(" M1 2h3z ", "x")) == ["M", 1, 2, "h", 3, "z"]


@pytest.mark.parametrize("text", ["1;2", "1 a", "--1", "1e", "٣", "nan", "1e31", "1e999999999", "1" * 41])
def test_other_texts_are_refused_with_their_place(text: str) -> None:
    with pytest.raises(BadSvg) as error:
        numbers(text, "polygon[0].points", most=9)
    assert error.value.where == "polygon[0].points"


def test_a_long_list_is_refused() -> None:
    with pytest.raises(TooLarge):
        numbers("1 2 3", "x", most=2)


@pytest.mark.parametrize(
    ("text", "pixels"),  # https://www.w3.org/TR/css-values-3/#absolute-lengths: 1in = 2.54cm = 72pt = 96px
    [("3", 3), (" 2.5px ", F(5, 2)), ("1in", 96), ("2.54cm", 96), ("25.4MM", 96), ("72pt", 96), ("6pc", 96)],
)
def test_lengths_are_exact_in_any_unit(text: str, pixels: Fraction) -> None:
    assert length(text, "x") == pixels


@pytest.mark.parametrize("text", ["50%", "2em", "", "in", "1 2"])
def test_lengths_that_depend_on_other_things_are_refused(text: str) -> None:
    with pytest.raises(BadSvg):
        length(text, "rect[0].width")


@pytest.mark.parametrize(
    ("text", "to"),
    [
        ("", (3, 1)),
        ("translate(2)", (5, 1)),
        ("translate(2 -1)", (5, 0)),
        ("scale(2)", (6, 2)),
        ("scale(-1,3)", (-3, 3)),
        ("rotate(90)", (-1, 3)),
        ("rotate(-90)", (1, -3)),
        ("rotate(450, 3, 0)", (2, 0)),
        ("matrix(1 2 3 4 5 6)", (11, 16)),  # x' = a x + c y + e, y' = b x + d y + f
        ("translate(10) scale(2), rotate(180)", (4, -2)),  # the last is done first
    ],
)
def test_transforms_move_a_point(text: str, to: tuple[int, int]) -> None:
    assert transform(text, "x").of((F(3), F(1))) == to


@pytest.mark.parametrize("angle", sorted(TURNS))
def test_every_known_turn_is_a_turn(angle: int) -> None:
    cosine, sine = TURNS[angle]
    assert abs(cosine**2 + sine**2 - 1) < F(1, 10**25)
    twice = TURNS.get(2 * angle % 360, (cosine**2 - sine**2, 2 * cosine * sine))
    assert abs(twice[0] - (cosine**2 - sine**2)) < F(1, 10**25)
    assert (cosine > 0) == (angle < 90 or angle > 270)
    assert (sine > 0) == (0 < angle < 180)


@pytest.mark.parametrize(
    "text",
    [
        "skewX(10)",
        "rotate(10)",
        "rotate(1 2)",
        "scale()",
        "matrix(1 2 3)",
        "scale(2",
        "scale(1e10)",
        "turn(1)",
        "x",
    ],
)
def test_other_transforms_are_refused(text: str) -> None:
    with pytest.raises(BadTransform) as error:
        transform(text, "g[1].transform")
    assert error.value.where == "g[1].transform"


def test_a_chain_of_transforms_has_a_limit() -> None:
    with pytest.raises(TooLarge):
        transform("scale(1)" * 9, "g[0].transform")


def test_numbers_of_many_places_are_kept() -> None:
    assert number("0." + "3" * 30, "x") == F(int("3" * 30), 10**30)


def test_places_of_nested_scales_do_not_grow_for_ever() -> None:
    whole = inner = transform("scale(1.00000000000000000000000000000000001)", "x")
    for _ in range(40):
        whole = whole.then_inside(inner, "x")
    assert whole.a.denominator < 10**60
    assert abs(whole.a - 1) < F(1, 10**30)
