"""Documents beside the sheets, for those who work on a program."""

from __future__ import annotations

import pytest
from django.test import Client

from bom.models import Program
from tests.bom.web.designers import YEAR, as_, editor_of
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
ASKED = "document.pdf?kind=finishing&colorway=meadow&paper=a4&units=cm&print_size=usual"


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def test_the_page_of_installments_asks_for_them(program: Program) -> None:
    page = as_(dora()).get(f"{YEAR}installments/").content.decode()
    assert f'action="{YEAR}document.pdf"' in page
    assert '<option value="meadow">Meadow</option>' in page


def test_designer_and_editor_get_them(program: Program) -> None:
    answer = as_(dora()).get(YEAR + ASKED)
    assert answer["Content-Disposition"] == 'inline; filename="small-finishing-meadow-a4-cm.pdf"'
    assert answer.content.startswith(b"%PDF-")
    assert as_(editor_of(program)).get(YEAR + ASKED).content == answer.content


@pytest.mark.parametrize("changed", ["kind=nothing", "colorway=nowhere", "paper=a9", "units=feet"])
def test_a_form_that_does_not_exist_is_unknown(program: Program, changed: str) -> None:
    name = changed.partition("=")[0]
    asked = "&".join(part for part in ASKED.split("?")[1].split("&") if not part.startswith(name))
    assert as_(dora()).get(f"{YEAR}document.pdf?{asked}&{changed}").status_code == 404


def test_olga_sees_what_an_unknown_program_shows(program: Program) -> None:
    mine, unknown = (as_(olga()).get(f"/program/{slug}/{ASKED}") for slug in ("small", "nowhere"))
    assert (mine.status_code, unknown.status_code) == (404, 404)
    assert mine.content == unknown.content


def test_a_visitor_is_asked_to_sign_in(program: Program) -> None:
    assert Client().get(YEAR + ASKED)["Location"].startswith("/sign-in/")


def test_what_cannot_be_worked_out_is_said(program: Program) -> None:
    program.quilt.colorways.get(slug="meadow").fabrics.filter(letter__letter="E").delete()
    answer = as_(dora()).get(YEAR + ASKED, follow=True)
    assert "Letter E has no fabric in this colorway" in answer.content.decode()
