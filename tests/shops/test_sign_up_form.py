"""What people may write about themselves."""

from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from shops.web.forms_people import NameField


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  Paula   Fjøs ", "Paula Fjøs"),
        ("Paula\r\nBcc: all@quilts.example", "Paula Bcc: all@quilts.example"),
        ("\u202ePaula\u2066", "Paula"),
        ("花子", "花子"),
        ("مريم", "مريم"),
        ("Paula \N{SPOOL OF THREAD}", "Paula \N{SPOOL OF THREAD}"),
        ("=1+1", "=1+1"),
    ],
)
def test_a_name_is_one_line_in_any_script(typed: str, kept: str) -> None:
    assert NameField(max_length=60).clean(typed) == kept


@pytest.mark.parametrize("typed", ["", "  ", "\u202e", "a\x00", "n" * 61])
def test_no_name_is_refused(typed: str) -> None:
    with pytest.raises(ValidationError):
        NameField(max_length=60).clean(typed)
