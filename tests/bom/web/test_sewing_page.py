"""The page of how a program is sewn."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from django.test import Client

from bom.domain.freezing import freeze_fabric
from bom.models import Program
from patterns.engine.measure import CENTIMETRE
from tests.bom.web.designers import NOW, YEAR, as_, editor_of
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}sewing/"


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def sent(client: Client, **fields: str) -> Any:
    form = client.get(PAGE).context["form"]
    return client.post(PAGE, {**{name: form[name].value() for name in form.fields}, **fields})


def test_a_change_is_kept_told_and_taken_back(program: Program) -> None:
    client = as_(dora())
    changed = {"half_square_over": "1 1/8", "quarter_square_over": "1 3/4", "unnested": "open"}
    assert sent(client, **changed)["Location"] == f"{YEAR}blocks/"
    page = client.get(f"{YEAR}blocks/").content.decode()
    assert "have another cut list" in page
    assert "Take it back" in page
    assert "press open what else would go toward the light" in page
    program.refresh_from_db()
    assert (program.half_square_over, program.quarter_square_over) == (Fraction(1, 4), Fraction(1, 2))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"half_square_over": "3/4"}, "the seams take 7/8"),
        ({"quarter_square_over": "1 1/8"}, "the seams take 1 1/4"),
        ({"seam": "3/8"}, "the seams take 1 3/8"),
        ({"half_square_over": "9"}, "write that to 2 7/8"),
        ({"seam": "1/3"}, "Select a valid choice"),
        ({"half_square_over": "much"}, "Write a length"),
    ],
)
def test_what_does_not_cover_the_seams_is_refused(
    program: Program, fields: dict[str, str], words: str
) -> None:
    page = sent(as_(dora()), **fields)
    assert page.status_code == 200
    assert words in page.content.decode()
    program.refresh_from_db()
    assert (program.seam, program.half_square_over) == (Fraction(1, 4), Fraction(1, 8))


def test_another_seam_with_its_amounts_is_kept(program: Program) -> None:
    """At 3/8 in the seams take 1 3/8 and 1 7/8 in of a square, up to 1/8 in."""
    sent(as_(dora()), seam="3/8", half_square_over="1 3/8", quarter_square_over="2")
    program.refresh_from_db()
    kept = (program.seam, program.half_square_over, program.quarter_square_over)
    assert kept == (Fraction(3, 8), 0, Fraction(1, 8))


def test_what_is_not_touched_stays_as_it_is_kept(program: Program) -> None:
    """In centimetres 1/8 in of room is shown rounded up with the seams: 3 cm, and stays 1/8 in."""
    Program.objects.update(centimetres=True, seam=CENTIMETRE * 3 / 4, cutting_step=CENTIMETRE / 4)
    client = as_(dora())
    assert 'value="3"' in client.get(PAGE).content.decode()
    sent(client, unnested="open")
    program.refresh_from_db()
    assert (program.half_square_over, program.unnested) == (Fraction(1, 8), "open")


def test_after_the_freeze_no_cut_size_changes(program: Program) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    page = sent(as_(dora()), half_square_over="1 1/4").content.decode()
    assert "The fabric is frozen. This change would break:" in page
    program.refresh_from_db()
    assert program.half_square_over == Fraction(1, 8)


def test_only_the_designer_changes_it(program: Program) -> None:
    for person in (editor_of(program), olga()):
        assert as_(person).get(PAGE).status_code == 404
    assert Client().get(PAGE)["Location"].startswith("/sign-in/")
    assert "Change how it is sewn" in as_(dora()).get(f"{YEAR}blocks/").content.decode()
    assert "Change how it is sewn" not in as_(editor_of(program)).get(f"{YEAR}blocks/").content.decode()
