"""The allowances of a program: each changes the numbers it says it changes, and is named."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from django.db import IntegrityError

from bom.domain.allowance_words import allowance_words, shop_words, sold_by_text
from bom.domain.chain import work_of
from bom.domain.frozen_state import present_hash
from bom.domain.packets import allowances_of, packets, year
from bom.domain.program_file_import import import_program
from bom.domain.program_files import export_program
from bom.domain.proofs import prove_program
from bom.domain.records import read_colorways
from bom.errors import BadProgramFile
from bom.models import Program
from patterns.engine.measure import CENTIMETRE, Units
from patterns.engine.yardage import Allowances
from tests.bom.web.designers import NOW
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

Q = Fraction


def lines(program: Program) -> list[tuple[Fraction, Fraction, Fraction]]:
    """Give usable width, minimum and suggested of every line of the year."""
    work = work_of(program)
    found = [packet for each in read_colorways(program) for packet in packets(program, work, each)]
    return [
        (line.usable_width, line.line.minimum, line.line.suggested)
        for packet in found
        for line in packet.lines
    ]


def test_washing_divides_lengths_and_narrows_widths() -> None:
    """SHR-02 to SHR-07: final / (1 - shrinkage), by the same function that the check values read."""
    program = make_program()
    before = lines(program)
    program.prewash, program.shrinkage_percent = True, Decimal("5.0")
    program.save()
    after = lines(program)
    allowances = allowances_of(program)
    assert allowances.shrinkage == Q(1, 20)
    for (width, _minimum, dry), (washed, minimum, suggested) in zip(before, after, strict=True):
        assert washed in {width, Q(38)}  # 40 in less 5 %; backing is not cut into strips
        assert suggested == allowances.suggested(minimum) >= dry
        assert suggested * Q(19, 20) >= minimum + program.squaring_up


def test_washed_widths_are_rounded_down() -> None:
    assert Allowances(shrinkage=Q(3, 100)).washed(Q(42)) == Q(325, 8)  # 40.74 in
    assert Allowances().washed(Q(85, 2)) == Q(85, 2)


def test_a_washed_year_still_proves_and_joins_enough_strips() -> None:
    program = make_program()
    Program.objects.filter(pk=program.pk).update(prewash=True)
    program.refresh_from_db()
    proof = prove_program(program)
    assert [each.number for each in proof.installments if each.stops] == []
    (binding,) = (
        each for month in work_of(program).installments for each in month.strips if each.fabric == "E"
    )
    assert binding.across == 38


def test_dry_programs_keep_the_hash_they_were_frozen_with() -> None:
    program = make_program()
    dry = present_hash(program)
    program.shrinkage_percent = Decimal(3)
    program.save()
    assert present_hash(program) == dry
    program.prewash = True
    program.save()
    assert present_hash(program) != dry


@pytest.mark.parametrize(
    ("step", "words"),
    [(Q(9, 2), "1/8 yd"), (Q(9), "1/4 yd"), (5 * CENTIMETRE, "5 cm"), (10 * CENTIMETRE, "10 cm")],
)
def test_what_is_sold_rounds_and_is_said(step: Fraction, words: str) -> None:
    program = make_program(sold_by=step)
    assert all(suggested % step == 0 for _width, _minimum, suggested in lines(program))
    assert sold_by_text(step) == words


def test_every_allowance_is_named() -> None:
    program = make_program(spare_strip=True, prewash=True, shrinkage_percent=Decimal("4.5"))
    assert allowance_words(program, Units.INCHES) == [
        "one spare strip of the widest kind for each fabric",
        "1 in to square up each cut",
        "4.5 % that washing takes of length and width: wash before you cut",
        "then rounded up to 1/8 yd, with at least 1/2 in to spare",
    ]
    assert shop_words(program, Units.INCHES) == "The shop cuts 1/2 in more for each half yard."
    assert allowance_words(make_program(slug="dry"), Units.INCHES)[1].startswith("nothing for washing")


def test_finishing_is_its_own_part_of_the_year() -> None:
    program = make_program()
    work, harbour = work_of(program), read_colorways(program)[0]
    finishing = {number for number in (1, 2, 3, 4, 5) if work.installment(number).is_finishing}
    assert finishing == {4, 5}
    for line in year(program, work, harbour):
        held = [
            each.line.suggested
            for packet in packets(program, work, harbour)
            if packet.number in finishing
            for each in packet.lines
            if each.fabric == line.fabric
        ]
        assert line.finishing == sum(held)


def test_a_program_file_carries_them() -> None:
    program = make_program(prewash=True, shrinkage_percent=Decimal("4.5"), designer=dora())
    data = export_program(program)
    assert (data["settings"]["prewash"], data["settings"]["shrinkage_percent"]) == (True, "4.5")
    again = import_program({**data, "slug": "again"}, designer=dora(), now=NOW)
    assert (again.prewash, again.shrinkage_percent) == (True, Decimal("4.5"))
    data["settings"]["shrinkage_percent"] = "50"
    with pytest.raises(BadProgramFile, match="below 50"):
        import_program({**data, "slug": "third"}, designer=dora(), now=NOW)


def test_nothing_is_left_of_a_fabric_that_washing_halves() -> None:
    program = make_program()
    with pytest.raises(IntegrityError):
        Program.objects.filter(pk=program.pk).update(shrinkage_percent=Decimal(50))
