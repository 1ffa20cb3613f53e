"""The drawings that come with the program."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from patterns.domain.traditional import keep_traditional
from patterns.engine.errors import PatternError
from patterns.models import Block
from tests.factories import nine_patch, ohio_star

BLOCKS = Path(__file__).parents[2] / "fixtures" / "blocks"
pytestmark = pytest.mark.django_db


def drawings() -> dict[str, dict[str, Any]]:
    return {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in BLOCKS.glob("*.json")}


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
