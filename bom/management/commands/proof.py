"""Run every check of every installment, virtual sewing first."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from django.core.management.base import CommandError
from django.utils.translation import gettext as _

from bom.domain.proofs import prove_program
from bom.errors import ProgramError
from bom.management.program_commands import FOUND_A_FAULT, ProgramCommand, find_program
from patterns.domain.wording import say

if TYPE_CHECKING:
    from bom.domain.proofs import Check, Finding, ProgramProof


class Command(ProgramCommand):
    """Words for a person, or JSON; exit 1 where there is a stop, 2 on bad input."""

    help = __doc__ or ""

    def handle(self, **options: Any) -> None:
        """Prove the program and print what was found."""
        try:
            proof = prove_program(find_program(options["program"]))
        except ProgramError as error:
            self.refuse(error, as_json=options["json"])
        if options["json"]:
            self.stdout.write(json.dumps(proof.as_data(options["program"]), ensure_ascii=False))
        else:
            self.stdout.write("\n".join(_words(proof)))
        if not proof.passed:
            raise CommandError(_("The proof stops."), returncode=FOUND_A_FAULT)


def _words(proof: ProgramProof) -> Iterator[str]:
    for installment in proof.installments:
        yield _("Installment {number}").format(number=installment.number)
        for check in installment.checks:
            yield f"  {check.result.value:<7} {check.name}: {_fact(check)}"
            yield from (f"          {_finding(finding)}" for finding in check.findings)
    yield _("The proof passes.") if proof.passed else _("The proof stops.")


def _fact(check: Check) -> str:
    return say(check.fact)


def _finding(finding: Finding) -> str:
    where = ", ".join(word for word in (finding.step, finding.piece) if word)
    if not finding.expected:
        return f"{where}: {finding.found}"
    return _("{where}: expected {expected}, found {found}").format(
        where=where, expected=finding.expected, found=finding.found
    )
