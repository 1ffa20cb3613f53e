"""A program and its people for the pages of a designer."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

from django.test import Client

from bom.domain.planning import schedule_by_rule
from bom.enums import ProgramRole
from bom.models import ProgramMember
from tests.cast import dora, login, person
from tests.factories import make_program

if TYPE_CHECKING:
    from bom.models import Program
    from patterns.models import PlacedBlock, User

NOW = datetime(2026, 11, 2, 15, tzinfo=UTC)
YEAR = "/program/small/"


def small_program() -> Program:
    """Give Dora's small program, its days given by rule, its joining in cloth enough for the proof."""
    program = make_program(designer=dora())
    schedule_by_rule(program, by=dora(), now=NOW)
    return program


def editor_of(program: Program) -> User:
    """Give the technical editor."""
    edith = person("Edith")
    ProgramMember.objects.get_or_create(program=program, user=edith, role=ProgramRole.EDITOR)
    return edith


def as_(user: User) -> Client:
    """Give a browser in which this person is signed in."""
    return login(Client(), user)


def placed(program: Program, name: str) -> PlacedBlock:
    """Find a placed block by name."""
    return program.quilt.placed_blocks.get(block__name=name)


def block_data(client: Client, block: PlacedBlock, **changed: Any) -> dict[str, Any]:
    """Give what the form of a block sends when only these fields are typed anew."""
    form = client.get(f"{YEAR}blocks/{block.pk}/").context["form"]
    data = {name: form[name].value() for name in form.fields}
    return {**data, **changed}


def quilt_data(client: Client, **changed: Any) -> dict[str, Any]:
    """Give what the form of the quilt sends when only these fields are typed anew."""
    form = client.get(f"{YEAR}quilt/").context["form"]
    data = {name: form[name].value() for name in form.fields}
    return {
        name: value for name, value in {**data, **changed}.items() if value is not False and value is not None
    }
