"""A shop's sign-ups: the list, one person, leaving, and a free seat for who waits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.paginator import Paginator
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST
from django_tables2 import RequestConfig

from shops.domain.sign_ups import is_open, leave, seat_from_waiting_list, seats_to_give
from shops.enums import Place, Takes
from shops.errors import WrongPlace
from shops.permissions import get_terms_for
from shops.web.shop_csv import csv_file
from shops.web.shop_tables import SignUpFilter, SignUpTable, sign_up_rows
from shops.web.shop_words import shop_page, today_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.models import SignUp, Terms

PER_PAGE = 25


@login_required
@require_GET
def sign_ups(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """List the sign-ups."""
    terms = get_terms_for(request.user, shop, program)
    asked = SignUpFilter(request.GET, terms=terms)
    people = terms.sign_ups.select_related("colorway")
    table = SignUpTable(asked.chosen(people), terms=terms)
    RequestConfig(request, paginate=False).configure(table)
    table.paginator = Paginator(table.rows, PER_PAGE)
    table.page = table.paginator.get_page(request.GET.get("page"))  # the nearest page where there is none
    context = {"table": table, "filter": asked, "numbers": numbers_of(terms)}
    return render(request, "shops/sign_ups.html", shop_page(terms, "sign-ups", **context))


@login_required
@require_GET
def sign_ups_file(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Give the list as a file for a spreadsheet."""
    terms = get_terms_for(request.user, shop, program)
    return csv_file(f"{program}-{shop}-sign-ups.csv", sign_up_rows(terms))


@login_required
@require_GET
def sign_up(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Show one person."""
    terms = get_terms_for(request.user, shop, program)
    person = _person(terms, number)
    context = {
        "person": person,
        "given": list(
            person.pick_ups.order_by("installment__number").values_list("installment__number", flat=True)
        ),
        "is_waiting": person.place == Place.WAITING and person.left_on is None,
        "free": seats_to_give(person, terms) if person.place == Place.WAITING else 0,
    }
    return render(request, "shops/sign_up.html", shop_page(terms, "sign-ups", **context))


@login_required
@require_POST
def leaves(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Take a person off the list from today; a second click changes nothing."""
    terms = get_terms_for(request.user, shop, program)
    person = _person(terms, number)
    if leave(sign_up=person, day=today_of(terms), now=timezone.now(), actor=request.user):  # type: ignore[arg-type]  # signed in
        messages.success(request, _("{name} has left.").format(name=person.packet_name))
    return redirect("shop-sign-up", shop=shop, program=program, number=number)


@login_required
@require_POST
def give_seat(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Give a waiting person a free seat; a second click changes nothing."""
    terms = get_terms_for(request.user, shop, program)
    person = _person(terms, number)
    try:
        if seat_from_waiting_list(sign_up=person, now=timezone.now(), actor=request.user):  # type: ignore[arg-type]  # signed in
            messages.success(request, _("{name} has a seat.").format(name=person.packet_name))
    except WrongPlace:
        messages.error(request, _("No seat is free for {name}.").format(name=person.packet_name))
    return redirect("shop-sign-up", shop=shop, program=program, number=number)


def numbers_of(terms: Terms) -> dict[str, Any]:
    """Count seats, packets and waiting people, in one query; colorways with their seats and caps."""
    people = list(
        terms.sign_ups.filter(left_on__isnull=True).values_list("place", "takes", "colorway_id", "number")
    )
    seated = [each for each in people if each[0] == Place.SEAT]
    colorways = [
        (offer.colorway.name, sum(1 for each in seated if each[2] == offer.colorway_id), offer.cap)
        for offer in terms.colorways.select_related("colorway")
    ]
    return {
        "seats": len(seated),
        "packets": sum(1 for each in seated if each[1] != Takes.SHEET),
        "waiting": len(people) - len(seated),
        "is_quota_reached": len(seated) >= terms.quota,
        "colorways": colorways,
        "is_open": is_open(terms, now=timezone.now()),
    }


def _person(terms: Terms, number: int) -> SignUp:
    person = terms.sign_ups.select_related("colorway", "participant__user").filter(number=number).first()
    if person is None:
        raise Http404
    return person
