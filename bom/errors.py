"""What can go wrong with a program, as facts; pages and commands word it."""

from __future__ import annotations

from typing import Any


class ProgramError(ValueError):
    """A verb that cannot be carried out: which field, what is the matter, what to do."""

    kind = "program"

    def __init__(self, field: str, remedy: str, **facts: Any) -> None:
        """Name the field and the remedy; the facts fill the remedy's places."""
        super().__init__(remedy.format(**facts) if facts else remedy)
        self.field = field
        self.remedy = str(self)
        self.facts = facts


class BadProgramFile(ProgramError):
    """A program file that cannot be read; `field` is the path of the entry, such as quilt.rows."""

    kind = "program file"


class WrongState(ProgramError):
    """A verb that does not fit the state of the record."""

    kind = "state"


class FabricIsFrozen(ProgramError):
    """A change that would raise a need or change a drawing after the fabric freeze."""

    kind = "fabric freeze"


class ProofStops(ProgramError):
    """The proof has a stop."""

    kind = "proof"
