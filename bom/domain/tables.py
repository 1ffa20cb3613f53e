"""Tables as data, for files: the same numbers as the page they stand on, whatever the file."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.measure import Units, write_cm, write_inches

Cell: TypeAlias = str | int | Decimal | Fraction | None  # a Fraction is a length in inches

MINUTE = 64  # parts of an inch that a spreadsheet still shows as a fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One table with its heads; `name` is that of the file, lengths are shown in `units`."""

    name: str
    title: str
    lead: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    units: Units = Units.INCHES
    language: str = "en"

    def text(self, cell: Cell) -> str:
        """Write a cell the way the page does; nothing is empty, the unit of a length is in its head."""
        if cell is None:
            return ""
        if isinstance(cell, Fraction):
            return write_cm(cell) if self.units == Units.CENTIMETRES else write_inches(cell)
        return str(cell)

    def number(self, cell: Fraction) -> float | str:
        """Give a length as a spreadsheet's number; as text where it could not hold it exactly."""
        if self.units == Units.CENTIMETRES:
            return float(write_cm(cell))
        return float(cell) if MINUTE % cell.denominator == 0 else write_inches(cell)
