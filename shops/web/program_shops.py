"""The shops of a program, for its designer."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_GET, require_http_methods

from bom.domain.suggesting import suggest_price
from bom.enums import FileKind
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.pages import need_rows
from bom.web.table_answers import kind_of, table_answer
from shops.domain.program_order import program_order
from shops.domain.program_shops import edition_rows, shop_rows
from shops.domain.touched import touched_cuts
from shops.web.program_order_table import program_order_table
from shops.web.shop_words import cloth_of, hatches_of, left_html, units_of

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.models import Program


class SuggestionForm(forms.Form):
    """What a month should cost, in which currency; empty for no suggestion."""

    amount = forms.DecimalField(
        label=gettext_lazy("A month with a packet"),
        required=False,
        min_value=Decimal(0),
        max_digits=9,
        decimal_places=2,
    )
    currency = forms.RegexField(
        r"[A-Z]{3}",
        label=gettext_lazy("Currency"),
        required=False,
        max_length=3,
        help_text=gettext_lazy("Three letters: CAD, EUR."),
    )

    def clean(self) -> dict[str, Any]:
        """Ask for the currency of an amount."""
        data: dict[str, Any] = super().clean() or {}
        if data.get("amount") is not None and not data.get("currency") and "currency" not in self.errors:
            self.add_error("currency", _("Say in which currency."))
        return data


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def program_shops(request: HttpRequest, slug: str) -> HttpResponse:
    """Show every shop with its seats and state, who holds which edition, and keep the suggested price."""
    is_sent = request.method == "POST"
    program = get_program_for(request.user, slug, to_edit=is_sent)
    known = {"amount": program.suggested_monthly, "currency": program.suggested_currency}
    form = SuggestionForm(request.POST if is_sent else None, initial=known)
    if is_sent and form.is_valid():
        suggest_price(program, **form.cleaned_data, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
        messages.success(request, _("Kept. Shops see it beside their own reckoning."))
        return redirect("program-shops", slug=slug)
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
        "form": form,
        "may_edit": program.designer_id == request.user.pk,
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


@login_required
@require_GET
def program_orders(request: HttpRequest, slug: str) -> HttpResponse:
    """Show what all shops order together, fabric by fabric, and the day to order by."""
    program = get_program_for(request.user, slug)
    found, hatches, units = program_order(program), hatches_of(program), units_of(program)
    context = {
        "program": program,
        "section": "shops",
        "found": found,
        "shop_count": len([order for order in found.orders if order.rows]),
        "bolts": sum(row.bolts for row in found.rows),
        "rows": [
            (
                cloth_of(row.fabric, row.letters, hatches),
                row,
                left_html(row.needed, units),
                left_html(row.bought, units),
            )
            for row in found.rows
        ],
    }
    return render(request, "designer/order.html", context)


@login_required
@require_GET
def program_orders_file(request: HttpRequest, slug: str, kind: str = FileKind.CSV) -> HttpResponse:
    """Give the order over all shops as a table in a file."""
    program, wanted = get_program_for(request.user, slug), kind_of(kind)
    return table_answer(request, program_order_table(program, program_order(program)), wanted)
