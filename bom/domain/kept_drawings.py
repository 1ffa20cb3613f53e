"""Drawings that a designer keeps: a new one gets an address of its own, a kept one is changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.text import slugify
from django.utils.translation import gettext as _

from bom.domain import audit
from bom.domain.changes import Change, change
from bom.domain.drawing_targets import place_values
from bom.errors import ProgramError
from patterns.domain.boards import Board, point_text
from patterns.domain.drawing_words import remedy_text
from patterns.engine.blocks import block_as_data
from patterns.engine.errors import DrawingError
from patterns.engine.subdivision import Loose
from patterns.models import Block, User

if TYPE_CHECKING:
    from datetime import datetime
    from typing import Any

    from bom.models import Program

MOST_DRAWINGS = 500  # of one designer
_SHORTEST = 70  # characters of an address, so that a number fits behind it


@transaction.atomic
def keep_new(program: Program, board: Board, *, by: User, now: datetime) -> Block:
    """Keep a board as a new block of the program's designer.

    ProgramError names the field: name where it has none, seams where one divides nothing or the drawing
    is no sound one.
    """
    drawing = _sound(board)
    owner = User.objects.select_for_update().get(pk=program.designer_id)  # so that no address is given twice
    if owner.blocks.count() >= MOST_DRAWINGS:
        raise ProgramError("name", _("You have {most} drawings: change one of them."), most=MOST_DRAWINGS)
    block = Block.objects.create(
        owner=owner,
        slug=_free_slug(owner, board.name),
        name=board.name,
        category=board.category,
        drawing=drawing,
    )
    facts = {"block": block.pk, "slug": block.slug, "patches": len(drawing["patches"])}
    audit.record("drew block", actor=by, subject=audit.subject_of(program), facts=facts, now=now)
    return block


def keep_again(program: Program, block: Block, board: Board, *, by: User, now: datetime) -> Change:
    """Keep a board as the drawing of a block of one's own, wherever it lies; errors as `keep_new`.

    FabricIsFrozen where it lies in a frozen program, this one or another of the designer's.
    """
    values = {"name": board.name, "drawing": _sound(board)}
    return change(program, f"drawing:{block.pk}", values, by=by, now=now)


def use_at(program: Program, block: Block, place: str, *, by: User, now: datetime) -> Change:
    """Put a block into a place, "row,column" counted from 0.  FabricIsFrozen after the freeze."""
    if block.drawing["grid"][0] != block.drawing["grid"][1]:
        remedy = _("{block} is not square and does not fit a square place.")
        raise ProgramError("place", remedy, block=block.name)
    return change(program, f"place:{place}", place_values(program, place, block), by=by, now=now)


def _sound(board: Board) -> dict[str, Any]:
    if not board.name.strip():
        raise ProgramError("name", _("Give the block a name."))
    for loose in board.divided().loose:
        place = point_text(loose.places[0])
        if loose.why == Loose.OPEN_END:
            remedy = _("A seam ends at {place} and meets nothing: draw it on, or take it back.")
        else:
            remedy = _("The ring of seams at {place} hangs together with nothing: tie it, or take it back.")
        raise ProgramError("seams", remedy, place=place)
    try:
        return block_as_data(board.block())
    except DrawingError as error:
        raise ProgramError("seams", remedy_text(error)) from error


def _free_slug(owner: User, name: str) -> str:
    start = slugify(name)[:_SHORTEST] or "block"
    taken = set(owner.blocks.filter(slug__startswith=start).values_list("slug", flat=True))
    numbers = range(2, MOST_DRAWINGS + 2)
    return next(slug for slug in (start, *(f"{start}-{n}" for n in numbers)) if slug not in taken)
