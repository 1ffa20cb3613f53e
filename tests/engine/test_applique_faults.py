"""Faults put into what a sheet says of appliqué: virtual sewing finds each of them."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.rebuild import prove
from patterns.engine.rebuilding.faults import Rule
from patterns.engine.recipes import write_recipe
from patterns.engine.surds import parse_number, write_number
from patterns.engine.units.base import Style
from tests.engine.applique_samples import appliqued, shape
from tests.engine.drawings import inches

F = Fraction
Data = dict[str, Any]


def data_of(block: Block) -> Data:
    recipe = write_recipe(sewing_order(block), name=block.name, style=Style())
    found: Data = json.loads(json.dumps(recipe.as_data()))
    return found


def _row(data: Data, number: int = 0) -> Data:
    step = data["steps"][-1]["operations"][-1]
    found: Data = step["shapes"][number]
    return found


def _operation(data: Data) -> Data:
    found: Data = data["steps"][-1]["operations"][-1]
    return found


def _piece(data: Data, fabric: str) -> Data:
    return next(row for row in data["pieces"] if row["fabric"] == fabric)


def _elsewhere(data: Data) -> None:
    x, y = _row(data)["at"]
    _row(data)["at"] = [write_number(parse_number(x) + F(1, 8)), y]


def _off_the_block(data: Data) -> None:
    _row(data)["at"] = ["11", "0"]


def _turned(data: Data) -> None:
    _row(data)["turned_by"] = ["0", "1"]


def _stretched(data: Data) -> None:
    _row(data)["turned_by"] = ["2", "0"]


def _other_order(data: Data) -> None:
    _operation(data)["shapes"].reverse()


def _other_letter(data: Data) -> None:
    _piece(data, "B")["fabric"] = "Z"


def _small_template(data: Data) -> None:
    piece = _piece(data, "B")
    piece["polygon"] = piece["outline"]


def _small_rectangle(data: Data) -> None:
    piece = _piece(data, "B")
    piece["width"] = write_number(parse_number(piece["width"]) - F(1, 8))


def _other_shape(data: Data) -> None:
    piece = _piece(data, "B")
    piece["outline"][0] = [write_number(parse_number(n) + F(1, 8)) for n in piece["outline"][0]]


def _missing(data: Data) -> None:
    _operation(data)["shapes"].pop()


def _one_more(data: Data) -> None:
    _operation(data)["shapes"].append(dict(_row(data)))


def _step_dropped(data: Data) -> None:
    data["steps"].pop()


def _other_turn_under(data: Data) -> None:
    _operation(data)["turn_under"] = "1/8"


def _ground_turned(data: Data) -> None:
    _operation(data)["turn"] = 1


def _cut_too_few(data: Data) -> None:
    _piece(data, "B")["count"] = 0


FAULTS = [
    (_elsewhere, Rule.PATCH),
    (_off_the_block, Rule.GROUND),
    (_turned, Rule.PATCH),
    (_stretched, Rule.MOTION),
    (_other_order, Rule.LAYERS),
    (_other_letter, Rule.PATCH),
    (_small_template, Rule.TEMPLATE),
    (_small_rectangle, Rule.COVER),
    (_other_shape, Rule.PATCH),
    (_missing, Rule.COUNT),
    (_one_more, Rule.COUNT),
    (_step_dropped, Rule.COUNT),
    (_other_turn_under, Rule.SEAM),
    (_ground_turned, Rule.PATCH),
    (_cut_too_few, Rule.COUNT),
]


@pytest.mark.parametrize(("spoil", "rule"), FAULTS, ids=lambda each: getattr(each, "__name__", ""))
def test_every_fault_is_found(spoil: Callable[[Data], None], rule: Rule) -> None:
    ground = [
        {"fabric": "A", "points": [[0, 0], [4, 0], [4, 1], [0, 1]]},
        {"fabric": "D", "points": [[0, 1], [4, 1], [4, 4], [0, 4]]},
    ]
    shapes = [shape("B", (1, 1), (3, 1), (2, 3)), shape("C", (2, 1), (3, 2), (2, 4))]
    drawn = inches(block_from_data({"name": "x", "grid": [4, 4], "patches": ground, "applique": shapes}))
    data = data_of(drawn)
    assert prove(data, block_as_data(drawn)).goes_together
    spoil(data)
    found = prove(data, block_as_data(drawn))
    assert not found.goes_together
    assert rule.value in [each.rule for each in found.findings]


def test_shapes_that_are_apart_may_be_laid_in_any_order() -> None:
    drawn = appliqued(shape("C", (0, 1), (1, 1), (1, 3)), shape("C", (3, 1), (4, 1), (3, 3)))
    data = data_of(drawn)
    _other_order(data)
    assert prove(data, block_as_data(drawn)).goes_together
