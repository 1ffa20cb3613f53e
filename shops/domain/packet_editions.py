"""From which edition of a sheet a shop's packets were cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.editions import newest_edition
from shops.models import CutCount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bom.models import Installment, SheetEdition
    from shops.models import Terms

Counted = dict[str, int]  # cuts by the number of the edition, as JSON keeps it


def note_cut(counted: Mapping[str, int], edition: SheetEdition | None, *, more: bool) -> Counted:
    """Count one cut to the edition that stands, or take the last one back from the newest that has any."""
    found = dict(counted)
    if more:
        key = str(edition.number if edition else 0)
        found[key] = found.get(key, 0) + 1
    elif found:
        last = max(found, key=int)
        found[last] -= 1
    return {key: count for key, count in found.items() if count}


def cut_before(count: CutCount, number: int) -> int:
    """Count the cuts that were not made from this edition or a newer one."""
    newer: int = sum(cuts for key, cuts in count.from_editions.items() if int(key) >= number)
    made: int = count.made
    return max(0, made - newer)


def packet_edition(terms: Terms, installment: Installment) -> SheetEdition | None:
    """Give the edition that the packets are cut from: the oldest that any cut was made from.

    The newest where nothing is counted; None before the first edition.
    """
    rows = CutCount.objects.filter(terms=terms, installment=installment, made__gt=0)
    numbers = [int(key) for counted in rows.values_list("from_editions", flat=True) for key in counted]
    known = installment.editions.filter(number=min(numbers, default=-1)).first()
    return known or newest_edition(installment)
