"""A person who has left may ask to be taken out."""

from __future__ import annotations

from datetime import date

import pytest
from django.core.management import CommandError, call_command

from bom.models import AuditEntry, Outbox
from patterns.models import User
from shops.domain.confirmations import confirm
from shops.domain.copies import record_copy
from shops.domain.sign_ups import leave
from shops.models import SheetCopy, SignUp
from tests.shops.factories import (
    NOW,
    make_edition,
    make_open_program,
    make_rendering,
    make_sign_up,
    make_terms,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def paula() -> SignUp:
    paula = make_sign_up(make_terms(make_open_program()))
    rendering = make_rendering(make_edition(paula.terms.program.installments.get(number=1)), paula)
    record_copy(sign_up=paula, rendering=rendering, now=NOW)
    confirm(paula)
    return paula


def refused(email: str) -> str:
    with pytest.raises(CommandError) as caught:
        call_command("forget_person", email)
    assert caught.value.returncode == 2
    return str(caught.value)


def test_name_address_mails_and_stamps_go_and_the_seat_stays_counted(paula: SignUp) -> None:
    user = paula.participant.user
    email = user.email
    leave(sign_up=paula, day=date(2027, 1, 20), now=NOW)
    call_command("forget_person", email.upper())
    user.refresh_from_db()
    assert (user.name, user.email, user.is_active) == ("", f"{user.pk}@gone.invalid", False)
    assert (SignUp.objects.get().packet_name, SheetCopy.objects.get().stamp) == ("1", "1")
    assert not Outbox.objects.exists()
    assert AuditEntry.objects.filter(verb="forgot a person", facts={}).count() == 1
    assert refused(email) == "Nobody here has this address. Check it."


def test_who_still_takes_part_is_not_taken_out(paula: SignUp) -> None:
    assert "take it back first" in refused(paula.participant.user.email)
    assert User.objects.get(pk=paula.participant.user_id).name


def test_a_designer_hands_over_first(paula: SignUp) -> None:
    assert "hand that over first" in refused(paula.terms.program.designer.email)
