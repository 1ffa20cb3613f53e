"""What a program and a shop start from: defaults of the trade with their sources, all of them editable."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from django.db.models import Model

from bom.models import Program
from patterns.engine.measure import YARD, inches
from patterns.engine.units.base import Style
from patterns.models import Fabric
from shops.models import FabricOffer

FIXTURES = Path(__file__).parents[2] / "fixtures"
VALUES = tomllib.loads((FIXTURES / "check_values/defaults.toml").read_text("utf-8"))["value"]


def default(model: type[Model], field: str) -> Any:
    found = model._meta.get_field(field)
    assert found.editable
    return inches(found.get_default())


def ask(row: dict[str, Any]) -> None:
    nominal, usable = (default(Fabric, field) for field in ("nominal_width", "usable_width"))
    match row["kind"]:
        case "seam":
            assert default(Program, "seam") == Style().seam == inches(row["expected"])
        case "width with selvages":
            assert inches(row["least"]) <= nominal <= inches(row["most"])
        case "usable width":
            assert usable == Style().usable_width == inches(row["expected"])
        case "widths apart":
            assert usable < nominal
        case "bolt":
            choices = [inches(choice) * YARD for choice in row["choices"].split(", ")]
            assert default(FabricOffer, "bolt_length") in choices


@pytest.mark.parametrize("row", VALUES, ids=[row["id"] for row in VALUES])
def test_a_default_is_one_of_the_trade(row: dict[str, Any]) -> None:
    assert row["title"]
    assert row["publisher"]
    ask(row)
