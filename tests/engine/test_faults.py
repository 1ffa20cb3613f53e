"""One thing is changed in a recipe that goes together; virtual sewing names it, and where it is."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from patterns.engine.methods import Style, unit_key
from patterns.engine.rebuild import Finding, prove
from patterns.engine.surds import parse_number, write_number
from tests.engine.drawn import drawing, plain_data, recipe
from tests.engine.unit_samples import goose

Data = dict[str, Any]
COVER, COUNT = "the unit is large enough to trim", "pieces made are pieces used"
PATCH = "every patch has its place, size and fabric"


def first_finding(slug: str, spoil: Callable[[Data], object]) -> Finding:
    data = plain_data(slug)
    assert prove(data, drawing(slug)).goes_together
    spoil(data)
    found = prove(data, drawing(slug))
    assert not found.goes_together
    return found.findings[0]


def less(text: str, by: str = "1/8") -> str:
    return write_number(parse_number(text) - parse_number(by))


def piece(data: Data, ref: str) -> Data:
    return next(row for row in data["pieces"] if row["id"] == ref)


def cut_smaller(ref: str, *sides: str) -> Callable[[Data], object]:
    def spoil(data: Data) -> None:
        row = piece(data, ref)
        for side in sides:
            row[side] = less(row[side])

    return spoil


def operation(data: Data, step: int, number: int = 0) -> Data:
    return data["steps"][step - 1]["operations"][number]


@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star", "churn-dash"])
def test_every_cut_size_an_eighth_small_is_caught_with_its_piece(slug: str) -> None:
    for row in plain_data(slug)["pieces"]:
        for sides in (("width",), ("length",), ("width", "length")):
            found = first_finding(slug, cut_smaller(row["id"], *sides))
            at_piece = row["id"] in found.piece
            assert at_piece or found.rule in (
                "the check measurement is met",
                "edges that are joined are equally long",
            )


@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star", "churn-dash", "hourglass"])
@pytest.mark.parametrize("by", [1, -1])
def test_every_count_is_caught_with_its_piece(slug: str, by: int) -> None:
    for number, row in enumerate(plain_data(slug)["pieces"]):

        def spoil(data: Data, number: int = number) -> None:
            data["pieces"][number]["count"] += by

        found = first_finding(slug, spoil)
        assert (found.rule, found.piece) == (COUNT, row["id"])


@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star", "churn-dash", "rolling-stone"])
def test_every_letter_is_caught_with_its_piece(slug: str) -> None:
    for number, row in enumerate(plain_data(slug)["pieces"]):

        def spoil(data: Data, number: int = number) -> None:
            data["pieces"][number]["fabric"] = "Z"

        found = first_finding(slug, spoil)
        assert (found.rule, found.piece, found.found) == (PATCH, row["id"], "Z")


def test_letters_swapped_between_two_pieces() -> None:
    def spoil(data: Data) -> None:
        first, second = piece(data, "A1"), piece(data, "C1")
        first["fabric"], second["fabric"] = second["fabric"], first["fabric"]

    found = first_finding("ohio-star", spoil)
    assert (found.rule, found.step) == (PATCH, 1)


def other_hand(data: Data) -> None:
    align = operation(data, 1)["gives"][0]["trim"]["align"]
    align |= {"at": ["6", "0"], "along": ["-1", "1"]}  # the other diagonal of 6 in


def trim_an_eighth_narrower(data: Data) -> None:
    for gives in operation(data, 1, 1)["gives"]:
        gives["trim"]["width"] = less(gives["trim"]["width"])


@pytest.mark.parametrize(
    ("slug", "spoil", "step", "where", "rule"),
    [
        ("ohio-star", cut_smaller("C1", "width"), 1, "A1, C1", "pieces lie corner on corner"),
        ("ohio-star", lambda data: piece(data, "A1").update(count=3), 0, "A1", COUNT),
        ("ohio-star", lambda data: piece(data, "A1").update(fabric="E"), 1, "A1", PATCH),
        ("pinwheel", other_hand, 1, "B1", PATCH),
        ("ohio-star", trim_an_eighth_narrower, 1, "quarter-square-1", "the check measurement is met"),
        ("ohio-star", lambda data: data["steps"].reverse(), 2, "", "steps are numbered in order"),
    ],
    ids=["cut size", "count", "letter", "hand", "trim", "step order"],
)
def test_one_change_is_named_with_its_place_and_reason(
    slug: str, spoil: Callable[[Data], object], *, step: int, where: str, rule: str
) -> None:
    found = first_finding(slug, spoil)
    assert (found.step, found.piece, found.rule) == (step, where, rule)
    assert found.expected != found.found


def test_parts_turned_or_exchanged_in_a_row() -> None:
    def turn(data: Data) -> None:
        operation(data, 2)["rows"][0][1][1] += 1

    def exchange(data: Data) -> None:
        operation(data, 2)["rows"][0].reverse()
        operation(data, 2)["rows"].reverse()
        operation(data, 2)["rows"][0][0], operation(data, 2)["rows"][0][1] = (
            operation(data, 2)["rows"][0][1],
            operation(data, 2)["rows"][0][0],
        )

    for spoil in (turn, exchange):
        found = first_finding("ohio-star", spoil)
        assert found.rule == PATCH
        assert found.expected != found.found


@pytest.mark.parametrize(
    ("field", "value", "rule"),
    [
        ("width", "31/8", "the check measurement is met"),
        ("height", "31/8", "the check measurement is met"),
        ("allowance", "1/8", "the seam is the program's"),
    ],
)
def test_trim_to_another_size(field: str, value: str, rule: str) -> None:
    def spoil(data: Data) -> None:
        for gives in operation(data, 1, 1)["gives"]:
            gives["trim"][field] = value

    found = first_finding("ohio-star", spoil)
    assert (found.rule, found.step) == (rule, 1)


def test_trim_left_out_or_beside_the_point() -> None:
    def leave_out(data: Data) -> None:
        operation(data, 1, 1)["gives"][0].pop("trim")

    def beside(data: Data) -> None:
        operation(data, 1, 1)["gives"][0]["trim"]["align"]["at"] = ["3", "1/8"]

    assert first_finding("sawtooth-star", leave_out).step in (1, 2)
    assert first_finding("sawtooth-star", beside).step == 1


def test_step_dropped_or_out_of_order() -> None:
    dropped = first_finding("ohio-star", lambda data: data["steps"].pop(0))
    swapped = first_finding("churn-dash", lambda data: data["steps"].insert(0, data["steps"].pop(1)))
    assert (dropped.rule, dropped.step) == ("steps are numbered in order", 2)
    assert (swapped.rule, swapped.step) == ("steps are numbered in order", 2)


def test_operation_dropped_or_done_once_too_few() -> None:
    fewer = first_finding("ohio-star", lambda data: operation(data, 1).update(times=1))
    dropped = first_finding("ohio-star", lambda data: data["steps"][0]["operations"].pop(0))
    assert fewer.rule == dropped.rule == COUNT


def test_spare_unnamed_or_misdescribed() -> None:
    unnamed = first_finding("birds-in-the-air", lambda data: data["spares"].clear())
    letters = first_finding("birds-in-the-air", lambda data: data["spares"][0].update(fabrics=["Q", "Q"]))
    size = first_finding("birds-in-the-air", lambda data: data["spares"][0].update(size=["9", "9"]))
    assert unnamed.rule == COUNT
    assert letters.rule == size.rule == "spares are what they are said to be"


def test_spare_trimmed_on_the_other_diagonal() -> None:
    def spoil(data: Data) -> None:
        for patch in data["spares"][0]["patches"]:
            patch["points"] = [[x, less("4", y)] for x, y in patch["points"]]

    assert first_finding("birds-in-the-air", spoil).rule == "spares are what they are said to be"


def test_seam_other_than_the_programs() -> None:
    other = first_finding("ohio-star", lambda data: operation(data, 2).update(seam="3/8"))
    assert (other.rule, other.step, other.expected, other.found) == (
        "the seam is the program's",
        2,
        "1/4",
        "3/8",
    )
    assert first_finding("ohio-star", lambda data: data.update(seam="3/8")).step == 1


def test_seam_an_eighth_off_its_cut() -> None:
    found = first_finding("ohio-star", lambda data: operation(data, 1)["sew"][0].update(offset="3/8"))
    assert (found.rule, found.step) == ("both layers reach the seam allowance past the seam", 1)


def test_not_cut_apart_or_not_sewn() -> None:
    for key in ("cut", "sew"):
        found = first_finding("ohio-star", lambda data, key=key: operation(data, 1)[key].clear())
        assert found.step == 1


def test_triangles_matched_at_the_wrong_end() -> None:
    """Geese made one at a time from triangles."""
    style = Style(overrides={unit_key(goose(6)): "one at a time from triangles"})
    data = deepcopy(recipe("sawtooth-star", style=style).as_data())
    step = data["steps"][0]
    joins = [row for row in step["operations"] if row["op"] == "join"]
    assert len(joins) == 2
    joins[0]["match"] = "start"
    found = prove(data, drawing("sawtooth-star"))
    assert (found.findings[0].rule, found.findings[0].step) == (COVER, 1)


def test_pieces_cut_apart_otherwise_than_the_cutting_table_says() -> None:
    found = first_finding("ohio-star", lambda data: piece(data, "A1").update(then="cut once diagonally"))
    assert (found.rule, found.piece) == ("pieces are cut apart as the cutting table says", "A1")


def test_check_measurement_changed() -> None:
    found = first_finding("ohio-star", lambda data: data["steps"][1].update(check=["12", "12"]))
    assert (found.rule, found.step, found.found) == ("the check measurement is met", 2, "25/2 x 25/2")
