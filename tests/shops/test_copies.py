"""Whose copy a sheet is: in letters that our font has, else by number."""

from __future__ import annotations

import pytest

from shops.domain.copies import stamp_text
from tests.shops.factories import make_open_program, make_sign_up, make_terms

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("name", "stamped"),
    [
        ("Zoë", "Zoë, 1, Oblong Drawer"),
        ("Zoe\u0308", "Zoë, 1, Oblong Drawer"),
        ("O\u2019Brien <b>", "O\u2019Brien <b>, 1, Oblong Drawer"),
        ("Μαρία", "small 1"),
        ("Мария", "small 1"),
        ("花子", "small 1"),
        ("Nguyễn Thị Hương", "small 1"),
        ("مريم", "small 1"),
        ("Paula 🧵", "small 1"),
        ("\u202epaula", "small 1"),
    ],
)
def test_a_name_is_stamped_as_it_is_written_or_not_at_all(name: str, stamped: str) -> None:
    sign_up = make_sign_up(make_terms(make_open_program()))
    sign_up.packet_name = name
    assert stamp_text(sign_up) == stamped
