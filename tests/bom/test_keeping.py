"""Results kept by content: made once, bounded, and an error is never kept."""

from __future__ import annotations

from fractions import Fraction
from threading import Event, Thread

import pytest

from bom.domain.keeping import Kept, hash_of


def test_made_once_per_key() -> None:
    kept: Kept[list[int]] = Kept(most=2)
    first = kept.get("a", lambda: [1])
    assert kept.get("a", lambda: [2]) is first


def test_the_oldest_is_dropped() -> None:
    kept: Kept[int] = Kept(most=2)
    for number, key in enumerate("abac"):
        kept.get(key, lambda number=number: number)  # type: ignore[misc]  # the value of this round
    assert kept.get("a", lambda: 9) == 0
    assert kept.get("b", lambda: 9) == 9


def test_an_error_is_raised_and_tried_again() -> None:
    kept: Kept[int] = Kept(most=2)

    def fail() -> int:
        raise ValueError("not today")

    with pytest.raises(ValueError, match="not today"):
        kept.get("a", fail)
    assert kept.get("a", lambda: 1) == 1


def test_two_threads_make_one_thing_once() -> None:
    kept: Kept[int] = Kept(most=2)
    begun, may_end, made = Event(), Event(), []

    def slow() -> int:
        begun.set()
        may_end.wait(5)
        made.append(1)
        return 7

    found: list[int] = []
    first = Thread(target=lambda: found.append(kept.get("a", slow)))
    second = Thread(target=lambda: found.append(kept.get("a", slow)))
    first.start()
    assert begun.wait(5)
    second.start()
    may_end.set()
    first.join(5)
    second.join(5)
    assert (found, made) == ([7, 7], [1])


def test_hash_looks_at_values_not_at_order() -> None:
    assert hash_of({"a": Fraction(1, 2), "b": [1]}) == hash_of({"b": [1], "a": Fraction(1, 2)})
    assert hash_of({"a": 1}) != hash_of({"a": 2})
