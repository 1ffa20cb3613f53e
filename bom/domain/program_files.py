"""The program file: a whole program as one JSON document, without people and shops.

Lengths are texts, "2 1/2" in inches; in a program made in centimetres "30 cm" wherever that is exact.
Places are [row, column], counted from 0.  What is exported is imported again as an equal program.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.domain.program_file_import import FORMAT, import_program, with_first_day
from bom.enums import PartKind
from patterns.engine.measure import CENTIMETRE, write_inches
from patterns.models import QUILT_BLOCKS, QUILT_BORDERS, QUILT_CHOICES, QUILT_LETTERS

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import time
    from fractions import Fraction

    from bom.models import Installment, Program
    from patterns.models import Block, Colorway, Fabric, PlacedBlock, Quilt

    Write = Callable[[Fraction], str]

__all__ = ("FORMAT", "export_program", "import_program", "with_first_day")

DECIMALS = 1000  # centimetres are written with at most three decimals, else as inches
QUILT_WORDS = (
    "name",
    *QUILT_CHOICES,
    "rows",
    "columns",
    "sashing_outside",
    *QUILT_LETTERS,
)
QUILT_LENGTHS = (
    "block_size",
    "sashing_width",
    *(f"{border}_width" for border in QUILT_BORDERS),
    "binding_strip",
    "backing_overage",
    "backing_seam",
)
SETTING_LENGTHS = (
    "seam",
    "cutting_step",
    "half_square_over",
    "quarter_square_over",
    "squaring_up",
    "cutting_tolerance",
    "binding_tail",
    "sold_by",
)
FABRIC_WORDS = ("number", "name", "colour", "value", "direction", "weight_gsm", "fibre", "bleeds", "basic")
FABRIC_LENGTHS = ("nominal_width", "usable_width")


def export_program(program: Program) -> dict[str, Any]:
    """Write a program as plain data, ready for JSON, always in the same order."""
    write = _write_cm if program.centimetres else write_inches
    return {
        "format": FORMAT,
        "slug": program.slug,
        "title": program.title,
        "lead": program.lead,
        "studio": program.studio,
        "language": program.language,
        "zone": program.zone,
        "invented": program.invented,
        **_suggested(program),
        "settings": _settings(program, write),
        "calendar": {
            "rule": program.rule,
            "first_day": program.first_day.isoformat(),
            "release_time": _clock(program.release_time),
        },
        "blocks": _blocks(program.quilt),
        "quilt": _quilt(program.quilt, write),
        "collections": _collections(program.quilt, write),
        "colorways": [_colorway(each) for each in program.quilt.colorways.order_by("position", "slug")],
        "installments": [_installment(each) for each in program.installments.order_by("number")],
    }


def _suggested(program: Program) -> dict[str, Any]:
    """Give the designer's price, where there is one."""
    if program.suggested_monthly is None:
        return {}
    return {
        "suggested_monthly": str(program.suggested_monthly),
        "suggested_currency": program.suggested_currency,
    }


def _write_cm(length: Fraction) -> str:
    """Write "30 cm" or "0.75 cm"; a length that is no short decimal of centimetres stays in inches."""
    thousandths = length / CENTIMETRE * DECIMALS
    if thousandths.denominator != 1:
        return write_inches(length)
    whole, rest = divmod(int(thousandths), DECIMALS)
    digits = f"{rest:03}".rstrip("0")
    return f"{whole}.{digits} cm" if digits else f"{whole} cm"


def _clock(at: time) -> str:
    """Write 10:00, with seconds only where there are some."""
    return at.isoformat("minutes" if not (at.second or at.microsecond) else "auto")


def _settings(program: Program, write: Write) -> dict[str, Any]:
    return {
        "centimetres": program.centimetres,
        "house_style": program.house_style,
        "unnested": program.unnested,
        "spare_strip": program.spare_strip,
        "prewash": program.prewash,
        "shrinkage_percent": f"{program.shrinkage_percent.normalize():f}",
        **({"precuts": list(program.precuts)} if program.precuts else {}),
        **{name: write(getattr(program, name)) for name in SETTING_LENGTHS},
    }


