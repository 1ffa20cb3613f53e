"""Fitted parts go together exactly, and what is wrong with one is named: step, part and rule."""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from patterns.domain.wording import say
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_from_data
from patterns.engine.cutting import reconcile
from patterns.engine.fit_words import THE
from patterns.engine.methods import unit_key
from patterns.engine.parts import Assembly, Order, Unit, UnitKind
from patterns.engine.rebuild import Finding, prove
from patterns.engine.rebuilding.faults import Rule
from patterns.engine.recipe_data import recipe_as_answer
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import MarkKind, Recipe
from patterns.engine.surds import parse_number, write_number
from patterns.engine.units.base import Style
from patterns.engine.units.templates import ONE_PIECE, WITH_A_TEMPLATE
from tests.engine.drawn import recipe as traditional_recipe
from tests.engine.fitted_samples import attic_window, drawing_of, eight_point_star, windmill

Data = dict[str, Any]
ORDERS: dict[str, Callable[[], Assembly]] = {
    "star": eight_point_star,
    "windmill": windmill,
    "window": attic_window,
}
SPACE = "\N{NO-BREAK SPACE}"


@cache
def recipe(name: str) -> Recipe:
    """Write a recipe; diamonds with a template, of which some faults here are."""
    order = ORDERS[name]()
    diamonds = (part for part in order.parts if isinstance(part, Unit) and part.kind is UnitKind.DIAMOND)
    overrides = {unit_key(unit): WITH_A_TEMPLATE for unit in diamonds}
    return write_recipe(order, name=name, style=Style(overrides=overrides))


@cache
def _text(name: str) -> str:
    return json.dumps(recipe(name).as_data())


def plain(name: str) -> Data:
    return deepcopy(json.loads(_text(name)))


@cache
def drawing(name: str) -> Data:
    return drawing_of(ORDERS[name]())


def fit(data: Data, step: int = -1) -> Data:
    """Give the fit of a step, the last one unless said."""
    return next(row for row in data["steps"][step]["operations"] if row["op"] == "fit")


def words(name: str, step: int = -1) -> str:
    return " ".join(say(each) for each in recipe(name).steps[step].words).replace(SPACE, " ")


def moved(text: str, by: str) -> str:
    return write_number(parse_number(text) + parse_number(by))


def finding(name: str, spoil: Callable[[Data], object]) -> Finding:
    data = plain(name)
    spoil(data)
    found = prove(data, drawing(name))
    assert not found.goes_together
    return found.findings[0]


@pytest.mark.parametrize(("name", "patches"), [("star", 16), ("windmill", 5), ("window", 3)])
def test_every_patch_ends_in_its_place(name: str, patches: int) -> None:
    found = prove(plain(name), drawing(name))
    assert found == prove(plain(name), drawing(name))
    assert (found.goes_together, found.patches_right, found.findings) == (True, patches, ())


@pytest.mark.parametrize("name", list(ORDERS))
@pytest.mark.parametrize("seam", ["3/8", "75/254"])
def test_other_seams_fit_too(name: str, seam: str) -> None:
    made = write_recipe(ORDERS[name](), name=name, style=Style(seam=Fraction(seam)))
    assert prove(made.as_data(), drawing(name)).goes_together


@pytest.mark.parametrize("name", list(ORDERS))
def test_pieces_cut_are_pieces_sewn_and_areas_fill_the_block(name: str) -> None:
    assert reconcile(recipe(name)).reconciles


def test_pieces_of_a_star() -> None:
    """12 in: diamonds of 6 (2 - sqrt 2) in from strips 2.985 in wide; long sides on the grain."""
    assert [(p.id, p.shape, p.width, p.length, p.count, p.then) for p in recipe("star").pieces] == [
        ("A1", "template", Fraction(3), Fraction(29, 4), 8, ""),
        ("B1", "square", Fraction(99, 16), Fraction(99, 16), 1, "cut twice diagonally"),
        ("C1", "square", Fraction(257, 64), Fraction(257, 64), 4, ""),  # 4.0147 in, never down to 4
    ]


def set_at(holder: Any, key: Any, value: Any) -> None:
    holder[key] = value


def swap(rows: list[Any], first: int) -> None:
    rows[first], rows[first + 1] = rows[first + 1], rows[first]


def part(data: Data, number: int, step: int = -1) -> list[Any]:
    row: list[Any] = fit(data, step)["parts"][number]
    return row


