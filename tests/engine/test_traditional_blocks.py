"""Every traditional block that comes with the program is drawn whole and named, and it goes together."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_as_data, block_from_data
from patterns.engine.geometry import area
from patterns.engine.methods import HouseStyle, Style, unit_key
from patterns.engine.parts import Hand, Order, Unit
from patterns.enums import BlockCategory
from tests.engine.drawings import TRADITIONAL, traditional, traditional_order
from tests.engine.drawn import drawing, proof_of, recipe, written_anew

if TYPE_CHECKING:
    from patterns.engine.blocks import Block
    from patterns.engine.steps import Piece

pytestmark = pytest.mark.slow

LEAST = 120

FINE = Style(step=Fraction(1, 1024))

# patches, then units other than squares and rectangles: what a quilter expects of the block (from memory).
EXPECTED: dict[str, tuple[int, dict[str, int]]] = {
    "aunt-elizas-star": (25, {"quarter-square triangle": 4, "square in a square": 1}),
    "bars": (7, {"strip set": 1}),
    "basket": (9, {"half-square triangle": 3}),
    "bears-paw": (45, {"half-square triangle": 16}),
    "big-dipper": (16, {"quarter-square triangle": 4}),
    "birds-in-the-air": (15, {"half-square triangle": 6}),
    "bow-tie": (6, {"corner-flip square": 2}),
    "broken-dishes": (32, {"half-square triangle": 16}),
    "buckeye-beauty": (24, {"four-patch": 4, "half-square triangle": 2}),
    "cake-stand": (22, {"half-square triangle": 9}),
    "card-trick": (
        24,
        {"half-square triangle": 4, "three-patch quarter-square triangle": 4, "quarter-square triangle": 1},
    ),
    "center-diamond": (13, {"square in a square": 1}),
    "checkerboard": (16, {"four-patch": 4}),
    "churn-dash": (17, {"half-square triangle": 4, "strip set": 4}),
    "double-four-patch": (10, {"four-patch": 2}),
    "double-irish-chain": (25, {"four-patch": 4, "strip set": 4}),
    "double-nine-patch": (49, {"nine-patch": 5}),
    "double-wrench": (17, {"half-square triangle": 4, "strip set": 4}),
    "dutchmans-puzzle": (24, {"flying geese": 8}),
    "eccentric-star": (17, {"half-square triangle": 8}),
    "endless-stairs": (8, {"strip set": 4}),
    "fifty-four-forty-or-fight": (32, {"four-patch": 5, "triangle in a square": 4}),
    "flock-of-geese": (20, {"half-square triangle": 10}),
    "flying-geese": (12, {"flying geese": 4}),
    "four-patch": (4, {"four-patch": 1}),
    "friendship-star": (13, {"half-square triangle": 4}),
    "goose-in-the-pond": (77, {"half-square triangle": 12, "nine-patch": 4, "strip set": 4}),
    "greek-cross": (17, {"half-square triangle": 4, "strip set": 4}),
    "half-log-cabin": (13, {}),
    "heart": (10, {"corner-flip square": 2, "half-square triangle": 2}),
    "hourglass": (4, {"quarter-square triangle": 1}),
    "irish-chain": (25, {"four-patch": 4}),
    "jacobs-ladder": (28, {"four-patch": 5, "half-square triangle": 4}),
    "kansas-troubles": (60, {"half-square triangle": 28}),
    "lady-of-the-lake": (34, {"half-square triangle": 17}),
    "log-cabin": (21, {}),
    "louisiana": (16, {"flying geese": 4}),
    "maple-leaf": (15, {"half-square triangle": 4, "corner-flip square": 1}),
    "nine-patch": (9, {"nine-patch": 1}),
    "nine-patch-star": (25, {"flying geese": 4, "nine-patch": 1}),
    "ohio-star": (21, {"quarter-square triangle": 4}),
    "patience-corners": (12, {}),
    "pinwheel": (8, {"half-square triangle": 4}),
    "pinwheel-star": (24, {"flying geese": 4, "half-square triangle": 4}),
    "postage-stamp": (36, {"nine-patch": 4}),
    "prairie-queen": (25, {"half-square triangle": 4, "four-patch": 4}),
    "puss-in-the-corner": (9, {}),
    "rail-fence": (12, {"strip set": 4}),
    "rising-star": (33, {"flying geese": 8}),
    "rolling-stone": (29, {"square in a square": 4, "strip set": 4}),
    "sailboat": (19, {"half-square triangle": 6}),
    "sawtooth-bars": (35, {"half-square triangle": 16}),
    "sawtooth-star": (17, {"flying geese": 4}),
    "shoo-fly": (13, {"half-square triangle": 4}),
    "sisters-choice": (33, {"half-square triangle": 8, "nine-patch": 1}),
    "snowball": (5, {"corner-flip square": 1}),
    "split-nine-patch": (12, {"half-square triangle": 3}),
    "spool": (13, {"half-square triangle": 4}),
    "square-in-a-square": (5, {"square in a square": 1}),
    "streak-of-lightning": (32, {"half-square triangle": 16}),
    "swamp-angel": (25, {"half-square triangle": 4, "quarter-square triangle": 4}),
    "trip-around-the-world": (81, {}),
    "triple-irish-chain": (49, {"nine-patch": 4, "strip set": 4}),
    "turnstile": (12, {"three-patch quarter-square triangle": 4}),
    "twenty-five-patch": (25, {"strip set": 5}),
    "yankee-puzzle": (32, {"half-square triangle": 16}),
}


# how blocks are joined that are more than rows of units (from memory)
JOINED = {
    "attic-window": Order.SET_IN_SEAM,
    "bright-hopes": Order.PARTIAL_SEAM,
    "carpenters-wheel": Order.SET_IN_SEAM,
    "chevron": Order.TEMPLATE,
    "chimney-sweep": Order.STRAIGHT,
    "drunkards-path": Order.TEMPLATE,
    "economy-patch": Order.STRAIGHT,
    "grandmothers-flower-garden": Order.SET_IN_SEAM,
    "hexagon-flower": Order.SET_IN_SEAM,
    "hunters-star": Order.TEMPLATE,
    "lemoyne-star": Order.SET_IN_SEAM,
    "lone-star": Order.SET_IN_SEAM,
    "octagon": Order.STRAIGHT,
    "polka-dot": Order.TEMPLATE,
    "rolling-star": Order.SET_IN_SEAM,
    "six-point-star": Order.SET_IN_SEAM,
    "snails-trail": Order.STRAIGHT,
    "spools": Order.SET_IN_SEAM,
    "star-of-david": Order.TEMPLATE,
    "thousand-pyramids": Order.TEMPLATE,
    "tumbling-blocks": Order.SET_IN_SEAM,
    "wild-goose-chase": Order.STRAIGHT,
}


@pytest.mark.parametrize("slug", EXPECTED)
def test_a_block_of_straight_seams_gets_its_units(slug: str) -> None:
    assembly = traditional_order(slug)
    patches, units = EXPECTED[slug]
    found: Counter[str] = Counter()
    for part in assembly.parts:
        if isinstance(part, Unit) and part.kind not in {"square", "rectangle"}:
            found[str(part.kind)] += assembly.make[part.id]
    assert len(traditional(slug).patches) == patches
    assert found == units
    assert assembly.order is Order.STRAIGHT


@pytest.mark.parametrize("slug", JOINED)
def test_other_blocks_are_joined_as_a_quilter_would(slug: str) -> None:
    assert traditional_order(slug).order is JOINED[slug]


def test_of_these_only_three_patch_units_have_a_hand() -> None:
    handed = {
        slug
        for slug in EXPECTED
        for part in traditional_order(slug).parts
        if isinstance(part, Unit) and part.hand is not Hand.EITHER
    }
    assert handed == {"card-trick", "turnstile"}


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_the_file_is_complete_and_named_like_its_block(slug: str) -> None:
    drawn = traditional(slug)
    assert slug == drawn.name.lower().replace("'", "").replace(" ", "-")
    assert drawn.category in BlockCategory.values
    assert all(drawn.names)
    assert len({drawn.name, *drawn.names}) == 1 + len(drawn.names)
    assert set(drawn.letters) <= set("ABCDEFGH")
    assert block_from_data(block_as_data(drawn)) == drawn


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_the_areas_of_its_patches_sum_to_the_block(slug: str) -> None:
    drawn = traditional(slug)
    total = sum((area(patch.points) for patch in drawn.patches), Fraction(0))
    assert total == drawn.width * drawn.height


def plain_form(drawn: Block) -> tuple[Any, ...]:
    """Say what is drawn without its letters: shapes in order, and which of them are of one fabric."""
    scale = float(max(drawn.width, drawn.height))
    shapes = sorted(
        (sorted((round(float(x) / scale, 6), round(float(y) / scale, 6)) for x, y in points), fabric)
        for points, fabric in ((patch.points, patch.fabric) for patch in drawn.patches)
    )
    seen: dict[str, int] = {}
    return tuple((tuple(corners), seen.setdefault(letter, len(seen))) for corners, letter in shapes)


def test_there_are_enough_of_them() -> None:
    assert len(TRADITIONAL) >= LEAST


def test_no_two_files_draw_the_same_block() -> None:
    """Neither turned nor lettered otherwise is it another block."""
    found: dict[tuple[Any, ...], str] = {}
    for slug in TRADITIONAL:
        form = min(plain_form(traditional(slug).turned(turn)) for turn in range(4))
        assert form not in found, f"{slug} and {found.get(form)}"
        found[form] = slug


def two_sizes(slug: str) -> tuple[Fraction, Fraction]:
    """Give two widths: 12 in, and the one in which a step of its grid is 1 1/2 in (9 in on a rooted grid)."""
    across, _ = drawing(slug)["grid"]
    return Fraction(12), Fraction(9) if "r" in str(across) else Fraction(across) * Fraction(3, 2)


@pytest.mark.parametrize("house", list(HouseStyle))
@pytest.mark.parametrize("slug", TRADITIONAL)
def test_it_goes_together_at_two_sizes(slug: str, house: HouseStyle) -> None:
    for size in two_sizes(slug):
        found = proof_of(slug, recipe(slug, size=size, style=Style(house=house)))
        assert found.findings == ()
        assert found.patches_right == found.patches


STEP = Fraction(1, 8)


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_no_piece_is_rounded_down(slug: str) -> None:
    """No piece is smaller than the same piece cut fine, to 1/1024 in, nor two steps larger."""
    _, size = two_sizes(slug)
    sheet = recipe(slug, size=size)
    fine = sorted(measures(piece) for piece in cut_fine(slug, size))
    cut = sorted(measures(piece) for piece in sheet.pieces)
    for (*what, short, long), (*same, width, length) in zip(fine, cut, strict=True):
        assert what == same
        assert 0 <= width - short < 2 * STEP
        if "slanting" not in what[1]:  # those strips are filled as the fabric's width allows
            assert 0 <= length - long < 2 * STEP


def cut_fine(slug: str, size: Fraction) -> tuple[Piece, ...]:
    """Cut to 1/1024 in, by the same methods: more patches come from strips where any width can be cut."""
    drawn = traditional(slug)
    order = sewing_order(drawn.at_size(size, size * drawn.height / drawn.width))
    used = {row.part: row.method for row in recipe(slug, size=size).units}
    units = (part for part in order.parts if isinstance(part, Unit))
    methods = {unit_key(unit): used[unit.id] for unit in units}
    return written_anew(slug, size, replace(FINE, overrides=methods)).pieces


def measures(piece: Piece) -> tuple[str, str, Fraction, Fraction]:
    return piece.fabric, piece.then, piece.width, piece.length
