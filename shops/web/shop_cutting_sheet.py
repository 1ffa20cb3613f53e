"""The sheet of a cutting day: bolts to fetch, cuts in their order with a box for each, the bags."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.domain.keeping import Kept, hash_of
from bom.domain.sheets.pdf import make_pdf
from bom.errors import ProgramError
from bom.web.table_answers import file_answer
from patterns.domain.pictures import data_uri, swatch_svg
from patterns.domain.wording import fractions_html, length_text
from shops.domain.cutting_day import cutting_day
from shops.domain.entitlement import opens_at
from shops.domain.label_stock import stock_of
from shops.domain.labels import labelled_packets
from shops.domain.packet_editions import packet_edition
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_for
from shops.web.shop_cutting import installment_of
from shops.web.shop_cutting_page import bags_of, cut_title, promised_text
from shops.web.shop_words import cloth_of, hatches_of, letters_text, stock_text, units_of

if TYPE_CHECKING:
    from fractions import Fraction

    from django.http import HttpRequest, HttpResponse
    from django.utils.safestring import SafeString

    from bom.models import Installment
    from patterns.engine.measure import Units
    from shops.domain.cutting_day import BoltToCut, CuttingDay, Job

FIVE = 5
_files: Kept[bytes] = Kept(most=8)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltRow:
    """One bolt: how long it is, what earlier months took, today's cuts in their order, and boxes by fives."""

    name: str
    length: SafeString
    is_measured: bool
    before: int
    cuts: SafeString
    boxes: tuple[range, ...]
    left: SafeString


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothRow:
    """One cloth of the day."""

    swatch: str
    letter: str
    name: str
    letters: str
    title: SafeString
    promised: SafeString
    total: int
    cloth: SafeString
    bolts: tuple[BoltRow, ...]

    @property
    def names(self) -> str:
        """Name the bolts to fetch."""
        return ", ".join(bolt.name for bolt in self.bolts)


@login_required
@require_GET
def cutting_sheet(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Give the sheet on the paper of the shop's country; 404 where nothing is cut."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    try:
        day = cutting_day(terms, installment)
    except (ProgramError, LongerThanBolt):
        messages.error(request, _("There is no sheet as long as the packets cannot be worked out."))
        return redirect("shop-cutting", shop=shop, program=program, number=number)
    if not day.jobs:
        raise Http404
    html = cutting_sheet_html(day, installment)
    made = _files.get(hash_of(html), lambda: make_pdf(html).data)
    return file_answer(made, f"{program}-{number:02d}-cutting-day.pdf", "application/pdf", is_shown=True)


def cutting_sheet_html(day: CuttingDay, installment: Installment) -> str:
    """Write the HTML of the sheet in the language in use."""
    return render_to_string("sheets/cutting_day.html", _context(day, installment))


def _context(day: CuttingDay, installment: Installment) -> dict[str, Any]:
    terms = day.terms
    names = dict(terms.program.quilt.colorways.values_list("slug", "name"))
    return {
        "program": terms.program,
        "shop": terms.shop,
        "installment": installment,
        "paper": stock_of(terms.shop).paper,
        "opens": opens_at(installment, terms),
        "zone": terms.shop.zone,
        "edition": packet_edition(terms, installment),
        "is_frozen": terms.head_count_is_frozen,
        "day": day,
        "packets": [(names.get(slug, slug), counts) for slug, counts in day.packets.items()],
        "cloths": cloth_rows(day),
        "bags": bags_of(day),
        "opening": [each for each in labelled_packets(day) if each.box],
    }


def cloth_rows(day: CuttingDay) -> list[ClothRow]:
    """Give every cloth with its bolts, in the order of cutting."""
    hatches, units = hatches_of(day.terms.program), units_of(day.terms.program)
    return [_cloth(job, hatches, units) for job in day.jobs]


def _cloth(job: Job, hatches: dict[str, int], units: Units) -> ClothRow:
    cloth = cloth_of(job.fabric, job.letters, hatches)
    used = sum((cut for bolt in job.bolts for cut in bolt.today), start=0 * job.end_loss)
    return ClothRow(
        swatch=data_uri(swatch_svg(cloth, width_px=64, height_px=40)),
        letter=cloth.letter,
        name=job.fabric.name,
        letters=letters_text(job.letters),
        title=fractions_html(cut_title(job, units)),
        promised=fractions_html(promised_text(job, units)),
        total=job.total,
        cloth=fractions_html(stock_text(used, units)),
        bolts=tuple(_bolt(bolt, job.end_loss, units) for bolt in job.bolts),
    )


def _bolt(bolt: BoltToCut, end_loss: Fraction, units: Units) -> BoltRow:
    counts = Counter(bolt.today)
    cuts = _(", then ").join(
        _("{count} of {length}").format(count=count, length=length_text(length, units))
        for length, count in counts.items()
    )
    left = bolt.length - end_loss - sum(bolt.cuts)
    return BoltRow(
        name=bolt.name,
        length=fractions_html(stock_text(bolt.length, units)),
        is_measured=bolt.is_measured,
        before=len(bolt.before),
        cuts=fractions_html(cuts),
        boxes=tuple(range(min(FIVE, len(bolt.today) - first)) for first in range(0, len(bolt.today), FIVE)),
        left=fractions_html(stock_text(left, units) if left else _("nothing")),
    )
