"""Who sees which page of a designer, and how many queries it takes."""

from __future__ import annotations

import pytest
import time_machine
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from bom.domain.planning import schedule_by_rule
from bom.models import Program
from tests.bom.web.designers import NOW, YEAR, as_, editor_of, placed, small_program
from tests.cast import dora, olga
from tests.factories import make_installment

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
READ = ["", "installments/", "1/", "2/", "3/", "5/", "blocks/", "fabrics/", "freeze/"]
FILES = ["program.json", "yardage.csv", "packets.xlsx"]
EDIT = ["days/", "quilt/", "fabrics/harbour/", "1/words/", "1/day/", "2/carried/"]


@pytest.fixture(autouse=True)
def _today() -> object:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.mark.parametrize("path", [*READ, *FILES, *EDIT])
def test_dora_opens_every_page(program: Program, path: str) -> None:
    assert as_(dora()).get(YEAR + path).status_code == 200


def test_dora_opens_a_placed_block(program: Program) -> None:
    block = placed(program, "Ohio Star")
    assert as_(dora()).get(f"{YEAR}blocks/{block.pk}/").status_code == 200


@pytest.mark.parametrize("path", [*READ, *FILES])
def test_the_editor_reads(program: Program, path: str) -> None:
    page = as_(editor_of(program)).get(YEAR + path)
    assert page.status_code == 200
    assert b'<button class="btn" type="submit">Freeze' not in page.content


@pytest.mark.parametrize("path", EDIT)
def test_the_editor_changes_nothing(program: Program, path: str) -> None:
    client = as_(editor_of(program))
    assert client.get(YEAR + path).status_code == 404
    assert client.post(YEAR + path).status_code == 404


@pytest.mark.parametrize("path", [*READ, *FILES, *EDIT, "1/sheet.pdf", "take-back/", "1/state/"])
def test_olga_sees_what_an_unknown_program_shows(program: Program, path: str) -> None:
    client = as_(olga())
    ask = client.post if path in {"take-back/", "1/state/"} else client.get
    mine, unknown = ask(YEAR + path), ask("/program/nowhere/" + path)
    assert (mine.status_code, unknown.status_code) == (404, 404)
    assert mine.content == unknown.content


@pytest.mark.parametrize("path", [*READ, *FILES, *EDIT, "1/sheet.pdf"])
def test_a_stranger_is_asked_to_sign_in(program: Program, path: str) -> None:
    answer = Client().get(YEAR + path)
    assert answer.status_code == 302
    assert answer["Location"].startswith("/sign-in/")


def test_a_block_of_another_program_is_unknown(program: Program) -> None:
    assert as_(dora()).get(f"{YEAR}blocks/999/").status_code == 404
    assert as_(dora()).get(f"{YEAR}9/").status_code == 404
    assert as_(dora()).get(f"{YEAR}fabrics/nowhere/").status_code == 404


@pytest.mark.parametrize("path", ["", "installments/", "blocks/", "freeze/", "days/", "1/"])
def test_more_installments_take_no_more_queries(program: Program, path: str) -> None:
    client = as_(dora())
    client.get(YEAR + path)  # what is kept by content is kept now
    before = _queries(client, path)
    for number in (6, 7, 8):
        make_installment(program, number, f"Later {number}")
    schedule_by_rule(program, by=dora(), now=NOW)
    client.get(YEAR + path)
    assert _queries(client, path) == before


def test_my_only_program_is_opened_at_once(program: Program) -> None:
    assert as_(dora()).get("/program/")["Location"] == YEAR
    assert b"no program yet" in as_(olga()).get("/program/").content


def _queries(client: Client, path: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        assert client.get(YEAR + path).status_code == 200
    return len(asked)
