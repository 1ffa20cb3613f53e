"""The year of a program: what matters today, every month with its days, hours, and what comes next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from bom.permissions import get_program_for
from bom.web.pages import page
from bom.web.year_page import year_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
@require_GET
def year(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the year."""
    program = get_program_for(request.user, slug)
    context = year_page(program, now=timezone.now())
    return render(request, "designer/year.html", page(request, program, "year", **context))
