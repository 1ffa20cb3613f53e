"""The calendar, the five states, the words and the freeze, as a designer meets them."""

from __future__ import annotations

import csv
import io
import json
from datetime import UTC, date, datetime, timedelta

import pytest
import time_machine
from django.test import Client

from bom.domain.planning import approve, mark_edited, schedule_installment
from bom.domain.program_files import export_program
from bom.enums import GateName, InstallmentState
from bom.models import Installment, Problem, Program
from tests.bom.web.designers import NOW, YEAR, as_, editor_of, small_program
from tests.cast import dora, paula

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture(autouse=True)
def _today() -> object:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def client(program: Program) -> Client:
    return as_(dora())


def mine(program: Program, number: int = 1) -> Installment:
    return program.installments.get(number=number)


def step(client: Client, name: str, number: int = 1, **more: str) -> str:
    return client.post(f"{YEAR}{number}/state/", {"step": name, **more}, follow=True).content.decode()


def calendar(**changed: str) -> dict[str, str]:
    usual = {
        "choice": "FREQ=MONTHLY;BYMONTHDAY=-1",
        "rule": "",
        "first_day": "2027-01-01",
        "release_time": "09:30",
    }
    return {**usual, **changed}


def test_the_year_is_given_the_last_day_of_each_month(client: Client, program: Program) -> None:
    page = client.post(f"{YEAR}days/", calendar(), follow=True).content.decode()
    days = list(program.installments.values_list("wall_day", flat=True))
    assert days == [
        date(2027, 1, 31),
        date(2027, 2, 28),
        date(2027, 3, 31),
        date(2027, 4, 30),
        date(2027, 5, 31),
    ]
    assert mine(program).release_at == datetime(2027, 1, 31, 13, 30, tzinfo=UTC)  # 09:30 in Halifax, UTC-4
    assert "The year runs from Sunday 31 January 2027 to Monday 31 May 2027." in page


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"choice": "typed"}, "rule"),
        ({"choice": "typed", "rule": "every full moon"}, "rule"),
        ({"choice": "typed", "rule": "FREQ=MONTHLY;BYMONTHDAY=31"}, "rule"),
        ({"first_day": "soon"}, "first_day"),
        ({"release_time": "25:00"}, "release_time"),
    ],
)
def test_a_bad_rule_names_the_field(
    client: Client, program: Program, *, changed: dict[str, str], field: str
) -> None:
    before = mine(program).wall_day
    answer = client.post(f"{YEAR}days/", calendar(**changed))
    assert field in answer.context["form"].errors
    assert mine(program).wall_day == before
    program.refresh_from_db()
    assert program.rule == "FREQ=MONTHLY;BYDAY=3SA"


def test_a_day_by_hand_is_marked_with_its_reason_and_goes_back_to_the_rule(
    client: Client, program: Program
) -> None:
    data = {"day": "2027-01-23", "time": "10:00", "reason": "The shops are closed"}
    page = client.post(f"{YEAR}1/day/", data, follow=True).content.decode()
    assert "First Light opens on Saturday 23 January 2027 at 10:00." in page
    assert "Moved by hand: The shops are closed." in page
    assert "moved by hand" in client.get(YEAR).content.decode()
    step(client, "rule")
    assert (mine(program).wall_day, mine(program).by_exception) == (date(2027, 1, 16), False)


def test_a_moved_day_is_taken_back(client: Client, program: Program) -> None:
    data = {"day": "2027-01-23", "time": "10:00", "reason": "closed"}
    slip = client.post(f"{YEAR}1/day/", data, follow=True).context["done"]
    client.post(f"{YEAR}take-back/", {"token": slip["token"]})
    assert (mine(program).wall_day, mine(program).by_exception) == (date(2027, 1, 16), False)


@pytest.mark.parametrize(
    ("changed", "field"),
    [({"day": "2027-02-30"}, "day"), ({"time": "noon"}, "time"), ({"reason": ""}, "reason")],
)
def test_a_bad_day_names_the_field(
    client: Client, program: Program, *, changed: dict[str, str], field: str
) -> None:
    data = {"day": "2027-01-23", "time": "10:00", "reason": "closed", **changed}
    assert field in client.post(f"{YEAR}1/day/", data).context["form"].errors
    assert mine(program).wall_day == date(2027, 1, 16)


