"""Print what sheets cost: to set one, to take it the first time with its stamp, to take it again.

Time of one processor, in a warm process; the demo's third installment.  Run: make bench-sheets
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from time import process_time
from typing import TYPE_CHECKING

from tests.benchmarks.programs import stored

if TYPE_CHECKING:
    from django.test import Client

    from bom.models import Installment, Program
    from shops.models import SignUp

NUMBER, AGAIN = 3, 20
SET, FIRST, SECOND = 3.0, 0.060, 0.005  # seconds, at most
WIDTH = 44


def main() -> int:
    """Print the table; 1 where a limit is passed."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"VAR_DIR": folder, "DJANGO_SETTINGS_MODULE": "bom.settings", "LOG_LEVEL": "WARNING"}
        os.environ |= {"ALLOWED_HOSTS": "testserver", "DEBUG": "false", "DEMO": "true"}
        os.environ.pop("DATABASE_URL", None)
        import django

        django.setup()
        return 0 if all([*setting(stored("demo.json"))]) else 1


def setting(program: Program) -> list[bool]:
    """Set the sheet in every form that has a layout of its own, then take it."""
    installment = opened(program)
    return [*set_in_forms(installment), *taken(installment)]


def opened(program: Program) -> Installment:
    """Let the installment be open, with its edition."""
    from django.utils import timezone

    from bom.domain.editions import make_edition
    from bom.enums import InstallmentState, ProgramState

    program.state = ProgramState.RUNNING
    program.save()
    installment = program.installments.get(number=NUMBER)
    installment.state = InstallmentState.RELEASED
    installment.release_at = timezone.now() - timedelta(days=1)
    installment.save()
    make_edition(installment, by=None, now=datetime.now(UTC))
    return installment


def set_in_forms(installment: Installment) -> list[bool]:
    """Time one sheet in each form; the first one is set twice, since libraries are loaded meanwhile."""
    from bom.domain.sheets.renderings import make_draft
    from bom.domain.sheets.variants import Variant
    from bom.enums import Paper, PrintSize, UnitsChoice

    colorway = installment.program.quilt.colorways.first()
    forms = (
        ("Letter, inches", Variant(colorway=colorway)),
        ("A4, centimetres", Variant(colorway=colorway, paper=Paper.A4, units=UnitsChoice.CENTIMETRES)),
        ("Letter, inches, large print", Variant(colorway=colorway, print_size=PrintSize.LARGE)),
    )
    now = datetime.now(UTC)
    make_draft(installment, forms[0][1], now=now)
    return [
        told(f"setting it, {name}", timed(lambda form=form: make_draft(installment, form, now=now)), most=SET)
        for name, form in forms
    ]


def taken(installment: Installment) -> list[bool]:
    """Time the whole answer to a person who takes a ready edition, first and again."""
    people = signed_up(installment)
    clients = [client_of(each) for each in people]
    address = "/my/{}/sheet/{}.pdf"
    take(clients[0], address.format(people[0].pk, NUMBER))  # sets it, and makes the stamp's font ready
    firsts, seconds = [], []
    for person, client in zip(people[1:], clients[1:], strict=True):
        path = address.format(person.pk, NUMBER)
        client.get(f"/my/{person.pk}/")
        firsts.append(timed(lambda client=client, path=path: take(client, path)))
        seconds.append(timed(lambda client=client, path=path: take(client, path)))
    return [
        told("taking it, first time, with its stamp", middle(firsts), most=FIRST),
        told("taking it again", middle(seconds), most=SECOND),
    ]


def signed_up(installment: Installment) -> list[SignUp]:
    """Sign people up who all take it in one form."""
    from tests.shops.factories import make_sign_up, make_terms

    terms = make_terms(installment.program, cap=AGAIN + 1)
    return [make_sign_up(terms, f"Person{number}") for number in range(AGAIN + 1)]


def client_of(person: SignUp) -> Client:
    """Sign the person in."""
    from django.test import Client

    client = Client()
    client.force_login(person.participant.user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def take(client: Client, path: str) -> None:
    """Take the sheet; RuntimeError where there is none."""
    answer = client.get(path)
    if answer.status_code != 200:
        raise RuntimeError(f"{path} gives {answer.status_code}")


def timed(act: Callable[[], object]) -> float:
    """Give the seconds of one processor that something takes."""
    start = process_time()
    act()
    return process_time() - start


def middle(seconds: list[float]) -> float:
    """Give the median."""
    return sorted(seconds)[len(seconds) // 2]


def told(name: str, seconds: float, *, most: float) -> bool:
    """Print one line; whether it holds."""
    holds = seconds <= most
    words = f"{name:{WIDTH}} {seconds * 1000:8.1f} ms, at most {most * 1000:.0f} ms"
    sys.stdout.write(words + ("\n" if holds else "  TOO SLOW\n"))
    return holds


if __name__ == "__main__":
    sys.exit(main())
