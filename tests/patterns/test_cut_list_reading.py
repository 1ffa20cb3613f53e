"""Cut lists as people write them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.domain.cut_list_reading import CutListError, read_lines, read_pasted, write_lines
from patterns.engine.measure import centimetres
from patterns.engine.strips import Demand

Q = Fraction


@pytest.mark.parametrize(
    ("line", "count", "width", "length", "label"),
    [
        ("48 2 1/2 x 4 1/2 A1", 48, Q(5, 2), Q(9, 2), "A1"),
        ("48 x 2 1/2 x 4 1/2 A1", 48, Q(5, 2), Q(9, 2), "A1"),
        ("48x2½x4½", 48, Q(5, 2), Q(9, 2), "1"),
        ("12 of 1/2 in x 4 in", 12, Q(1, 2), 4, "1"),
        ('6 pieces 2.5" × 2,5" corner of the star', 6, Q(5, 2), Q(5, 2), "corner of the star"),
        ("1  3 by 40: binding", 1, 3, 40, "binding"),
    ],
)
def test_a_line_as_a_quilter_writes_it(
    *, line: str, count: int, width: Fraction, length: Fraction, label: str
) -> None:
    assert read_lines(line) == (Demand(label=label, width=Q(width), length=Q(length), count=count),)


@pytest.mark.parametrize(
    ("text", "where", "remedy"),
    [
        ("2 1/2 x 4 1/2", "line 1, “2 1/2 x 4 1/2”", "is the count missing?"),
        ("4 2 x 3\n\nforty 2 x 3", "line 3, “forty 2 x 3”", "write count, width x length, label"),
        ("4 2 x 3 x 5", "line 1, “4 2 x 3 x 5”", "write count, width x length, label"),
        ("0 2 x 3", "line 1, “0 2 x 3”", "whole number from 1"),
        ("4 0 x 3", "line 1, “4 0 x 3”", "length above zero"),
        ("4 2 1/0 x 3", "line 1, “4 2 1/0 x 3”", "is no length"),
        ("4 5 cm x 3", "line 1, “4 5 cm x 3”", "is no length"),
        (" \n", "cut list", "write one line for each size"),
        ('{"pieces": [', "cut list", "write the cut list as JSON"),
        ('{"pieces": [{"count": 1, "width": "x", "length": "2"}]}', "pieces[0].width", "give a length"),
    ],
)
def test_what_cannot_be_read_names_its_line_and_the_remedy(text: str, where: str, remedy: str) -> None:
    with pytest.raises(CutListError) as error:
        read_pasted(text)
    assert error.value.where == where
    assert remedy in error.value.remedy


def test_labels_are_numbered_where_they_are_missing_or_shared() -> None:
    found = read_lines("4 2 x 3 A\n4 3 x 3 A\n4 4 x 4")
    assert [each.label for each in found] == ["A-1", "A-2", "1"]


def test_a_file_brings_its_width_and_directions() -> None:
    text = '{"usable_width": "42", "pieces": [{"width": 2.1, "length": "3", "count": 2, "one_way": true}]}'
    demands, width = read_pasted(text)
    assert demands == (Demand(label="1", width=Q(21, 10), length=Q(3), count=2, may_turn=False),)
    assert width == 42
    assert read_pasted('{"pieces": [{"width": 2, "length": "3", "count": 2}]}')[1] is None


def test_centimetres_are_read_where_the_program_is_made_in_them() -> None:
    found = read_lines("4 6.5 x 10 A1", read=centimetres)
    assert found[0].width == Q(65, 10) * Q(50, 127)


SIDES = st.fractions(min_value=Q(1, 8), max_value=60, max_denominator=16)
DEMANDS = st.builds(
    Demand, label=st.just("A1"), width=SIDES, length=SIDES, count=st.integers(1, 500), may_turn=st.booleans()
)


@given(DEMANDS)
def test_what_is_written_is_read_back(demand: Demand) -> None:
    assert read_lines(write_lines([demand])) == (demand,)
