"""Import and export from the command line."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from bom.models import Program
from patterns.models import User
from tests.factories import make_program

DEMO = Path(__file__).parents[2] / "fixtures" / "programs" / "demo.json"
pytestmark = pytest.mark.django_db


def run(command: str, *options: str) -> str:
    out = StringIO()
    call_command(command, *options, stdout=out)
    return out.getvalue().strip()


def refused(command: str, *options: str) -> str:
    with pytest.raises(CommandError) as caught:
        run(command, *options)
    assert caught.value.returncode == 2
    return str(caught.value)


def test_import_export_import_gives_the_equal_file(tmp_path: Path) -> None:
    first, second = tmp_path / "first.json", tmp_path / "second.json"
    assert run("import_program", str(DEMO)) == "demo: Twelve Landings, 12 installments, in draft"
    run("export_program", "demo", "--out", str(first))
    run("import_program", str(first), "--slug", "again", "--designer", "Other@Example.org")
    run("export_program", "again", "--out", str(second))
    again = json.loads(second.read_text(encoding="utf-8"))
    assert {**again, "slug": "demo"} == json.loads(first.read_text(encoding="utf-8"))
    assert Program.objects.get(slug="again").designer.email == "other@example.org"


def test_export_prints_when_no_file_is_named() -> None:
    make_program()
    assert json.loads(run("export_program", "small"))["title"] == "Small Tide"


def test_the_year_begins_where_it_is_told_to() -> None:
    run("import_program", str(DEMO), "--first-day", "2028-01-01")
    days = [str(each.wall_day) for each in Program.objects.get(slug="demo").installments.all()]
    assert days[0] == "2028-01-15"
    assert days[6] == "2028-07-22"  # a week after the third Saturday, as in the file


def test_a_second_import_is_refused_and_names_the_remedy() -> None:
    run("import_program", str(DEMO))
    assert refused("import_program", str(DEMO)).startswith("slug: There is a program demo already.")


@pytest.mark.parametrize(
    ("text", "options", "message"),
    [
        ("{", (), "no JSON"),
        ("[]", (), "named entries"),
        ("{}", ("--first-day", "2027-01-01"), "calendar"),
        ("{}", ("--first-day", "May"), "--first-day"),
        ("{}", ("--designer", "Dora"), "--designer"),
        ("{}", (), "format"),
    ],
)
def test_bad_input_is_named_and_nobody_is_made(  # noqa: PLR0917 -- pytest passes them by name
    tmp_path: Path, text: str, options: tuple[str, ...], message: str
) -> None:
    file = tmp_path / "program.json"
    file.write_text(text, encoding="utf-8")
    assert message in refused("import_program", str(file), *options)
    assert User.objects.count() == 0


def test_a_file_that_is_not_there_and_a_program_that_is_not_there(tmp_path: Path) -> None:
    assert "cannot be opened" in refused("import_program", str(tmp_path / "none.json"))
    assert "nothing" in refused("export_program", "nothing")
    make_program()
    assert "--out" in refused("export_program", "small", "--out", str(tmp_path / "no" / "folder.json"))


def test_a_file_that_is_nested_without_end_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "deep.json"
    path.write_text("[" * 200_000 + "]" * 200_000)
    assert refused("import_program", str(path)).endswith("This file is nested too deeply.")


@pytest.mark.parametrize("length", ["1/10000000000", "0.0000000001 cm", "100000"])
def test_a_length_that_nobody_can_measure_is_refused_by_name(tmp_path: Path, length: str) -> None:
    data = json.loads(DEMO.read_text(encoding="utf-8"))
    data["quilt"]["binding_strip"] = length
    path = tmp_path / "fine.json"
    path.write_text(json.dumps(data))
    assert refused("import_program", str(path)) == "quilt.binding_strip: Write a length that can be measured."
