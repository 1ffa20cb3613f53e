"""A program made in centimetres shows and reads centimetres on every page of its designer."""

from __future__ import annotations

import json

import pytest
from django.conf import settings
from django.utils import timezone

from bom.domain.freezing import freeze_fabric
from bom.domain.program_files import import_program
from bom.models import Program
from tests.bom.web.designers import as_
from tests.cast import dora

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program() -> Program:
    file = settings.BASE_DIR / "fixtures" / "programs" / "on_point_cm.json"
    return import_program(json.loads(file.read_text()), designer=dora(), now=timezone.now())


def test_a_border_is_typed_in_centimetres(program: Program) -> None:
    client, address = as_(dora()), f"/program/{program.slug}/"
    form = client.get(f"{address}quilt/").context["form"]
    data = {name: form[name].value() for name in form.fields}
    data = {name: value for name, value in data.items() if value is not False and value is not None}
    assert data["block_size"].isdecimal()  # a whole number of centimetres, not of inches
    wrong = client.post(f"{address}quilt/", {**data, "border_width": "broad"})
    assert "for example 30 or 7.5" in str(wrong.context["form"].errors["border_width"])
    page = client.post(f"{address}quilt/", {**data, "border_width": "12.5"}, follow=True)
    program.quilt.refresh_from_db()
    assert program.quilt.border_width * 127 / 50 == 12.5
    assert " cm finished instead of " in page.content.decode()


@pytest.mark.parametrize("path", ["", "1/", "blocks/", "fabrics/", "freeze/"])
def test_its_pages_open(program: Program, path: str) -> None:
    page = as_(dora()).get(f"/program/{program.slug}/{path}")
    assert page.status_code == 200
    if path in {"1/", "blocks/"}:
        assert " cm" in page.content.decode()


def test_what_the_freeze_stops_is_said_in_centimetres(program: Program) -> None:
    freeze_fabric(program, by=dora(), now=timezone.now())
    client, block = as_(dora()), program.quilt.placed_blocks.filter(block__slug="pinwheel")[0]
    address = f"/program/{program.slug}/blocks/{block.pk}/"
    form = client.get(address).context["form"]
    data = {name: form[name].value() for name in form.fields}
    page = client.post(address, {**data, "own_size": "20", "frame_letter": "D"}).content.decode()
    assert "24 cm" in page
    assert "20 cm" in page
    assert "127" not in page  # the 127ths of an inch that a centimetre is made of
