"""What a proof says: results, findings and checks, as values and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from patterns.engine.steps import Phrase

if TYPE_CHECKING:
    from patterns.engine.steps import Fact


class Result(StrEnum):
    """What a check says: passed, look at this, stop."""

    PASSED = "passed"
    LOOK = "look"
    STOP = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Where something is not as it should be, in words; lengths in inches as text.

    `step` names the part and its step ("Ohio Star, step 2"), `piece` the piece, unit or letter.
    """

    step: str = ""
    piece: str = ""
    expected: str = ""
    found: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check: its name, its result, the fact as a sentence, and what was found."""

    name: str
    result: Result
    fact: Phrase
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class InstallmentProof:
    """All checks of one installment, virtual sewing first."""

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
        return {
            "program": slug,
            "passed": self.passed,
            "installments": [
                {"number": proof.number, "checks": [_check_data(check) for check in proof.checks]}
                for proof in self.installments
            ],
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """The findings of one check while it runs: what stops, and what should be looked at."""

    stops: list[Finding] = field(default_factory=list)
    looks: list[Finding] = field(default_factory=list)

    def check(self, name: str, passed: str, facts: Mapping[str, Fact] | None = None) -> Check:
        """Close the check; `passed` is the sentence where nothing was found."""
        if not self.stops and not self.looks:
            return Check(name=name, result=Result.PASSED, fact=Phrase(passed, facts or {}))
        result = Result.STOP if self.stops else Result.LOOK
        findings = (*self.stops, *self.looks)
        fact = Phrase(
            "{count} to put right." if self.stops else "{count} to look at.", {"count": len(findings)}
        )
        return Check(name=name, result=result, fact=fact, findings=findings)


def stopping(findings: Iterable[Finding]) -> Outcome:
    """Give an outcome of which every finding stops."""
    return Outcome(stops=list(findings))


def _check_data(check: Check) -> dict[str, Any]:
    return {
        "name": check.name,
        "result": check.result.value,
        "findings": [asdict(finding) for finding in check.findings],
    }
