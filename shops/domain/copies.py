"""Sheets as files in one person's own variant, and who holds which edition."""

from __future__ import annotations

from typing import TYPE_CHECKING
from unicodedata import normalize

from bom.domain.sheets.renderings import newest_rendering
from bom.domain.sheets.stamp import stampable
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize, UnitsChoice
from bom.errors import WrongState
from bom.models import Rendering
from shops.domain.own_colorways import own_colorways
from shops.models import SheetCopy

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment, SheetEdition
    from shops.models import SignUp

STAMP_LENGTH = 120


def rendering_of(sign_up: SignUp, installment: Installment, *, now: datetime) -> Rendering | None:
    """Give the newest edition's file in the person's colorway, paper, units, print size and language.

    Where the shop substitutes a fabric, the colorway is the shop's own.  A form that nobody took before
    is set now.  Where the records have moved on, so that it cannot be, the edition's file in another
    form of the same colorway is given; None before the first edition.
    """
    variant = form_of(sign_up, installment.number)
    try:
        return newest_rendering(installment, variant, now=now)
    except WrongState:
        found = Rendering.objects.filter(edition__installment=installment, colorway=variant.colorway)
        return found.select_related("edition").order_by("-edition__number", "pk").first()


def form_of(sign_up: SignUp, number: int) -> Variant:
    """Give the form in which a person takes what is printed, in the colorway of one installment."""
    person = sign_up.participant
    return Variant(
        colorway=own_colorways(sign_up.terms).at(sign_up.colorway, number),
        paper=Paper(person.paper),
        units=UnitsChoice(person.units),
        print_size=PrintSize(person.print_size),
        language=person.user.language,
    )


def stamp_text(sign_up: SignUp) -> str:
    """Say whose copy it is: name, number and shop; the number alone where our font lacks a letter."""
    number = f"{sign_up.terms.program.slug} {sign_up.number}"
    text = f"{sign_up.packet_name}, {sign_up.number}, {sign_up.terms.shop.name}"[:STAMP_LENGTH]
    text = normalize("NFC", text)  # a letter and its accent as one, where a keyboard sent two
    return text if stampable(text) else number


def record_copy(*, sign_up: SignUp, rendering: Rendering, now: datetime) -> SheetCopy:
    """Write down the first time that this sign-up took this file; later times change nothing."""
    return SheetCopy.objects.get_or_create(
        sign_up=sign_up,
        rendering=rendering,
        defaults={"first_taken_at": now, "stamp": stamp_text(sign_up)},
    )[0]


def editions_held(sign_up: SignUp) -> dict[int, int]:
    """Give the newest edition number taken, by installment; empty before the first download."""
    held: dict[int, int] = {}
    taken = SheetCopy.objects.filter(sign_up=sign_up).values_list(
        "rendering__edition__installment_id", "rendering__edition__number"
    )
    for installment, number in taken:
        held[installment] = max(number, held.get(installment, 0))
    return held


def correction(newest: SheetEdition | None, held: int | None) -> bool:
    """Whether the person holds an older edition than the newest."""
    return newest is not None and held is not None and held < newest.number
