"""A participant's year, installment by installment, as data for the page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db.models import Prefetch

from bom.models import InstallmentPart, SheetEdition
from shops.domain.copies import correction, editions_held
from shops.domain.entitlement import has_opened, may_have, opens_at
from shops.domain.progress import BlockState, block_states, placed_blocks

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date, datetime

    from bom.models import Installment, Program
    from patterns.models import PlacedBlock
    from shops.models import SignUp


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockRow:
    """One block of an installment for one person."""

    placed: PlacedBlock
    state: BlockState
    sewn_on: date | None

    @property
    def is_sewn(self) -> bool:
        """Whether the person says it is sewn."""
        return self.state == BlockState.SEWN


@dataclass(frozen=True, slots=True, kw_only=True)
class YearRow:
    """One installment for one person; `opens` is the instant of the sheet, the shop's hold included.

    `has_sheet`: an edition exists and the person may have it now.  `is_corrected`: the newest edition
    is newer than the one taken.
    """

    installment: Installment
    opens: datetime | None
    is_open: bool
    has_sheet: bool
    edition: SheetEdition | None
    held: int | None
    blocks: tuple[BlockRow, ...]

    @property
    def is_corrected(self) -> bool:
        """Whether a correction should be read."""
        return self.has_sheet and correction(self.edition, self.held)


def installments_of(program: Program) -> list[Installment]:
    """List the program's installments with their parts, placed blocks and blocks, in three queries."""
    parts = InstallmentPart.objects.select_related("placed_block__block")
    found = list(program.installments.prefetch_related(Prefetch("parts", queryset=parts)))
    for installment in found:
        installment.program = program
    return found


def year_rows(sign_up: SignUp, installments: list[Installment], *, now: datetime) -> list[YearRow]:
    """Give one row for each installment, in a constant number of queries."""
    states = block_states(sign_up, installments, now=now)
    sewn_on = dict(sign_up.sewn_blocks.values_list("placed_block_id", "sewn_on"))
    newest, held = newest_editions(installments), editions_held(sign_up)
    rows = []
    for installment in installments:
        edition = newest.get(installment.pk)
        row = YearRow(
            installment=installment,
            opens=opens_at(installment, sign_up.terms),
            is_open=has_opened(sign_up, installment, now=now),
            has_sheet=edition is not None and may_have(sign_up, installment, now=now),
            edition=edition,
            held=held.get(installment.pk),
            blocks=_blocks(installment, states, sewn_on),
        )
        rows.append(row)
    return rows


def newest_editions(installments: list[Installment]) -> dict[int, SheetEdition]:
    """Give the newest edition of each installment that has one, without the sheet's data."""
    found = SheetEdition.objects.filter(installment__in=installments).defer("data").order_by("number")
    return {edition.installment_id: edition for edition in found}


def next_row(rows: list[YearRow], *, now: datetime) -> YearRow | None:
    """Give the row whose instant comes next; None when the year is over or nothing is scheduled."""
    coming = [row for row in rows if row.opens is not None and row.opens > now]
    return min(coming, key=lambda row: row.opens, default=None)  # type: ignore[arg-type,return-value]  # filtered above


def _blocks(
    installment: Installment, states: Mapping[int, BlockState], sewn_on: Mapping[int, date]
) -> tuple[BlockRow, ...]:
    """Make the rows of the blocks."""
    return tuple(
        BlockRow(placed=placed, state=states[placed.pk], sewn_on=sewn_on.get(placed.pk))
        for placed in placed_blocks(installment)
    )
