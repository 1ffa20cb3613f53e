"""Every packet of every installment and colorway with its totals, and whether the sums agree."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from bom.domain.chain import work_of
from bom.domain.packets import packets, year_of
from bom.domain.reconciling import reconciles
from bom.domain.records import read_colorways
from bom.models import Program
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from bom.domain.packets import FabricLine, Packet, YearLine
    from patterns.models import Colorway


@dataclass(frozen=True, slots=True, kw_only=True)
class ColorwayYear:
    """One colorway: its packets by installment, and the year added up by fabric."""

    colorway: Colorway
    packets: tuple[Packet, ...]
    year: tuple[YearLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class YardageReport:
    """All colorways of a program, and whether pieces, spares, areas and packets agree."""

    program: Program
    colorways: tuple[ColorwayYear, ...]
    reconciles: bool

    def as_data(self) -> dict[str, Any]:
        """Give the plain data that `yardage --json` prints; lengths in inches as text."""
        return {
            "program": self.program.slug,
            "colorways": [_colorway_data(each) for each in self.colorways],
            "reconciles": self.reconciles,
        }


def yardage_of(program: Program) -> YardageReport:
    """Work the whole year out.  ProgramError names what cannot be worked out."""
    stored = Program.objects.select_related("quilt").get(pk=program.pk)
    work = work_of(stored)
    found = []
    for colorway in read_colorways(stored):
        packed = packets(stored, work, colorway)
        found.append(ColorwayYear(colorway=colorway, packets=packed, year=year_of(packed)))
    agrees = reconciles(work, stored.quilt, [each.packets for each in found])
    return YardageReport(program=stored, colorways=tuple(found), reconciles=agrees)


def _colorway_data(each: ColorwayYear) -> dict[str, Any]:
    return {
        "name": each.colorway.name,
        "installments": [
            {"number": packet.number, "lines": [_line_data(line) for line in packet.lines]}
            for packet in each.packets
        ],
        "year": [
            {
                "fabric": line.fabric.name,
                "pieces": line.pieces,
                "minimum": write_inches(line.minimum),
                "suggested": write_inches(line.suggested),
            }
            for line in each.year
        ],
    }


def _line_data(line: FabricLine) -> dict[str, Any]:
    kept = {"kept_for": list(line.kept_for)} if line.kept_for else {}
    return {"letters": list(line.letters), "fabric": line.fabric.name, **line.line.as_data(), **kept}
