"""The proof of a program: every check of every installment, virtual sewing first."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bom.models import Program
    from patterns.engine.steps import Phrase


class Result(StrEnum):
    """What a check says: passed, look at this, stop."""

    PASSED = "passed"
    LOOK = "look"
    STOP = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Where something is not as it should be: the step, the piece or letter, expected and found."""

    step: str
    piece: str
    expected: str
    found: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check: its name, its result, the fact in a phrase, and what was found."""

    name: str
    result: Result
    fact: Phrase
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class InstallmentProof:
    """All checks of one installment."""

    number: int
    checks: tuple[Check, ...]

    @property
    def stops(self) -> int:
        """Count the checks that stop."""
        return sum(check.result is Result.STOP for check in self.checks)

    @property
    def looks(self) -> int:
        """Count the checks that want to be looked at."""
        return sum(check.result is Result.LOOK for check in self.checks)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramProof:
    """The proof of a whole program; passed where nothing stops."""

    installments: tuple[InstallmentProof, ...]

    @property
    def passed(self) -> bool:
        """Whether no check of any installment stops."""
        return not any(proof.stops for proof in self.installments)

    def as_data(self, slug: str) -> dict[str, Any]:
        """Give the plain data that `proof --json` prints."""
        raise NotImplementedError


def prove_program(program: Program) -> ProgramProof:
    """Run every check of every installment over the present records."""
    raise NotImplementedError
