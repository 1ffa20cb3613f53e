"""Closed lists of choices of the bom app."""

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy


class ProgramState(TextChoices):
    """The states of a program, in order."""

    DRAFT = "draft", _("draft")
    OPEN = "open", _("open")
    RUNNING = "running", _("running")
    ENDED = "ended", _("ended")


class InstallmentState(TextChoices):
    """The states of an installment, in order; a correction is no state."""

    DRAFT = "draft", _("draft")
    EDITED = "edited", _("edited")
    APPROVED = "approved", _("approved")
    SCHEDULED = "scheduled", _("scheduled")
    RELEASED = "released", _("released")


class ProgramRole(TextChoices):
    """What a person does in a program besides its designer."""

    EDITOR = "editor", _("technical editor")
    TESTER = "tester", _("test sewer")


class PartKind(TextChoices):
    """What an installment may hold; a month to catch up holds no part."""

    BLOCK = "block", _("block")
    SASHING = "sashing", _("sashing and cornerstones")  # joins the centre of the top
    BORDER = "border", _("border")
    BACKING = "backing", _("backing")
    BINDING = "binding", _("binding")


class Paper(TextChoices):
    """Paper sizes with a layout of their own."""

    LETTER = "letter", pgettext_lazy("paper", "Letter")
    A4 = "a4", _("A4")


class UnitsChoice(TextChoices):
    """How lengths are shown; never what is cut."""

    INCHES = "in", _("inches")
    CENTIMETRES = "cm", _("centimetres")
    METRIC_PURCHASE = "metric-purchase", _("inches, fabric bought in metres")


class PrintSize(TextChoices):
    """Sizes of print."""

    USUAL = "usual", _("usual")
    LARGE = "large", _("large, 20 pt")


class OutboxState(TextChoices):
    """The states of a mail that waits to be sent."""

    TODO = "todo", _("to send")
    BUSY = "busy", _("being sent")
    DONE = "done", _("sent")
    FAILED = "failed", _("failed")


class ProblemState(TextChoices):
    """What became of a report."""

    NEW = "new", _("new")
    ANSWERED = "answered", _("answered")


class GateName(TextChoices):
    """The gates a program passes once, in order."""

    PROOF = "proof", _("proof")
    EDIT = "technical edit", _("technical edit")
    TEST_SEWING = "test sewing", _("test sewing")
    FABRIC_FREEZE = "fabric freeze", _("fabric freeze")


class FileKind(TextChoices):
    """In which file a table is taken along."""

    CSV = "csv", "CSV"
    XLSX = "xlsx", _("spreadsheet")
    PDF = "pdf", "PDF"


class Document(TextChoices):
    """What is printed of a program besides its sheets."""

    SUPPLIES = "supplies", _("Supply list")
    FINISHING = "finishing", _("Finishing the quilt")
    CUTTING = "cutting", _("Cutting the whole quilt")
    COLOURING = "colouring", _("Colouring page")
