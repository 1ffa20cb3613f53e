"""What the public page and the sign-up page say, gathered for their templates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from shops.domain.costs import Cost, cost_of
from shops.domain.pricing import posting_of
from shops.domain.sign_ups import is_open, with_seats_taken
from shops.domain.year_rows import installments_of
from shops.enums import Takes
from shops.web.pictures import program_pictures
from shops.web.words import hours_of, makes, sizes, work_or_none

if TYPE_CHECKING:
    from datetime import date, datetime

    from bom.domain.work import ProgramWork
    from bom.models import Installment, Program
    from patterns.models import Colorway
    from shops.models import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicRow:
    """One installment as everybody may see it; the day is a day of the program's zone."""

    number: int
    title: str
    day: date | None
    makes: str
    sizes: str
    hours: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopRow:
    """One shop: its terms, seats left, and the instant at which its first sheet opens there."""

    terms: Terms
    left: int
    is_open: bool
    opens: datetime | None


def program_page(program: Program, *, shop_slug: str, now: datetime) -> dict[str, Any]:
    """Gather the public page; `shop_slug` says whose cost is shown, the first shop's when it is none."""
    installments = installments_of(program)
    shops = [_shop_row(each, installments, now=now) for each in with_seats_taken(program.pk)]
    shops.sort(key=lambda row: not (row.is_open and row.left))  # who still has seats stands first
    chosen = next((row for row in shops if row.terms.shop.slug == shop_slug), shops[0] if shops else None)
    work = work_or_none(program)
    rows = public_rows(program, installments, work)
    colorways = list(program.quilt.colorways.prefetch_related("fabrics__letter", "fabrics__fabric"))
    return {
        "program": program,
        "rows": rows,
        "first": rows[0] if rows else None,
        "last": rows[-1] if rows else None,
        "shops": shops,
        "chosen": chosen.terms if chosen else None,
        "cost": cost_of(chosen.terms, installments) if chosen else None,
        "posting": posting_of(chosen.terms) if chosen else None,
        "any_open": any(row.is_open for row in shops),
        "blocks": sum(1 for each in installments for part in each.parts.all() if part.placed_block_id),
        "colorway": colorways[0].name if colorways else "",
        "others": ", ".join(each.name for each in colorways[1:]),
        **_pictures(rows, work, colorways),
    }


def sign_up_page(terms: Terms, *, now: datetime) -> dict[str, Any]:
    """Gather the sign-up page of one shop: what each way of taking part costs, and the days."""
    installments = installments_of(terms.program)
    row = next(
        _shop_row(each, installments, now=now)
        for each in with_seats_taken(terms.program_id)
        if each.pk == terms.pk
    )
    costs: list[tuple[str, Cost]] = [
        (str(Takes(takes).label), cost_of(terms, installments, takes=takes)) for takes in Takes.values
    ]
    return {
        "program": terms.program,
        "terms": terms,
        "row": row,
        "rows": public_rows(terms.program, installments, work_or_none(terms.program)),
        "cost": cost_of(terms, installments),
        "posting": posting_of(terms),
        "costs": costs,
    }


def public_rows(
    program: Program, installments: list[Installment], work: ProgramWork | None
) -> list[PublicRow]:
    """Give the year in words; hours are left out where the numbers cannot be worked out."""
    times = hours_of(work)
    return [
        PublicRow(
            number=each.number,
            title=each.title,
            day=each.wall_day,
            makes=makes(each),
            sizes=sizes(each, program.quilt.block_size),
            hours=times.get(each.number, ""),
        )
        for each in installments
    ]


def _pictures(rows: list[PublicRow], work: ProgramWork | None, colorways: list[Colorway]) -> dict[str, Any]:
    """Draw the first colorway, and pair each installment with the quilt as it stands after it."""
    pictures = program_pictures(work, colorways[0] if colorways else None)
    fills = pictures["fills"]
    return {**pictures, "fills": [(row, fills[row.number]) for row in rows if row.number in fills]}


def _shop_row(terms: Terms, installments: list[Installment], *, now: datetime) -> ShopRow:
    """Make the row of one shop; `terms.taken` was counted by the query."""
    taken: int = terms.taken  # type: ignore[attr-defined]  # annotated by with_seats_taken
    first = next((each.release_at for each in installments if each.release_at), None)
    left = 0 if terms.head_count_is_frozen else max(0, terms.cap - taken)
    return ShopRow(
        terms=terms,
        left=left,
        is_open=is_open(terms, now=now),
        opens=first and first + timedelta(hours=terms.hold_hours),
    )
