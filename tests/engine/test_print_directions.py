"""Prints with a direction: which methods keep it, what is preferred then, and what must be said."""

from __future__ import annotations

from patterns.engine.assembly import sewing_order
from patterns.engine.methods import METHODS, Style, admitted_methods, unit_key
from patterns.engine.parts import Unit, UnitKind
from patterns.engine.recipes import write_recipe
from patterns.engine.units.prints import TURNED, scattered
from tests.engine.drawings import block, box, inches, traditional_order
from tests.engine.drawn import recipe
from tests.engine.unit_samples import checks, goose, half_square, square_in_a_square


def test_every_method_that_turns_a_print_is_one_of_ours() -> None:
    assert set(TURNED) <= {(method.kind, method.name) for method in METHODS}


def test_a_print_that_keeps_its_direction_wants_pieces_that_are_cut_to_size() -> None:
    one_way = Style(directions={"A": "one-way"})
    assert admitted_methods(goose(4), 4)[0] == "four at a time"
    assert admitted_methods(goose(4), 4, one_way)[0] == "corners flipped"
    assert admitted_methods(goose(4), 4, Style(directions={"C": "one-way"}))[0] == "four at a time"
    four = checks(UnitKind.FOUR_PATCH, "ABBA", columns=2)
    assert admitted_methods(four, 8)[0] == "from strip sets"
    assert admitted_methods(four, 8, one_way)[0] == "from single pieces"
    assert admitted_methods(square_in_a_square(4), 1, one_way)[0] == "corners flipped"


def test_half_a_turn_shows_in_a_one_way_print_only() -> None:
    sample = half_square(3)
    for direction, names in (("one-way", ("A",)), ("panel", ("A",)), ("two-way", ()), ("stripe", ())):
        assert scattered(sample, "two at a time", {"A": direction}) == names
    for direction in ("one-way", "stripe"):
        assert scattered(sample, "eight at a time", {"A": direction, "B": direction}) == ("A", "B")
    assert scattered(sample, "eight at a time", {"A": "none"}) == ()


def test_nothing_is_said_of_prints_without_a_direction() -> None:
    plain = recipe("ohio-star").warnings
    assert recipe("ohio-star", style=Style(directions={"A": "none", "B": "none"})).warnings == plain


def test_a_method_that_turns_a_print_is_named_with_the_fabric_and_a_method_that_keeps_it() -> None:
    order = traditional_order("sawtooth-star")
    unit = next(p for p in order.parts if isinstance(p, Unit) and p.kind is UnitKind.FLYING_GEESE)
    letter = unit.fabrics[1]
    style = Style(directions={letter: "one-way"}, overrides={unit_key(unit): "four at a time"})
    (told, *_) = write_recipe(order, name="", style=style).warnings
    assert (told.facts["fabric"], told.facts["method"].text) == (letter, "four at a time")
    assert told.facts["other"].text == "corners flipped"


def test_a_print_that_is_only_turned_where_it_is_placed_is_told_with_its_directions() -> None:
    """A rail fence lays its strips across and down."""
    order = traditional_order("rail-fence")
    for direction, count in (("stripe", 2), ("two-way", 2)):
        warnings = write_recipe(order, name="", style=Style(directions={"A": direction})).warnings
        assert [(told.facts["fabric"], told.facts["count"]) for told in warnings] == [("A", count)]


def test_a_print_that_lies_one_way_everywhere_is_not_told() -> None:
    drawn = inches(block((2, 1), box("A", 0, 0), box("B", 1, 0)), 8)
    style = Style(directions={"A": "one-way", "B": "one-way"})
    assert write_recipe(sewing_order(drawn), name="", style=style).warnings == ()
