"""The list of sign-ups as a table: sorted, searched, in pages."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

import django_tables2 as tables
from django import forms
from django.db.models import Q
from django.urls import reverse
from django.utils.html import format_html
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from patterns.domain.wording import short_day_text
from patterns.models import Colorway
from shops.enums import Place
from shops.models import SignUp

if TYPE_CHECKING:
    from datetime import date, datetime

    from django.db.models import QuerySet
    from django.utils.safestring import SafeString

    from shops.models import Terms

NUMBER = re.compile(r"[0-9]{1,5}")
WHERE = [("", gettext_lazy("everybody")), *Place.choices, ("left", gettext_lazy("left"))]


def _cells(kind: str) -> dict[str, dict[str, str]]:
    """Give the class of a column's cells; `wide-only` leaves it out on a phone."""
    return {"td": {"class": kind}, "th": {"class": kind}}


class SignUpTable(tables.Table):
    """Number, name on the packet, colorway, what is taken, place, and the days."""

    number = tables.Column(attrs=_cells("n"), verbose_name=gettext_lazy("No."))
    packet_name = tables.Column()
    colorway = tables.Column(accessor="colorway__name", verbose_name=gettext_lazy("Colorway"))
    takes = tables.Column(attrs=_cells("wide-only"))
    first_installment = tables.Column(attrs=_cells("n wide-only"), verbose_name=gettext_lazy("From"))
    joined_at = tables.Column(attrs=_cells("nowrap wide-only"))
    left_on = tables.Column(attrs=_cells("nowrap wide-only"), default="")

    class Meta:
        model = SignUp
        fields = (
            "number",
            "packet_name",
            "colorway",
            "takes",
            "first_installment",
            "place",
            "joined_at",
            "left_on",
        )
        order_by = ("number",)

    def __init__(self, *args: Any, terms: Terms, **kwargs: Any) -> None:
        """Show days on the shop's clock, and the way to each person."""
        super().__init__(*args, **kwargs)
        self.terms = terms
        self.caption = ""

    def render_packet_name(self, value: str, record: SignUp) -> SafeString:
        """Lead to the person."""
        terms = self.terms
        url = reverse("shop-sign-up", args=[terms.shop.slug, terms.program.slug, record.number])
        return format_html('<a href="{}">{}</a>', url, value)

    def render_joined_at(self, value: datetime) -> str:
        """Say the day on the shop's clock."""
        return short_day_text(value.astimezone(ZoneInfo(self.terms.shop.zone)).date(), year=True)

    def render_left_on(self, value: date) -> str:
        """Say the day."""
        return short_day_text(value, year=True)


class SignUpFilter(forms.Form):
    """Search by name on the packet or number; by colorway; by seat, waiting list, left."""

    q = forms.CharField(
        label=gettext_lazy("Name or number"), required=False, widget=forms.TextInput(attrs={"type": "search"})
    )
    colorway = forms.ModelChoiceField(
        label=gettext_lazy("Colorway"),
        queryset=Colorway.objects.none(),
        required=False,
        empty_label=gettext_lazy("all"),
        to_field_name="slug",
    )
    place = forms.ChoiceField(label=gettext_lazy("Who"), choices=WHERE, required=False)

    def __init__(self, *args: Any, terms: Terms, **kwargs: Any) -> None:
        """Offer the shop's colorways."""
        super().__init__(*args, **kwargs)
        self.fields["colorway"].queryset = Colorway.objects.filter(offers__terms=terms)  # type: ignore[attr-defined]  # a ModelChoiceField

    def chosen(self, found: QuerySet[SignUp]) -> QuerySet[SignUp]:
        """Leave what was asked for; what cannot be read is not asked for."""
        self.is_valid()
        asked = self.cleaned_data
        if asked.get("q"):
            words = asked["q"].strip()
            named = Q(packet_name__icontains=words)
            found = found.filter(named | Q(number=int(words)) if NUMBER.fullmatch(words) else named)
        if asked.get("colorway"):
            found = found.filter(colorway=asked["colorway"])
        return _in_place(found, asked.get("place", ""))


def sign_up_rows(terms: Terms) -> list[list[Any]]:
    """Give the whole list as rows for a file, the heads first; no address of anybody."""
    heads = [
        _("number"), _("name on the packet"), _("colorway"), _("takes"), _("from installment"), _("place"),
        _("signed up"), _("left"),
    ]  # fmt: skip
    people = terms.sign_ups.select_related("colorway").order_by("number")
    return [heads, *(_row(each) for each in people)]


def _row(each: SignUp) -> list[Any]:
    takes, place = each.get_takes_display(), each.get_place_display()
    joined = each.joined_at.isoformat(timespec="minutes")
    return [
        each.number, each.packet_name, each.colorway.name, takes, each.first_installment, place, joined,
        each.left_on,
    ]  # fmt: skip


def _in_place(found: QuerySet[SignUp], place: str) -> QuerySet[SignUp]:
    if place == "left":
        return found.filter(left_on__isnull=False)
    return found.filter(place=place, left_on__isnull=True) if place else found
