"""The sewing order is found from the drawing: units, rows, block; alike parts are made together."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block
from patterns.engine.errors import OtherSeamsNeeded, TooManySeams
from patterns.engine.geometry import area, tidied
from patterns.engine.layout import laid_out
from patterns.engine.parts import Assembly, Order, Part, Patch, Rows, Unit, UnitKind
from patterns.engine.surds import root
from tests.engine.drawings import SLUGS, block, box, inches, patch, traditional, traditional_order
from tests.engine.random_drawings import random_block

slugs = st.sampled_from(SLUGS)


def kinds(assembly: Assembly) -> Counter[UnitKind]:
    units = [part for part in assembly.parts if isinstance(part, Unit)]
    return Counter(dict.fromkeys((unit.kind for unit in units), 0)) + sum(
        (Counter({unit.kind: assembly.make[unit.id]}) for unit in units), Counter()
    )


def layout(part: Part) -> list[list[tuple[str, int]]]:
    assert isinstance(part, Rows)
    return [[(placed.part, placed.turn) for placed in row] for row in part.rows]


def drawn_again(drawn: Block) -> set[tuple[str, object]]:
    return {(each.fabric, tidied(each.points)) for each in drawn.patches}


def test_the_ohio_star_is_nine_squares_in_three_rows() -> None:
    assembly = sewing_order(traditional("ohio-star"))
    assert assembly.order is Order.STRAIGHT
    assert assembly.make == {"square-1": 4, "quarter-square-1": 4, "square-2": 1, "block": 1}
    corner, quarter, centre, whole = assembly.parts
    assert isinstance(corner, Unit)
    assert isinstance(quarter, Unit)
    assert isinstance(centre, Unit)
    assert (corner.kind, corner.fabrics) == (UnitKind.SQUARE, ("A",))
    assert (quarter.kind, quarter.fabrics) == (UnitKind.QUARTER_SQUARE, ("A", "C", "A", "C"))
    assert (centre.kind, centre.fabrics) == (UnitKind.SQUARE, ("E",))
    assert layout(whole) == [
        [("square-1", 0), ("quarter-square-1", 0), ("square-1", 0)],
        [("quarter-square-1", 1), ("square-2", 0), ("quarter-square-1", 1)],
        [("square-1", 0), ("quarter-square-1", 0), ("square-1", 0)],
    ]
    assert (assembly.whole.part, assembly.whole.at, assembly.whole.turn) == ("block", (0, 0), 0)


def test_the_sawtooth_star_is_four_geese_round_a_square() -> None:
    assembly = sewing_order(traditional("sawtooth-star"))
    assert assembly.make == {"square-1": 4, "geese-1": 4, "square-2": 1, "block": 1}
    geese = assembly.parts[1]
    assert isinstance(geese, Unit)
    assert (geese.width, geese.height, geese.fabrics) == (6, 3, ("A", "B", "B"))
    assert layout(assembly.parts[-1]) == [
        [("square-1", 0), ("geese-1", 2), ("square-1", 0)],
        [("geese-1", 1), ("square-2", 0), ("geese-1", 3)],
        [("square-1", 0), ("geese-1", 0), ("square-1", 0)],
    ]


def test_a_log_cabin_is_one_log_after_the_other() -> None:
    assembly = sewing_order(traditional("log-cabin"))
    joined = [part for part in assembly.parts if isinstance(part, Rows)]
    assert len(joined) == 20  # 21 patches
    assert all(sum(len(row) for row in part.rows) == 2 for part in joined)


def test_a_nine_patch_of_nine_patches_is_three_rows_of_three() -> None:
    assembly = sewing_order(traditional("double-nine-patch"))
    assert assembly.make == {"nine-patch-1": 5, "square-1": 4, "block": 1}
    assert [len(row) for row in layout(assembly.parts[-1])] == [3, 3, 3]


def test_mirror_images_are_kept_apart() -> None:
    """The claws of two neighbouring paws look alike, but one is the other's mirror image."""
    assembly = sewing_order(traditional("bears-paw"))
    claws = [part for part in assembly.parts if isinstance(part, Rows) and part.width != part.height]
    assert [(assembly.make[claw.id], claw.width / claw.height) for claw in claws] == [
        (4, 2),
        (4, Fraction(1, 2)),
    ]


@given(slugs)
def test_parts_that_others_need_stand_first_and_fill_them(slug: str) -> None:
    assembly = traditional_order(slug)
    seen: dict[str, Part] = {}
    for part in assembly.parts:
        if isinstance(part, Rows):
            inner = [seen[placed.part] for row in part.rows for placed in row]
            assert sum(each.width * each.height for each in inner) == part.width * part.height
        else:
            assert sum(area(each.points) for each in part.patches) == part.width * part.height
        seen[part.id] = part
    assert assembly.whole.part == assembly.parts[-1].id
    assert assembly.make.keys() == seen.keys()


@given(slugs, st.integers(0, 3), st.booleans())
def test_what_is_sewn_is_what_was_drawn(slug: str, turn: int, mirrored: bool) -> None:
    drawn = traditional(slug).turned(turn)
    drawn = drawn.mirrored() if mirrored else drawn
    sewn = laid_out(sewing_order(drawn))
    assert len(sewn) == len(drawn.patches)
    assert {(each.fabric, tidied(each.points)) for each in sewn} == drawn_again(drawn)


