"""The shops of a program, for its designer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.views.decorators.http import require_GET

from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.pages import need_rows
from shops.domain.program_shops import edition_rows, shop_rows
from shops.domain.touched import touched_cuts

if TYPE_CHECKING:
    from typing import Any

    from django.http import HttpRequest, HttpResponse

    from bom.models import Program


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
        "touched": _touched(program),
    }
    return render(request, "designer/shops.html", context)


def _touched(program: Program) -> list[dict[str, Any]]:
    """Word the cuts that a change has touched; nothing where the program cannot be worked out."""
    try:
        found = touched_cuts(program)
    except ProgramError:
        return []
    rows = need_rows(program, [each.change for each in found])
    return [
        {**row, "shop": each.count.terms.shop.name, "made": each.count.made}
        for row, each in zip(rows, found, strict=True)
    ]
