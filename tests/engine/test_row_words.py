"""Words of joining: every step says what it joins, and a border is measured through the middle."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.parts import Assembly
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.engine.steps import Phrase, Recipe, Step, listed
from patterns.engine.units.base import Style
from tests.engine.drawn import SLUGS, recipe
from tests.engine.test_quilts import BORDER, on_point_rows, rows_of


def said(phrase: Phrase) -> str:
    """Put a phrase of names and counts into words."""
    facts = {key: said(fact) if isinstance(fact, Phrase) else fact for key, fact in phrase.facts.items()}
    return phrase.text.format_map(facts).replace("\N{NO-BREAK SPACE}", " ")


def titles(made: Recipe) -> list[str]:
    return [said(step.title) for step in made.steps]


def words(step: Step) -> str:
    return " ".join(said(phrase) for phrase in step.words)


def test_phrases_are_listed_as_one_says_them() -> None:
    one, two, three = Phrase("4 A2"), Phrase("1 E1"), Phrase("4 flying geese")
    assert said(listed([one])) == "4 A2"
    assert said(listed([one, two])) == "4 A2 and 1 E1"
    assert said(listed([one, two, three])) == "4 A2, 1 E1 and 4 flying geese"


def test_a_block_names_what_is_laid_out() -> None:
    last = recipe("sawtooth-star").steps[-1]
    assert said(last.title) == "Sew the block together"
    assert words(last).startswith("Lay out 4 flying geese, 4 A2 and 1 E1, as drawn.")


def test_units_of_one_kind_are_told_apart_by_fabric_and_by_size() -> None:
    assert titles(recipe("dutchmans-puzzle"))[:3] == [
        "Flying geese: B, A",
        "Flying geese: D, A",
        "Flying geese, joined",
    ]
    assert "{size} finished" in recipe("flock-of-geese").steps[0].title.text


def test_logs_are_counted_and_named() -> None:
    steps = recipe("log-cabin").steps
    assert titles(recipe("log-cabin"))[1] == "Log 2: A5"
    assert words(steps[1]) == "Sew A5 to the right side. Press toward A5."
    assert said(steps[-1].title) == "Log 20: B1"


def test_a_piece_and_a_unit_are_laid_out_where_nothing_was_joined_before() -> None:
    steps = recipe("cake-stand", size=10).steps
    assert words(steps[5]).startswith("Lay out 1 half-square triangle and 1 A2, as drawn.")
    assert "Take 1 half-square triangle pressed the second way" in words(steps[6])


def test_a_unit_from_single_pieces_names_them() -> None:
    steps = recipe("sisters-choice", size=10).steps
    assert words(steps[2]).startswith("Make 1. Lay out 5 C1 and 4 A2, as drawn, and sew those of each row")
    strips = recipe("triple-irish-chain").steps[1]
    assert "Sew 1 A1, 1 D1 and 1 C1 together side by side, as drawn." in words(strips)


def test_a_warning_is_told_once_and_only_where_it_can_be_seen() -> None:
    warnings = recipe("double-nine-patch").warnings
    assert [w for n, w in enumerate(warnings) if w in warnings[:n]] == []
    told = [w.facts["cut"] for w in recipe("chimney-sweep", size=24).warnings if "cut" in w.facts]
    assert told == [(Fraction(847, 64), Fraction(19, 4))]  # 13.2279 and 4.7426 in


def test_a_piece_off_the_cutting_step_has_its_name_in_the_words() -> None:
    last = recipe("bears-paw").steps[-1]
    assert words(last).startswith("Lay out 4 joined parts, 4 A1 and 1 D1, as drawn.")


@pytest.mark.parametrize("slug", SLUGS)
def test_no_step_is_without_a_name_of_its_own_kind(slug: str) -> None:
    made = recipe(slug)
    ids = {piece.id for piece in made.pieces}
    for step in made.steps:
        named = [p.facts["piece"] for p in step.words if "piece" in p.facts]
        assert set(named) <= ids
        assert "Join the parts" not in step.title.text


def written(order: Assembly | None, size: int) -> Recipe:
    assert order is not None
    return write_recipe(order, name="top", style=Style(), finished=(Fraction(size), Fraction(size)))


def test_borders_are_measured_through_the_middle() -> None:
    made = written(straight_set(rows_of(2, 2), border=BORDER).border, 22)
    assert titles(made) == ["Side borders", "Top and bottom borders"]
    assert words(made.steps[0]).startswith(
        "Measure the quilt through its middle, from top to bottom. Cut both B2"
    )
    assert [piece.purpose for piece in made.pieces] == ["top and bottom borders", "side borders"]


def test_rows_on_point_are_numbered_and_their_seams_nest() -> None:
    made = written(on_point_set(on_point_rows(2, 2), triangle="T").centre, 17)
    assert titles(made)[2:] == ["Row 1", "Row 2", "Row 3", "Join the rows", "Sew the quilt centre together"]
    ways = [said.facts["ways"] for step in made.steps[2:5] for said in step.words if "ways" in said.facts]
    assert ways == ["→ →", "← ←", "→ →"]
    assert "corner triangles" in words(made.steps[-1])
