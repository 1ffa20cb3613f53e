"""Filters, tags and the shared pieces of every page."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace

import django_tables2 as tables
import pytest
from defusedxml import ElementTree
from django import forms
from django.template import Context, Template
from django.template.loader import render_to_string
from django.test import RequestFactory

from patterns.domain.pictures import (
    block_svg,
    data_uri,
    quilt_svg,
    step_svg,
    strip_plan_svg,
    tally_svg,
    unit_svg,
)
from patterns.engine.drawing_quilts import QuiltDrawing, QuiltPart
from patterns.engine.hatches import Cloth
from patterns.engine.parts import Hand, Patch, Unit, UnitKind
from patterns.engine.steps import Facet, Phrase, Picture
from patterns.engine.strips import Cut, Strip, StripPlan

F = Fraction

FOG = Cloth("A", "#F0EFE7", 1, "Fog & Mist")
SQUARE = ((F(0), F(0)), (F(4), F(0)), (F(4), F(4)), (F(0), F(4)))
PATCH = Patch("A", SQUARE)


def render(body: str, **context: object) -> str:
    return Template("{% load measures drawings %}" + body).render(Context(context))


@pytest.mark.parametrize(
    ("body", "value", "text"),
    [
        ("{{ value|inches }}", F(3), '<span class="m">3 in</span>'),
        ("{{ value|measure:'cm' }}", F(5, 2), '<span class="m">6.4 cm</span>'),
        ("{{ value|size }}", (F(12), F(12)), '<span class="m">12\u00a0×\u00a012 in</span>'),
        ("{{ value|fabric:'metric-purchase' }}", F(27, 2), '<span class="m">0.35 m</span>'),
        ("{{ value|yards }}", F(36), '<span class="m">1 yd</span>'),
        ("{{ value|hours }}", F(2), '<span class="m">2 h</span>'),
        ("{{ value|money:'CAD' }}", Decimal(221), '<span class="m num">CAD\u00a0221.00</span>'),
        ("{{ value|day }}", dt.date(2027, 3, 20), "Saturday 20 March"),
        ("{{ value|short_day }}", None, ""),
        (
            "{{ value|in_zone:'Europe/Oslo' }}",
            dt.datetime(2027, 3, 20, 13, tzinfo=dt.UTC),
            "Sat 20 Mar, 14:00",
        ),
        ("{{ value|zone_name }}", "Europe/Oslo", "Oslo time"),
        ("{{ value|said }}", Phrase("Sew {a} < {b}.", {"a": 2, "b": "<A>"}), "Sew 2 &lt; &lt;A&gt;."),
    ],
)
def test_filters(body: str, value: object, text: str) -> None:
    assert render(body, value=value) == text


def test_swatch_is_named_and_escaped() -> None:
    tree = ElementTree.fromstring(render("{% swatch cloth %}", cloth=FOG))
    assert tree.get("aria-label") == "A, Fog & Mist"
    assert "Fog &amp; Mist</span>" in render("{% cloth_name cloth %}", cloth=FOG)


def test_marks_have_words() -> None:
    assert 'aria-label="done"' in render("{% tick %}")
    assert 'aria-label="not yet"' in render("{% open_box %}")
    assert render("{% legend %}").count("<li ") == 7
    assert 'aria-label="3 of 7 cut"' in render("{% tally 3 7 %}")


def test_pictures_say_what_they_show() -> None:
    cloths = {"A": FOG}
    unit = Unit(
        id="u",
        kind=UnitKind.SQUARE,
        width=F(4),
        height=F(4),
        fabrics=("A",),
        hand=Hand.EITHER,
        patches=(PATCH,),
    )
    cut = Cut(label="A1", x=F(0), y=F(0), width=F(4), length=F(4), turned=False)
    plan = StripPlan(
        total_length=F(8),
        lower_bound=F(8),
        needs_width=F(4),
        usable_width=F(40),
        strips=(Strip(height=F(4), repeat=2, cuts=(cut,)),),
    )
    picture = Picture(
        facets=(Facet(fabric="A", points=SQUARE),), caption=Phrase("make {n}", {"n": 4}), size=(F(4), F(4))
    )
    quilt = QuiltDrawing(
        size=(F(4), F(4)), parts=(QuiltPart(key="a", number=1, outlines=(SQUARE,), patches=(PATCH,)),)
    )
    names = {
        block_svg(
            [PATCH], (F(4), F(4)), cloths=cloths, width_px=90, name="Ohio Star"
        ): "Ohio Star, block, letters A",
        unit_svg(unit, cloths=cloths, width_px=90): "square, unit, letters A",
        quilt_svg(quilt, cloths=cloths, width_px=90, name="My quilt"): "My quilt",
        step_svg(picture, cloths=cloths, width_px=90, name="Step 1"): "Step 1. make 4. 4\u00a0×\u00a04 in",
        strip_plan_svg(plan, cloth=FOG, width_px=300): "Strip plan for A, Fog & Mist; 2 strips 4 in: 1 A1",
        tally_svg(done=1, total=2): "1 of 2 cut",
    }
    assert [ElementTree.fromstring(svg).get("aria-label") for svg in names] == list(names.values())
    assert data_uri("<svg/>") == "data:image/svg+xml;base64,PHN2Zy8+"


class ShopTable(tables.Table):
    """One column of words, one of numbers."""

    shop = tables.Column(verbose_name="Shop")
    seats = tables.Column(attrs={"td": {"class": "n"}, "th": {"class": "n"}})

    class Meta:
        attrs = {"class": "st"}
        empty_text = "No shop yet."


class SizeForm(forms.Form):
    """One field of every look."""

    size = forms.CharField(help_text="as 12 1/2")
    units = forms.ChoiceField(choices=[("in", "inches"), ("cm", "centimetres")], widget=forms.RadioSelect)
    agreed = forms.BooleanField()


def test_a_form_ties_hints_and_faults_to_their_fields() -> None:
    html = render_to_string("includes/_form.html", {"form": SizeForm({"units": "in"})})
    for name in ("id_size_helptext", "id_size_error", "id_agreed_error"):
        assert f'id="{name}"' in html
        assert html.count(name) == 2  # the id, and aria-describedby of the field
    assert "<legend>Units</legend>" in html
    assert 'class="tickbox"' in html


def test_base_page_has_skip_link_language_and_says_when_it_is_invented() -> None:
    html = render_to_string("base.html", {"demo": True})
    assert '<html lang="en">' in html
    assert '<a class="skip" href="#main">' in html
    assert "Everything here is invented" in html
    assert "Everything here is invented" not in render_to_string("base.html", {"demo": False})


@pytest.mark.parametrize("area", ["designer", "shops", "me", "public"])
def test_every_area_stands_without_a_program(area: str) -> None:
    assert "<main" in render_to_string(f"{area}/base.html", {})


@pytest.mark.parametrize("page", ["404.html", "403.html", "500.html"])
def test_pages_for_faults_stand_without_context(page: str) -> None:
    assert "</html>" in render_to_string(page)


def test_messages_become_slips() -> None:
    messages = [SimpleNamespace(level=25, __str__=None), SimpleNamespace(level=40)]
    html = render_to_string("includes/_messages.html", {"messages": messages})
    assert html.count('class="slip"') == 1
    assert html.count('class="slip red"') == 1


def test_a_table_has_a_caption_sort_links_and_values_for_a_phone() -> None:
    table = ShopTable([{"shop": "Tern & Tacking", "seats": 4}], order_by="shop")
    table.caption = "Shops"
    request = RequestFactory().get("/shops/?keep=1")
    html = render_to_string("includes/_table.html", {"table": table, "request": request})
    assert "<caption>Shops</caption>" in html
    assert 'aria-sort="ascending"' in html
    assert 'href="?keep=1&amp;sort=-shop"' in html
    assert 'data-l="Shop">Tern &amp; Tacking</td>' in html
    assert 'class="n' in html


def test_an_empty_table_says_so() -> None:
    html = render_to_string(
        "includes/_table.html", {"table": ShopTable([]), "request": RequestFactory().get("/")}
    )
    assert "No shop yet." in html
