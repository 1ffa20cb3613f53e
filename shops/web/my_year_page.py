"""What a participant's page says, gathered for its template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from shops.domain.progress import BlockState
from shops.domain.year_rows import YearRow, installments_of, next_row, year_rows
from shops.enums import Place
from shops.web.pictures import block_pictures, my_quilt_picture
from shops.web.words import hours_of, makes

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from django.utils.safestring import SafeString

    from shops.models import SignUp


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """One installment that is out: its row, pictures of its blocks, and what is made."""

    row: YearRow
    pictures: tuple[SafeString, ...]
    makes: str


def my_year_page(sign_up: SignUp, *, now: datetime) -> dict[str, Any]:
    """Gather the page; times are on the reader's own clock."""
    terms, user = sign_up.terms, sign_up.participant.user
    rows = year_rows(sign_up, installments_of(terms.program), now=now)
    clock = ZoneInfo(user.zone)
    return {
        "sign_up": sign_up,
        "terms": terms,
        "program": terms.program,
        "zone": user.zone,
        "today": now.astimezone(clock).date(),
        "corrections": [row for row in rows if row.is_corrected],
        "sheets": _sheets(sign_up, rows),
        "coming": _coming(rows, clock),
        "quilt_picture": my_quilt_picture(sign_up, rows),
        **_next(sign_up, rows, clock=clock, now=now),
        **_counts(rows),
    }


def _next(sign_up: SignUp, rows: list[YearRow], *, clock: ZoneInfo, now: datetime) -> dict[str, Any]:
    """Say what comes next, for a person who still takes part with a seat."""
    coming = next_row(rows, now=now) if sign_up.left_on is None and sign_up.place == Place.SEAT else None
    if coming is None or coming.opens is None:
        return {"next": None}
    return {
        "next": coming,
        "next_when": coming.opens.astimezone(clock),
        "next_makes": makes(coming.installment),
        "next_hours": hours_of(sign_up.terms.program).get(coming.installment.number, ""),
    }


def _sheets(sign_up: SignUp, rows: list[YearRow]) -> list[SheetItem]:
    """List what is out, the newest first."""
    pictures = block_pictures(sign_up, rows)
    return [
        SheetItem(
            row=row,
            pictures=tuple(pictures[block.placed.pk] for block in row.blocks),
            makes=makes(row.installment),
        )
        for row in reversed(rows)
        if row.is_open
    ]


def _coming(rows: list[YearRow], clock: ZoneInfo) -> list[tuple[YearRow, datetime | None]]:
    """List what is still to come, each with its instant on the reader's clock."""
    return [(row, row.opens and row.opens.astimezone(clock)) for row in rows if not row.is_open]


def _counts(rows: list[YearRow]) -> Mapping[str, Any]:
    """Count the blocks, and name those that are out and not sewn."""
    blocks = [block for row in rows for block in row.blocks]
    waiting = [block.placed.block.name for block in blocks if block.state == BlockState.RELEASED]
    return {
        "block_count": len(blocks),
        "sewn_count": sum(block.is_sewn for block in blocks),
        "waiting_names": ", ".join(waiting),
    }
