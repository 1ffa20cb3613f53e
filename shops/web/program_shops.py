"""The shops of a program, for its designer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.views.decorators.http import require_GET

from bom.permissions import get_program_for
from shops.domain.program_shops import edition_rows, shop_rows

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
@require_GET
def program_shops(request: HttpRequest, slug: str) -> HttpResponse:
    """Show every shop with its seats and state, and who holds which edition, in numbers."""
    program = get_program_for(request.user, slug)
    rows = shop_rows(program)
    context = {
        "program": program,
        "section": "shops",
        "rows": rows,
        "seats": sum(row.seats for row in rows),
        "packets": sum(row.packets for row in rows),
        "waiting": sum(row.waiting for row in rows),
        "cap": sum(row.terms.cap for row in rows),
        "editions": edition_rows(program),
    }
    return render(request, "designer/shops.html", context)
