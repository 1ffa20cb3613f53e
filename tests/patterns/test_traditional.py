"""The drawings that come with the program."""

from __future__ import annotations

from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from patterns.domain.traditional import drawings_in, families, keep_traditional
from patterns.engine.errors import PatternError
from patterns.models import Block
from tests.cast import dora
from tests.factories import nine_patch, ohio_star

BLOCKS = Path(__file__).parents[2] / "fixtures" / "blocks"
pytestmark = pytest.mark.django_db


def drawings() -> dict[str, dict[str, Any]]:
    return drawings_in(BLOCKS)


def test_all_that_come_with_the_program_are_kept_once() -> None:
    count = keep_traditional(drawings())
    assert count == len(drawings()) > 12
    assert keep_traditional(drawings()) == 0
    assert Block.objects.filter(owner=None).count() == count


def test_one_that_is_there_stays_as_it_is() -> None:
    Block.objects.create(slug="ohio-star", name="Ohio Star", drawing=ohio_star())
    assert keep_traditional({"ohio-star": nine_patch(), "nine-patch": nine_patch()}) == 1
    assert Block.objects.get(slug="ohio-star").drawing == ohio_star()


def test_a_bad_drawing_keeps_none_of_them() -> None:
    bad = {**nine_patch(), "patches": nine_patch()["patches"][1:]}
    with pytest.raises(PatternError):
        keep_traditional({"ohio-star": ohio_star(), "bad": bad})
    assert Block.objects.count() == 0


def kept_under(family: str, search: str = "") -> list[str]:
    return [plate.name for each in families(search) if each.value == family for plate in each.plates]


def test_the_command_keeps_them_and_says_how_many_are_new() -> None:
    for words in (f"{len(drawings())} traditional blocks are new.\n", "0 traditional blocks are new.\n"):
        out = StringIO()
        call_command("keep_blocks", stdout=out)
        assert out.getvalue() == words
    call_command("keep_blocks", stdout=out, verbosity=0)
    assert out.getvalue() == words


def test_they_are_given_by_family_and_name_with_their_pictures() -> None:
    keep_traditional({"ohio-star": drawings()["ohio-star"], "nine-patch": drawings()["nine-patch"]})
    stars = next(each for each in families() if each.value == "stars")
    assert [each.value for each in families()] == ["nine-patch", "stars"]
    assert (str(stars.label), stars.plates[0].name, stars.plates[0].names) == (
        "stars",
        "Ohio Star",
        ("Variable Star",),
    )
    assert stars.plates[0].picture.count("<path") == 3  # one shape for each letter
    assert families()[1].plates == stars.plates


def test_all_words_of_a_search_are_in_one_of_the_names() -> None:
    keep_traditional(drawings())
    assert kept_under("stars", "VARIABLE star") == ["Ohio Star"]
    assert kept_under("stars", "ohio variable") == []
    assert families("no such block") == ()


def test_a_block_of_no_family_comes_last_and_one_of_a_designer_is_not_there() -> None:
    Block.objects.create(slug="own", name="Own", drawing=nine_patch(), category="", owner=dora())
    Block.objects.create(slug="lone", name="Lone", drawing=nine_patch(), category="elsewhere")
    assert [(each.value, [plate.name for plate in each.plates]) for each in families()] == [("", ["Lone"])]
