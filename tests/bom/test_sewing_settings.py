"""How a program is sewn: every setting reaches the recipes, the chart, the hash and the program file."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.changes import change
from bom.domain.chart import chart_data
from bom.domain.program_files import export_program, import_program, with_first_day
from bom.domain.sewing_settings import SEAMS, added, least_added, sewing_words
from bom.models import Program
from patterns.engine.measure import CENTIMETRE, inches
from patterns.engine.units.base import Unnested
from tests.bom.web.designers import NOW
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

EIGHTH = Fraction(1, 8)


def sizes(program: Program) -> set[Fraction]:
    return {piece.width for made in work_of(program).installment(1).pieces.values() for piece in made}


def ohio_halves(**fields: Any) -> Fraction:
    """Give the largest square of the Ohio Star at 6 in: quarter-squares, finished 2 in."""
    return max(sizes(make_program(**fields)))


def test_the_usual_amounts_are_those_of_the_trade() -> None:
    """Finished + 1 and + 1 1/2 in, exact + 7/8 and + 1 1/4 in (common practice)."""
    program = make_program()
    assert [added(program, name) for name in SEAMS] == [1, Fraction(3, 2)]
    assert [least_added(name, seam=Fraction(1, 4), step=EIGHTH) for name in SEAMS] == [
        Fraction(7, 8),
        Fraction(5, 4),
    ]


def test_more_room_cuts_larger_squares() -> None:
    assert ohio_halves() == inches("3 1/2")


def test_room_for_quarter_squares_is_the_programs() -> None:
    assert ohio_halves(quarter_square_over="1/2") == inches("3 3/4")


def test_without_room_oversized_is_exact() -> None:
    assert ohio_halves(half_square_over="0", quarter_square_over="0") == inches("3 1/4")


def test_open_seams_reach_the_engine_and_the_hash() -> None:
    program = make_program()
    before = work_of(program)
    Program.objects.update(unnested="open")
    after = work_of(program)
    assert (before.style.unnested, after.style.unnested) == (Unnested.CLASSES, Unnested.OPEN)
    assert before.content_hash != after.content_hash


def test_the_chart_follows() -> None:
    program = make_program()
    before = chart_data(program)
    program.half_square_over = Fraction(1, 4)
    assert chart_data(program)["tables"] != before["tables"]


def test_a_change_says_how_it_is_sewn_and_what_follows() -> None:
    program = make_program(designer=dora())
    values = {
        "seam": "1/4",
        "cutting_step": "1/8",
        "house_style": "exact",
        "half_square_over": "1/8",
        "quarter_square_over": "1/4",
        "unnested": "open",
    }
    done = change(program, "sewing", values, by=dora(), now=NOW)
    assert done.before["house_style"] == "oversized"
    assert "Units are cut exact." in done.followed
    assert "Installments 1, 2 have another cut list." in done.followed
    program.refresh_from_db()
    assert (program.house_style, program.unnested) == ("exact", "open")
    assert sewing_words(program)[-1] == (
        "Where seams cannot nest: press open what else would go toward the light."
    )


def test_a_metric_program_says_it_in_centimetres() -> None:
    """0.75 cm: the seams take 2.56 cm, up to 2.75; with 1/8 in of room 3 cm."""
    program = make_program(centimetres=True, seam=CENTIMETRE * 3 / 4, cutting_step=CENTIMETRE / 4)
    assert added(program, "half_square_over") == 3 * CENTIMETRE
    assert "half-square triangles finished + 3 cm" in sewing_words(program)[1]


def test_a_program_file_holds_them() -> None:
    program = make_program(designer=dora(), half_square_over="3/8", unnested="open")
    data = export_program(program)
    assert data["settings"]["half_square_over"] == "3/8"
    assert data["settings"]["unnested"] == "open"
    Program.objects.update(slug="first")
    again = import_program(with_first_day(data, date(2027, 1, 1)), designer=olga(), now=NOW)
    again.refresh_from_db()
    assert (again.half_square_over, again.unnested) == (Fraction(3, 8), "open")
