"""The page of traditional blocks: pictures by family, found by any of their names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.views.decorators.http import require_safe

from bom.permissions import get_program_for
from bom.web.pages import page
from patterns.domain.traditional import families

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

LONGEST_SEARCH = 120


@login_required
@require_safe
def traditional_blocks(request: HttpRequest, slug: str) -> HttpResponse:
    """Show every traditional block, or those whose names hold what is searched for."""
    program = get_program_for(request.user, slug)
    search = request.GET.get("name", "")[:LONGEST_SEARCH].strip()
    found = families(search)
    count = sum(len(family.plates) for family in found)
    context = {"families": found, "count": count, "search": search}
    return render(request, "designer/traditional.html", page(request, program, "blocks", **context))
