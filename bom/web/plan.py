"""The calendar: days by rule, a day by hand, and taking a change back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.db import transaction
from django.http import HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_POST

from bom.domain import audit, changes
from bom.domain.places import country_of
from bom.domain.planning import plan_days
from bom.errors import ProgramError
from bom.permissions import get_installment_for, get_program_for
from bom.web.forms_plan import CalendarForm, DayForm, rule_words
from bom.web.installment_page import MOVED, reason_of, thumbs
from bom.web.pages import changed, page, read_token, tell
from bom.web.year_rows import is_open

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.domain.working_days import PlanDays
    from bom.models import Installment
    from patterns.models import User


@login_required
def calendar(request: HttpRequest, slug: str) -> HttpResponse:
    """Give the year its days by a rule; what was moved by hand stays where it is."""
    program = get_program_for(request.user, slug, to_edit=True)
    form = CalendarForm(request.POST or None, program=program)
    if request.method == "POST" and form.is_valid():
        if changed(request, program, form, target="calendar"):
            return redirect("program-calendar", slug=slug)
        program.refresh_from_db(fields=("rule", "first_day", "release_time"))
    now = timezone.now()
    rows = [
        {"installment": each, "is_out": is_open(each, now=now)}
        for each in program.installments.order_by("number")
    ]
    context = {"form": form, "rows": rows, "rule": rule_words(program.rule)}
    return render(request, "designer/calendar.html", page(request, program, "year", **context))


@login_required
def day(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Move one installment to a day of its own, and say why."""
    mine = get_installment_for(request.user, slug, number, to_edit=True)
    form = DayForm(request.POST or None, installment=mine, reason=reason_of(mine))
    if request.method == "POST" and form.is_valid():
        if _moved(request, mine, form):
            return redirect("installment", slug=slug, number=number)
        mine.refresh_from_db()
    context = {
        "form": form,
        "installment": mine,
        "thumbs": thumbs(mine),
        "plan": _plan(mine),
        "rule": rule_words(mine.program.rule),
    }
    return render(request, "designer/day.html", page(request, mine.program, "installments", **context))


@login_required
@require_POST
def take_back(request: HttpRequest, slug: str) -> HttpResponse:
    """Take the last change back, from the signed values that the slip carries."""
    program = get_program_for(request.user, slug, to_edit=True)
    try:
        done = read_token(request.POST.get("token", ""))
        tell(request, program, changes.take_back(program, done, by=request.user, now=timezone.now()))  # type: ignore[arg-type]  # signed in
    except ProgramError as error:
        messages.error(request, error.remedy)
    back = request.POST.get("next", "")
    if not url_has_allowed_host_and_scheme(back, allowed_hosts=None):
        back = reverse("program-year", args=(slug,))
    return HttpResponseRedirect(back)


@transaction.atomic
def _moved(request: HttpRequest, mine: Installment, form: DayForm) -> bool:
    if not changed(request, mine.program, form, target=f"day:{mine.number}"):
        return False
    by: User = request.user  # type: ignore[assignment]  # signed in
    facts = {"reason": form.cleaned_data["reason"]}
    audit.record(MOVED, actor=by, subject=audit.subject_of(mine), facts=facts, now=timezone.now())
    return True


def _plan(mine: Installment) -> PlanDays | None:
    try:
        return plan_days(mine, country_of(mine.program.zone))
    except ProgramError:
        return None
