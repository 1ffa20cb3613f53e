"""The allowances of a program: what is added to every plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render

from bom.permissions import get_program_for
from bom.web.forms_allowances import AllowancesForm
from bom.web.pages import changed, page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
def allowances(request: HttpRequest, slug: str) -> HttpResponse:
    """Change the allowances."""
    program = get_program_for(request.user, slug, to_edit=True)
    form = AllowancesForm(request.POST if request.method == "POST" else None, program=program)
    is_sent = request.method == "POST" and form.is_valid()
    if is_sent and changed(request, program, form, target="allowances"):
        return redirect("program-fabrics", slug=slug)
    return render(request, "designer/allowances.html", page(request, program, "fabrics", form=form))
