"""Signing up at a shop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from allauth.core import ratelimit
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from shops.domain.confirmations import sign_up_by_mail
from shops.domain.sign_ups import is_open
from shops.errors import NotOffered, SignUpClosed
from shops.models import SignUp, Terms
from shops.web.forms_people import SignUpForm
from shops.web.program_page import sign_up_page
from shops.web.public import get_public_program

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

DONE_KEY = "signed_up"


def sign_up_at(request: HttpRequest, slug: str, shop: str) -> HttpResponse:
    """Show cost and days, then take the sign-up; a second click ends on the same page."""
    terms = _get_terms(slug, shop)
    form = SignUpForm(request.POST or None, terms=terms, user=request.user)
    if request.method == "POST" and form.is_valid() and _is_taken(request, form):
        return redirect("sign-up-done", slug=slug, shop=shop)
    page = sign_up_page(terms, now=timezone.now())
    return render(request, "public/sign_up.html", {**page, "form": form})


@require_safe
def sign_up_done(request: HttpRequest, slug: str, shop: str) -> HttpResponse:
    """Say what has been kept, to the browser that signed up and to no other."""
    made = (
        SignUp.objects.select_related("terms__shop", "terms__program", "colorway", "participant__user")
        .filter(pk=request.session.get(DONE_KEY, 0), terms__shop__slug=shop, terms__program__slug=slug)
        .first()
    )
    if made is None:
        return redirect("program-public", slug=slug)
    return render(request, "public/sign_up_done.html", {"sign_up": made, "program": made.terms.program})


def _is_taken(request: HttpRequest, form: SignUpForm) -> bool:
    """Carry the sign-up out; a refusal of the domain becomes a fault of the form."""
    if not ratelimit.consume(request, action="shop_sign_up"):
        form.add_error(None, _("Too many sign-ups from here. Please try again in an hour, or ask the shop."))
        return False
    try:
        made = sign_up_by_mail(terms=form.terms, wish=form.wish(), now=timezone.now())
    except SignUpClosed:
        form.add_error(None, _("Sign-up at this shop is closed. Another shop may still have seats."))
        return False
    except NotOffered:
        form.add_error("colorway", _("This shop does not sell that colorway. Please choose another."))
        return False
    request.session[DONE_KEY] = made.pk
    return True


def _get_terms(slug: str, shop: str) -> Terms:
    """Give the shop's terms while it takes sign-ups; Http404 else."""
    program = get_public_program(slug)
    terms = Terms.objects.select_related("shop", "program__quilt", "program__designer")
    found = terms.filter(program=program, shop__slug=shop).first()
    if found is None or not is_open(found, now=timezone.now()):
        raise Http404
    return found
