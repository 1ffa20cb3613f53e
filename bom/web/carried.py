"""Carried fabric of one installment: which of its fabrics an earlier packet holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render

from bom.permissions import get_installment_for
from bom.web.forms_carried import CarriedForm
from bom.web.installment_page import thumbs
from bom.web.pages import changed, page
from bom.web.year_rows import work_or_fault

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
def carried(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Choose for each letter whose packet holds it, and see what that does to the fabric."""
    mine = get_installment_for(request.user, slug, number, to_edit=True)
    work, fault = work_or_fault(mine.program)
    if work is None:
        messages.error(request, fault.remedy if fault else "")
        return redirect("installment", slug=slug, number=number)
    data = request.POST if request.method == "POST" else None
    roles = dict(mine.program.quilt.letters.values_list("letter", "role"))
    form = CarriedForm(data, mine=work.installment(number), work=work, roles=roles)
    is_sent = data is not None and form.is_valid()
    if is_sent and changed(request, mine.program, form, target=f"carried:{number}"):
        return redirect("installment", slug=slug, number=number)
    context = {"form": form, "installment": mine, "thumbs": thumbs(mine)}
    return render(request, "designer/carried.html", page(request, mine.program, "installments", **context))
