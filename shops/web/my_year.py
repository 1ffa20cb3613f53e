"""The participant's own pages: my year, what is sewn, how I like my sheets."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import override
from django.views.decorators.http import require_POST, require_safe

from shops.domain import progress
from shops.domain.day_file import release_days
from shops.domain.year_rows import installments_of
from shops.permissions import get_participant_for, get_sign_up_for, sign_ups_of
from shops.web.forms_people import SheetChoicesForm
from shops.web.my_year_page import my_year_page

if TYPE_CHECKING:
    from django.http import HttpRequest


@login_required
@require_safe
def my_year(request: HttpRequest) -> HttpResponse:
    """Show the one sign-up, or list them where there are several or none."""
    found = sign_ups_of(request.user)
    if len(found) == 1:
        return redirect("my-program", sign_up=found[0].pk)
    return render(request, "me/choose.html", {"sign_ups": found, "section": "year"})


@login_required
@require_safe
def my_program(request: HttpRequest, sign_up: int) -> HttpResponse:
    """Show one person's year in one program."""
    mine = get_sign_up_for(request.user, sign_up)
    page = my_year_page(mine, now=timezone.now())
    form = SheetChoicesForm(instance=mine.participant)
    others = [each for each in sign_ups_of(request.user) if each.pk != mine.pk]
    return render(request, "me/year.html", {**page, "form": form, "others": others, "section": "year"})


@login_required
@require_safe
def my_days(request: HttpRequest, sign_up: int) -> HttpResponse:
    """Give the release days as a calendar file."""
    mine = get_sign_up_for(request.user, sign_up)
    program = mine.terms.program
    days = release_days(mine, installments_of(program), now=timezone.now())
    response = HttpResponse(days, content_type="text/calendar; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{program.slug}-days.ics"'
    response["Cache-Control"] = "private, no-store"
    return response


@login_required
@require_POST
def sewn(request: HttpRequest, sign_up: int, block: int) -> HttpResponse:
    """Write down that a block is sewn, or take it back; a second click changes nothing."""
    mine = get_sign_up_for(request.user, sign_up)
    if request.POST.get("back"):
        progress.take_back(sign_up=mine, placed_block_id=block)
    else:
        progress.mark_sewn(sign_up=mine, placed_block_id=block, now=timezone.now())
    return redirect(reverse("my-program", args=[mine.pk]) + "#quilt")


@login_required
def my_settings(request: HttpRequest) -> HttpResponse:
    """Keep measures, paper and size of print."""
    participant = get_participant_for(request.user)
    form = SheetChoicesForm(request.POST or None, instance=participant)
    if request.method == "POST" and form.is_valid():
        form.save()
        with override(participant.user.language):
            messages.success(request, _("Kept. The next sheet you take comes this way."))
        return redirect("my-year")
    return render(request, "me/settings.html", {"form": form, "section": "settings"})
