"""`manage.py sheet`: the file, and what it says of bad input."""

from __future__ import annotations

import json
from io import StringIO
from typing import TYPE_CHECKING

import pytest
from django.core.management import CommandError, call_command

from tests.factories import make_program

if TYPE_CHECKING:
    from pathlib import Path

    from bom.models import Program


@pytest.fixture
def program(db: None) -> Program:
    return make_program()


def test_a_draft_is_set_in_the_form_asked_for(program: Program, tmp_path: Path) -> None:
    out, said = tmp_path / "s.pdf", StringIO()
    call_command("sheet", program.slug, 3, out=str(out), paper="a4", units="cm", json=True, stdout=said)
    assert out.read_bytes().startswith(b"%PDF")
    assert json.loads(said.getvalue())["edition"] is None


@pytest.mark.parametrize(
    ("arguments", "field"),
    [(("nowhere", 1), "program"), (("small", 9), "number")],
)
def test_bad_input_names_the_field_and_exits_with_2(
    program: Program, tmp_path: Path, *, arguments: tuple[str, int], field: str
) -> None:
    with pytest.raises(CommandError, match=f"^{field}: ") as caught:
        call_command("sheet", *arguments, out=str(tmp_path / "s.pdf"))
    assert caught.value.returncode == 2
    assert list(tmp_path.iterdir()) == []


def test_an_unknown_colorway_names_the_known_ones(program: Program, tmp_path: Path) -> None:
    with pytest.raises(CommandError, match=r"colorway: .*harbour, meadow"):
        call_command("sheet", program.slug, 1, out=str(tmp_path / "s.pdf"), colorway="plum")
