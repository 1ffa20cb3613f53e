"""The shop preview: an installment's sheet before its day, for those who cut and sew the first packet.

It stays under embargo: every page says so, with the day, the shop and the person, and every taking is
written into the record.
"""

from __future__ import annotations

from typing import TYPE_CHECKING
from unicodedata import normalize
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bom.domain.audit import record, subject_of
from bom.domain.editions import newest_edition
from bom.domain.sheets.renderings import bytes_of, ensure_rendering, make_draft
from bom.domain.sheets.stamp import HEAD, stamp, stampable
from bom.domain.sheets.variants import Variant
from bom.domain.words import says_something_new
from bom.enums import InstallmentState, UnitsChoice
from patterns.domain.wording import day_text
from shops.domain.entitlement import opens_at
from shops.domain.label_stock import stock_of
from shops.domain.own_colorways import own_colorways

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment
    from patterns.models import Colorway, User
    from shops.models import Terms

VERB = "take preview"
_SHOWN = (InstallmentState.APPROVED, InstallmentState.SCHEDULED, InstallmentState.RELEASED)


def may_preview(installment: Installment) -> bool:
    """Whether shops may see the sheet: from the designer's approval on."""
    return installment.state in _SHOWN


def take_preview(
    terms: Terms, installment: Installment, *, colorway: Colorway, by: User, now: datetime
) -> bytes:
    """Give the sheet as it stands, marked on every page, and write down who took it.

    The newest edition, or before the first one, and where the records have moved on, the draft.
    ProgramError where the chain cannot set it.
    """
    variant = _variant(terms, colorway, installment)
    edition = newest_edition(installment)
    is_draft = edition is None or says_something_new(installment, edition)
    if edition is None or is_draft:
        pdf = make_draft(installment, variant, now=now).data
    else:
        pdf = bytes_of(ensure_rendering(edition, variant, now=now), now=now)
    facts = {
        "shop": terms.shop.slug,
        "colorway": colorway.slug,
        "edition": 0 if edition is None or is_draft else edition.number,
    }
    record(VERB, actor=by, subject=subject_of(installment), facts=facts, now=now)
    return stamp(pdf, preview_text(terms, installment, by=by, now=now), spot=HEAD)


def preview_text(terms: Terms, installment: Installment, *, by: User, now: datetime) -> str:
    """Say what it is, for whom and until when; by address and number where our font lacks a letter."""
    opens = opens_at(installment, terms)
    if opens is not None and opens <= now:
        text = _("SHOP COPY for {shop}, {person}")
    elif opens is not None:
        text = _("PREVIEW for {shop}, {person}: not to be handed on before {day}")
    else:
        text = _("PREVIEW for {shop}, {person}: not to be handed on before its day, which is not set yet")
    day = day_text(opens.astimezone(ZoneInfo(terms.shop.zone)).date(), year=True) if opens else ""
    said = normalize("NFC", text.format(shop=terms.shop.name, person=by.name, day=day))
    return said if stampable(said) else text.format(shop=terms.shop.slug, person=by.pk, day=day)


def _variant(terms: Terms, colorway: Colorway, installment: Installment) -> Variant:
    program = terms.program
    return Variant(
        colorway=own_colorways(terms).at(colorway, installment.number),
        paper=stock_of(terms.shop).paper,
        units=UnitsChoice.CENTIMETRES if program.centimetres else UnitsChoice.INCHES,
        language=program.language,
    )
