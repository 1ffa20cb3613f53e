"""`manage.py strips`: words for a person, JSON for a machine, and a clear no."""

from __future__ import annotations

import json
from io import StringIO
from typing import TYPE_CHECKING, Any

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from patterns.engine.measure import inches
from patterns.engine.strips import Demand
from tests.engine.strip_checker import check_plan

if TYPE_CHECKING:
    from pathlib import Path

PIECES = [
    {"width": "2 1/2", "length": "4 1/2", "count": 48, "one_way": False, "label": "A1"},
    {"width": "2 1/2", "length": "2 1/2", "count": 144, "label": "A2"},
]


@pytest.fixture
def cut_list(tmp_path: Path) -> Any:
    def write(data: Any) -> str:
        file = tmp_path / "cuts.json"
        file.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
        return str(file)

    return write


def run(*arguments: str) -> str:
    out = StringIO()
    call_command("strips", *arguments, stdout=out)
    return out.getvalue()


def test_json_can_be_checked_by_anyone(cut_list: Any) -> None:
    data = json.loads(run(cut_list({"usable_width": "40", "pieces": PIECES}), "--json"))
    assert list(data) == ["total_length", "lower_bound", "proven", "needs_width", "strips"]
    assert (data["total_length"], data["proven"]) == ("36", True)
    demands = [
        Demand(
            label=row["label"], width=inches(row["width"]), length=inches(row["length"]), count=row["count"]
        )
        for row in PIECES
    ]
    check_plan(data, demands, usable_width=inches(40))


def test_words_tell_strips_and_the_cliff(cut_list: Any) -> None:
    text = run(cut_list({"pieces": [PIECES[1]]}))
    assert "22 1/2 in of fabric · best two-stage layout, proven" in text
    assert "9 × strip 2 1/2 in: 16 × A2 2 1/2 x 2 1/2 in" in text
    assert "on 39 1/2 in usable: 25 in · look: more fabric" in text


def test_an_option_goes_before_the_files_width(cut_list: Any) -> None:
    file = cut_list({"usable_width": "40", "pieces": [PIECES[1]]})
    assert json.loads(run(file, "--json", "--width", "39 1/2"))["total_length"] == "25"


@pytest.mark.parametrize(
    ("options", "total"), [([], "88 1/2"), (["--no-trim"], "91"), (["--stack"], "86")], ids=str
)
def test_deeper_cuts_need_less(cut_list: Any, options: list[str], total: str) -> None:
    squares = [
        {"width": size, "length": size, "count": count} for size, count in (("6 1/2", 50), ("5/2", 200))
    ]
    data = json.loads(run(cut_list({"pieces": squares}), "--json", *options))
    assert data["total_length"] == total


def test_no_turn_and_one_way_keep_the_pieces_as_written(cut_list: Any) -> None:
    piece = {"width": "3", "length": "2", "count": 300}
    turned = cut_list({"pieces": [piece]})
    assert json.loads(run(turned, "--json"))["total_length"] == "45"
    assert json.loads(run(turned, "--json", "--no-turn"))["total_length"] == "48"
    assert (
        json.loads(run(cut_list({"pieces": [piece | {"one_way": True}]}), "--json"))["total_length"] == "48"
    )


def test_a_number_with_a_point_is_read_exactly(cut_list: Any) -> None:
    assert (
        json.loads(run(cut_list({"pieces": [{"width": 2.1, "length": 2.1, "count": 1}]}), "--json"))[
            "total_length"
        ]
        == "2 1/10"
    )


def test_pieces_without_a_label_or_with_the_same_are_numbered(cut_list: Any) -> None:
    sizes = [("3", None), ("4", None), ("5", "A"), ("6", "A"), ("7", "B")]
    rows = [{"width": size, "length": size, "count": 1, "label": label} for size, label in sizes]
    data = json.loads(run(cut_list({"pieces": rows}), "--json"))
    labels = sorted(cut["label"] for strip in data["strips"] for cut in strip["cuts"])
    assert labels == ["1", "2", "A-1", "A-2", "B"]


GOOD = PIECES[0]


@pytest.mark.parametrize(
    ("data", "where"),
    [
        ("{", "cuts.json"),
        ("[" * 100_000, "cuts.json"),
        ([], "cuts.json"),
        ({}, "pieces"),
        ({"pieces": []}, "pieces"),
        ({"pieces": [7]}, "pieces[0]"),
        ({"pieces": [GOOD, GOOD | {"width": "wide"}]}, "pieces[1].width"),
        ({"pieces": [GOOD | {"length": "0"}]}, "pieces[0].length"),
        ({"pieces": [GOOD | {"length": None}]}, "pieces[0].length"),
        ({"pieces": [GOOD | {"count": 0}]}, "pieces[0].count"),
        ({"pieces": [GOOD | {"count": "48"}]}, "pieces[0].count"),
        ({"pieces": [GOOD | {"count": True}]}, "pieces[0].count"),
        ({"pieces": [GOOD | {"one_way": "no"}]}, "pieces[0].one_way"),
        ({"usable_width": "-40", "pieces": [GOOD]}, "usable_width"),
        ({"usable_width": "2", "pieces": [GOOD]}, "A1"),
    ],
)
def test_bad_input_names_the_field_and_the_remedy(cut_list: Any, data: Any, where: str) -> None:
    out = StringIO()
    with pytest.raises(CommandError) as refused:
        call_command("strips", cut_list(data), "--json", stdout=out)
    assert refused.value.returncode == 2
    answer = json.loads(out.getvalue())
    assert answer["where"].endswith(where)
    assert answer["remedy"] in str(refused.value)
    assert answer["remedy"]


def test_a_file_that_is_not_there_is_refused() -> None:
    with pytest.raises(CommandError, match="check its name") as refused:
        run("no-such-file.json")
    assert refused.value.returncode == 2


@pytest.mark.parametrize("options", [["--width", "wide"], ["--seconds", "-1"]])
def test_bad_options_are_refused(cut_list: Any, options: list[str]) -> None:
    with pytest.raises(CommandError, match=options[0]):
        run(cut_list({"pieces": PIECES}), *options)
