"""Poster and shop cards: the quilt, the days, what it costs, and the way to sign up at this shop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import segno
from django.conf import settings
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.quilt_pictures import quilt_drawing
from bom.domain.sheets.documents import kept_pdf
from bom.domain.sheets.fitting import Face, fit
from bom.enums import ProgramState
from bom.errors import ProgramError
from bom.web.table_answers import file_answer
from patterns.domain.pictures import data_uri, quilt_svg
from patterns.engine.drawing import rational
from shops.domain.costs import cost_of
from shops.domain.label_stock import stock_of
from shops.domain.sign_ups import is_open
from shops.domain.year_rows import installments_of
from shops.permissions import get_terms_for

if TYPE_CHECKING:
    from datetime import datetime

    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms

QUIET = 4  # modules round the code (ISO/IEC 18004)
CARDS = 4  # on a page
# Pictures in CSS pixels, at most so wide and so tall; titles in points, in a line so wide.
PICTURES = {"poster": (660, 430), "card": (190, 250)}
TITLES = {"poster": (500, range(64, 23, -2)), "card": (225, range(26, 9, -1))}


@login_required
@require_GET
def promotion(request: HttpRequest, shop: str, program: str, *, kind: str) -> HttpResponse:
    """Give the poster or a page of cards; 404 for a program that is not open to people."""
    terms = get_terms_for(request.user, shop, program)
    if terms.program.state == ProgramState.DRAFT:
        raise Http404
    try:
        html = promotion_html(terms, kind, now=timezone.now())
    except ProgramError as error:
        raise Http404 from error
    return file_answer(kept_pdf(html), f"{program}-{shop}-{kind}.pdf", "application/pdf", is_shown=True)


def promotion_html(terms: Terms, kind: str, *, now: datetime) -> str:
    """Write the HTML in the language of the program.  ProgramError as `work_of`."""
    with translation.override(terms.program.language):
        return render_to_string(f"sheets/{kind}.html", _context(terms, kind, now=now))


def sign_up_address(terms: Terms, *, now: datetime) -> str:
    """Give the whole address to sign up at the shop; of the program's page once sign-up is closed."""
    parts = (terms.program.slug, terms.shop.slug)
    path = (
        reverse("sign-up", args=parts)
        if is_open(terms, now=now)
        else reverse("program-public", args=parts[:1])
    )
    return settings.SITE_URL.rstrip("/") + path


def _context(terms: Terms, kind: str, *, now: datetime) -> dict[str, Any]:
    program, installments = terms.program, installments_of(terms.program)
    work, days = work_of(program), [each.wall_day for each in installments if each.wall_day]
    line, sizes = TITLES[kind]
    address = sign_up_address(terms, now=now)
    code = segno.make(address, error="m", micro=False, boost_error=False)
    return {
        "program": program,
        "shop": terms.shop,
        "terms": terms,
        "paper": stock_of(terms.shop).paper,
        "title": fit(program.title, face=Face.BOOK_BLACK, width=line, sizes=tuple(sizes)),
        "picture": _picture(terms, kind),
        "alt": _("{name}, the whole quilt").format(name=program.quilt.name),
        "size": (work.top.width, work.top.height),
        "blocks": sum(1 for each in installments for part in each.parts.all() if part.placed_block_id),
        "days": (min(days), max(days)) if days else (),
        "cost": cost_of(terms, installments),
        "is_open": is_open(terms, now=now),
        "address": address.removeprefix("https://").removeprefix("http://").rstrip("/"),
        "code": code.svg_data_uri(border=QUIET, dark="#000", light=None),
        "cards": range(CARDS),
    }


def _picture(terms: Terms, kind: str) -> str:
    """Draw the quilt in the first colorway that the shop sells, or the first one."""
    offer = terms.colorways.select_related("colorway").first()
    colorway = offer.colorway if offer else terms.program.quilt.colorways.first()
    if colorway is None:
        raise ProgramError("colorways", _("There is no colorway yet. The program file brings them."))
    quilt = quilt_drawing(work_of(terms.program))
    wide, tall = PICTURES[kind]
    width = min(wide, int(tall * rational(quilt.size[0]) / rational(quilt.size[1])))
    drawn = quilt_svg(quilt, cloths=cloths_of(colorway), width_px=width, name=terms.program.quilt.name)
    return data_uri(drawn)
