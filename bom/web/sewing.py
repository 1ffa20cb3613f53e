"""How a program is sewn: seam, house style, room to trim, and what is done where seams cannot nest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render

from bom.permissions import get_program_for
from bom.web.forms_sewing import SewingForm
from bom.web.pages import changed, page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
def sewing(request: HttpRequest, slug: str) -> HttpResponse:
    """Change how it is sewn."""
    program = get_program_for(request.user, slug, to_edit=True)
    form = SewingForm(request.POST if request.method == "POST" else None, program=program)
    is_sent = request.method == "POST" and form.is_valid()
    if is_sent and changed(request, program, form, target="sewing"):
        return redirect("program-blocks", slug=slug)
    return render(request, "designer/sewing.html", page(request, program, "blocks", form=form))
