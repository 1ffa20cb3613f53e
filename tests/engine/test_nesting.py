"""Seams nest wherever they meet: copies alike where that goes, else in two classes, else open."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.nesting import Nesting, nest
from patterns.engine.nesting_parity import Parity
from patterns.engine.parts import Assembly, Point
from patterns.engine.steps import Step
from patterns.engine.surds import sign
from patterns.engine.units.base import Style, Unnested
from tests.engine.drawings import TRADITIONAL as SLUGS
from tests.engine.drawn import drawing, recipe
from tests.engine.test_row_words import words

pytestmark = pytest.mark.slow  # every traditional block


@dataclass(frozen=True, slots=True, kw_only=True)
class Sewn:
    """A seam of the whole block: in the order of sewing, where it lies, and the side it is pressed to."""

    when: int
    ends: tuple[Point, Point]
    toward: Point  # nothing where it is open


def block(slug: str) -> Block:
    found = block_from_data(drawing(slug))
    return found.at_size(Fraction(12), 12 * found.height / found.width)


@cache
def order(slug: str) -> Assembly:
    return sewing_order(block(slug))


@cache
def pressed(slug: str) -> Nesting:
    return nest(order(slug), Style())


def step(slug: str, start: str) -> Step:
    return next(step for step in recipe(slug).steps if step.title.text.startswith(start))


def test_every_joint_of_every_block_is_settled() -> None:
    total: Counter[str] = Counter()
    for slug in SLUGS:
        found = pressed(slug)
        assert found.joints["unsettled"] == 0, slug
        total.update(found.joints)
    assert total["nested"] + total["swirled"] > 20 * total["open"]


def test_the_copies_of_both_classes_add_up() -> None:
    for slug in SLUGS:
        for part, classes in pressed(slug).classes.items():
            assert sum(each.count for each in classes) == order(slug).make[part]
            assert 1 <= len(classes) <= 2


def test_pressing_again_gives_the_same() -> None:
    for slug in ("bears-paw", "sailboat"):
        assert nest(order(slug), Style()) == pressed(slug)


def turned(point: Point, quarters: int) -> Point:
    for _ in range(quarters):
        point = (-point[1], point[0])
    return point


def sewn(
    nesting: Nesting, part: str, *, quarters: int = 0, at: Point = (Fraction(0), Fraction(0))
) -> Iterator[Sewn]:
    """Lay the seams of a part and of all it holds where they lie, by whole turns about its corner."""
    form, ways = nesting.forms[part], nesting.classes[part][0].ways
    depth = 0
    for cell in form.children:
        child = nesting.forms[cell.part].part
        far = turned((child.width, child.height), cell.turn)
        corner = (cell.at[0] - min(far[0], Fraction(0)), cell.at[1] - min(far[1], Fraction(0)))
        spot = plus(turned(corner, quarters), at)
        for inner in sewn(nesting, cell.part, quarters=cell.turn + quarters, at=spot):
            depth = max(depth, inner.when)
            yield inner
    for seam in form.seams:
        ends = (plus(turned(seam.start, quarters), at), plus(turned(seam.end, quarters), at))
        way = ways[seam.number] * seam.sign
        toward = turned((seam.toward[0] * way, seam.toward[1] * way), quarters)
        yield Sewn(when=depth + 1 + seam.order, ends=ends, toward=toward)


def plus(one: Point, other: Point) -> Point:
    return (one[0] + other[0], one[1] + other[1])


def from_to(start: Point, end: Point) -> Point:
    return (end[0] - start[0], end[1] - start[1])


def dot(one: Point, other: Point) -> int:
    return sign(one[0] * other[0] + one[1] * other[1])


def cross(one: Point, other: Point) -> int:
    return sign(one[0] * other[1] - one[1] * other[0])


@pytest.mark.parametrize("slug", SLUGS)
def test_seams_in_one_line_lie_opposite_ways_where_a_later_one_crosses(slug: str) -> None:
    """Look at the whole block, seam by seam, with nothing of how the answer was found."""
    nesting = pressed(slug)
    if any(len(classes) > 1 for classes in nesting.classes.values()):
        return
    seams = list(sewn(nesting, order(slug).whole.part))
    for one, other in itertools.combinations(seams, 2):
        for spot in {*one.ends} & {*other.ends}:
            for later in seams:
                if later.when > max(one.when, other.when) and crosses(later, one, other, spot=spot):
                    flat = not all(dot(each.toward, each.toward) for each in (one, other, later))
                    along = from_to(*later.ends)
                    assert flat or dot(along, one.toward) == -dot(along, other.toward)


def crosses(later: Sewn, one: Sewn, other: Sewn, *, spot: Point) -> bool:
    """Whether two seams that end at a spot are in one line, on the two sides of a later seam."""
    rays = [from_to(spot, each.ends[each.ends[0] == spot]) for each in (one, other)]
    start, end = later.ends
    along = from_to(start, end)
    on_line = cross(along, from_to(start, spot)) == 0
    between = dot(from_to(start, spot), from_to(end, spot)) <= 0
    return on_line and between and cross(*rays) == 0 and cross(along, rays[0]) * cross(along, rays[1]) < 0


def test_a_pinwheel_goes_to_the_dark_and_swirls() -> None:
    found = pressed("pinwheel")
    assert [(each.count, each.ways) for each in found.classes["half-square-1"]] == [(4, (1,))]
    assert (found.joints["swirled"], found.swirled) == (1, frozenset({"block"}))
    assert "the seams go round it and lie flat." in words(recipe("pinwheel").steps[-1])


def test_copies_that_do_not_nest_alike_are_pressed_in_two_ways() -> None:
    made = step("yankee-puzzle", "Half-square")
    assert "Press 8 with the seam toward fabric B, and 8 the other way, toward A." in words(made)
    assert made.operations[-1]["press_other"]["count"] == 8
    assert [picture.caption.text for picture in made.pictures[-2:] if picture.caption] == [
        "Ready: measure it.",
        "{count} of them are pressed this way.",
    ]
    assert "those pressed the second way lie at" in words(recipe("yankee-puzzle").steps[1])


def test_a_program_may_rather_press_open_than_away_from_the_dark() -> None:
    found = nest(order("yankee-puzzle"), Style(unnested=Unnested.OPEN))
    assert found.joints["open"] > 0 == found.joints["unsettled"]
    assert all(len(classes) == 1 for classes in found.classes.values())


def test_all_seams_of_a_recipe_say_where_they_go() -> None:
    for slug in SLUGS:
        for operation in (o for made in recipe(slug).steps for o in made.operations if o["op"] == "rows"):
            rows = [len(row) - 1 for row in operation["rows"]]
            assert [len(row) for row in operation["press"]] == rows
            assert len(operation["press_long"]) == len(rows) - 1


def test_what_is_tied_together_is_one_choice() -> None:
    parity: Parity[str] = Parity()
    assert parity.tie("a", "b", -1)
    assert parity.tie("b", "c", -1)
    assert not parity.tie("a", "c", -1)
    wishes = {"a": (1, 1), "b": (3, 1), "c": (1, 1), "d": (0, -1)}
    assert parity.settled(wishes, fixed=["d"]) == {"a": -1, "b": 1, "c": -1, "d": 1}
    assert parity.settled({"d": (0, -1)}, fixed=[]) == {"d": -1}
