"""`manage.py yardage PROGRAM`: every packet with its totals; exit 1 when sums differ, 2 on bad input."""

from __future__ import annotations

import json
from io import StringIO
from typing import Any

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from bom.models import InstallmentPart
from patterns.engine.measure import inches
from patterns.models import ColorwayFabric, Quilt
from tests.factories import make_program

pytestmark = pytest.mark.django_db


def run(*arguments: str) -> tuple[str, int]:
    """Give what the command prints, and its exit code."""
    out = StringIO()
    try:
        call_command("yardage", *arguments, stdout=out)
    except CommandError as error:
        return out.getvalue() + str(error), error.returncode
    return out.getvalue(), 0


def as_data(*arguments: str) -> dict[str, Any]:
    printed, code = run(*arguments, "--json")
    assert code == 0
    data: dict[str, Any] = json.loads(printed)
    return data


def test_json_is_as_the_design_says() -> None:
    make_program()
    data = as_data("small")
    assert list(data) == ["program", "colorways", "reconciles"]
    assert (data["program"], data["reconciles"]) == ("small", True)
    assert [each["name"] for each in data["colorways"]] == ["Harbour", "Meadow"]
    months = data["colorways"][0]["installments"]
    assert [month["number"] for month in months] == [1, 2, 3, 4, 5]
    assert months[2]["lines"] == []
    binding = next(line for line in months[4]["lines"] if line["letters"] == ["E"])
    plan = binding.pop("plan")
    assert binding == {
        "letters": ["E"],
        "fabric": "Tidewater binding",
        "form": "length",
        "minimum": "7 1/2",
        "suggested": "9",
        "bought": "1/4 yd",
    }
    assert (plan["total_length"], plan["proven"], plan["strips"][0]["repeat"]) == ("7 1/2", True, 3)


def test_the_year_is_the_sum_of_the_packets() -> None:
    make_program()
    for colorway in as_data("small")["colorways"]:
        lines = [line for month in colorway["installments"] for line in month["lines"]]
        for total in colorway["year"]:
            mine = [line for line in lines if line["fabric"] == total["fabric"]]
            assert inches(total["suggested"]) == sum(inches(line["suggested"]) for line in mine)
            assert inches(total["minimum"]) == sum(inches(line["minimum"]) for line in mine)


def test_words_for_a_person() -> None:
    make_program()
    printed, code = run("small")
    assert code == 0
    assert printed.startswith("Small Tide\n\nHarbour\n  Installment 1\n")
    assert "    E Tidewater binding: 1/4 yd (at least 7 1/2 in)\n" in printed
    assert "    F Tidewater backing: 5/8 yd for the backing (at least 20 in)\n" in printed
    assert "    Tidewater backing: 1 piece, 22 1/2 in\n" in printed
    assert printed.rstrip().endswith("The sums agree.")


def test_an_unknown_program_is_bad_input() -> None:
    make_program()
    printed, code = run("nowhere")
    assert (printed, code) == ("program: There is no program nowhere. Here are: small.", 2)
    printed, code = run("nowhere", "--json")
    assert code == 2
    assert json.loads(printed.split("}")[0] + "}")["where"] == "program"


def test_what_cannot_be_worked_out_names_field_and_remedy() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(columns=4)
    printed, code = run("small")
    assert code == 2
    empty = "rows: The place in row 1, column 4 is empty."
    assert printed == f"{empty} Put a block there, or name the letter of plain squares."


def test_a_letter_without_fabric_names_it() -> None:
    make_program()
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="B").delete()
    assert run("small") == ("fabrics: Letter B has no fabric in this colorway. Choose one.", 2)


def test_sums_that_do_not_agree_exit_1() -> None:
    make_program()
    InstallmentPart.objects.filter(kind="sashing").delete()
    printed, code = run("small", "--json")
    assert code == 1
    assert '"reconciles": false' in printed
