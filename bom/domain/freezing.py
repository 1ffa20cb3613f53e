"""The fabric freeze: from then on drawings, sizes, methods and needs stay as they are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Program
    from patterns.models import User


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """One thing that a change would break: where, what, as frozen and as it would be.

    `what` is one of drawing, size, letters, methods, fabric, need, part, colorway; `place` names the
    block, the part or the letter; before and after are plain words or lengths in inches ("13 1/2").
    """

    number: int
    what: str
    place: str
    colorway: str
    before: str
    after: str


def freeze_fabric(program: Program, *, by: User, now: datetime) -> None:
    """Pass the fabric freeze once: ProofStops where the proof stops, WrongState when frozen already."""
    raise NotImplementedError


def what_breaks(program: Program) -> tuple[Break, ...]:
    """Compare the present numbers with the frozen ones; empty before the freeze."""
    raise NotImplementedError


def guard_change(program: Program, apply: Callable[[], None]) -> None:
    """Carry out a change of the records, or none of it.

    Raises FabricIsFrozen with what it breaks when the program is frozen and the change touches a
    frozen drawing, size, method or letter, or raises a need.
    """
    raise NotImplementedError
