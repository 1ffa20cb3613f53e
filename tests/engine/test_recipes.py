"""From a sewing order to a recipe: merged pieces, numbered steps, pictures, tops of quilts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.blocks import block_as_data, block_from_data
from patterns.engine.layout import PlacedDrawing
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.parts import Assembly, Order, Placed
from patterns.engine.quilts import Border, QuiltTop, Sashing
from patterns.engine.rebuild import Proof, prove
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.engine.steps import MarkKind
from tests.engine.drawn import SLUGS, drawing, recipe, written_anew
from tests.engine.unit_samples import METRIC, goose

Q = Fraction


def test_ohio_star_pieces_are_merged_and_named_from_the_largest_down() -> None:
    """Common practice for a 12 in Ohio Star: 5 1/4 in for the points, 4 1/2 in squares."""
    pieces = recipe("ohio-star").pieces
    assert [(p.id, p.width, p.length, p.count) for p in pieces] == [
        ("A1", Q(21, 4), Q(21, 4), 2),
        ("A2", Q(9, 2), Q(9, 2), 4),
        ("C1", Q(21, 4), Q(21, 4), 2),
        ("E1", Q(9, 2), Q(9, 2), 1),
    ]


def test_sawtooth_star_in_oversized_style() -> None:
    pieces = recipe("sawtooth-star", style=Style(house=HouseStyle.OVERSIZED)).pieces
    assert {p.id: p.width for p in pieces} == {"A1": Q(15, 2), "A2": Q(7, 2), "B1": Q(4), "E1": Q(13, 2)}


def test_steps_are_numbered_and_measured() -> None:
    steps = recipe("ohio-star").steps
    assert [step.number for step in steps] == [1, 2]
    assert [step.check for step in steps] == [(Q(9, 2), Q(9, 2)), (Q(25, 2), Q(25, 2))]
    assert any("Sew one set first" in words.text for words in steps[0].words)


def test_pieces_in_sentences_have_their_names() -> None:
    for slug in ("sawtooth-star", "pinwheel"):
        ids = {piece.id for piece in recipe(slug).pieces}
        facts = [w.facts["piece"] for step in recipe(slug).steps for w in step.words if "piece" in w.facts]
        assert facts and set(facts) <= ids


def test_every_step_is_drawn_before_and_after() -> None:
    for step in recipe("sawtooth-star").steps:
        assert len(step.pictures) > 1
        assert step.pictures[-1].size == step.check
        kinds = {mark.kind for picture in step.pictures for mark in picture.marks}
        assert MarkKind.SEAM in kinds


def test_geese_are_pressed_away_from_the_goose() -> None:
    marks = recipe("sawtooth-star").steps[0].pictures[-1].marks
    arrows = [mark for mark in marks if mark.kind is MarkKind.PRESS]
    assert len(arrows) == 2
    middle = Q(13, 4)
    assert all(abs(arrow.end[0] - middle) > abs(arrow.start[0] - middle) for arrow in arrows)


def test_pictures_need_no_roots() -> None:
    for step in recipe("rolling-stone").steps:
        for picture in step.pictures:
            assert all(type(n) is Fraction for facet in picture.facets for p in facet.points for n in p)


def test_same_order_gives_the_same_recipe() -> None:
    assert recipe("bears-paw", size=14) == written_anew("bears-paw", Q(14), Style())


@pytest.mark.parametrize("slug", SLUGS)
def test_doubled_block_doubles_finished_sizes_and_keeps_counts(slug: str) -> None:
    small, large = recipe(slug, size=6), recipe(slug, size=12)
    assert [u.kind for u in small.units] == [u.kind for u in large.units]
    for a, b in zip(small.units, large.units, strict=True):
        assert (2 * a.finished[0], 2 * a.finished[1]) == b.finished
        assert a.count == b.count


def test_sizes_off_the_cutting_step_are_told() -> None:
    """A 12 in block on a grid of nine: 1 1/3 in patches."""
    made = recipe("double-nine-patch")
    assert any("not on the cutting step" in warning.text for warning in made.warnings)
    assert prove(made.as_data(), drawing("double-nine-patch")).goes_together
    assert recipe("double-nine-patch", size=9).warnings == ()


def test_one_unit_can_be_the_whole() -> None:
    sample = goose(6)
    whole = Placed(part=sample.id, at=(Q(0), Q(0)), turn=1)
    order = Assembly(order=Order.STRAIGHT, parts=(sample,), make={sample.id: 1}, whole=whole)
    made = write_recipe(order, name="goose", style=Style())
    assert made.finished == (3, 6)
    assert made.place == {"ref": sample.id, "turn": 1}


def _placed(slug: str, size: int) -> PlacedDrawing:
    return PlacedDrawing(block=block_from_data(drawing(slug)).at_size(Q(size), Q(size)))


def _prove_centre(top: QuiltTop, style: Style | None = None) -> Proof:
    size = (top.width, top.height)
    made = write_recipe(top.centre, name="centre", style=style or Style(), finished=size)
    return prove(made.as_data(), block_as_data(top.drawing))


def test_quilt_on_point_goes_together_with_setting_triangles() -> None:
    """C08: 12 in blocks: sides 18 1/4 in cut twice, corners 9 3/8 in cut once (common practice)."""
    star, geese = _placed("ohio-star", 12), _placed("sawtooth-star", 12)
    top = on_point_set([[star, geese], [geese], [geese, star]], triangle="T")
    made = write_recipe(top.centre, name="centre", style=Style(), finished=(top.width, top.height))
    sizes = {piece.then: piece.width for piece in made.pieces}
    assert sizes == {"cut twice diagonally": Q(73, 4), "cut once diagonally": Q(75, 8)}
    found = _prove_centre(top)
    assert found.findings == ()
    assert found.patches_right == found.patches == 2 * 21 + 3 * 17 + 8  # and the setting triangles


def test_setting_triangle_cut_an_eighth_small_is_caught() -> None:
    star = _placed("ohio-star", 12)
    top = on_point_set([[star, star], [star], [star, star]], triangle="T")
    made = write_recipe(top.centre, name="centre", style=Style(), finished=(top.width, top.height))
    for number in range(len(made.pieces)):
        data = made.as_data()
        row = data["pieces"][number]
        row["width"] = row["length"] = str(Q(row["width"]) - Q(1, 8))
        found = prove(data, block_as_data(top.drawing))
        assert found.findings[0].rule == "the unit is large enough to trim"


def test_quilt_with_sashing_cornerstones_and_border() -> None:
    star, geese = _placed("ohio-star", 12), _placed("sawtooth-star", 12)
    sashing = Sashing(width=Q(2), fabric="S", cornerstone="K", outside=True)
    top = straight_set([[star, geese], [geese, star]], sashing=sashing, border=Border(width=Q(4), fabric="Z"))
    assert top.border is not None
    made = write_recipe(top.border, name="border", style=Style())
    assert prove(made.as_data(), block_as_data(top.drawing)).goes_together
    assert {(p.fabric, p.width, p.length, p.count) for p in made.pieces} == {
        ("Z", Q(9, 2), Q(61, 2), 2),  # sides: 2 x 12 + 3 x 2 = 30 in finished
        ("Z", Q(9, 2), Q(77, 2), 2),  # top and bottom: 30 + 2 x 4
    }


def test_quilt_on_point_in_centimetres() -> None:
    star = _placed("ohio-star", 6)
    top = on_point_set([[star, star], [star], [star, star]], triangle="T")
    assert _prove_centre(top, METRIC).goes_together


@pytest.mark.parametrize(
    ("block", "side", "corner"),
    [
        (3, "11/2", None),  # SET-01: Quilts set on point, Dalmeny Quilters (guild): 5 1/2; exact 5.4497
        (4, "55/8", "15/4"),  # SET-03, SET-04: guild rule 7 and 3 3/4; exact 6.8640 and 3.6820
        (5, "67/8", "9/2"),  # SET-05, SET-06: On-point triangle chart, a personal page
        (6, "39/4", "41/8"),  # SET-07; W07: Tip: on-point settings, Moonlight Quilters: 9 3/4 and 5 1/8
        (7, "89/8", None),  # SET-09: chart 11 1/4; exact 11.1066
        (8, "101/8", "53/8"),  # SET-11, SET-12
        (9, None, "29/4"),  # SET-14
        (10, None, "8"),  # SET-16
        (11, None, "35/4"),  # SET-18
        (12, "73/4", "75/8"),  # SET-19, SET-20
        (13, None, "81/8"),  # SET-22
        (14, "169/8", "87/8"),  # SET-23, SET-24
        (15, "45/2", None),  # SET-25
        (16, "191/8", "49/4"),  # SET-27, SET-28
    ],
)
def test_setting_triangle_squares(block: int, side: str | None, corner: str | None) -> None:
    plain = _placed("four-patch", block)
    top = on_point_set([[plain, plain], [plain], [plain, plain]], triangle="T")
    made = write_recipe(top.centre, name="centre", style=Style(), finished=(top.width, top.height))
    sizes = {piece.then: piece.width for piece in made.pieces}
    assert side is None or sizes["cut twice diagonally"] == Q(side)
    assert corner is None or sizes["cut once diagonally"] == Q(corner)
