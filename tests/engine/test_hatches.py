"""Hatches and edges: seen on every cloth, each unlike the others."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.hatches import INK, WHITE, contrast, edge_colour, hatch_colour, hatch_tile, mix

F = Fraction

PALETTE = ("#F0EFE7", "#1F3A54", "#4F7F6A", "#E4B63F", "#CF7F8C", "#8A97B3", "#B9A98A", "#B9CBCB")
PALETTE += ("#000000", "#FFFFFF", "#777777", "#808080", "#FF0000", "#00FF00", "#0000FF", "#A8281E")


@pytest.mark.parametrize("ground", PALETTE)
def test_hatch_stands_out_3_to_1_and_no_smaller_mix_does(ground: str) -> None:
    assert contrast(ground, hatch_colour(ground)) >= 3  # WCAG 2.2, 1.4.11
    toward = max((INK, WHITE), key=lambda end: contrast(ground, end))
    steps = [mix(ground, toward, F(percent, 100)) for percent in range(101)]
    first = next(step for step in steps if contrast(ground, step) >= 3)
    assert first == hatch_colour(ground)


def test_contrast_agrees_with_published_pairs() -> None:
    assert contrast("#000000", "#FFFFFF") == 21  # WCAG 2.2, definition of contrast ratio
    grey = contrast("#777777", "#FFFFFF")
    assert F(447, 100) < grey < F(449, 100)  # 4.48, WebAIM, Contrast and Color Accessibility


def test_edges_are_ink_but_pale_on_very_dark_cloth() -> None:
    assert edge_colour("#4F7F6A") == INK
    assert edge_colour("#1F3A54") == "#DCE2E7"


def test_thirty_two_hatches_differ() -> None:
    tiles = [hatch_tile(number) for number in range(32)]
    assert len({(tile.lines, tile.dots, tile.turned) for tile in tiles}) == 32
