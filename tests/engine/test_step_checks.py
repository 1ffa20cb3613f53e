"""Every step ends with something to measure, and one unit is made before the rest."""

from __future__ import annotations

import pytest

from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.steps import Step
from patterns.engine.units.base import Style
from tests.engine.drawings import TRADITIONAL
from tests.engine.drawn import recipe
from tests.engine.test_quilts import on_point_rows
from tests.engine.test_row_words import words

pytestmark = pytest.mark.slow  # every traditional block


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_every_step_has_something_to_measure(slug: str) -> None:
    for step in recipe(slug).steps:
        assert step.check or "measures" in words(step), step.title


def first_one(step: Step) -> str:
    """Give what is said of the first one."""
    return next((w for w in words(step).split(". ") if " first" in w), "")


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_one_is_made_first_where_more_are_made_one_by_one(slug: str) -> None:
    made = recipe(slug)
    units = {row.part: row.count for row in made.units}
    for step in made.steps:
        last = step.operations[-1]
        gives = last["gives"][0] if isinstance(last["gives"], list) else last["gives"]
        part = gives if isinstance(gives, str) else gives["id"]
        if units.get(part, 0) > 1 and last["op"] != "shape":
            several = min(o["times"] for o in step.operations) > 1 if last["op"] == "stack" else True
            assert bool(first_one(step)) == several, step.title


def test_a_segment_is_measured_before_the_rest_is_cut() -> None:
    (step, *_) = recipe("rail-fence").steps
    assert first_one(step) == "Cut one segment first and measure it before you cut the rest"


def test_rows_on_point_are_measured_across() -> None:
    order = on_point_set(on_point_rows(2, 2), triangle="T").centre
    assert order is not None
    made = write_recipe(order, name="top", style=Style())
    said = [words(step).split(". ")[-1] for step in made.steps]
    assert said[0] == "Each long side measures 39/4, seams included."
    row, rows = said[2], said[5]
    assert row == "It measures 13/2 across, from raw edge to raw edge."
    assert rows == "It measures 37/2 from the raw edge of the first row to that of the last."