def seam(data: Data, number: int, step: int = -1) -> Data:
    row: Data = fit(data, step)["seams"][number]
    return row


FAULTS: list[tuple[str, str, Callable[[Data], object], Rule | None]] = [
    (
        "a part 1/8 in to the right",
        "star",
        lambda d: set_at(part(d, 2)[2], 0, moved(part(d, 2)[2][0], "1/8")),
        Rule.PATH,
    ),
    ("a part turned", "star", lambda d: set_at(part(d, 0, 1), 3, ["0", "1"]), None),
    ("a part stretched", "star", lambda d: set_at(part(d, 0), 3, ["1", "1/8"]), Rule.MOTION),
    ("another part in its place", "window", lambda d: set_at(part(d, 0), 0, "C1"), None),
    ("seams exchanged", "star", lambda d: swap(fit(d)["seams"], 0), Rule.ORDER),
    ("a seam left out", "star", lambda d: fit(d)["seams"].pop(), Rule.COUNT),
    ("a path that ends too soon", "windmill", lambda d: set_at(seam(d, 1)["path"][1], 1, "11/2"), Rule.PATH),
    ("a path that ends too late", "windmill", lambda d: set_at(seam(d, 1)["path"][1], 1, "13/2"), Rule.PATH),
    ("a bend called straight", "window", lambda d: set_at(seam(d, 1), "kind", "straight"), Rule.KIND),
    ("a straight seam called set in", "window", lambda d: set_at(seam(d, 0), "kind", "set in"), Rule.KIND),
    ("nothing left open", "windmill", lambda d: set_at(seam(d, 0), "kind", "straight"), Rule.KIND),
    ("stopped at once", "windmill", lambda d: set_at(seam(d, 0)["path"], 1, ["45/8", "3"]), Rule.KIND),
    ("an open seam never closed", "windmill", lambda d: fit(d)["seams"].pop(), Rule.OPEN_END),
    ("closed from another stop", "windmill", lambda d: set_at(seam(d, 4)["path"], 0, ["4", "3"]), Rule.PATH),
    ("closed before its time", "windmill", lambda d: swap(fit(d)["seams"], 3), Rule.PATH),
    ("a wide seam", "window", lambda d: set_at(fit(d), "seam", "3/8"), Rule.SEAM),
    ("another outline", "star", lambda d: set_at(fit(d, 2)["outline"], 0, ["0", "0"]), Rule.OUTLINE),
    ("made once too often", "star", lambda d: set_at(fit(d, 1), "times", 5), Rule.COUNT),
    ("made once too little", "star", lambda d: set_at(fit(d, 1), "times", 3), Rule.COUNT),
    ("another fabric", "star", lambda d: set_at(d["pieces"][0], "fabric", "B"), Rule.PATCH),
    ("a rectangle too narrow", "star", lambda d: set_at(d["pieces"][0], "width", "23/8"), Rule.COVER),
    ("a square too small", "star", lambda d: set_at(d["pieces"][1], "width", "6"), None),
    ("a piece too few", "star", lambda d: set_at(d["pieces"][0], "count", 7), Rule.COUNT),
    ("a piece too many", "window", lambda d: set_at(d["pieces"][1], "count", 2), Rule.COUNT),
    ("a step left out", "star", lambda d: d["steps"].pop(1), Rule.ORDER),
]


@pytest.mark.parametrize(("name", "spoil", "rule"), [f[1:] for f in FAULTS], ids=[f[0] for f in FAULTS])
def test_faults_are_named(name: str, spoil: Callable[[Data], object], rule: Rule | None) -> None:
    found = finding(name, spoil)
    assert rule is None or found.rule == rule.value


def test_a_fault_says_where_it_is() -> None:
    found = finding("windmill", lambda d: set_at(part(d, 2)[2], 0, "73/8"))
    assert (found.step, found.piece) == (1, "B1")


@pytest.mark.parametrize("corner", [0, 2, 3])
def test_a_template_with_a_narrow_seam_is_named(corner: int) -> None:
    def spoil(data: Data) -> None:
        sides = data["pieces"][0]["polygon"][corner]
        sides[1] = moved(sides[1], "1/16")

    found = finding("star", spoil)
    assert (found.step, found.piece) == (2, "A1")
    assert found.rule in (Rule.TEMPLATE.value, Rule.COVER.value)


