"""What a participant has sewn, and how the quilt stands."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.http import Http404

from shops.domain.entitlement import has_opened
from shops.models import SewnBlock

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from bom.models import Installment
    from patterns.models import PlacedBlock
    from shops.models import SignUp


class BlockState(Enum):
    """How a block stands for one person; each is drawn in its own way."""

    NOT_RELEASED = "not released"
    RELEASED = "released"
    SEWN = "sewn"


def block_states(
    sign_up: SignUp, installments: Iterable[Installment], *, now: datetime
) -> dict[int, BlockState]:
    """Give the state of every placed block by its key; installments come with their parts."""
    sewn = set(sign_up.sewn_blocks.values_list("placed_block_id", flat=True))
    states = {}
    for installment in installments:
        open_now = has_opened(sign_up, installment, now=now)
        for placed in placed_blocks(installment):
            if placed.pk in sewn:
                states[placed.pk] = BlockState.SEWN
            else:
                states[placed.pk] = BlockState.RELEASED if open_now else BlockState.NOT_RELEASED
    return states


def placed_blocks(installment: Installment) -> list[PlacedBlock]:
    """List the blocks of an installment, in order; no query when its parts are prefetched."""
    return [part.placed_block for part in installment.parts.all() if part.placed_block is not None]


def mark_sewn(*, sign_up: SignUp, placed_block_id: int, now: datetime) -> bool:
    """Write down that a block is sewn, on today's date in the reader's zone; False when it was already.

    Http404 for a block of another quilt, and for one whose installment has not opened for this person.
    """
    if not _is_open_block(sign_up, placed_block_id, now=now):
        raise Http404
    today = now.astimezone(ZoneInfo(sign_up.participant.user.zone)).date()
    return SewnBlock.objects.get_or_create(
        sign_up=sign_up, placed_block_id=placed_block_id, defaults={"sewn_on": today}
    )[1]


def take_back(*, sign_up: SignUp, placed_block_id: int) -> bool:
    """Take it back; False when it was not written down."""
    return bool(sign_up.sewn_blocks.filter(placed_block_id=placed_block_id).delete()[0])


def _is_open_block(sign_up: SignUp, placed_block_id: int, *, now: datetime) -> bool:
    """Whether the block lies in an installment that has opened for this person."""
    holder = sign_up.terms.program.installments.filter(parts__placed_block_id=placed_block_id).first()
    return holder is not None and has_opened(sign_up, holder, now=now)
