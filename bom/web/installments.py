"""One installment: its page, its words, and its way through the five states."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _lazy
from django.views.decorators.http import require_GET, require_POST

from bom.domain.editions import make_edition, newest_edition
from bom.domain.planning import approve, back_to_draft, back_to_rule, mark_edited, schedule_installment
from bom.domain.words import change_words
from bom.errors import ProgramError
from bom.permissions import get_installment_for, get_installment_to_step, may_step
from bom.web.forms import WordsForm
from bom.web.installment_page import installment_page
from bom.web.pages import page, tried

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
    "edition": _lazy("The newest edition of {title} says what stands here."),
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
        if step == "edition":
            line = request.POST.get("change_line", "").strip()
            make_edition(mine, by=by, now=now, change_line=line)
        else:
            STEPS[step](mine, by=by, now=now)
    except ProgramError as error:
        messages.error(request, error.remedy)
    except KeyError:
        messages.error(request, _("There is no such step. Choose one of the buttons."))
    else:
        messages.success(request, str(DONE[step]).format(title=mine.title))


@login_required
def words(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Change title, story and tips; after an edition that is a correction."""
    mine = get_installment_for(request.user, slug, number, to_edit=True)
    newest = newest_edition(mine)
    form = WordsForm(request.POST or None, installment=mine, edition=newest.number if newest else 0)
    if request.method == "POST" and form.is_valid():
        line = form.cleaned_data.get("change_line", "")
        kept = tried(form, mine.program, lambda: _keep(request, mine, form, line=line))
        if kept:
            return redirect("installment", slug=slug, number=number)
        mine.refresh_from_db()
    context = page(request, mine.program, "installments", form=form, installment=mine, newest=newest)
    return render(request, "designer/words.html", context)


def _keep(request: HttpRequest, mine: Installment, form: WordsForm, *, line: str) -> bool:
    now = timezone.now()
    made = change_words(mine, form.words(), change_line=line, by=request.user, now=now)  # type: ignore[arg-type]  # signed in
    told = _("Kept, as edition {number}.").format(number=made.number) if made else _("Kept.")
    messages.success(request, told)
    return True
