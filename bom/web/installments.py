"""One installment: its page, its words, and its way through the five states."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _lazy
from django.views.decorators.http import require_GET, require_POST

from bom.domain.edition_words import change_rows, names_of
from bom.domain.editions import newest_edition
from bom.domain.lengths import units_of
from bom.domain.planning import approve, back_to_draft, back_to_rule, mark_edited, schedule_installment
from bom.domain.records import read_colorways
from bom.domain.words import change_words, changes_with
from bom.errors import ProgramError
from bom.permissions import get_installment_for, get_installment_to_step, may_step
from bom.web.forms import WordsForm
from bom.web.installment_page import installment_page
from bom.web.pages import page, tried
from bom.web.words_page import words_page

if TYPE_CHECKING:
    from datetime import datetime

    from django.http import HttpRequest, HttpResponse

    from bom.models import Installment
    from patterns.models import User

STEPS = {
    "edited": mark_edited,
    "approve": approve,
    "schedule": schedule_installment,
    "draft": back_to_draft,
    "rule": back_to_rule,
}

DONE = {
    "edited": _lazy("{title} is edited. Read it through, then approve it."),
    "approve": _lazy("{title} is approved. Schedule it, so that it opens by itself."),
    "schedule": _lazy("{title} is scheduled; it opens by itself."),
    "draft": _lazy("{title} is a draft again."),
    "rule": _lazy("{title} follows the rule again."),
}


@login_required
@require_GET
def installment(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Show one installment in a chosen colorway."""
    mine = get_installment_for(request.user, slug, number)
    context = installment_page(mine, colorway=request.GET.get("colorway", ""), now=timezone.now())
    context["may_mark_edited"] = may_step(request.user, mine, step="edited")
    return render(
        request, "designer/installment.html", page(request, mine.program, "installments", **context)
    )


@login_required
@require_POST
def state(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Take one step of the five states, or say why it cannot be taken."""
    step = request.POST.get("step", "")
    mine = get_installment_to_step(request.user, slug, number, step=step)
    _take(request, mine, step, now=timezone.now())
    return redirect("installment", slug=slug, number=number)


def _take(request: HttpRequest, mine: Installment, step: str, *, now: datetime) -> None:
    by: User = request.user  # type: ignore[assignment]  # signed in
    try:
        STEPS[step](mine, by=by, now=now)
    except ProgramError as error:
        messages.error(request, error.remedy)
    except KeyError:
        messages.error(request, _("There is no such step. Choose one of the buttons."))
    else:
        messages.success(request, str(DONE[step]).format(title=mine.title))


@login_required
def words(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Change title, story and tips; after an edition that is a correction, looked at before it is made."""
    mine = get_installment_for(request.user, slug, number, to_edit=True)
    newest = newest_edition(mine)
    form = WordsForm(request.POST or None, installment=mine, edition=newest.number if newest else 0)
    context: dict[str, Any] = {"form": form, "installment": mine, "newest": newest}
    if form.is_valid() and "preview" not in request.POST:
        if newest and "publish" not in request.POST:
            context |= _looked_at(mine, form)
        elif tried(form, mine.program, lambda: _keep(request, mine, form)):
            return redirect("installment", slug=slug, number=number)
        mine.refresh_from_db()
    context = words_page(mine, form) | context
    return render(request, "designer/words.html", page(request, mine.program, "installments", **context))


def _looked_at(mine: Installment, form: WordsForm) -> dict[str, Any]:
    """Say what the next edition would change, before anything is kept; only the fault where it cannot be."""
    try:
        changes = changes_with(mine, form.words())
    except ProgramError as error:
        form.add_error(None, error.remedy)
        return {}
    colorways, units = names_of(read_colorways(mine.program)), units_of(mine.program)
    return {"is_looked_at": True, "coming": change_rows(changes, colorways=colorways, units=units)}


def _keep(request: HttpRequest, mine: Installment, form: WordsForm) -> bool:
    now, line = timezone.now(), form.cleaned_data.get("change_line", "")
    made = change_words(mine, form.words(), change_line=line, by=request.user, now=now)  # type: ignore[arg-type]  # signed in
    told = _("Kept, as edition {number}.").format(number=made.number) if made else _("Kept.")
    messages.success(request, told)
    return True
