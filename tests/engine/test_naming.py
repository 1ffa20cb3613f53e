"""Merging and naming pieces."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.naming import Cut, name_pieces, renamed, renamed_words
from patterns.engine.steps import Phrase
from patterns.engine.units.base import Need


def cut(ref: str, fabric: str, width: int, *, length: int, then: str = "") -> Cut:
    size = {"width": Fraction(width), "length": Fraction(length)}
    return Cut(need=Need(ref=ref, fabric=fabric, count=1, then=then, **size))


def test_pieces_are_numbered_from_the_largest_down_in_each_fabric() -> None:
    pieces, names, turned = name_pieces(
        [
            cut("a", "B", 2, length=2),
            cut("b", "A", 2, length=2),
            cut("c", "A", 3, length=5),
            cut("d", "A", 5, length=3),
            cut("e", "AA", 1, length=1),
        ]
    )
    assert [(p.id, p.count) for p in pieces] == [("A1", 2), ("A2", 1), ("B1", 1), ("AA1", 1)]
    assert names == {"a": "B1", "b": "A2", "c": "A1", "d": "A1", "e": "AA1"}
    assert turned == {"d"}


def test_further_cuts_are_kept_apart() -> None:
    pieces, _, _ = name_pieces(
        [cut("a", "A", 4, length=4), cut("b", "A", 4, length=4, then="cut once diagonally")]
    )
    assert [p.then for p in pieces] == ["", "cut once diagonally"]


def test_turned_piece_gets_a_quarter_turn_where_it_is_laid() -> None:
    operation = {"op": "rows", "rows": [[["d", 0], ["x", 3]]], "gives": "r"}
    found = renamed(operation, lambda ref: "A1" if ref == "d" else ref, turned=frozenset({"d"}))
    assert found["rows"] == [[["A1", 1], ["x", 3]]]


def test_sentences_get_the_names_and_keep_numbers() -> None:
    words = renamed_words(Phrase("Cut {piece} {count} times.", {"piece": "p1", "count": 2}), {"p1": "A1"})
    assert words.facts == {"piece": "A1", "count": 2}
