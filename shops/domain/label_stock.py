"""Label sheets by measure: ten to a page, two across and five down, with their exact places.

Letter: 4 x 2 in.  A4: 99.1 x 57 mm.  Margins and steps are those of common label sheets of these
measures, from memory; each page's widths and heights add up to the paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from bom.enums import Paper

if TYPE_CHECKING:
    from shops.models import Shop

COLUMNS, ROWS = 2, 5
EACH_PAGE = COLUMNS * ROWS
LETTER_COUNTRIES = frozenset({"US", "CA"})
POINTS = {"in": Decimal(72), "mm": Decimal(72) / Decimal("25.4")}  # a point is 1/72 in


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """A sheet of labels; all lengths in `unit`.  A step runs from one label's corner to the next one's."""

    paper: Paper
    unit: str
    width: Decimal
    height: Decimal
    left: Decimal
    top: Decimal
    step_across: Decimal
    step_down: Decimal

    @property
    def size(self) -> str:
        """Say the measures of one label: "4 × 2 in"."""
        return f"{self.width}\u00a0×\u00a0{self.height}\u00a0{self.unit}"

    def place(self, index: int) -> tuple[Decimal, Decimal]:
        """Give left and top of a label's corner on its page, from the page's top left corner."""
        row, column = divmod(index % EACH_PAGE, COLUMNS)
        return self.left + column * self.step_across, self.top + row * self.step_down

    def points(self, length: Decimal) -> Decimal:
        """Give a length of this sheet in points."""
        return length * POINTS[self.unit]


LETTER = LabelStock(
    paper=Paper.LETTER,
    unit="in",
    width=Decimal(4),
    height=Decimal(2),
    left=Decimal("0.15625"),
    top=Decimal("0.5"),
    step_across=Decimal("4.1875"),
    step_down=Decimal(2),
)
A4 = LabelStock(
    paper=Paper.A4,
    unit="mm",
    width=Decimal("99.1"),
    height=Decimal(57),
    left=Decimal("4.65"),
    top=Decimal(6),
    step_across=Decimal("101.6"),
    step_down=Decimal(57),
)


def stock_of(shop: Shop) -> LabelStock:
    """Give the label sheet of the shop's country: Letter in the United States and Canada, else A4."""
    return LETTER if shop.country.upper() in LETTER_COUNTRIES else A4
