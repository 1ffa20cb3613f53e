"""Every traditional block that comes with the program gets its units, by count and kind."""

from __future__ import annotations

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_as_data, block_from_data
from patterns.engine.parts import Hand, Order, Unit
from tests.engine.drawings import SLUGS, traditional

# patches, then units other than squares and rectangles: what a quilter expects of the block (from memory).
EXPECTED: dict[str, tuple[int, dict[str, int]]] = {
    "bears-paw": (45, {"half-square triangle": 16}),
    "birds-in-the-air": (15, {"half-square triangle": 6}),
    "broken-dishes": (32, {"half-square triangle": 16}),
    "churn-dash": (17, {"half-square triangle": 4, "strip set": 4}),
    "double-nine-patch": (49, {"nine-patch": 5}),
    "dutchmans-puzzle": (24, {"flying geese": 8}),
    "flock-of-geese": (20, {"half-square triangle": 10}),
    "four-patch": (4, {"four-patch": 1}),
    "friendship-star": (13, {"half-square triangle": 4}),
    "greek-cross": (17, {"half-square triangle": 4, "strip set": 4}),
    "hourglass": (4, {"quarter-square triangle": 1}),
    "irish-chain": (25, {"four-patch": 4}),
    "jacobs-ladder": (28, {"four-patch": 5, "half-square triangle": 4}),
    "log-cabin": (21, {}),
    "nine-patch": (9, {"nine-patch": 1}),
    "ohio-star": (21, {"quarter-square triangle": 4}),
    "pinwheel": (8, {"half-square triangle": 4}),
    "rail-fence": (12, {"strip set": 4}),
    "rolling-stone": (29, {"square in a square": 4, "strip set": 4}),
    "sailboat": (19, {"half-square triangle": 6}),
    "sawtooth-star": (17, {"flying geese": 4}),
    "shoo-fly": (13, {"half-square triangle": 4}),
    "square-in-a-square": (5, {"square in a square": 1}),
    "turnstile": (12, {"three-patch quarter-square triangle": 4}),
    "yankee-puzzle": (32, {"half-square triangle": 16}),
}


def test_every_traditional_block_is_expected() -> None:
    assert sorted(EXPECTED) == SLUGS


@pytest.mark.parametrize("slug", SLUGS)
def test_a_traditional_block_gets_its_units_by_straight_seams(slug: str) -> None:
    drawn = traditional(slug)
    assembly = sewing_order(drawn)
    patches, units = EXPECTED[slug]
    found: dict[str, int] = {}
    for part in assembly.parts:
        if isinstance(part, Unit) and part.kind not in {"square", "rectangle"}:
            found[str(part.kind)] = found.get(str(part.kind), 0) + assembly.make[part.id]
    assert len(drawn.patches) == patches
    assert found == units
    assert assembly.order is Order.STRAIGHT


@pytest.mark.parametrize("slug", SLUGS)
def test_the_file_is_complete_and_named_like_its_block(slug: str) -> None:
    drawn = traditional(slug)
    assert drawn.category
    assert slug == drawn.name.lower().replace("'", "").replace(" ", "-")
    assert set(drawn.letters) <= set("ABCDEFGH")
    assert block_from_data(block_as_data(drawn)) == drawn


def test_only_the_turnstile_has_a_hand() -> None:
    handed = {
        slug
        for slug in SLUGS
        for part in sewing_order(traditional(slug)).parts
        if isinstance(part, Unit) and part.hand is not Hand.EITHER
    }
    assert handed == {"turnstile"}
