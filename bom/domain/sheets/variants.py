"""In which form a sheet is set: colorway, paper, measures, print size, language."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bom.enums import Paper, PrintSize, UnitsChoice
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from bom.models import Rendering
    from patterns.models import Colorway

COLUMN_PX = {Paper.LETTER: 680, Paper.A4: 660}  # the width between the margins, 96 to the inch


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One form of a sheet; never what is cut."""

    colorway: Colorway
    paper: Paper = Paper.LETTER
    units: UnitsChoice = UnitsChoice.INCHES
    print_size: PrintSize = PrintSize.USUAL
    language: str = "en"

    def fields(self) -> dict[str, Any]:
        """Give the fields of a Rendering."""
        return {
            "colorway": self.colorway,
            "paper": self.paper,
            "units": self.units,
            "print_size": self.print_size,
            "language": self.language,
        }

    @property
    def measures(self) -> Units:
        """Give the units of the engine."""
        return Units(self.units)

    @property
    def column_px(self) -> int:
        """Give the width of the text in CSS pixels."""
        return COLUMN_PX[Paper(self.paper)]

    @property
    def is_large(self) -> bool:
        """Whether the print is large."""
        return self.print_size == PrintSize.LARGE


def variant_of(rendering: Rendering) -> Variant:
    """Give the form that a file was set in."""
    return Variant(
        colorway=rendering.colorway,
        paper=Paper(rendering.paper),
        units=UnitsChoice(rendering.units),
        print_size=PrintSize(rendering.print_size),
        language=rendering.language,
    )
