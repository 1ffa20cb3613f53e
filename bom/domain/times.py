"""How long an installment takes, as ranges, with the assumptions stated (common practice)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from bom.domain.work import InstallmentWork


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeEstimate:
    """Minutes, quick and slow hand, of cutting and of sewing; difficulty from 1 (plain) to 3 (careful)."""

    cutting: tuple[int, int]
    sewing: tuple[int, int]
    difficulty: int


def time_of(work: InstallmentWork) -> TimeEstimate:
    """Estimate one installment from the pieces it cuts and the seams it sews."""
    raise NotImplementedError
