"""What a drawing board changes in a program: a drawing of the designer's own, and the block of a place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.change_targets import TARGETS, Target, Values
from bom.domain.freezing import guard_change
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.blocks import letters_in
from patterns.models import Block

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from patterns.models import PlacedBlock, Quilt, User


def letters_for(quilt: Quilt, drawing: dict[str, Any], known: dict[str, str]) -> dict[str, str]:
    """Give each letter of a drawing one of the quilt's: the known one, the same, else the quilt's first."""
    of_quilt = list(quilt.letters.values_list("letter", flat=True))
    return {
        letter: known.get(letter) or (letter if letter in of_quilt else next(iter(of_quilt), letter))
        for letter in letters_in(drawing)
    }


def place_values(program: Program, place: str, block: Block) -> Values:
    """Give the values that put a block into a place: letters by name, not turned, preferred methods."""
    letters = letters_for(program.quilt, block.drawing, {})
    return {**_read_place(program, place), "block": block.pk, "turn": 0, "letters": letters, "methods": {}}


def _own(program: Program, key: str) -> Block:
    return Block.objects.get(pk=int(key), owner=program.designer)


def _read_drawing(program: Program, key: str) -> Values:
    block = _own(program, key)
    return {
        "name": block.name,
        "drawing": block.drawing,
        "letters": {str(each.pk): each.letters for each in block.placed.all()},
    }


def _write_drawing(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    block = _own(program, key)
    block.name, block.drawing = values["name"], values["drawing"]
    block.save(update_fields=("name", "drawing"))
    _letter(block.placed.select_related("quilt"), block.drawing, values.get("letters", {}))
    others = Program.objects.filter(quilt__placed_blocks__block=block).exclude(pk=program.pk).distinct()
    for other in others:
        guard_change(other, lambda: None)  # written above: what is frozen elsewhere stops it too


def _letter(placed: Iterable[PlacedBlock], drawing: dict[str, Any], kept: dict[str, Any]) -> None:
    for each in placed:
        letters = kept.get(str(each.pk)) or letters_for(each.quilt, drawing, each.letters)
        if letters != each.letters:
            each.letters = letters
            each.save(update_fields=("letters",))


def _told_drawing(program: Program, key: str) -> list[str]:
    block = _own(program, key)
    count = len(block.drawing["patches"])
    words = ngettext("{block} is kept, with {count} patch.", "{block} is kept, with {count} patches.", count)
    return [words.format(block=block.name, count=count)]


def _placed(program: Program, key: str) -> PlacedBlock:
    row, column = key.split(",")
    found = program.quilt.placed_blocks.select_related("block").filter(row=int(row), column=int(column))
    placed = found.first()
    if placed is None:
        raise ProgramError("place", _("No block lies in that place: choose another."))
    return placed


def _read_place(program: Program, key: str) -> Values:
    placed = _placed(program, key)
    return {"block": placed.block_id, **TARGETS["block"].read(program, str(placed.pk))}


def _write_place(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:
    placed = _placed(program, key)
    block = Block.objects.get(pk=values["block"])
    if block.owner_id not in {None, program.designer_id}:
        raise ProgramError("place", _("Use one of your own drawings or a traditional one."))
    placed.block = block
    placed.save(update_fields=("block",))
    TARGETS["block"].write(program, str(placed.pk), values, by=by, now=now)


def _told_place(program: Program, key: str) -> list[str]:
    placed = _placed(program, key)
    words = _("{block} lies in row {row}, column {column}.")
    return [words.format(block=placed.block.name, row=placed.row + 1, column=placed.column + 1)]


DRAWING_TARGETS: dict[str, Target] = {
    "drawing": Target(read=_read_drawing, write=_write_drawing, told=_told_drawing),
    "place": Target(read=_read_place, write=_write_place, told=_told_place),
}
