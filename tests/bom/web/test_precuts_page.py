"""The page of precuts: what may be used is chosen with the allowances, and shown fabric by fabric."""

from __future__ import annotations

import pytest

from bom.models import Program
from tests.bom.web.designers import YEAR, as_, editor_of
from tests.bom.web.test_allowances_page import USUAL
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}precuts/"


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def test_precuts_are_allowed_with_the_allowances_and_shown_for_every_packet(program: Program) -> None:
    client = as_(dora())
    assert "The program allows none." in client.get(PAGE).content.decode()
    sent = client.post(f"{YEAR}allowances/", {**USUAL, "precuts": ["fat quarter 18 x 22", "10 in square"]})
    assert sent["Location"] == f"{YEAR}fabrics/"
    program.refresh_from_db()
    assert program.precuts == ["fat quarter 18 x 22", "10 in square"]
    page = client.get(PAGE)
    text = page.content.decode()
    assert "Fat quarters, 18 x 22 in" in text
    assert "as much cloth as" in text
    rows = page.context["colorways"][0]["rows"]
    assert rows
    assert f"?from={rows[0]['key']}" in text
    again = client.get(f"{YEAR}allowances/").content.decode()
    assert again.count("checked") == len(program.precuts)


def test_what_is_no_precut_is_refused(program: Program) -> None:
    page = as_(dora()).post(f"{YEAR}allowances/", {**USUAL, "precuts": ["fat half"]})
    assert "fat half is not one of the available choices" in page.content.decode()


def test_an_editor_reads_them_and_an_outsider_does_not(program: Program) -> None:
    assert as_(editor_of(program)).get(PAGE).status_code == 200
    assert as_(olga()).get(PAGE).status_code == 404