def test_a_template_cut_as_a_rectangle_is_named() -> None:
    def spoil(data: Data) -> None:
        del data["pieces"][0]["polygon"]

    assert finding("star", spoil).rule == Rule.THEN.value


def test_every_outer_corner_where_a_patch_is_set_in_has_a_dot() -> None:
    """The half star stops at the corners where squares come: three inner corners, one of them new."""
    half = fit(plain("star"), 2)
    assert len(half["dots"]) == 1
    assert len(fit(plain("star"))["dots"]) == 4


def test_a_set_in_seam_is_explained_and_pressed_away() -> None:
    assert "mark a dot 1/4 in from both edges" in words("star", 1)
    assert "stop with the needle down, pivot" in words("star", 1)
    said = words("star")
    assert "Mark the dots, and sew from dot to dot as before." in said
    assert "Seams 2 to 5. Set in C1. Press away from C1." in said


def test_the_middle_of_a_star_is_pressed_open_or_one_way_round() -> None:
    assert "Press the seam open, or all seams that meet there in one turning direction." in words("star")


def test_a_partial_seam_says_how_much_stays_open() -> None:
    said = words("windmill")
    assert "Seam 1. Sew B1 on from the outer edge, and stop 1 1/2 in before the corner." in said
    assert "Seam 5. Sew the seam of B1 on, from where it stopped to the outer edge." in said


def test_rectangles_are_measured_and_other_outlines_by_an_edge() -> None:
    assert recipe("star").steps[-1].check == (Fraction(25, 2), Fraction(25, 2))
    assert recipe("star").steps[2].check is None
    assert "The longest edge measures about 7 1/16 in from seam line to seam line." in words("star", 2)


def test_pictures_number_seams_and_show_dots_and_stops() -> None:
    marks = [mark for picture in recipe("windmill").steps[-1].pictures for mark in picture.marks]
    assert [mark.label for mark in marks if mark.label] == ["1", "2", "3", "4", "5"]
    assert sum(mark.kind is MarkKind.STOP for mark in marks) == 1
    dots = [mark for picture in recipe("window").steps[-1].pictures for mark in picture.marks]
    assert sum(mark.kind is MarkKind.DOT for mark in dots) == 3  # one on every part


def test_the_finished_picture_has_its_seam_allowance() -> None:
    ready = recipe("window").steps[-1].pictures[-1]
    xs = [x for facet in ready.facets for x, _ in facet.points]
    assert max(xs) - min(xs) == Fraction(13, 2)


def test_a_windmill_of_one_fabric_is_no_row() -> None:
    """Its sails are alike rectangles, yet none reaches from side to side."""
    from_drawing = sewing_order(block_from_data({"name": "windmill", **drawing("windmill")}))
    assert from_drawing.order is Order.PARTIAL_SEAM
    made = write_recipe(from_drawing, name="windmill", style=Style())
    assert prove(made.as_data(), drawing("windmill")).goes_together


def test_the_answer_gives_both_shapes_of_a_template_and_its_bias_edges() -> None:
    made = recipe("star")
    answer = recipe_as_answer(made, prove(made.as_data(), drawing("star")), say)
    diamond, square = answer["pieces"][0], answer["pieces"][2]
    assert (diamond["shape"], diamond["width"], diamond["length"]) == ("template", "3", "7 1/4")
    assert (len(diamond["outline"]), len(diamond["polygon"])) == (4, 4)
    assert len(diamond["bias"]) == 2  # two edges lie along the fabric
    assert "polygon" not in square


def test_a_unit_that_is_sewn_on_is_named_with_its_article() -> None:
    """Every kind that is no single cut piece has its words; a cut piece goes by its own name."""
    assert set(UnitKind) == {*ONE_PIECE, *THE}
    assert say(THE[UnitKind.TRIANGLE]) == "the triangle"


@pytest.mark.parametrize(
    ("slug", "words"),
    [
        ("cracker", "Seams 3 and 4. Sew on the triangle (B). Press toward the triangle (B)."),
        ("chimney-sweep", "Seams 2 and 3. Sew on the triangle that is smaller."),
        ("economy-patch", "Seams 1 to 4. Sew on the triangle. Press toward the triangle."),
    ],
)
def test_units_of_one_kind_are_told_apart(slug: str, words: str) -> None:
    """By their fabric, else by their size; where they are all alike nothing is added."""
    said = [" ".join(say(each) for each in step.words) for step in traditional_recipe(slug).steps]
    assert any(words in each for each in said)
