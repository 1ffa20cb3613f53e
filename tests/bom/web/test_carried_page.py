"""The page on which a designer lets an earlier packet hold a fabric."""

from __future__ import annotations

import pytest

from bom.domain.freezing import freeze_fabric
from bom.models import Program
from tests.bom.web.designers import NOW, YEAR, as_
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}2/carried/"


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def test_a_letter_moves_to_the_earlier_packet_and_both_pages_say_so(program: Program) -> None:
    client = as_(dora())
    assert client.post(PAGE, {"letter_B": "1"})["Location"] == f"{YEAR}2/"
    later = client.get(f"{YEAR}2/").content.decode()
    assert "Letter B is cut from packet 1 and kept." in later
    assert "kept from installment 1:" in later
    assert "Take it back" in later
    earlier = client.get(f"{YEAR}1/").content.decode()
    assert "This packet holds letter B for installment 2." in earlier
    assert "keep for installment 2" in earlier
    assert client.get(PAGE).context["form"]["letter_B"].value() == "1"


def test_only_letters_that_are_cut_and_earlier_installments_are_offered(program: Program) -> None:
    client = as_(dora())
    assert list(client.get(PAGE).context["form"].fields) == ["letter_A", "letter_B", "letter_C"]
    assert client.post(PAGE, {"letter_B": "2"}).status_code == 200
    assert client.post(PAGE, {"letter_F": "1"})["Location"] == f"{YEAR}2/"
    assert program.installments.get(number=2).carried == {}
    assert "Nothing is cut in this installment." in client.get(f"{YEAR}3/carried/").content.decode()
    assert "Take a fabric from an earlier packet" not in client.get(f"{YEAR}1/").content.decode()


def test_after_the_freeze_it_is_refused_with_what_it_would_break(program: Program) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    page = as_(dora()).post(PAGE, {"letter_B": "1"}).content.decode()
    assert "installments that letter B is kept for" in page
    assert program.installments.get(number=2).carried == {}
