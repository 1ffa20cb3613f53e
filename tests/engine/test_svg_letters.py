"""Fill colours and fabric letters."""

from __future__ import annotations

from itertools import islice

import pytest

from patterns.engine.errors import BadLetter, BadSvg, BadTransform
from patterns.engine.svg_letters import Look, all_letters, class_rules, letters_of, look_of
from patterns.engine.svg_tree import Node, read_tree


def look(**attributes: str) -> Look:
    said = {key.replace("_", "-"): value for key, value in attributes.items()}
    node = Node(tag="rect", name="rect[0]", attributes=said)
    return look_of(node, Look(), {"sky": {"fill": "blue"}, "no": {"fill": "none"}})


@pytest.mark.parametrize("colour", ["#AABBCC", "#abc", "rgb(170, 187,204)", " #aabbcc "])
def test_one_colour_in_four_spellings_is_one_fabric(colour: str) -> None:
    assert look(fill=colour).fill == "#aabbcc"


def test_style_stands_over_class_and_class_over_attribute() -> None:
    assert look(fill="red").fill == "red"
    assert look(**{"fill": "red", "class": "x sky"}).fill == "blue"
    assert (
        look(**{"fill": "red", "class": "sky", "style": "stroke:none; fill : green !important"}).fill
        == "green"
    )
    assert look(style="fill:inherit").fill == "black"  # what nothing says of is black


@pytest.mark.parametrize(
    "attributes",
    [
        {"fill": "none"},
        {"fill": "transparent"},
        {"class": "no"},
        {"style": "fill:none"},
        {"display": "none"},
        {"visibility": "hidden"},
        {"opacity": "0"},
        {"style": "fill-opacity:0"},
    ],
)
def test_what_is_not_filled_or_not_seen_is_no_patch(attributes: dict[str, str]) -> None:
    assert not look(**attributes).is_patch


def test_letters_follow_the_order_in_which_colours_appear() -> None:
    assert letters_of([Look(fill=fill) for fill in ("red", "blue", "red", "green")]) == ["A", "B", "A", "C"]


def test_given_letters_stand_and_are_not_given_again() -> None:
    looks = [
        Look(fill="red"),
        Look(fill="blue", letter="A"),
        Look(fill="blue"),
        Look(fill="grey", letter="C"),
    ]
    assert letters_of(looks) == ["B", "A", "A", "C"]


def test_after_z_comes_aa() -> None:
    assert list(islice(all_letters(), 24, 29)) == ["Y", "Z", "AA", "AB", "AC"]
    assert letters_of([Look(fill=str(number)) for number in range(703)])[-1] == "AAA"


def test_an_id_that_is_a_letter_is_one() -> None:
    assert look(id="B").letter == "B"
    assert look(id="B", data_letter="AA").letter == "AA"
    assert look(id="star").letter == look(id="RED").letter == look(id="B1").letter == ""


def test_a_letter_that_is_none_is_named() -> None:
    with pytest.raises(BadLetter) as error:
        look(data_letter="red")
    assert error.value.where == "rect[0].data-letter"


def test_a_transform_in_a_style_is_refused() -> None:
    with pytest.raises(BadTransform):
        look(style="transform:rotate(10deg)")


def rules(sheet: str) -> dict[str, dict[str, str]]:
    return class_rules(read_tree(f"<svg><defs><style>{sheet}</style></defs></svg>"))


def test_a_style_sheet_says_what_its_classes_are_filled_with() -> None:
    sheet = "/* ours */ .a, .b-1 { fill: red; stroke: blue } .a{fill:none} text{font-size:3px}"
    assert rules(sheet) == {"a": {"fill": "none"}, "b-1": {"fill": "red"}}


@pytest.mark.parametrize(
    "sheet", ["rect{fill:red}", ".a .b{fill:red}", "@media x{.a{fill:red}}", ".a{fill:red", "x"]
)
def test_other_rules_that_fill_are_refused(sheet: str) -> None:
    with pytest.raises(BadSvg) as error:
        rules(sheet)
    assert error.value.where == "style[0]"
