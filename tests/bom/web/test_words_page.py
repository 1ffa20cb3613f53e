"""The page of an installment's words: read through before they are kept, faults named with their place."""

from __future__ import annotations

import pytest
import time_machine
from django.test import Client

from bom.domain.planning import approve, mark_edited, schedule_installment
from bom.models import Installment, Program
from tests.bom.web.designers import NOW, YEAR, as_, small_program
from tests.cast import dora

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture(autouse=True)
def _today() -> object:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def client(program: Program) -> Client:
    return as_(dora())


def mine(program: Program) -> Installment:
    return program.installments.get(number=1)


def test_words_are_read_through_before_they_are_kept(client: Client, program: Program) -> None:
    data = {"title": "First Light", "story": "A *star* of {finished size}.", "tips": "Trim to 9 7/8 in."}
    page = client.post(f"{YEAR}1/words/", {**data, "preview": "1"})
    said = page.content.decode()
    assert "A <em>star</em> of " in said and "{finished size}" not in page.context["read"][0]
    assert [(each.field, each.line, each.column) for each in page.context["faults"]] == [("tips", 1, 9)]
    assert "Tips, line 1, column 9:" in said
    assert mine(program).story == ""
    client.post(f"{YEAR}1/words/", data)
    assert mine(program).tips == "Trim to 9 7/8 in."  # a draft keeps what the proof stops


def test_words_that_stop_the_proof_are_no_correction(client: Client, program: Program) -> None:
    installment = mine(program)
    for verb in (mark_edited, approve, schedule_installment):
        verb(installment, by=dora(), now=NOW)
    data = {"title": installment.title, "story": "", "tips": "Trim to 9 7/8 in.", "change_line": "A tip."}
    form = client.post(f"{YEAR}1/words/", {**data, "publish": "1"}).context["form"]
    assert "Line 1, column 9: 9 7/8 in" in str(form.errors["tips"])
    assert form["tips"].value() == "Trim to 9 7/8 in."
    assert (mine(program).tips, mine(program).editions.count()) == ("", 1)