def _blocks(quilt: Quilt) -> list[dict[str, Any]]:
    """List the drawn blocks that are placed or repeated along a border, each once, by address."""
    placed = [each.block for each in quilt.placed_blocks.select_related("block")]
    used = {each.pk: each for each in (*placed, *_border_blocks(quilt).values())}
    return [_block(each) for each in sorted(used.values(), key=_key)]


def _border_blocks(quilt: Quilt) -> dict[str, Block]:
    """Give the blocks of pieced borders by the names of their fields."""
    blocks = {name: getattr(quilt, name) for name in QUILT_BLOCKS}
    return {name: block for name, block in blocks.items() if block}


def _key(block: Block) -> str:
    """Name a block: "ohio-star" is a traditional one, "own/ohio-star" one that the designer drew."""
    return block.slug if block.owner_id is None else f"own/{block.slug}"


def _block(block: Block) -> dict[str, Any]:
    return {
        "key": _key(block),
        "name": block.name,
        "category": block.category,
        "drawing": block.drawing,
    }


def _quilt(quilt: Quilt, write: Write) -> dict[str, Any]:
    letters = quilt.letters.order_by("hatch")
    placed = quilt.placed_blocks.select_related("block").order_by("row", "column")
    return {
        **{name: getattr(quilt, name) for name in QUILT_WORDS},
        **{name: write(getattr(quilt, name)) for name in QUILT_LENGTHS},
        **{name: _key(block) for name, block in _border_blocks(quilt).items()},
        "letters": [{"letter": each.letter, "role": each.role, "hatch": each.hatch} for each in letters],
        "placed": [_placed(each, write) for each in placed],
    }


def _placed(placed: PlacedBlock, write: Write) -> dict[str, Any]:
    return {
        "block": _key(placed.block),
        "place": [placed.row, placed.column],
        "turn": placed.turn,
        "own_size": None if placed.own_size is None else write(placed.own_size),
        "frame_letter": placed.frame_letter,
        "letters": placed.letters,
        "methods": placed.methods,
    }


def _collections(quilt: Quilt, write: Write) -> list[dict[str, Any]]:
    """List the collections with the fabrics that the colorways use."""
    by_collection: dict[str, dict[str, Fabric]] = {}
    for colorway in quilt.colorways.all():
        for row in colorway.fabrics.select_related("fabric__collection"):
            by_collection.setdefault(row.fabric.collection.name, {})[row.fabric.number] = row.fabric
    return [
        {"name": name, "fabrics": [_fabric(fabrics[number], write) for number in sorted(fabrics)]}
        for name, fabrics in sorted(by_collection.items())
    ]


def _fabric(fabric: Fabric, write: Write) -> dict[str, Any]:
    return {
        **{name: getattr(fabric, name) for name in FABRIC_WORDS},
        **{name: write(getattr(fabric, name)) for name in FABRIC_LENGTHS},
    }


def _colorway(colorway: Colorway) -> dict[str, Any]:
    rows = colorway.fabrics.select_related("fabric__collection", "letter").order_by("letter__hatch")
    return {
        "slug": colorway.slug,
        "name": colorway.name,
        "fabrics": {row.letter.letter: [row.fabric.collection.name, row.fabric.number] for row in rows},
    }


def _installment(installment: Installment) -> dict[str, Any]:
    parts = installment.parts.select_related("placed_block").order_by("position", "pk")
    day, at = installment.wall_day, installment.wall_time
    return {
        "number": installment.number,
        "title": installment.title,
        "story": installment.story,
        "tips": installment.tips,
        "parts": [
            [part.placed_block.row, part.placed_block.column]
            if part.kind == PartKind.BLOCK and part.placed_block
            else part.kind
            for part in parts
        ],
        "day": day.isoformat() if day else None,
        "time": _clock(at) if at else None,
        "fold": installment.fold,
        "moved": installment.by_exception,
        **({"carried": installment.carried} if installment.carried else {}),
    }
