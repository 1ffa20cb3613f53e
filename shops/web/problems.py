"""The form of "something is wrong with a step"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from shops.domain.problems import may_report, report
from shops.permissions import get_sign_up_for
from shops.web.forms_people import ProblemForm

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
def problem(request: HttpRequest, sign_up: int, number: int) -> HttpResponse:
    """Take a report about one sheet."""
    now = timezone.now()
    mine = get_sign_up_for(request.user, sign_up)
    installment = mine.terms.program.installments.filter(number=number).first()
    if installment is None or not may_report(mine, installment, now=now):
        raise Http404
    form = ProblemForm(request.POST or None)
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