def test_an_hour_that_comes_twice_is_asked_for(client: Client, program: Program) -> None:
    data = {"day": "2027-11-07", "time": "01:30", "reason": "late", "fold": "1"}  # clocks go back in Halifax
    client.post(f"{YEAR}5/day/", data)
    assert mine(program, 5).release_at == datetime(2027, 11, 7, 5, 30, tzinfo=UTC)  # the second: UTC-4
    assert "fold" not in client.get(f"{YEAR}1/day/").context["form"].fields


def test_edited_approved_scheduled_and_back(client: Client, program: Program) -> None:
    for name, state in (("edited", "edited"), ("approve", "approved"), ("schedule", "scheduled")):
        step(client, name)
        assert mine(program).state == state
    assert mine(program).editions.count() == 1
    step(client, "draft")
    assert mine(program).state == InstallmentState.DRAFT


def test_a_step_out_of_turn_says_why(client: Client, program: Program) -> None:
    assert "Installment 1 is draft; this is for one that is edited." in step(client, "approve")
    assert "There is no such step" in step(client, "leap")
    assert mine(program).state == InstallmentState.DRAFT


def test_the_editor_says_edited_and_no_more(program: Program) -> None:
    client = as_(editor_of(program))
    assert "It is edited" in client.get(f"{YEAR}1/").content.decode()
    step(client, "edited")
    assert mine(program).state == InstallmentState.EDITED
    assert client.post(f"{YEAR}1/state/", {"step": "approve"}).status_code == 404


def scheduled(program: Program) -> Installment:
    installment = mine(program)
    for verb in (mark_edited, approve, schedule_installment):
        verb(installment, by=dora(), now=NOW)
    return installment


def test_a_correction_after_an_edition_says_what_changed(client: Client, program: Program) -> None:
    installment = scheduled(program)
    data = {"title": installment.title, "story": "", "tips": "Press the seams open.", "change_line": ""}
    looked_at = client.post(f"{YEAR}1/words/", data).content.decode()
    assert "tips: changed" in looked_at
    assert "Publish edition 2" in looked_at
    data["publish"] = "1"
    form = client.post(f"{YEAR}1/words/", data).context["form"]
    assert "Say in one line what changed since edition 1." in str(form.errors["change_line"])
    assert form["tips"].value() == "Press the seams open."
    assert mine(program).tips == ""
    page = client.post(f"{YEAR}1/words/", {**data, "change_line": "A tip about pressing."}, follow=True)
    assert "as edition 2" in page.content.decode()
    assert mine(program).editions.first().change_line == "A tip about pressing."


def test_words_need_a_title(client: Client, program: Program) -> None:
    assert "title" in client.post(f"{YEAR}1/words/", {"title": " "}).context["form"].errors


def test_the_first_words_need_no_line(client: Client, program: Program) -> None:
    client.post(f"{YEAR}1/words/", {"title": "First Light", "story": "It dawns.", "tips": ""})
    assert (mine(program).story, mine(program).editions.count()) == ("It dawns.", 0)


def test_a_sheet_that_says_something_new_asks_for_an_edition(client: Client, program: Program) -> None:
    installment = scheduled(program)
    Installment.objects.filter(pk=installment.pk).update(story="Written elsewhere.")
    assert "The sheet says something new." in client.get(f"{YEAR}1/").content.decode()
    correction = f"{YEAR}1/correction/"
    assert "Publish edition 2 and tell 0 people" in client.get(correction).content.decode()
    assert "change_line" in client.post(correction, {"change_line": " "}).context["form"].errors
    assert mine(program).editions.count() == 1
    page = client.post(correction, {"change_line": "A story."}, follow=True).content.decode()
    assert "story: changed" in page
    assert mine(program).editions.count() == 2
    assert "The sheet says something new." not in client.get(f"{YEAR}1/").content.decode()


def test_what_is_late_is_said_first(client: Client, program: Program) -> None:
    with time_machine.travel(NOW + timedelta(days=40), tick=False):  # 12 December, words were due 6 November
        page = as_(dora()).get(YEAR)
    words = page.content.decode()
    assert "No installment is out yet." in words
    assert "First Light is" in words
    assert "days behind:" in words
    assert page.context["tasks"][0].is_late


