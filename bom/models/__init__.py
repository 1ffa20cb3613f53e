"""Records of the bom app."""

from bom.models.outbox import AuditEntry, Outbox
from bom.models.programs import Gate, Installment, InstallmentPart, Program, ProgramMember
from bom.models.sheets import Problem, Rendering, SheetEdition
from bom.models.strip_proofs import StripProof

__all__ = (
    "AuditEntry",
    "Gate",
    "Installment",
    "InstallmentPart",
    "Outbox",
    "Problem",
    "Program",
    "ProgramMember",
    "Rendering",
    "SheetEdition",
    "StripProof",
)
