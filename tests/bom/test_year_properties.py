"""What holds for every way of spreading a quilt over its year: the packets sum to the quilt."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as some

from bom.domain.carrying import carry
from bom.domain.chain import work_of
from bom.domain.packets import packets, year_of
from bom.domain.work import InstallmentWork
from bom.domain.yardage_report import yardage_of
from bom.models import InstallmentPart
from patterns.engine.steps import Piece
from tests.factories import make_program

pytestmark = pytest.mark.slow

LETTERS = "ABC"
months = some.lists(
    some.dictionaries(some.sampled_from(LETTERS), some.lists(some.integers(1, 9), min_size=1, max_size=3)),
    min_size=1,
    max_size=5,
)


def month_of(number: int, counts: dict[str, list[int]]) -> InstallmentWork:
    """Make an installment that cuts so many squares of each letter, in one or more sizes."""
    pieces = {
        letter: tuple(
            Piece(id=f"{letter}{n}", fabric=letter, width=Fraction(n), length=Fraction(n), count=count)
            for n, count in enumerate(sizes, 1)
        )
        for letter, sizes in counts.items()
    }
    return InstallmentWork(number=number, title="", parts=(), pieces=pieces)


def sewn(year: tuple[InstallmentWork, ...]) -> Counter[tuple[str, Fraction]]:
    found: Counter[tuple[str, Fraction]] = Counter()
    for month in year:
        for piece in (piece for pieces in month.pieces.values() for piece in pieces):
            found[piece.fabric, piece.width] += piece.count
    return found


def packed(year: tuple[InstallmentWork, ...]) -> Counter[tuple[str, Fraction]]:
    found: Counter[tuple[str, Fraction]] = Counter()
    for month in year:
        for piece in (piece for pieces in month.packed.values() for piece in pieces):
            found[piece.fabric, piece.width] += piece.count
    return found


@given(counts=months, data=some.data())
def test_whatever_is_carried_each_piece_lies_in_one_packet(
    counts: list[dict[str, list[int]]], data: some.DataObject
) -> None:
    plain = tuple(month_of(number, each) for number, each in enumerate(counts, 1))
    carried = {
        number: data.draw(some.dictionaries(some.sampled_from(LETTERS), some.integers(1, number - 1)))
        for number in range(2, len(plain) + 1)
    }
    year = carry(plain, carried)
    assert packed(year) == sewn(year) == sewn(plain)
    for month in year:
        names = [piece.id for pieces in month.packed.values() for piece in pieces]
        assert len(names) == len(set(names))
        assert all(number < month.number for number in month.carried.values())


@pytest.mark.django_db
@pytest.mark.parametrize("seed", range(4))
def test_packets_sum_to_the_quilt_however_its_parts_are_spread_and_carried(seed: int) -> None:
    chance, program = Random(seed), make_program()
    before = yardage_of(program)
    months = list(program.installments.order_by("number"))
    for part in InstallmentPart.objects.filter(installment__program=program):
        part.installment = chance.choice(months)
        part.save()
    for month in months[1:]:
        month.carried = {
            letter: chance.randrange(1, month.number)
            for letter in chance.sample("ABCDE", chance.randrange(4))
        }
        month.save()
    after = yardage_of(program)
    assert before.reconciles
    assert after.reconciles
    for one, other in zip(before.colorways, after.colorways, strict=True):
        assert {line.fabric: line.pieces for line in one.year} == {
            line.fabric: line.pieces for line in other.year
        }
        assert other.year == year_of(packets(program, work_of(program), other.colorway))