def test_a_year_without_days_offers_to_give_it_some(client: Client, program: Program) -> None:
    program.installments.update(wall_day=None, release_at=None)
    page = client.get(YEAR).content.decode()
    assert "The year has no days yet." in page
    assert "Give it its days" in page


def test_a_quilt_that_cannot_be_worked_out_still_has_its_pages(client: Client, program: Program) -> None:
    program.quilt.border_letter = ""
    program.quilt.save()
    for path in ("", "installments/", "1/", "blocks/", "fabrics/", "freeze/", "quilt/"):
        assert client.get(YEAR + path).status_code == 200
    assert "Name the fabric letter of this part." in client.get(YEAR).content.decode()


def test_the_freeze_asks_once_more_and_says_who_and_when(client: Client, program: Program) -> None:
    asked = client.post(f"{YEAR}freeze/").content.decode()
    program.refresh_from_db()
    assert "Freeze the fabric of the whole year?" in asked
    assert not program.is_frozen
    page = client.post(f"{YEAR}freeze/", {"confirm": "freeze"}, follow=True).content.decode()
    program.refresh_from_db()
    assert program.frozen_by == dora()
    assert "by Dora. No need has grown since." in page
    assert program.gates.filter(name=GateName.FABRIC_FREEZE).exists()
    again = client.post(f"{YEAR}freeze/", {"confirm": "freeze"}, follow=True).content.decode()
    assert "has been passed already" in again


def test_a_stop_keeps_the_fabric_from_being_frozen(client: Client, program: Program) -> None:
    row = program.quilt.colorways.get(slug="harbour").fabrics.get(letter__letter="B")
    row.delete()
    page = client.post(f"{YEAR}freeze/", {"confirm": "freeze"}, follow=True).content.decode()
    program.refresh_from_db()
    assert not program.is_frozen
    assert "Put right what stops the proof first" in page
    assert "The stop in First Light" in client.get(YEAR).content.decode()


def test_a_reported_problem_is_shown(client: Client, program: Program) -> None:
    Problem.objects.create(
        installment=mine(program), reporter=paula(), step="4", words="It is too <small>.", made_at=NOW
    )
    page = client.get(f"{YEAR}1/").content.decode()
    assert "It is too &lt;small&gt;." in page


def test_the_program_file_is_the_exported_one(client: Client, program: Program) -> None:
    answer = client.get(f"{YEAR}program.json")
    assert json.loads(answer.content) == export_program(program)
    assert answer["Content-Disposition"] == 'attachment; filename="small.json"'


def test_the_yardage_has_a_line_for_each_fabric_of_each_packet(client: Client, program: Program) -> None:
    rows = list(csv.DictReader(io.StringIO(client.get(f"{YEAR}packets.csv").content.decode("utf-8-sig"))))
    first = [row for row in rows if (row["colorway"], row["installment"]) == ("Harbour", "1")]
    assert [row["letters"] for row in first] == ["A", "B", "C"]
    assert (first[0]["number"], first[0]["fabric"]) == ("TW-1", "Tidewater background")
    assert {row["colorway"] for row in rows} == {"Harbour", "Meadow"}


@pytest.mark.slow
def test_a_draft_can_be_read_before_there_is_an_edition(client: Client, program: Program) -> None:
    answer = client.get(f"{YEAR}1/sheet.pdf?colorway=meadow&paper=a4")
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == 'inline; filename="small-01-first-light-draft.pdf"'
    assert answer.content.startswith(b"%PDF")


@pytest.mark.parametrize("query", ["paper=a9", "units=ells", "print_size=tiny", "colorway=nowhere"])
def test_a_form_of_the_sheet_that_does_not_exist_is_unknown(client: Client, query: str) -> None:
    assert client.get(f"{YEAR}1/sheet.pdf?{query}").status_code == 404


def test_times_are_shown_on_the_programs_clock(client: Client, program: Program) -> None:
    context = client.get(YEAR).context
    assert context["today"] == date(2026, 11, 2)
    assert context["country"] == "CA-NS"
