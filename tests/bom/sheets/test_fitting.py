"""Fitting a text to a line: shrunk first, then cut, a tail never."""

from __future__ import annotations

import pytest

from bom.domain.sheets.fitting import Face, Fitted, fit, has_letters, width_of

SIZES = (12, 10, 8)


def test_a_short_text_keeps_the_largest_size() -> None:
    fitted = fit("Maud", face=Face.SANS, width=100, sizes=SIZES)
    assert fitted == Fitted(text="Maud", size=12)
    assert fitted.style == "font-size:12pt"


def test_a_longer_text_is_shrunk_and_not_cut() -> None:
    width = width_of("Wilhelmina Tr", Face.SANS, size=12)
    fitted = fit("Wilhelmina Trev", face=Face.SANS, width=width, sizes=SIZES)
    assert fitted == Fitted(text="Wilhelmina Trev", size=10)


@pytest.mark.parametrize("face", list(Face))
@pytest.mark.parametrize("width", [20, 40, 80, 160])
def test_what_is_set_is_never_wider_than_its_room(face: Face, width: float) -> None:
    fitted = fit("Featherstonehaugh and daughters, of the harbour", face=face, width=width, sizes=SIZES)
    assert width_of(fitted.text, face, size=fitted.size) <= width
    assert fitted.size == 8
    assert fitted.text.endswith("…")


def test_a_tail_is_kept_whole() -> None:
    fitted = fit("Featherstonehaugh", face=Face.SANS_BOLD, width=50, sizes=SIZES, tail=", 137")
    assert fitted.text.endswith("…, 137")
    assert width_of(fitted.text, Face.SANS_BOLD, size=fitted.size) <= 50


def test_a_text_that_is_cut_ends_before_a_space_or_a_comma() -> None:
    room = width_of("Deep ", Face.SANS, size=8) + width_of("…", Face.SANS, size=8)
    assert fit("Deep Water", face=Face.SANS, width=room, sizes=(8,)).text == "Deep…"


@pytest.mark.parametrize("face", list(Face))
def test_letters_that_a_font_lacks_are_told(face: Face) -> None:
    assert has_letters("Åse Øyvind", face)
    assert not has_letters("Łącka", face)
    assert width_of("花", face, size=8) >= 8
