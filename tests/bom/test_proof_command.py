"""`manage.py proof PROGRAM`: every check; exit 1 where there is a stop, 2 on bad input."""

from __future__ import annotations

import json
from io import StringIO

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from bom.models import InstallmentPart
from patterns.models import ColorwayFabric
from tests.factories import make_program

pytestmark = pytest.mark.django_db


def run(*arguments: str) -> tuple[str, int]:
    """Give what the command prints, and its exit code."""
    out = StringIO()
    try:
        call_command("proof", *arguments, stdout=out)
    except CommandError as error:
        return out.getvalue() + str(error), error.returncode
    return out.getvalue(), 0


def test_json_is_as_the_design_says() -> None:
    make_program()
    printed, code = run("small", "--json")
    data = json.loads(printed)
    assert code == 0
    assert (data["program"], data["passed"], len(data["installments"])) == ("small", True, 5)
    first = data["installments"][0]
    assert first["number"] == 1
    assert first["checks"][0] == {"name": "goes together", "result": "passed", "findings": []}


def test_a_stop_exits_1_and_its_finding_says_where() -> None:
    make_program()
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="C").delete()
    printed, code = run("small", "--json")
    data = json.loads(printed.removesuffix("The proof stops."))
    assert (code, data["passed"]) == (1, False)
    stops = [check for check in data["installments"][0]["checks"] if check["result"] == "stop"]
    assert {check["name"] for check in stops} == {"packet", "colorways"}
    assert stops[-1]["findings"] == [
        {"step": "Meadow", "piece": "C", "expected": "a fabric", "found": "none"}
    ]


def test_words_for_a_person() -> None:
    make_program()
    printed, code = run("small")
    assert code == 0
    assert "  passed  goes together: 21 of 21 patches.\n" in printed
    assert printed.rstrip().endswith("The proof passes.")


def test_words_of_a_stop_say_expected_and_found() -> None:
    make_program()
    InstallmentPart.objects.filter(kind="sashing").delete()
    printed, code = run("small")
    assert code == 1
    assert "          sashing: expected in one installment, found in 0\n" in printed


def test_an_unknown_program_is_bad_input() -> None:
    assert run("nowhere") == ("program: There is no program nowhere. Here are: none.", 2)
