"""The demo with nothing left out: its proof passes, its freeze holds, its sheets stand."""

from __future__ import annotations

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command

from bom.domain.freezing import what_breaks
from bom.domain.proofs import prove_program
from bom.models import Program, SheetEdition
from shops.domain.notices import queue_release_notices
from shops.models import FabricOrder, SignUp, Terms

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


def test_the_whole_demo_is_loaded_once() -> None:
    for answer in ("The demo is loaded.", "The demo is there already."):
        out = StringIO()
        call_command("load_demo", "--today", "2027-04-01", stdout=out)
        assert out.getvalue().strip() == answer
    program = Program.objects.get(slug="demo")
    assert program.is_frozen
    assert set(program.frozen_need) == {"harbour", "fogbank", "red-lead"}
    assert what_breaks(program) == ()
    assert prove_program(program).passed
    editions = SheetEdition.objects.order_by("installment__number", "number")
    assert [(each.installment.number, each.number) for each in editions] == [
        (1, 1),
        (2, 1),
        (2, 2),
        (3, 1),
        (4, 1),
    ]
    assert len({each.content_hash for each in editions}) == 5


def test_frozen_seats_are_those_who_take_packets() -> None:
    call_command("load_demo", "--today", "2027-04-01", stdout=StringIO())
    for terms in Terms.objects.exclude(head_count_frozen_at=None):
        assert sum(terms.frozen_seats.values()) == SignUp.objects.with_packet().filter(terms=terms).count()
        assert terms.order.frozen_hash == terms.program.frozen_hash
        assert {line.bolts > 0 for line in terms.order.lines.all()} == {True}
    assert not FabricOrder.objects.filter(terms__head_count_frozen_at=None).exists()


def test_the_third_release_is_told_to_every_seat_with_a_sheet() -> None:
    """One shop, of 18 seats, holds its sheets back for four hours."""
    call_command("load_demo", "--today", "2027-04-01", stdout=StringIO())
    opens = Program.objects.get(slug="demo").installments.get(number=3).release_at
    assert opens is not None
    with_sheet = SignUp.objects.seated().exclude(takes="packet").count()
    assert queue_release_notices(now=opens) == with_sheet - 18
    assert queue_release_notices(now=opens + timedelta(hours=4)) == 18
    assert queue_release_notices(now=opens + timedelta(hours=4)) == 0
