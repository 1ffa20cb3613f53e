"""`manage.py chart PROGRAM`: the chart in words and as data; exit 2 on bad input."""

from __future__ import annotations

import json
from io import StringIO
from typing import Any

import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from bom.models import Program
from patterns.engine.measure import CENTIMETRE
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


def printed(*arguments: str) -> str:
    out = StringIO()
    call_command("chart", *arguments, stdout=out)
    return out.getvalue()


def tables(slug: str) -> dict[str, dict[str, Any]]:
    return {table["unit"]: table for table in json.loads(printed(slug, "--json"))["tables"]}


def test_words_for_a_person() -> None:
    make_program()
    lines = printed("small").splitlines()
    assert lines[0] == "Small Tide: seam allowance 1/4 in, cut to 1/8 in; all sizes in inches"
    assert "  Two at a time: for 2 units cut 1 square of fabric A; 1 square of fabric B." in lines
    half = lines[lines.index("  Two at a time or one at a time from triangles") + 1 :]
    assert half[0].split("  ")[1:] == ["finished", "trim to", "cut exact", "cut oversized"]
    assert half[21].split() == ["3", "3", "1/2", "3", "7/8", "4"]


def test_json_is_exact() -> None:
    make_program()
    found = json.loads(printed("small", "--json"))
    assert {key: found[key] for key in ("program", "units", "seam", "step")} == {
        "program": "small",
        "units": "in",
        "seam": "1/4",
        "step": "1/8",
    }
    geese = tables("small")["flying geese"]
    assert geese["columns"][0] == ["four at a time", "one at a time from triangles"]
    row = next(row for row in geese["rows"] if row["finished"] == ["3", "1 1/2"])
    assert row["trim_to"] == ["3 1/2", "2"]
    assert row["cells"][0]["exact"]["cut"] == [["4 1/4", "4 1/4"], ["2 3/8", "2 3/8"]]
    assert row["cells"][0]["oversized"]["cut"] == [["4 1/2", "4 1/2"], ["2 1/2", "2 1/2"]]
    off = next(row for row in geese["rows"] if row["finished"] == ["3 1/8", "1 9/16"])
    assert (off["on_step"], off["cells"][1]) == (False, None)


def test_a_program_in_centimetres_has_its_own_sizes() -> None:
    program = make_program()
    cm = CENTIMETRE
    Program.objects.filter(pk=program.pk).update(centimetres=True, seam=cm * 3 / 4, cutting_step=cm / 4)
    half = tables("small")["half-square triangle"]["rows"]
    assert [half[0]["finished"][0], half[1]["finished"][0], half[-1]["finished"][0]] == ["1.5", "1.75", "30"]
    ten = next(row for row in half if row["finished"] == ["10", "10"])
    assert (ten["trim_to"][0], ten["cells"][0]["exact"]["cut"][0][0]) == ("11.5", "12.75")
    assert "cut to 0.25 cm; all sizes in centimetres" in printed("small")


def test_an_unknown_program_is_bad_input() -> None:
    make_program()
    with pytest.raises(CommandError, match=r"^program: There is no program nowhere") as caught:
        call_command("chart", "nowhere", stdout=StringIO())
    assert caught.value.returncode == 2
