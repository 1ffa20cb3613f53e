"""Published numbers of cloth, each with its source in fixtures/check_values/cloth.toml."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns.engine.bolts import plan_bolts, whole_cuts
from patterns.engine.measure import CENTIMETRE, YARD, inches, up_to_step
from patterns.engine.strips import Demand, PlanMode, plan_strips
from patterns.engine.yardage import Allowances

FIXTURES = Path(__file__).parents[2] / "fixtures"
Row = dict[str, Any]
VALUES: list[Row] = tomllib.loads((FIXTURES / "check_values/cloth.toml").read_text("utf-8"))["value"]
METRIC = {"mm": CENTIMETRE / 10, "cm": CENTIMETRE, "m": 100 * CENTIMETRE}


def demands(pieces: list[list[str]], *, may_turn: bool) -> list[Demand]:
    return [
        Demand(label=f"A{n}", width=inches(w), length=inches(h), count=int(count), may_turn=may_turn)
        for n, (w, h, count) in enumerate(pieces, 1)
    ]


def yards(row: Row) -> None:
    assert inches(row["yards"]) * YARD == inches(row["expected"])


def rounded(row: Row) -> None:
    assert up_to_step(inches(row["inches"]), inches(row["step"])) == inches(row["expected"]) * YARD


def metric(row: Row) -> None:
    assert inches(row["inches"]) == inches(row["expected"]) * METRIC[row["unit"]]


def fit(row: Row) -> None:
    """Ask that so many pieces can be cut, and not one more."""
    for extra in (0, 1):
        plan = plan_strips(
            demands([[row["width"], row["length"], str(row["expected"] + extra)]], may_turn=False),
            usable_width=inches(row["across"]),
        )
        assert (plan.total_length <= inches(row["along"])) == (not extra)


def plan(row: Row) -> None:
    pieces = demands(row["pieces"], may_turn=not row.get("one_way", False))
    found = plan_strips(
        pieces, usable_width=inches(row["usable_width"]), mode=PlanMode(row.get("mode", "trim"))
    )
    assert found.total_length == inches(row["expected"])
    assert found.proven
    if "suggested" in row:
        allowances = Allowances(sold_by=inches(row["sold_by"]))
        assert allowances.suggested(found.total_length) == inches(row["suggested"])


def shrink(row: Row) -> None:
    allowances = Allowances(squaring_up=Fraction(0), shrinkage=inches(row["shrinkage"]))
    found = allowances.needed(inches(row["inches"]))
    assert round(found, 6) == inches(row["expected"])


def cuts(row: Row) -> None:
    assert whole_cuts(inches(row["bolt"]), inches(row["cut"])) == row["expected"]


def bolts(row: Row) -> None:
    bolt = inches(row["bolt"])
    found = plan_bolts({inches(row["cut"]): row["count"]}, bolt_lengths=[bolt])
    assert found.bought == row["expected"] * bolt
    assert found.proven


ASKED = {
    "yards": yards,
    "round up": rounded,
    "metric": metric,
    "fit": fit,
    "plan": plan,
    "shrink": shrink,
    "whole cuts": cuts,
    "bolts": bolts,
}


@pytest.mark.parametrize("row", VALUES, ids=[row["id"] for row in VALUES])
def test_a_published_number_is_met(row: Row) -> None:
    assert row["title"]
    assert row["publisher"]
    ASKED[row["kind"]](row)
