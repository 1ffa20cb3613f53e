"""Published numbers of cloth, each with its source in fixtures/check_values/cloth.toml."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns.engine.bolts import plan_bolts, whole_cuts
from patterns.engine.measure import (
    CENTIMETRE,
    YARD,
    Units,
    inches,
    show_fabric_length,
    up_to_eighth_yard,
    up_to_step,
)
from patterns.engine.precut_sizes import PRECUTS
from patterns.engine.precuts import fewest_precuts
from patterns.engine.strips import Demand, PlanMode, plan_strips
from patterns.engine.yardage import FAT_EIGHTH, FAT_QUARTER, Allowances, FabricForm, packet_line

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


def fits(row: Row, count: int) -> bool:
    pieces = [[row["width"], row["length"], str(count)]]
    plan = plan_strips(demands(pieces, may_turn=False), usable_width=inches(row["across"]))
    return plan.total_length <= inches(row["along"])


def fit(row: Row) -> None:
    """Ask that so many pieces can be cut, and not one more; a published error prints more."""
    assert fits(row, row["expected"])
    assert not fits(row, row["expected"] + 1)
    assert "printed" not in row or not fits(row, row["printed"])


def trusted(row: Row) -> None:
    """Ask that a length is suggested for so many, but not for all that it holds with nothing to spare."""
    plan = dict.fromkeys([row["expected"], row["fits"]], False)
    for count in plan:
        pieces = demands([[row["width"], row["length"], str(count)]], may_turn=False)
        line = packet_line(pieces, usable_width=inches(row["across"]), allowances=Allowances())
        assert line.minimum <= inches(row["along"])
        plan[count] = line.suggested <= inches(row["along"])
    assert plan == {row["expected"]: True, row["fits"]: False}


def washed(row: Row) -> None:
    """Ask that any share of shrinkage is a setting, and that washing leaves what is needed."""
    for share in map(inches, row["shares"].split(", ")):
        bought = Allowances(squaring_up=Fraction(0), shrinkage=share).needed(YARD)
        assert bought * (1 - share) == YARD


def small_form(row: Row) -> None:
    """Meet the nominal size along; squared up, and across without the selvage, it is less."""
    form = {small.form.value: small for small in (FAT_QUARTER, FAT_EIGHTH)}[row["form"]]
    assert form.cut_length == inches(row["along"]) == form.along + Fraction(1, 2)
    assert inches(row["across"]) - 2 < form.across <= inches(row["across"])


def precut(row: Row) -> None:
    """Offer it in the list of precuts, at the size that is sold."""
    unit = METRIC[row["unit"]] if "unit" in row else 1
    nominal = {kept.name: kept.nominal for kept in PRECUTS}[row["name"]]
    assert nominal == (inches(row["across"]) * unit, inches(row["along"]) * unit)


def precuts_needed(row: Row) -> None:
    """Take the fewest, and prove that one less does not hold them."""
    kept = next(precut for precut in PRECUTS if precut.name == row["name"])
    pieces = demands([[row["width"], row["length"], str(row["count"])]], may_turn=True)
    found = fewest_precuts(pieces, precut=kept)
    assert (found.count, found.proven) == (row["expected"], True)


def sold(row: Row) -> None:
    assert show_fabric_length(up_to_eighth_yard(inches(row["inches"])), Units.INCHES) == row["expected"]


def piece(row: Row) -> None:
    wanted = demands([[row["side"], row["side"], "1"]], may_turn=True)
    line = packet_line(wanted, usable_width=Fraction(40), allowances=Allowances(), forms=(FabricForm.PIECE,))
    assert line.bought(Units.INCHES) == row["expected"]


def plan(row: Row) -> None:
    pieces = demands(row["pieces"], may_turn=not row.get("one_way", False))
    found = plan_strips(
        pieces, usable_width=inches(row["usable_width"]), mode=PlanMode(row.get("mode", "trim"))
    )
    assert found.total_length == inches(row["expected"])
    assert found.proven
    if "yards" in row:
        assert up_to_eighth_yard(found.total_length) == inches(row["yards"]) * YARD
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
    "trusted": trusted,
    "washed": washed,
    "small form": small_form,
    "sold": sold,
    "piece": piece,
    "plan": plan,
    "shrink": shrink,
    "whole cuts": cuts,
    "bolts": bolts,
    "precut": precut,
    "fewest precuts": precuts_needed,
}


@pytest.mark.parametrize("row", VALUES, ids=[row["id"] for row in VALUES])
def test_a_published_number_is_met(row: Row) -> None:
    assert row["title"]
    assert row["publisher"]
    ASKED[row["kind"]](row)
