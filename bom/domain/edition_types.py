"""One thing that a newer edition of a sheet says otherwise than an older one."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from patterns.engine.steps import Phrase


class ChangeKind(StrEnum):
    """What a change is of, in the order in which changes are listed."""

    WORDS = "words"
    PART = "part"
    CUT = "cutting"
    UNIT = "unit"
    STEP = "step"
    FINISHING = "finishing"
    FABRIC = "fabric"  # of a packet: another cloth for a letter
    PACKET = "packet"  # how much of a fabric
    STRIPS = "strips"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionChange:
    """`name` says of what, before and after say how it was and is; None where it was not there, or is gone.

    Both are None where it changed in more than fits a line.  `letters` are the fabric letters that it
    touches; `colorway` is the slug of the colorway of a packet.  In the phrases of a packet a length is
    one of fabric, in inches.
    """

    kind: ChangeKind
    name: Phrase
    before: Phrase | None = None
    after: Phrase | None = None
    letters: tuple[str, ...] = ()
    colorway: str = ""
