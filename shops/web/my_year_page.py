"""What a participant's page says, gathered for its template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from shops.domain.corrections import changes_for
from shops.domain.documents import documents_of
from shops.domain.progress import BlockState
from shops.domain.year_rows import YearRow, installments_of, next_row, year_rows
from shops.enums import Place
from shops.web.my_words import my_words
from shops.web.pictures import block_pictures, my_quilt_picture
from shops.web.words import hours_of, makes, work_or_none

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date, datetime

    from django.utils.safestring import SafeString

    from bom.domain.edition_words import ChangeRows
    from shops.models import SignUp


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """One installment that is out: its row, pictures of its blocks, and what is made."""

    row: YearRow
    pictures: tuple[SafeString, ...]
    makes: str
    words: Mapping[str, SafeString | str]


def my_year_page(sign_up: SignUp, *, now: datetime) -> dict[str, Any]:
    """Gather the page; times are on the reader's own clock."""
    terms, user = sign_up.terms, sign_up.participant.user
    rows = year_rows(sign_up, installments_of(terms.program), now=now)
    work, clock = work_or_none(terms.program), ZoneInfo(user.zone)
    coming = _next(sign_up, rows, now=now)
    return {
        "sign_up": sign_up,
        "terms": terms,
        "program": terms.program,
        "zone": user.zone,
        "today": now.astimezone(clock).date(),
        "corrections": [(row, _corrected(sign_up, row)) for row in rows if row.is_corrected],
        "sheets": _sheets(rows, block_pictures(sign_up, work), my_words(sign_up, rows, work=work)),
        "coming": _coming(rows, clock),
        "documents": documents_of(sign_up, now=now),
        "quilt_picture": my_quilt_picture(sign_up, work, rows),
        "next": coming,
        "next_when": coming and _wall_time(coming.opens, clock),
        "next_makes": coming and makes(coming.installment),
        "next_hours": coming and hours_of(work).get(coming.installment.number, ""),
        **_counts(rows),
    }


def _next(sign_up: SignUp, rows: list[YearRow], *, now: datetime) -> YearRow | None:
    """Say what comes next, for a person who still takes part with a seat."""
    takes_part = sign_up.left_on is None and sign_up.place == Place.SEAT
    return next_row(rows, now=now) if takes_part else None


def _corrected(sign_up: SignUp, row: YearRow) -> tuple[ChangeRows, ...]:
    """Say what the newest edition says otherwise than the one that the person holds."""
    if row.edition is None or row.held is None:
        return ()
    return changes_for(sign_up, row.edition, held=row.held)


def _sheets(
    rows: list[YearRow],
    pictures: Mapping[int, SafeString],
    words: Mapping[int, Mapping[str, SafeString | str]],
) -> list[SheetItem]:
    """List what is out, the newest first."""
    return [
        SheetItem(
            row=row,
            pictures=tuple(pictures[key] for block in row.blocks if (key := block.placed.pk) in pictures),
            makes=makes(row.installment),
            words=words.get(row.installment.number, {}),
        )
        for row in reversed(rows)
        if row.is_open
    ]


def _coming(rows: list[YearRow], clock: ZoneInfo) -> list[tuple[YearRow, date | None]]:
    """List what is still to come, each with its day on the reader's clock: planned, until it is scheduled."""
    coming = []
    for row in (each for each in rows if not each.is_open):
        opens = _wall_time(row.opens or row.installment.release_at, clock)
        coming.append((row, opens.date() if opens else row.installment.wall_day))
    return coming


def _wall_time(instant: datetime | None, clock: ZoneInfo) -> datetime | None:
    """Give the time on the reader's clock without its zone: a template would turn it into the server's."""
    return instant.astimezone(clock).replace(tzinfo=None) if instant else None


def _counts(rows: list[YearRow]) -> Mapping[str, Any]:
    """Count the blocks, and name those that are out and not sewn."""
    blocks = [block for row in rows for block in row.blocks]
    waiting = [block.placed.block.name for block in blocks if block.state == BlockState.RELEASED]
    return {
        "block_count": len(blocks),
        "sewn_count": sum(block.is_sewn for block in blocks),
        "waiting_names": ", ".join(waiting),
    }
