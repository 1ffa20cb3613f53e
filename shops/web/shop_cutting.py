"""Cutting day: one cloth at a time, counted by strokes of five."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from bom.domain.corrections import changes_of
from bom.domain.edition_words import change_line
from bom.domain.editions import newest_edition
from bom.errors import ProgramError, WrongState
from patterns.domain.wording import fractions_html
from patterns.models import Fabric
from shops.domain.corrected_packets import touched_packets
from shops.domain.cutting_day import count_cut, cutting_day
from shops.domain.entitlement import opens_at
from shops.domain.label_stock import stock_of
from shops.domain.labels import labelled_packets
from shops.domain.packet_editions import packet_edition
from shops.domain.previews import may_preview
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_for
from shops.web.shop_cutting_page import bags_of, job_views
from shops.web.shop_words import shop_page, thumbs, units_of

if TYPE_CHECKING:
    from datetime import datetime

    from django.http import HttpRequest, HttpResponse

    from bom.models import Installment
    from patterns.models import Colorway
    from shops.models import Terms


@login_required
@require_GET
def cutting_next(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Go to the installment that is cut next: the first that is not out yet."""
    terms = get_terms_for(request.user, shop, program)
    number = next_to_cut(terms, now=timezone.now())
    return redirect("shop-cutting", shop=shop, program=program, number=number)


@login_required
@require_GET
def cutting(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Show the cuts of one installment."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    context = {
        "installment": installment,
        "thumbs": thumbs(list(terms.program.installments.all()), number, addresses=_addresses(terms)),
        "opens": opens_at(installment, terms),
        "previews": sold_colorways(terms) if may_preview(installment) else [],
        **_edition(terms, installment),
        **_day(terms, installment),
    }
    return render(request, "shops/cutting.html", shop_page(terms, "cutting", **context))


@login_required
@require_POST
def count(request: HttpRequest, shop: str, program: str, number: int, fabric: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Count one cut more or take one back; a second click changes nothing."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    cloth = get_object_or_404(Fabric, pk=fabric)
    try:
        seen, to = int(request.POST["seen"]), int(request.POST["to"])
        count_cut(terms, installment, fabric=cloth, seen=seen, to=to)
    except WrongState as error:
        messages.error(request, error.remedy)
    except (KeyError, ValueError):
        messages.error(request, _("Press One more cut or Take one back."))
    address = reverse("shop-cutting", args=[shop, program, number])
    return redirect(f"{address}#cloth-{fabric}")


def next_to_cut(terms: Terms, *, now: datetime) -> int:
    """Give the number of the first installment that is not out yet, or of the last; Http404 without any."""
    installments = list(terms.program.installments.order_by("number"))
    if not installments:
        raise Http404
    coming = (each.number for each in installments if (at := opens_at(each, terms)) is None or at > now)
    return next(coming, installments[-1].number)


def installment_of(terms: Terms, number: int) -> Installment:
    """Give one installment of the shop's program; Http404 else."""
    return get_object_or_404(terms.program.installments.select_related("program"), number=number)


def sold_colorways(terms: Terms) -> list[Colorway]:
    """List the colorways that the shop sells."""
    return [each.colorway for each in terms.colorways.select_related("colorway").order_by("colorway")]


def _edition(terms: Terms, installment: Installment) -> dict[str, object]:
    """Give the edition that stands, the one that the packets are cut from, and what lies between them."""
    newest = newest_edition(installment)
    if newest is None:
        return {"edition": None}
    units = units_of(terms.program)
    touched = touched_packets(newest, changes_of(newest))
    return {
        "edition": newest,
        "cut_from": packet_edition(terms, installment),
        "touched": [
            (row, fractions_html(change_line(row.change, units)))
            for row in touched
            if row.terms.pk == terms.pk
        ],
    }


def _day(terms: Terms, installment: Installment) -> dict[str, object]:
    """Work the day out; where it cannot be, say why."""
    try:
        day = cutting_day(terms, installment)
    except ProgramError as error:
        return {"fault": error.remedy}
    except LongerThanBolt as error:
        return {"fault": _("A cut of {fabric} is longer than a bolt of it.").format(fabric=error.fabric)}
    packets = labelled_packets(day)
    return {
        "day": day,
        "opening": [each for each in packets if each.box],
        "jobs": job_views(day),
        "bags": bags_of(day),
        "labels": len(packets),
        "label_size": stock_of(terms.shop).size,
    }


def _addresses(terms: Terms) -> dict[int, str]:
    place = terms.shop.slug, terms.program.slug
    numbers = terms.program.installments.values_list("number", flat=True)
    return {number: reverse("shop-cutting", args=[*place, number]) for number in numbers}
