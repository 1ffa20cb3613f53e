"""Editions of a sheet, and the file of one in a reader's variant."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.models import Rendering

if TYPE_CHECKING:
    from bom.models import Installment
    from patterns.models import Colorway


def rendering_for(
    installment: Installment, *, colorway: Colorway, paper: str, units: str, print_size: str, language: str
) -> Rendering | None:
    """Give the file of the newest edition in this variant; None while there is no edition or no such file."""
    newest = installment.editions.order_by("-number").values_list("pk", flat=True).first()
    variant = {"paper": paper, "units": units, "print_size": print_size, "language": language}
    found = Rendering.objects.select_related("edition__installment")
    return found.filter(edition=newest, colorway=colorway, **variant).first()
