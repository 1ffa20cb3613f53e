"""Sheets as files in one person's own variant, and who holds which edition."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.editions import rendering_for

from shops.models import SheetCopy

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment, Rendering, SheetEdition
    from shops.models import SignUp


def rendering_of(sign_up: SignUp, installment: Installment) -> Rendering | None:
    """Give the newest edition's file in the person's colorway, paper, units, print size and language."""
    person = sign_up.participant
    return rendering_for(
        installment,
        colorway=sign_up.colorway,
        paper=person.paper,
        units=person.units,
        print_size=person.print_size,
        language=sign_up.terms.program.language,
    )


def stamp_text(sign_up: SignUp) -> str:
    """Say whose copy it is: name, number and shop."""
    return f"{sign_up.packet_name} · {sign_up.number} · {sign_up.terms.shop.name}"


def record_copy(*, sign_up: SignUp, rendering: Rendering, now: datetime) -> SheetCopy:
    """Write down the first time that this sign-up took this file; later times change nothing."""
    return SheetCopy.objects.get_or_create(
        sign_up=sign_up,
        rendering=rendering,
        defaults={"first_taken_at": now, "stamp": stamp_text(sign_up)[:120]},
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
