"""What somebody needs beside the fabric, in plain words; only what this program asks for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.enums import PartKind
from patterns.domain.wording import fractions_html, length_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from django.utils.safestring import SafeString

    from bom.domain.work import PartWork, ProgramWork
    from patterns.engine.measure import Units

MARKED = ("stack", "cut")  # what is marked, sewn or cut on a diagonal


def tools_of(work: ProgramWork, units: Units) -> list[tuple[str, SafeString]]:
    """List tools by what they are for."""
    parts = [part for each in work.installments for part in each.parts]
    named = (
        (_("To cut"), list(_cutting(parts))),
        (_("To mark"), list(_marking(parts))),
        (_("To sew"), list(_sewing(work, units))),
        (_("To press"), [_("iron and board, a press cloth")]),
        (_("To finish"), list(_finishing(parts))),
    )
    return [(name, fractions_html("; ".join(words))) for name, words in named if words]


def operations_of(parts: Iterable[PartWork]) -> set[str]:
    """Name the operations that occur."""
    recipes = (part.recipe for part in parts if part.recipe)
    return {row["op"] for recipe in recipes for step in recipe.steps for row in step.operations}


def _cutting(parts: Iterable[PartWork]) -> Iterator[str]:
    yield _("rotary cutter with a new blade, and a mat")
    if operations_of(parts).intersection(MARKED):
        yield _("a long ruler with a line at 45 degrees, a square one larger than the largest unit")
    else:
        yield _("a long ruler")
    yield _("small scissors, a seam ripper")


def _marking(parts: list[PartWork]) -> Iterator[str]:
    found = operations_of(parts)
    yield _("a pencil that you can see on the back of every fabric, tried on a scrap first")
    if any(piece.outline for part in parts for piece in part.pieces):
        yield _("card or clear plastic for templates, glue")
    if "foundation" in found:
        yield _("thin paper for foundations that goes through your printer")


def _sewing(work: ProgramWork, units: Units) -> Iterator[str]:
    seam = length_text(work.style.seam, units)
    yield _("sewing machine with a guide or foot for a seam of {seam}").format(seam=seam)
    yield _("cotton thread in a grey or beige that suits all fabrics, new needles size 80, fine pins")


def _finishing(parts: Iterable[PartWork]) -> Iterator[str]:
    kinds = {part.kind for part in parts}
    if PartKind.BACKING in kinds:
        yield _("safety pins or thread to baste with, thread to quilt with")
    if PartKind.BINDING in kinds:
        yield _("clips or pins and a hand needle for the binding")
