"""The form of "something is wrong with a step"."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import urlencode

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _

from shops.domain.problems import may_report, report, sign_up_to_report
from shops.permissions import get_sign_up_for
from shops.web.forms_people import ProblemForm

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

MOST_DIGITS = 4


@login_required
def from_sheet(request: HttpRequest, slug: str, number: int, edition: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Lead who scanned the code of a page to the form about it; 404 for who may not have the sheet."""
    mine = sign_up_to_report(request.user.pk, slug, number, now=timezone.now())
    if mine is None:
        raise Http404
    address = reverse("my-problem", kwargs={"sign_up": mine.pk, "number": number})
    return redirect(f"{address}?{urlencode({'edition': edition, **_place(request)})}")


@login_required
def problem(request: HttpRequest, sign_up: int, number: int) -> HttpResponse:
    """Take a report about one sheet."""
    now = timezone.now()
    mine = get_sign_up_for(request.user, sign_up)
    installment = mine.terms.program.installments.filter(number=number).first()
    if installment is None or not may_report(mine, installment, now=now):
        raise Http404
    form = ProblemForm(request.POST or None, initial={"step": _said(request)})
    if request.method == "POST" and form.is_valid():
        report(sign_up=mine, installment=installment, now=now, **form.cleaned_data)
        messages.success(request, _("Thank you. The designer has your report."))
        return redirect("my-program", sign_up=mine.pk)
    context = {
        "form": form,
        "sign_up": mine,
        "program": mine.terms.program,
        "installment": installment,
        "section": "year",
    }
    return render(request, "me/problem.html", context)


def _place(request: HttpRequest) -> dict[str, int]:
    """Read which page or step it is about; nothing else is taken from the address."""
    asked = {name: request.GET.get(name, "") for name in ("edition", "page", "step")}
    known = (pair for pair in asked.items() if pair[1].isdecimal() and len(pair[1]) <= MOST_DIGITS)
    return {name: int(value) for name, value in known}


def _said(request: HttpRequest) -> str:
    """Say the page or step for the form's first field; empty where none was named."""
    place = _place(request)
    if "step" in place:
        return str(place["step"])
    if "page" in place and "edition" in place:
        return _("page {page} of edition {edition}").format(**place)
    return _("page {page}").format(**place) if "page" in place else ""
