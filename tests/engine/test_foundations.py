"""Foundation piecing: which sections, in which order, from which pieces; and what virtual sewing sees."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data
from patterns.engine.foundation_order import adding_order
from patterns.engine.layout import laid_out
from patterns.engine.methods import Style, draft_unit, prove_unit, unit_recipe
from patterns.engine.parts import Hand, Order, Patch, Unit, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.rebuilding.faults import Rule
from patterns.engine.recipes import write_recipe
from patterns.engine.units.base import Job
from patterns.engine.units.foundations import AS_BEFORE, HOW
from tests.engine.figure_drawings import slim_compass

SIDE = Fraction(4)


def patch(letter: str, *corners: tuple[object, object]) -> Patch:
    return Patch(letter, tuple((Fraction(x), Fraction(y)) for x, y in corners))


SPIKE = (  # a slim point from the top corners' grounds down to the middle of the lower edge
    patch("A", (0, 0), (1, 0), (2, 4), (0, 4)),
    patch("B", (1, 0), (3, 0), (2, 4)),
    patch("A", (3, 0), (4, 0), (4, 4), (2, 4)),
)


def section(patches: tuple[Patch, ...] = SPIKE) -> Unit:
    return Unit(
        id="foundation-1",
        kind=UnitKind.FOUNDATION,
        width=SIDE,
        height=SIDE,
        fabrics=tuple(p.fabric for p in patches),
        hand=Hand.EITHER,
        patches=patches,
    )


def drawing_of(patches: tuple[Patch, ...]) -> dict[str, object]:
    rows = [{"fabric": p.fabric, "points": [[str(n) for n in q] for q in p.points]} for p in patches]
    return {"grid": ["4", "4"], "patches": rows}


def test_the_middle_comes_first_and_every_next_patch_has_one_edge_to_all_before() -> None:
    order = adding_order(SPIKE)
    assert order is not None
    assert [p.fabric for p in order] == ["B", "A", "A"]
    assert set(order) == set(SPIKE)
    assert adding_order(order) is not None


def test_a_pinwheel_of_four_has_no_adding_order() -> None:
    wheel = (
        patch("A", (0, 0), (3, 0), (3, 1), (0, 1)),
        patch("B", (3, 0), (4, 0), (4, 3), (3, 3)),
        patch("A", (1, 3), (4, 3), (4, 4), (1, 4)),
        patch("B", (0, 1), (1, 1), (1, 4), (0, 4)),
        patch("C", (1, 1), (3, 1), (3, 3), (1, 3)),
    )
    assert adding_order(wheel) is None


def test_a_piece_covers_its_patch_with_seams_and_a_margin_along_its_seam() -> None:
    order = adding_order(SPIKE)
    assert order is not None
    method, draft = draft_unit(section(order), 3, Style())
    assert method.name == "on a foundation"
    assert [need.count for need in draft.needs] == [3, 3, 3]
    # the point is 2 x 4; along its right edge, of slope 1:4, it reaches 17 / sqrt 17 = 4.123 and
    # 8 / sqrt 17 = 1.940 across (derived); with 1/2 in on every side and up to 1/8: 5 1/8 and 3
    assert (draft.needs[0].width, draft.needs[0].length) == (Fraction(3), Fraction(41, 8))


def test_the_section_goes_together_and_a_piece_too_small_or_exchanged_is_named() -> None:
    order = adding_order(SPIKE)
    assert order is not None
    unit = section(order)
    job = Job(unit=unit, make=1, style=Style())
    method, draft = draft_unit(unit, 1, Style())
    assert prove_unit(job, method).goes_together
    data = unit_recipe(job, draft).as_data()
    data["pieces"][0]["width"] = "2"
    assert prove(data, drawing_of(order)).findings[0].rule == Rule.COVER.value


def test_a_patch_between_two_that_are_sewn_already_is_named() -> None:
    left, middle, right = SPIKE
    sewn = section((left, middle, right))
    data = unit_recipe(Job(unit=sewn, make=1, style=Style()), draft_unit(sewn, 1, Style())[1]).as_data()
    rows = data["steps"][0]["operations"][0]["patches"]
    rows[1], rows[2] = rows[2], rows[1]
    found = prove(data, drawing_of(SPIKE)).findings[0]
    assert (found.rule, found.piece) == (Rule.PATH.value, "p2")


def test_a_compass_is_pieced_on_foundations_in_two_hands_and_joined_by_straight_seams() -> None:
    order = sewing_order(slim_compass())
    sections = [part for part in order.parts if isinstance(part, Unit)]
    assert order.order is Order.FOUNDATION
    assert [(section.kind, order.make[section.id]) for section in sections] == [(UnitKind.FOUNDATION, 4)] * 2
    assert Counter(p.fabric for p in laid_out(order)) == {"A": 8, "B": 4, "C": 4, "D": 4, "E": 4}
    recipe = write_recipe(order, name="Compass", style=Style())
    printed = recipe.steps[0].pictures[0]
    assert [facet.label for facet in printed.facets] == ["1", "2", "3"]
    assert printed.facets[0].points == tuple((6 - x, y) for x, y in sections[0].patches[0].points)
    proof = prove(recipe.as_data(), block_as_data(slim_compass()))
    assert (proof.goes_together, proof.patches_right) == (True, 24)


def test_only_the_first_foundation_is_explained_at_length() -> None:
    made = write_recipe(sewing_order(slim_compass()), name="compass", style=Style())
    told = [[words.text for words in step.words] for step in made.steps]
    assert sum(HOW.text in texts for texts in told) == 1
    assert sum(AS_BEFORE in texts for texts in told) == 1


def test_blunt_shapes_are_cut_with_templates_instead() -> None:
    halves = (patch("A", (0, 0), (6, 0), (4, 4), (0, 5)), patch("B", (6, 0), (6, 6), (0, 6), (0, 5), (4, 4)))
    blunt = Block(name="Blunt", width=Fraction(6), height=Fraction(6), patches=halves)
    assert sewing_order(blunt).order is not Order.FOUNDATION
