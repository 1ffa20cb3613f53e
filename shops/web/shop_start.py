"""The first page of a shop: what is to be done, and the address of its public page."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from patterns.domain.wording import short_day_text
from shops.domain.entitlement import opens_at
from shops.domain.head_count import sent_order
from shops.permissions import get_terms_for
from shops.web.shop_cutting import next_to_cut
from shops.web.shop_pick_up import given_out_now
from shops.web.shop_sign_ups import numbers_of
from shops.web.shop_words import shop_page, today_of

if TYPE_CHECKING:
    from datetime import date, datetime

    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms

WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayRow:
    """One day of the shop: what it is, what has become of it, and where to go."""

    day: date
    title: str
    words: str
    url: str
    is_done: bool
    is_late: bool
    is_this_week: bool


@login_required
@require_GET
def shop_start(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show the days of the shop, those of this week marked."""
    terms = get_terms_for(request.user, shop, program)
    now = timezone.now()
    address = reverse("sign-up", args=[program, shop])
    context = {
        "numbers": numbers_of(terms),
        "rows": day_rows(terms, now=now),
        "public_address": request.build_absolute_uri(address),
        "cut_number": next_to_cut(terms, now=now),
        "give_number": given_out_now(terms, now=now),
    }
    return render(request, "shops/start.html", shop_page(terms, "start", **context))


def day_rows(terms: Terms, *, now: datetime) -> list[DayRow]:
    """List the days of the terms and the next release, in order; late is what is past and not done."""
    order, zone = sent_order(terms), ZoneInfo(terms.shop.zone)
    place = [terms.shop.slug, terms.program.slug]
    order_url, list_url = reverse("shop-order", args=place), reverse("shop-sign-ups", args=place)
    is_closed, frozen_at = today_of(terms) > terms.sign_up_until, terms.head_count_frozen_at
    open_words = _("closed") if is_closed else _("open")
    frozen = _("frozen {day}").format(day=_short(frozen_at, zone)) if frozen_at else _("still to freeze")
    sent = _("sent {day}").format(day=_short(order.sent_at, zone)) if order else _("still to send")
    due = _("ordered") if order else _("not ordered yet")
    told = [
        (terms.sign_up_until, _("Sign-up closes"), open_words, list_url, is_closed),
        (terms.head_count_day, _("Head-count freezes"), frozen, order_url, frozen_at is not None),
        (terms.order_by_day, _("Order by"), sent, order_url, order is not None),
        (terms.bolts_due_day, _("Bolts due"), due, order_url, order is not None),
    ]
    rows = [_row(terms, day, title, words=words, url=url, done=done) for day, title, words, url, done in told]
    return sorted([*rows, *_release(terms, now=now, zone=zone)], key=lambda row: row.day)


def _release(terms: Terms, *, now: datetime, zone: ZoneInfo) -> list[DayRow]:
    """Give the next installment whose instant has been set."""
    for each in terms.program.installments.order_by("number"):
        at = opens_at(each, terms)
        if at is not None and at > now:
            url = reverse("shop-cutting", args=[terms.shop.slug, terms.program.slug, each.number])
            words = _("its packets are cut by then")
            title = _("{number} {title} comes out").format(number=each.number, title=each.title)
            return [_row(terms, at.astimezone(zone).date(), title, words=words, url=url, done=None)]
    return []


def _row(terms: Terms, day: date, title: str, *, words: str, url: str, done: bool | None) -> DayRow:
    today = today_of(terms)
    return DayRow(
        day=day,
        title=title,
        words=words,
        url=url,
        is_done=bool(done),
        is_late=done is False and day < today,
        is_this_week=not done and today <= day <= today + WEEK,
    )


def _short(instant: datetime, zone: ZoneInfo) -> str:
    return short_day_text(instant.astimezone(zone).date(), year=True)
