"""Corrections of a sheet, for its designer: what changed, whose packets it touches, who is told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_GET, require_http_methods

from bom.domain.corrections import changes_of, changes_to_come
from bom.domain.edition_words import change_line, change_rows, names_of
from bom.domain.editions import newest_edition
from bom.domain.lengths import units_of
from bom.domain.records import read_colorways
from bom.errors import ProgramError
from bom.models import SheetEdition
from bom.permissions import get_installment_for
from bom.web.installment_page import thumbs
from bom.web.pages import page, tried
from patterns.domain.wording import fractions_html
from shops.domain.corrected_packets import touched_packets
from shops.domain.corrections import behind, publish_correction
from shops.models import Notice, SheetCopy

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.http import HttpRequest, HttpResponse

    from bom.domain.edition_types import EditionChange
    from bom.models import Installment


class CorrectionForm(forms.Form):
    """The line for everybody who has the sheet already."""

    change_line = forms.CharField(
        label=gettext_lazy("What changed"),
        max_length=200,
        help_text=gettext_lazy("One line, in your own words. The list above is printed below it."),
    )


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def correction(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Show what the next edition changes before it is made, and make it."""
    mine = get_installment_for(request.user, slug, number, to_edit=True)
    newest = newest_edition(mine)
    if newest is None:
        raise Http404
    form = CorrectionForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        told = tried(form, mine.program, lambda: _publish(request, mine, form))
        if told is not None:
            return redirect("installment-edition", slug=slug, number=number, edition=told)
    next_one = SheetEdition(installment=mine, number=newest.number + 1, made_at=timezone.now())
    context = {"form": form, "newest": newest, "people": behind(next_one).count(), **_to_come(next_one)}
    return render(request, "designer/correction.html", _page(request, next_one, context))


@login_required
@require_GET
def edition(request: HttpRequest, slug: str, number: int, edition: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Show one edition: what it changed, whose packets it touched, who has it."""
    mine = get_installment_for(request.user, slug, number)
    found = mine.editions.filter(number=edition).first()
    if found is None:
        raise Http404
    context = {
        "newest": newest_edition(mine),
        "told": Notice.objects.filter(installment=mine, kind=f"edition {edition}").count(),
        "holders": SheetCopy.objects.filter(rendering__edition=found).values("sign_up").distinct().count(),
        **_said(found, changes_of(found)),
    }
    return render(request, "designer/edition.html", _page(request, found, context))


def _publish(request: HttpRequest, mine: Installment, form: CorrectionForm) -> int:
    line = form.cleaned_data["change_line"]
    made, told = publish_correction(mine, by=request.user, now=timezone.now(), change_line=line)  # type: ignore[arg-type]  # signed in
    words = ngettext(
        "Edition {number} is out. {told} person who holds an older one is told.",
        "Edition {number} is out. {told} people who hold an older one are told.",
        told,
    )
    messages.success(request, words.format(number=made.number, told=told))
    return int(made.number)


def _to_come(next_one: SheetEdition) -> dict[str, Any]:
    """Say what the next edition changes; only the fault where it cannot be worked out."""
    try:
        return _said(next_one, changes_to_come(next_one.installment))
    except ProgramError as error:
        return {"fault": error.remedy}


def _said(edition: SheetEdition, changes: Iterable[EditionChange]) -> dict[str, Any]:
    program, found = edition.installment.program, tuple(changes)
    units, colorways = units_of(program), names_of(read_colorways(program))
    touched = touched_packets(edition, found)
    made = [row for row in touched if row.cut or row.given]
    cutters = {row.terms.shop.name for row in made}
    return {
        "rows": change_rows(found, colorways=colorways, units=units),
        "touched": [(row, fractions_html(change_line(row.change, units))) for row in made],
        "uncut": list(
            dict.fromkeys(row.terms.shop.name for row in touched if row.terms.shop.name not in cutters)
        ),
    }


def _page(request: HttpRequest, edition: SheetEdition, context: dict[str, Any]) -> dict[str, Any]:
    mine = edition.installment
    shown = {"installment": mine, "edition": edition, "thumbs": thumbs(mine), **context}
    return page(request, mine.program, "installments", **shown)
