"""The page where a cut list is pasted or taken from the program, and its strip plan is shown."""

from __future__ import annotations

from fractions import Fraction

import pytest
from django.test import Client

from bom.domain.chain import work_of
from bom.domain.cut_sources import block_keys, fabric_key
from bom.domain.packets import packets
from bom.domain.plan_checks import layout_faults
from bom.domain.records import read_colorways
from bom.models import Program
from patterns.domain.cut_list_reading import read_lines
from tests.bom.web.designers import YEAR, as_, editor_of, placed
from tests.cast import dora, olga
from tests.engine.strip_checker import check_plan
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAGE = f"{YEAR}strips/"
TWO_SIZES = "12 8 1/2 x 8 1/2 A1\n24 2 1/2 x 2 1/2 A2"  # 30 1/2 in trimmed, 28 in from left-overs too
LIST = "48 2 1/2 x 4 1/2 A1\n144 2 1/2 x 2 1/2 A2"


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def pasted(client: Client, text: str, **fields: str) -> object:
    return client.post(PAGE, {"pieces": text, "width": "40", "mode": "trim", **fields})


def test_a_pasted_list_is_planned_drawn_and_ordered(program: Program) -> None:
    page = pasted(as_(dora()), LIST)
    plan = page.context["plan"]  # type: ignore[attr-defined]  # a test answer has it
    assert (plan.total_length, plan.proven) == (36, True)
    text = page.content.decode()  # type: ignore[attr-defined]  # as above
    assert "proven: no layout in strips takes less." in text
    assert "Strip plan for" in text  # the picture's own words
    rows = page.context["narrower"]  # type: ignore[attr-defined]  # as above
    assert [(row["length"], row["more"]) for row in rows] == [
        ("36 in", False),
        (rows[1]["length"], True),
        (rows[2]["length"], True),
    ]


def test_an_error_names_the_line_and_what_was_typed_stays(program: Program) -> None:
    text = pasted(as_(dora()), "48 2 1/2 x 4 1/2 A1\n2 1/2 x 4").content.decode()  # type: ignore[attr-defined]  # as above
    assert "line 2, “2 1/2 x 4”: is the count missing?" in text
    assert 'aria-invalid="true"' in text
    assert "48 2 1/2 x 4 1/2 A1" in text


def test_a_long_list_is_refused_with_what_to_do(program: Program) -> None:
    long = "\n".join(f"3 {side} x {side}" for side in range(2, 19))
    text = pasted(as_(dora()), long).content.decode()  # type: ignore[attr-defined]  # as above
    assert "17 different sizes take too long for a page" in text
    many = pasted(as_(dora()), "5001 2 x 2").content.decode()  # type: ignore[attr-defined]  # as above
    assert "5001 pieces are too many for a page" in many


def test_a_piece_wider_than_the_fabric_is_named(program: Program) -> None:
    text = pasted(as_(dora()), "1 41 x 42 Z9").content.decode()  # type: ignore[attr-defined]  # as above
    assert "Piece Z9 is 41 in across and 40 in is usable" in text


def test_every_fabric_of_every_packet_is_planned_as_it_is_packed(program: Program) -> None:
    client = as_(dora())
    for colorway in read_colorways(program):
        for packet in packets(program, work_of(program), colorway):
            for line in (each for each in packet.lines if each.line.plan):
                key = fabric_key(packet.number, colorway, line)
                page = client.get(PAGE, {"from": key})
                assert page.context["plan"] == line.line.plan
                typed = page.context["form"]["pieces"].value()
                sent = {"pieces": typed, "width": page.context["form"]["width"].value(), "mode": "trim"}
                again = client.post(f"{PAGE}?from={key}", sent)
                assert again.context["plan"] == line.line.plan


def test_the_installment_and_the_block_lead_to_it(program: Program) -> None:
    client = as_(dora())
    assert f'href="{PAGE}?from=2.harbour.' in client.get(f"{YEAR}2/").content.decode()
    assert f'href="{PAGE}"' in client.get(f"{YEAR}fabrics/").content.decode()
    block = placed(program, "Ohio Star")
    keys = block_keys(work_of(program), block.pk)
    assert [letter for letter, _key in keys] == ["A", "B", "C"]
    page = client.get(f"{YEAR}blocks/{block.pk}/").content.decode()
    for letter, key in keys:
        assert f'href="{PAGE}?from={key}"' in page
        assert client.get(PAGE, {"from": key}).context["source"].title == f"Ohio Star: letter {letter}"


@pytest.mark.parametrize("key", ["9.harbour.1", "2.nowhere.1", "2.harbour.0", "block.0.A", "x", "1.2.3.4"])
def test_a_list_that_is_not_there_is_unknown(program: Program, key: str) -> None:
    assert as_(dora()).get(PAGE, {"from": key}).status_code == 404


def test_who_may_look(program: Program) -> None:
    assert as_(editor_of(program)).get(PAGE).status_code == 200
    assert as_(olga()).get(PAGE).status_code == 404
    assert Client().get(PAGE)["Location"].startswith("/sign-in/")


def test_where_left_overs_save_a_step_of_purchase_that_plan_is_offered_and_can_be_cut(
    program: Program,
) -> None:
    client = as_(dora())
    page = pasted(client, TWO_SIZES)
    deeper = page.context["deeper"]  # type: ignore[attr-defined]  # a test answer has it
    assert (deeper["buy"], deeper["now"]) == (Fraction(63, 2), 36)
    text = page.content.decode()  # type: ignore[attr-defined]  # as above
    assert "Cut smaller pieces also from what is left over" in text
    shown = client.post(PAGE, deeper["again"])
    plan = shown.context["plan"]
    assert (plan.total_length, plan.proven) == (28, True)
    demands = read_lines(deeper["again"]["pieces"])
    check_plan(plan.as_data(), demands, usable_width=Fraction(40))
    assert list(layout_faults(plan, demands, width=Fraction(40))) == []
    assert "deeper" not in shown.context


def test_where_left_overs_save_nothing_nothing_is_offered(program: Program) -> None:
    assert "deeper" not in pasted(as_(dora()), LIST).context  # type: ignore[attr-defined]  # as above


def test_a_pasted_list_is_said_in_the_precuts_that_may_be_used(program: Program) -> None:
    client = as_(dora())
    assert "The program allows none." in pasted(client, LIST).content.decode()  # type: ignore[attr-defined]  # as above
    Program.objects.filter(pk=program.pk).update(precuts=["fat quarter 18 x 22", "5 in square"])
    (first, second) = pasted(client, "56 2 1/2 x 2 1/2 A1").context["precuts"]  # type: ignore[attr-defined]  # as above
    assert "14 squares, 5 in" in first[0]
    assert "1 fat quarter, 18 x 22 in" in second[0]
    text = pasted(client, "2 30 x 30 A1").content.decode()  # type: ignore[attr-defined]  # as above
    assert "A piece fits none of the precuts that may be used." in text
