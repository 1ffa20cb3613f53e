"""Documents beside the sheets for one person: who may have which, and in which form."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.domain.sheets.documents import Wish
from bom.enums import Document, PartKind
from shops.domain.copies import form_of
from shops.domain.costs import cost_of
from shops.domain.entitlement import has_opened, may_have
from shops.domain.own_colorways import own_colorways
from shops.domain.pricing import posting_of
from shops.enums import Place, Takes

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment, Program
    from shops.models import SignUp


def may_have_document(sign_up: SignUp, kind: Document, *, now: datetime) -> bool:
    """Whether this sign-up may have a document now.

    The supply list is for every seat, and so is the colouring page: the public page shows the quilt.
    Finishing instructions say what the sheets of the installments say that hold parts of the whole quilt:
    they are for seats that take sheets, when all of these are out; of a quilt that no installment
    finishes, with the last one.  The cutting of the whole quilt is for who uses own fabric, and tells of
    the installments that are out.
    """
    if sign_up.place != Place.SEAT:
        return False
    if kind in {Document.SUPPLIES, Document.COLOURING}:
        return True
    if kind == Document.CUTTING:
        return sign_up.takes == Takes.SHEET and bool(_opened(sign_up, now=now))
    finishing = _finishing(sign_up.terms.program)
    return sign_up.takes != Takes.PACKET and all(has_opened(sign_up, each, now=now) for each in finishing)


def documents_of(sign_up: SignUp, *, now: datetime) -> list[Document]:
    """List the documents that this sign-up may have now."""
    return [kind for kind in Document if may_have_document(sign_up, kind, now=now)]


def wish_of(sign_up: SignUp, kind: Document, *, now: datetime) -> Wish:
    """Give what is set for one person: own form, the shop's substitutes, and in the supply list the cost."""
    program, own = sign_up.terms.program, own_colorways(sign_up.terms)
    numbers = program.installments.values_list("number", flat=True)
    return Wish(
        program=program,
        variant=form_of(sign_up, 0),
        own={number: own.at(sign_up.colorway, number) for number in numbers},
        more=_cost(sign_up) if kind == Document.SUPPLIES else {},
        only=_opened(sign_up, now=now) if kind == Document.CUTTING else None,
    )


def _cost(sign_up: SignUp) -> dict[str, Any]:
    terms = sign_up.terms
    installments = terms.program.installments.prefetch_related("parts")
    packets = sign_up.takes != Takes.SHEET
    return {
        "terms": terms,
        "gets_packets": packets,
        "cost": cost_of(terms, installments, takes=sign_up.takes),
        "posting": posting_of(terms) if packets else None,
    }


def _opened(sign_up: SignUp, *, now: datetime) -> frozenset[int]:
    """Give the numbers of the installments whose sheets this sign-up may have."""
    installments = sign_up.terms.program.installments.all()
    return frozenset(each.number for each in installments if may_have(sign_up, each, now=now))


def _finishing(program: Program) -> list[Installment]:
    """Give the installments that finish the quilt, else the last one."""
    installments = list(program.installments.prefetch_related("parts").order_by("number"))
    finishing = [
        each for each in installments if any(part.kind != PartKind.BLOCK for part in each.parts.all())
    ]
    return finishing or installments[-1:]
