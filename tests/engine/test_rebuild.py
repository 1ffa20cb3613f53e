"""Virtual sewing: whole blocks go together, exactly and from their own data; too small is too small."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from patterns.engine.methods import HouseStyle, Style, unit_recipe
from patterns.engine.parts import Unit
from patterns.engine.rebuild import prove, sew
from patterns.engine.units.base import Job
from tests.engine.drawn import SLUGS, drawing, plain_data, proof_of, recipe
from tests.engine.unit_samples import (
    METRIC,
    goose,
    half_square,
    method,
    proof,
    quarter_square,
    square_in_a_square,
    three_patch,
)

FINE = Style(step=Fraction(1, 64))


@pytest.mark.parametrize("house", list(HouseStyle))
@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star"])
@pytest.mark.parametrize("size", ["12", "9", "7 1/2"])
def test_stars_go_together_in_both_styles(slug: str, house: HouseStyle, size: str) -> None:
    whole, _, part = size.partition(" ")
    made = recipe(slug, size=Fraction(whole) + Fraction(part or 0), style=Style(house=house))
    found = proof_of(slug, made)
    assert found.goes_together
    assert found.patches_right == found.patches == len(drawing(slug)["patches"])
    assert found.deviations == ()


@pytest.mark.parametrize(
    ("slug", "size"), [(slug, 12) for slug in SLUGS] + [(slug, 7) for slug in SLUGS[::3]]
)
def test_every_traditional_block_goes_together(slug: str, size: int) -> None:
    found = proof_of(slug, recipe(slug, size=size))
    assert found.findings == ()
    assert found.patches_right == found.patches


@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star", "pinwheel", "rolling-stone"])
def test_blocks_go_together_in_centimetres(slug: str) -> None:
    made = recipe(slug, size=Fraction(3000, 254), style=METRIC)  # 30 cm
    assert proof_of(slug, made).goes_together
    assert all((piece.width / METRIC.step).denominator in (1, 2, 4) for piece in made.pieces)


def test_proof_reads_nothing_but_plain_data() -> None:
    data = json.loads(json.dumps(recipe("ohio-star").as_data()))
    assert prove(data, drawing("ohio-star")) == prove(data, drawing("ohio-star"))
    assert prove(data, drawing("ohio-star")).goes_together


def test_nothing_is_left_on_the_table_but_spares() -> None:
    sewn = sew(plain_data("birds-in-the-air"))
    left = {ref: count for ref, (_, count) in sewn.stock.items() if count}
    assert left == {row["ref"]: row["count"] for row in plain_data("birds-in-the-air")["spares"]}


@pytest.mark.parametrize(
    ("sample", "name"),
    [
        (half_square(3), "two at a time"),
        (half_square(3), "eight at a time"),
        (quarter_square(3, "ABCD"), "from triangles"),
        (quarter_square(3), "from two half-square triangles"),
        (three_patch(3), "from triangles"),
        (goose(3), "one at a time from triangles"),
        (goose(3), "four at a time"),
    ],
)
def test_one_sixty_fourth_less_is_too_small(sample: Unit, name: str) -> None:
    """Sizes rounded up to 1/64 in pass; one step smaller does not."""
    assert proof(sample, name, make=2, style=FINE).goes_together
    small = proof(sample, name, make=2, style=FINE, nudge=-1)
    assert not small.goes_together
    assert small.findings[0].rule in ("the unit is large enough to trim", "pieces made are pieces used")


@pytest.mark.parametrize(("finished", "inches"), [(3, "27/10000"), ("9/2", "481/10000")])
def test_square_in_a_square_from_triangles_states_how_far_its_points_miss(
    finished: object, inches: str
) -> None:
    found = proof(square_in_a_square(finished), "from triangles")
    assert found.goes_together
    assert [deviation.inches for deviation in found.deviations] == [Fraction(inches)]


def test_square_in_a_square_that_misses_by_more_than_a_sixteenth_is_a_stop() -> None:
    sample = square_in_a_square(4)
    job = Job(unit=sample, make=1, style=Style())
    data = unit_recipe(job, method(sample, "from triangles").draft(job)).as_data()
    data["pieces"][0] |= {"width": "7/2", "length": "7/2"}  # 3 3/8 is right
    (found,) = sew(data).findings
    assert found.rule == "points meet within 1/16 in"


def test_published_error_four_squares_of_two_and_a_half_make_four_and_a_half() -> None:
    """C42: a free block joins four 2 1/2 in squares to 5 1/2 in; they make 4 1/2 in (a public account)."""
    pieces = [{"id": "A1", "fabric": "A", "width": "5/2", "length": "5/2", "count": 4, "then": ""}]
    assert _joined(pieces, [[["A1", 0], ["A1", 0]], [["A1", 0], ["A1", 0]]]) == ("9/2", "9/2")


def test_published_error_eleven_and_nine_are_nineteen_and_a_half() -> None:
    """C43: pieces of 11 x 20 and 9 x 20 in are joined to 19 1/2 x 20 in (a public account)."""
    pieces = [
        {"id": "A1", "fabric": "A", "width": "11", "length": "20", "count": 1, "then": ""},
        {"id": "A2", "fabric": "A", "width": "9", "length": "20", "count": 1, "then": ""},
    ]
    assert _joined(pieces, [[["A1", 0], ["A2", 0]]]) == ("39/2", "20")


def _joined(pieces: list[dict[str, object]], rows: list[list[list[object]]]) -> tuple[str, str]:
    operation = {"op": "rows", "times": 1, "rows": rows, "seam": "1/4", "gives": "whole"}
    data = {
        "name": "",
        "finished": ["1", "1"],
        "seam": "1/4",
        "order": "straight",
        "pieces": pieces,
        "steps": [{"number": 1, "check": None, "operations": [operation]}],
        "spares": [],
        "given": {},
        "place": {"ref": "whole", "turn": 0},
    }
    whole = sew(data).whole
    assert whole is not None
    return (str(whole.box[0]), str(whole.box[1]))


@pytest.mark.parametrize("broken", [{}, {"seam": "x"}, {"seam": 0.25}, {"seam": "1/4", "pieces": 3}])
def test_data_that_cannot_be_read_is_a_finding_and_no_crash(broken: dict[str, object]) -> None:
    found = prove({"steps": [], **broken}, drawing("ohio-star"))
    assert not found.goes_together
    assert found.findings[0].rule == "the instructions can be followed"
