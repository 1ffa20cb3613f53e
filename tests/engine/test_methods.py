"""Which methods can make a unit, which is chosen, and that each makes it."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest

from patterns.engine.methods import METHODS, HouseStyle, NoMethod, Style, admitted_methods, choose, unit_key
from patterns.engine.parts import Unit, UnitKind
from tests.engine.unit_samples import (
    METRIC,
    checks,
    draft,
    goose,
    half_square,
    proof,
    quarter_square,
    square,
    square_in_a_square,
    three_patch,
)

CROSSED = "from two half-square triangles"
SAMPLES = [
    square(3),
    half_square(3),
    quarter_square(4),
    quarter_square(4, "ABAC"),
    quarter_square(4, "ABCD"),
    three_patch(3),
    three_patch(3, "ABB"),
    goose(4),
    goose(4, "ABC"),
    square_in_a_square(4),
    square_in_a_square(4, "ABCDE"),
    checks(UnitKind.STRIP_SET, "ABC", columns=3),
    checks(UnitKind.FOUR_PATCH, "ABBA", columns=2, cell="3/2"),
    checks(UnitKind.FOUR_PATCH, "ABCD", columns=2),
    checks(UnitKind.NINE_PATCH, "ABABABABA", columns=3),
]


@pytest.mark.parametrize("sample", SAMPLES, ids=unit_key)
@pytest.mark.parametrize(
    "style", [Style(), Style(house=HouseStyle.OVERSIZED), METRIC], ids=["exact", "over", "cm"]
)
def test_every_admitted_method_makes_the_unit(sample: Unit, style: Style) -> None:
    names = admitted_methods(sample, 5, style)
    assert names
    for name in names:
        assert proof(sample, name, make=5, style=style).findings == ()


@pytest.mark.parametrize(
    ("letters", "admitted"),
    [
        ("ABAB", True),
        ("ABAC", True),
        ("BACA", True),
        ("AABB", True),
        ("ABBA", True),
        ("ABCD", False),
        ("ABCA", False),
    ],
)
def test_crossing_is_admitted_only_where_the_unit_is_its_own_mirror_image(
    letters: str, admitted: bool
) -> None:
    assert (CROSSED in admitted_methods(quarter_square(4, letters), 2)) is admitted


def test_three_patch_from_a_half_square_only_where_its_small_patches_are_alike() -> None:
    """A half-square triangle crossed with a square gives one left and one right unit."""
    name = "from a half-square triangle and a square"
    assert name in admitted_methods(three_patch(3, "ABB"), 2)
    assert name not in admitted_methods(three_patch(3, "ABC"), 2)


def test_quarter_squares_of_every_letter_pattern() -> None:
    """All 15 ways to give four patches letters, up to their names."""
    patterns = {_plain("".join(letters)) for letters in product("ABCD", repeat=4)}
    assert len(patterns) == 15
    for letters in patterns:
        sample = quarter_square(4, letters)
        for name in admitted_methods(sample, 2):
            assert proof(sample, name, make=2).goes_together, (letters, name)


def _plain(letters: str) -> str:
    names = {letter: "ABCD"[i] for i, letter in enumerate(dict.fromkeys(letters))}
    return "".join(names[letter] for letter in letters)


@pytest.mark.parametrize("eighths", range(9, 40, 5))
def test_every_size_in_eighths_is_made(eighths: int) -> None:
    size = Fraction(eighths, 8)
    for sample in (half_square(size), quarter_square(size), goose(size), square_in_a_square(size)):
        for name in admitted_methods(sample, 4):
            assert proof(sample, name, make=4).findings == (), (sample.kind, name)


def test_half_squares_four_or_one_at_a_time_only_where_asked_for() -> None:
    names = admitted_methods(half_square(3), 4)
    assert names == ("two at a time", "eight at a time", "four at a time", "one at a time from triangles")
    (warning,) = draft(half_square(3), "four at a time", make=4).warnings
    assert "bias" in warning.text
    assert draft(half_square(3), "four at a time", make=5).spares[0].count == 3
    assert [spare.count for spare in draft(half_square(3), names[3], make=5).spares] == [1, 1]


def test_geese_with_unlike_wings_are_not_made_four_at_a_time() -> None:
    assert admitted_methods(goose(4, "ABC"), 4) == ("corners flipped", "one at a time from triangles")
    assert admitted_methods(goose(4), 4)[0] == "four at a time"
    assert admitted_methods(goose(4), 3)[0] == "corners flipped"


def test_flipped_corners_need_sizes_on_the_cutting_step() -> None:
    assert "corners flipped" not in admitted_methods(goose(Fraction(7, 3)), 4)


def test_override_names_a_method_for_one_unit() -> None:
    sample = goose(4)
    style = Style(overrides={unit_key(sample): "one at a time from triangles"})
    assert choose(sample, 4, style).name == "one at a time from triangles"
    assert choose(goose(6), 4, style).name == "four at a time"


def test_override_that_cannot_make_the_unit_is_refused_by_name() -> None:
    sample = quarter_square(4, "ABCD")
    with pytest.raises(NoMethod) as refused:
        choose(sample, 4, Style(overrides={unit_key(sample): CROSSED}))
    assert (refused.value.asked, refused.value.unit) == (CROSSED, unit_key(sample))


def test_unit_key_tells_kind_letters_size_and_hand() -> None:
    assert unit_key(goose(3)) == "flying geese A-B-B 3 x 3/2 either"


def test_odd_numbers_leave_named_spares() -> None:
    (spare,) = draft(half_square(3), "two at a time", make=5).spares
    assert (spare.count, spare.fabrics, spare.size) == (1, ("A", "B"), (Fraction(7, 2), Fraction(7, 2)))
    assert draft(half_square(3), "eight at a time", make=5).spares[0].count == 3
    assert draft(goose(3), "four at a time", make=1).spares[0].count == 3
    assert draft(half_square(3), "two at a time", make=4).spares == ()


def test_oversized_sizes_are_never_below_the_exact_ones() -> None:
    over = Style(house=HouseStyle.OVERSIZED, half_square_over=Fraction(0), quarter_square_over=Fraction(0))
    for sample in SAMPLES:
        for name in admitted_methods(sample, 4):
            exact, larger = draft(sample, name, make=4), draft(sample, name, make=4, style=over)
            pairs = zip(exact.needs, larger.needs, strict=True)
            assert all(a.width <= b.width and a.length <= b.length for a, b in pairs)


def test_long_strip_sets_are_split_at_the_usable_width() -> None:
    sample = checks(UnitKind.STRIP_SET, "AB", columns=2, cell=2)
    made = draft(sample, "from strip sets", make=40)  # 40 x 2 1/2 in
    assert {need.count for need in made.needs} == {3}
    assert all(need.length <= 40 for need in made.needs)
    assert made.warnings[0].facts == {"count": 3}
    assert sum(spare.count for spare in made.spares) == 2  # three sets of 14


def test_every_kind_has_a_method_and_names_are_not_repeated() -> None:
    names = [(method.kind, method.name) for method in METHODS]
    assert len(names) == len(set(names))
    assert {kind for kind, _ in names} == set(UnitKind) - {UnitKind.FINISHED_BLOCK}
