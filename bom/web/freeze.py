"""The fabric freeze: what it fixes, the proof, the needs, and the button."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.domain.freezing import freeze_fabric, what_breaks
from bom.domain.strip_proofs import offers
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.colorways import needs_of_the_year
from bom.web.pages import break_rows, page
from bom.web.year_rows import proofs_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.domain.strip_proofs import Offer
    from bom.models import Program

CONFIRMED = "freeze"


@login_required
def freeze(request: HttpRequest, slug: str) -> HttpResponse:
    """Show what the freeze fixes; ask once more, then freeze."""
    is_post = request.method == "POST"
    program = get_program_for(request.user, slug, to_edit=is_post)
    if is_post and request.POST.get("confirm") == CONFIRMED:
        _freeze(request, program)
        return redirect("program-freeze", slug=slug)
    proofs = proofs_of(program)
    context = {
        "is_asking": is_post and not program.is_frozen,
        "breaks": _breaks(program),
        "offers": _offers(program),
        "colorways": needs_of_the_year(program),
        "proofs": list(proofs.values()),
        "stops": sum(proof.stops for proof in proofs.values()),
        "looks": sum(proof.looks for proof in proofs.values()),
        "installments": list(program.installments.order_by("number")),
    }
    return render(request, "designer/freeze.html", page(request, program, "year", **context))


def _breaks(program: Program) -> list[dict[str, str]]:
    """List what differs from the freeze: nothing, unless records were changed behind the pages."""
    try:
        return break_rows(program, what_breaks(program))
    except ProgramError:
        return []


def _offers(program: Program) -> list[Offer]:
    """List shorter plans that were found since; the packets stay as they are."""
    try:
        return list(offers(program))
    except ProgramError:
        return []


def _freeze(request: HttpRequest, program: Program) -> None:
    try:
        freeze_fabric(program, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
    except ProgramError as error:
        messages.error(request, error.remedy)
    else:
        messages.success(request, _("The fabric is frozen. Shops can order from these numbers."))
