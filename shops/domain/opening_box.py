"""The opening box of somebody who takes part later: what earlier packets hold for their installments.

Every seat is ordered in every installment, so the cut lies ready: it is the earlier packet's own, whole.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.packets import packet
from shops.domain.own_colorways import own_colorways
from shops.domain.steps_of_sale import at_shop

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bom.domain.packets import FabricLine
    from bom.models import Installment
    from shops.models import SignUp, Terms

Box = tuple[tuple[int, "FabricLine"], ...]  # number of the earlier packet, its cut


def opening_boxes(terms: Terms, installment: Installment, people: Iterable[SignUp]) -> dict[int, Box]:
    """Give what is added to the first packets of those who begin with an installment, by number of the list.

    Nobody where nothing is carried.  ProgramError where the program cannot be worked out.
    """
    beginners = [each for each in people if each.first_installment == installment.number > 1]
    if not beginners or not _carries(terms, installment.number):
        return {}
    colorways = {each.colorway_id: each.colorway for each in beginners}
    own = own_colorways(terms)
    work = work_of(terms.program)
    boxes: dict[int, Box] = {
        pk: tuple(
            (earlier.number, at_shop(line, terms))
            for earlier in work.installments
            if earlier.number < installment.number
            for line in packet(terms.program, work, own.at(colorway, earlier.number), earlier.number).lines
            if line.kept_for and max(line.kept_for) >= installment.number
        )
        for pk, colorway in colorways.items()
    }
    return {each.number: boxes[each.colorway_id] for each in beginners if boxes[each.colorway_id]}


def _carries(terms: Terms, number: int) -> bool:
    """Whether any earlier packet holds something for an installment from this one on."""
    return any(
        kept.number >= number
        for each in work_of(terms.program).installments
        if each.number < number
        for kept in each.kept
    )
