"""The records of one program as the chain reads them: a constant number of queries, then no more."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bom.models import Installment, Program
from patterns.models import (
    QUILT_BLOCKS,
    QUILT_BORDERS,
    QUILT_CHOICES,
    QUILT_LETTERS,
    Block,
    Colorway,
    PlacedBlock,
    Quilt,
)

QUILT_NUMBERS = (
    *QUILT_CHOICES,
    *(name for name in QUILT_LETTERS if name != "plain_letter"),
    *(f"{border}_width" for border in QUILT_BORDERS),
    "rows",
    "columns",
    "block_size",
    "sashing_width",
    "sashing_outside",
    "binding_strip",
    "backing_overage",
    "backing_seam",
)
BLOCKS = tuple(f"quilt__{name}" for name in QUILT_BLOCKS)
SEWING_NUMBERS = (
    "centimetres",
    "seam",
    "cutting_step",
    "house_style",
    "half_square_over",
    "quarter_square_over",
    "unnested",
    "binding_tail",
)
BUYING_NUMBERS = ("squaring_up", "cutting_tolerance", "binding_tail", "spare_strip", "sold_by")
FABRIC_NUMBERS = ("number", "direction", "nominal_width", "usable_width", "weight_gsm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Records:
    """A program as stored now, whatever the caller's own copy says."""

    program: Program
    quilt: Quilt
    placed: tuple[PlacedBlock, ...]
    installments: tuple[Installment, ...]

    def numbers(self) -> dict[str, Any]:
        """Give every number of the drawing and the making, no words, no colorway: plain data to hash."""
        places: dict[int | None, tuple[int, int]] = {each.pk: (each.row, each.column) for each in self.placed}
        return {
            "program": _fields(self.program, SEWING_NUMBERS),
            "quilt": _fields(self.quilt, QUILT_NUMBERS) | _added(self.quilt),
            "placed": [_placed_numbers(each) for each in self.placed],
            "installments": [
                [
                    each.number,
                    [(part.kind, places.get(part.placed_block_id)) for part in each.parts.all()],
                    *([each.carried] if each.carried else []),
                ]
                for each in self.installments
            ],
        }

    def words(self) -> list[Any]:
        """Give the names that stand in the work beside its numbers, and the keys of its rows."""
        blocks = [(each.pk, each.block.name) for each in self.placed]
        return [self.quilt.name, blocks, [each.title for each in self.installments]]


def read_records(program: Program) -> Records:
    """Read the program anew: four queries, however many blocks and installments."""
    fresh = Program.objects.select_related("quilt", *BLOCKS).get(pk=program.pk)
    return Records(
        program=fresh,
        quilt=fresh.quilt,
        placed=tuple(fresh.quilt.placed_blocks.select_related("block").order_by("row", "column")),
        installments=tuple(fresh.installments.prefetch_related("parts").order_by("number")),
    )


def read_colorways(program: Program) -> tuple[Colorway, ...]:
    """Read the colorways with their letters and fabrics: two queries."""
    chosen = program.quilt.colorways.prefetch_related("fabrics__letter", "fabrics__fabric")
    return tuple(chosen.order_by("position", "slug"))


def colorway_numbers(colorway: Colorway) -> list[Any]:
    """Give letters and cloths of a colorway: plain data to hash."""
    return [
        (row.letter.letter, row.fabric_id, _fields(row.fabric, FABRIC_NUMBERS))
        for row in colorway.fabrics.all()
    ]


def buying_numbers(program: Program) -> dict[str, Any]:
    """Give the allowances: plain data to hash; washing and precuts only where there are any."""
    washing = {"shrinkage_percent": str(program.shrinkage_percent)} if program.prewash else {}
    precuts = {"precuts": sorted(program.precuts)} if program.precuts else {}
    return _fields(program, BUYING_NUMBERS) | washing | precuts


def _added(quilt: Quilt) -> dict[str, Any]:
    """Give plain squares and pieced borders where there are any: a quilt without keeps its hash."""
    blocks = {name: getattr(quilt, name) for name in QUILT_BLOCKS}
    drawn = {name: _drawing(block) for name, block in blocks.items() if block}
    return drawn | ({"plain_letter": quilt.plain_letter} if quilt.plain_letter else {})


def _drawing(block: Block) -> dict[str, Any]:
    return {key: value for key, value in block.drawing.items() if key != "name"}


def _placed_numbers(placed: PlacedBlock) -> dict[str, Any]:
    fields = _fields(placed, ("row", "column", "turn", "own_size", "frame_letter", "letters", "methods"))
    return {"drawing": _drawing(placed.block), **fields}


def _fields(record: Any, names: tuple[str, ...]) -> dict[str, Any]:
    return {name: getattr(record, name) for name in names}
