"""A program made in centimetres shows and reads centimetres on every page of its designer."""

from __future__ import annotations

import json

import pytest
from django.conf import settings
from django.utils import timezone

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
    data = {name: value for name, value in data.items() if value is not False}
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
