"""The chain from the records to every number of a program: one pure function of what is stored."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.work import InstallmentWork, PartWork, ProgramWork

if TYPE_CHECKING:
    from bom.models import Program

__all__ = ("InstallmentWork", "PartWork", "ProgramWork", "work_of")


def work_of(program: Program) -> ProgramWork:
    """Work out drawings, recipes, proofs and pieces of every installment.

    Reads the records with a constant number of queries and keeps the result by the hash of what was
    read, so that a change anywhere is seen at once and no process has to be told.  ProgramError names
    the field that cannot be worked out and the remedy.
    """
    raise NotImplementedError
