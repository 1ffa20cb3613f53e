"""A designer's words on a participant's page, in the reader's own cloth and measures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.word_pages import said_words
from bom.errors import ProgramError
from patterns.engine.measure import Units
from shops.domain.own_colorways import own_colorways

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.work import ProgramWork
    from shops.domain.year_rows import YearRow
    from shops.models import SignUp

WORDS = ("story", "tips")


def my_words(
    sign_up: SignUp, rows: list[YearRow], *, work: ProgramWork | None
) -> dict[int, dict[str, SafeString | str]]:
    """Give story and tips of every installment whose sheet the reader may have, by its number."""
    own, units = own_colorways(sign_up.terms), Units(sign_up.participant.units)
    found: dict[int, dict[str, SafeString | str]] = {}
    for row in (row for row in rows if row.has_sheet):
        mine = row.installment
        colorway = own.at(sign_up.colorway, mine.number)
        try:
            found[mine.number] = {
                name: said_words(mine, getattr(mine, name), work=work, colorway=colorway, units=units)
                for name in WORDS
            }
        except ProgramError:
            continue  # the page goes without words where the fabric cannot be packed
    return found