@given(slugs, st.integers(1, 3))
def test_turning_a_block_changes_neither_units_nor_makes(slug: str, turn: int) -> None:
    drawn = traditional(slug)
    before, after = traditional_order(slug), sewing_order(drawn.turned(turn))
    assert kinds(before) == kinds(after)
    assert sorted(before.make.values()) == sorted(after.make.values())


@given(slugs, st.permutations("ABCDEFGH"))
def test_other_letters_change_neither_units_nor_makes(slug: str, letters: list[str]) -> None:
    drawn = traditional(slug)
    other = drawn.relettered(dict(zip("ABCDEFGH", letters, strict=True)))
    before, after = traditional_order(slug), sewing_order(other)
    assert kinds(before) == kinds(after)
    assert sorted(before.make.values()) == sorted(after.make.values())


@given(slugs)
def test_one_letter_for_all_still_gets_an_order(slug: str) -> None:
    drawn = traditional(slug)
    sewn = laid_out(sewing_order(drawn.relettered(dict.fromkeys(drawn.letters, "A"))))
    assert sum(area(each.points) for each in sewn) == 144


@given(slugs)
def test_twice_the_size_is_the_same_order_with_doubled_lengths(slug: str) -> None:
    small, large = traditional_order(slug, 6), traditional_order(slug)
    assert small.make == large.make
    for one, two in zip(small.parts, large.parts, strict=True):
        assert (2 * one.width, 2 * one.height) == (two.width, two.height)
        if isinstance(one, Rows) and isinstance(two, Rows):
            assert layout(one) == layout(two)


@given(st.integers(0, 10_000))
def test_any_drawing_of_straight_seams_is_sewn_back(number: int) -> None:
    drawn = random_block(number)
    order = sewing_order(drawn)
    assert {(each.fabric, tidied(each.points)) for each in laid_out(order)} == drawn_again(drawn)
    turned = sewing_order(drawn.turned(1).relettered({"A": "C", "B": "A", "C": "B"}))
    assert sorted(turned.make.values()) == sorted(order.make.values())


def test_a_drawing_with_roots_gets_its_order_too() -> None:
    """Squares of 1 and of sqrt(2): a nine-patch of unequal squares."""
    stops = [0, 1, "1+1r2", "2+1r2"]
    cells = [
        patch("AB"[(x + y) % 2], *((stops[x + i], stops[y + j]) for i, j in ((0, 0), (1, 0), (1, 1), (0, 1))))
        for y in range(3)
        for x in range(3)
    ]
    order = sewing_order(block(("2+1r2", "2+1r2"), *cells))
    assert order.make == {"square-1": 4, "rectangle-1": 4, "square-2": 1, "block": 1}


def test_the_order_of_the_patches_in_the_file_does_not_matter() -> None:
    drawn = traditional("sailboat")
    shuffled = Block(
        name=drawn.name, width=drawn.width, height=drawn.height, patches=tuple(reversed(drawn.patches))
    )
    assert sewing_order(shuffled) == sewing_order(drawn) == sewing_order(drawn)


def test_rectangles_round_a_square_need_a_partial_seam() -> None:
    spiral = (
        box("A", 0, 0, width=2),
        box("B", 2, 0, height=2),
        box("C", 1, 2, width=2),
        box("D", 0, 1, height=2),
        box("E", 1, 1),
    )
    order = sewing_order(inches(block((4, 3), *spiral, box("A", 3, 0, height=3))))
    assert order.order is Order.PARTIAL_SEAM
    assert layout(order.parts[-1]) == [[("part-1", 0), ("rectangle-5", 1)]]


def test_mitred_corners_need_set_in_seams() -> None:
    sides = [
        patch("B", (1, 0), (4, 0), (3, 1), (2, 1)),
        patch("B", (4, 0), (4, 3), (3, 2), (3, 1)),
        patch("B", (4, 3), (1, 3), (2, 2), (3, 2)),
        patch("B", (1, 3), (1, 0), (2, 1), (2, 2)),
    ]
    order = sewing_order(inches(block((4, 3), box("A", 0, 0, height=3), *sides, box("A", 2, 1))))
    assert order.order is Order.SET_IN_SEAM
    assert isinstance(order.parts[-1], Rows)


def test_two_different_roots_are_refused() -> None:
    """A drawing of sqrt(2) and sqrt(3) is refused where it is read; this one was put together otherwise."""
    zero, one, right = Fraction(0), Fraction(1), root(2) + root(3)
    odd = Block(
        name="Two roots",
        width=right,
        height=one,
        patches=(
            Patch("A", ((zero, zero), (root(3), one), (zero, one))),
            Patch("B", ((zero, zero), (right, zero), (root(3), one))),
            Patch("A", ((right, zero), (right, one), (root(3), one))),
        ),
    )
    with pytest.raises(OtherSeamsNeeded):
        sewing_order(odd)


def test_hundreds_of_seams_in_a_row_are_refused_not_a_crash() -> None:
    logs, left, top, right, bottom = [box("A", 300, 300)], 300, 300, 301, 301
    for _ in range(160):
        logs += [
            box("B", left, top - 1, width=right - left),
            box("C", right, top - 1, height=bottom - top + 1),
        ]
        top, right = top - 1, right + 1
    moved = [patch(log["fabric"], *((x - left, y - top) for x, y in log["points"])) for log in logs]
    with pytest.raises(TooManySeams):
        sewing_order(inches(block((right - left, bottom - top), *moved)))
