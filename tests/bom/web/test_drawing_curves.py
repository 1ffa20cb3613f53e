"""Quarter circles on the drawing board: typed by both ends and the centre."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.bom.web.test_drawing_board import _today, client, program, send

if TYPE_CHECKING:
    from django.test import Client

    from bom.models import Program

__all__ = ["_today", "client", "program"]  # fixtures

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


def test_a_quarter_circle_is_typed_with_its_centre_and_taken_back(client: Client, program: Program) -> None:
    page = send(client, "seam", start="2, 0", end="0, 2", centre="0, 0")
    assert page.context["count"] == 2
    assert page.context["found"].units[0][:2] == ("Drunkard's path A", 1)
    words = page.context["form"].fields["taken"].choices[0][0]
    assert words == "2, 0 to 0, 2, round 0, 0"
    page = send(client, "take", taken=words)
    assert page.context["count"] == 1


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        ({"start": "2, 0", "end": "0, 2", "centre": "1, 1"}, "centre", "An arc is a quarter circle"),
        ({"start": "2, 0", "end": "0, 2", "centre": "x"}, "centre", "Write a point"),
        ({"centre": "1, 1"}, "centre", "where the quarter circle begins"),
        ({"start": "1, 0", "end": "0, 3", "centre": "2, 2"}, "centre", "leaves the grid"),
    ],
)
def test_what_is_no_quarter_circle_is_named(
    client: Client, program: Program, *, typed: dict[str, str], field: str, words: str
) -> None:
    form = send(client, "seam", **typed).context["form"]
    assert any(words in error for error in form.errors[field])
    assert form["centre"].value() == typed["centre"]
