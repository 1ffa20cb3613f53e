"""Virtual sewing of diamonds from strips: what is wrong with a strip or a cut is named."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from patterns.engine.methods import unit_recipe
from patterns.engine.parts import UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.rebuilding.faults import Rule
from patterns.engine.surds import write_number
from patterns.engine.units.base import Job, Style
from patterns.engine.units.slices import FROM_STRIPS
from tests.engine.slanting_samples import SINE, leaning, patch, star
from tests.engine.unit_samples import draft

Data = dict[str, Any]


@cache
def _text() -> str:
    return json.dumps(star(Style())[0].as_data())


def slice_row(data: Data) -> Data:
    return next(row for step in data["steps"] for row in step["operations"] if row["op"] == "slice")


def change(**fields: object) -> Callable[[Data], object]:
    return lambda data: slice_row(data).update(fields)


def piece(**fields: object) -> Callable[[Data], object]:
    return lambda data: data["pieces"][0].update(fields)


FAULTS: list[tuple[str, Callable[[Data], object], Rule]] = [
    ("another angle", change(angle="60"), Rule.COVER),
    ("no ruler's angle", change(angle="50"), Rule.READABLE),
    ("cuts too near", change(apart="23/8"), Rule.COVER),
    ("cuts 1/8 too far apart", change(apart="25/8"), Rule.COVER),  # the strip does not reach
    ("one piece more", change(pieces=9), Rule.COVER),
    ("one piece less", change(pieces=7), Rule.COUNT),
    ("no pieces", change(pieces=0), Rule.READABLE),
    ("turned another way", change(turned_by=["0", "1"]), Rule.COVER),
    ("stretched", change(turned_by=["1", "1/8"]), Rule.MOTION),
    ("a strip too narrow", piece(width="23/8"), Rule.COVER),
    ("a strip 1/8 too wide", piece(width="25/8", length="40"), Rule.ERROR),
    ("a strip too short", piece(length="36"), Rule.COVER),
    ("a strip too many", piece(count=2), Rule.COUNT),
    ("not cut apart on the table", piece(then=""), Rule.THEN),
    ("cut otherwise on the table", piece(then="cut once diagonally"), Rule.THEN),
    ("another fabric", piece(fabric="C"), Rule.PATCH),
]


@pytest.mark.parametrize(("spoil", "rule"), [f[1:] for f in FAULTS], ids=[f[0] for f in FAULTS])
def test_faults_are_named(spoil: Callable[[Data], object], rule: Rule) -> None:
    _, drawn = star(Style())
    data = json.loads(_text())
    spoil(data)
    found = prove(data, drawn)
    assert not found.goes_together
    assert found.findings[0].rule == rule.value


def test_cuts_too_far_apart_on_a_long_strip_are_off() -> None:
    _, drawn = star(Style())
    data = json.loads(_text())
    data["pieces"][0]["length"] = "60"
    slice_row(data)["apart"] = "25/8"
    assert prove(data, drawn).findings[0].rule == Rule.ERROR.value


@pytest.mark.parametrize("lean", ["right", "left"])
def test_the_other_hand_is_caught(lean: str) -> None:
    unit = patch(leaning(60, Fraction(4) / SINE[60], Fraction(2) / SINE[60], lean=lean), UnitKind.TEMPLATE)
    job = Job(unit=unit, make=1, style=Style())
    data = unit_recipe(job, draft(unit, FROM_STRIPS)).as_data()
    corners = [list(map(write_number, corner)) for corner in unit.outline]
    drawn = {
        "grid": [write_number(unit.width), write_number(unit.height)],
        "patches": [{"fabric": "A", "points": corners}],
    }
    assert prove(data, drawn).goes_together
    assert slice_row(data)["lean"] == lean
    slice_row(data)["lean"] = {"right": "left", "left": "right"}[lean]
    assert prove(data, drawn).findings[0].rule == Rule.COVER.value
