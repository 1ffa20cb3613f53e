"""The page of allowances."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from bom.domain.freezing import freeze_fabric
from bom.models import Program
from tests.bom.web.designers import NOW, YEAR, as_, editor_of
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}allowances/"
USUAL = {
    "squaring_up": "1",
    "cutting_tolerance": "1/2",
    "binding_tail": "10",
    "sold_by": "4 1/2",
    "shrinkage_percent": "5",
}


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def sent(client: Client, **fields: str) -> Any:
    return client.post(PAGE, {**USUAL, **fields})


def test_a_change_is_kept_told_and_taken_back(program: Program) -> None:
    client = as_(dora())
    assert sent(client, prewash="on", sold_by="9")["Location"] == f"{YEAR}fabrics/"
    page = client.get(f"{YEAR}fabrics/").content.decode()
    assert "5 % that washing takes of length and width" in page
    assert "Take it back" in page
    program.refresh_from_db()
    assert (program.prewash, program.sold_by) == (True, 9)


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("squaring_up", "-1", "Write a length in inches"),
        ("squaring_up", "121", "between 0 and 120 in"),
        ("sold_by", "7", "Select a valid choice"),
        ("shrinkage_percent", "50", "less than or equal to 49.9"),
    ],
)
def test_what_nobody_adds_is_refused(program: Program, *, field: str, value: str, words: str) -> None:
    page = sent(as_(dora()), **{field: value})
    assert page.status_code == 200
    assert words in page.content.decode()


def test_after_the_freeze_nothing_may_need_more(program: Program) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    page = sent(as_(dora()), prewash="on")
    assert "The fabric is frozen. This change would break:" in page.content.decode()
    program.refresh_from_db()
    assert not program.prewash


def test_only_the_designer_changes_them(program: Program) -> None:
    for person in (editor_of(program), olga()):
        assert as_(person).get(PAGE).status_code == 404
        assert sent(as_(person), prewash="on").status_code == 404
    assert Client().get(PAGE)["Location"].startswith("/sign-in/")
    assert "Allowances" in as_(dora()).get(PAGE).content.decode()
