"""The numbers of the chain by the names that a designer writes in words: `{cut size of A1}`.

Names are the same in every colorway; what fills `{fabric A}` or `{packet of A}` is the reader's own.
They may be written in English and in the program's language, in any mixture of capitals.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils import translation
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop as _noop

from bom.domain.packets import packet
from bom.enums import PartKind
from patterns.domain.wording import (
    day_text,
    fabric_text,
    form_text,
    length_text,
    measure_html,
    say_fact,
    size_text,
)
from patterns.engine.finishing import Backing, Binding
from patterns.engine.measure import Units
from patterns.engine.surds import Surd
from patterns.engine.yardage import FabricForm

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from bom.models import Installment
    from patterns.engine.steps import Piece, Size
    from patterns.engine.surds import Number
    from patterns.models import Colorway


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """What fills one place: a length or size in inches, a count, a day, or a name."""

    name: str
    value: Number | int | Size | date | str
    is_cloth: bool = False  # a length as one asks for it in a shop
    is_side: bool = False  # one side of a piece whose size has a place of its own

    def text(self, units: Units) -> str:
        """Say it in the reader's units and language."""
        value = self.value
        if isinstance(value, date):
            return day_text(value)
        if self.is_cloth and isinstance(value, Fraction):
            return fabric_text(value, units)
        if isinstance(value, Fraction | Surd):
            return length_text(value, units)
        return size_text(value, units) if isinstance(value, tuple) else say_fact(value, units)

    def html(self, units: Units) -> SafeString:
        """Set it for a sheet or a page; a measure never breaks over lines."""
        return measure_html(self.text(units))

    @property
    def lengths(self) -> tuple[Number, ...]:
        """Give the lengths in it, inches."""
        sides = self.value if isinstance(self.value, tuple) else (self.value,)
        return tuple(side for side in sides if isinstance(side, Fraction | Surd))


def key_of(name: str) -> str:
    """Give a name as it is looked up: capitals and spaces do not count."""
    return " ".join(name.split()).casefold()


def places_by_key(
    installment: Installment, work: ProgramWork, colorway: Colorway | None
) -> Mapping[str, Place]:
    """Give all places of an installment by English name and by name in the program's language."""
    found: dict[str, Place] = {}
    for pattern, facts, place in _all(installment, work, colorway):
        for language in dict.fromkeys(("en", installment.program.language)):
            with translation.override(language):
                found.setdefault(key_of(_(pattern).format(**facts)), place)
    return found


def places_of(installment: Installment, work: ProgramWork, colorway: Colorway | None) -> list[Place]:
    """List all places of an installment, each once."""
    return [place for _pattern, _facts, place in _all(installment, work, colorway)]


_Row = tuple[str, dict[str, str], Place]


def _row(
    pattern: str, value: Number | int | Size | date | str, *, of: str = "", is_cloth: bool = False
) -> _Row:
    facts = {"name": of}
    return pattern, facts, Place(name=pattern.format(**facts), value=value, is_cloth=is_cloth)


def _all(installment: Installment, work: ProgramWork, colorway: Colorway | None) -> Iterator[_Row]:
    mine = work.installment(installment.number)
    yield from _of_the_year(installment, work)
    yield from _of_blocks(mine)
    yield from _of_steps(mine)
    for pieces in mine.pieces.values():
        for piece in pieces:
            yield from _of_piece(piece)
    for part in mine.parts:
        yield from _of_finishing(part)
    if colorway:
        yield from _of_cloth(installment, work, colorway)


def _of_the_year(installment: Installment, work: ProgramWork) -> Iterator[_Row]:
    yield _row(_noop("seam"), installment.program.seam)
    yield _row(_noop("quilt size"), (work.top.width, work.top.height))
    yield _row(_noop("installment"), installment.number)
    yield _row(_noop("number of installments"), len(work.installments))
    for pattern, day in (
        (_noop("release day"), installment.wall_day),
        (_noop("due day"), installment.due_day),
    ):
        if day:
            yield _row(pattern, day)


def _of_blocks(mine: InstallmentWork) -> Iterator[_Row]:
    """Give the sizes of every part that is sewn, and once without its name where all blocks are alike."""
    sewn = {part.title: part for part in mine.parts if part.recipe}
    blocks = [part for part in sewn.values() if part.kind == PartKind.BLOCK]
    sizes = {part.recipe.finished for part in blocks if part.recipe}
    for part in blocks[:1] if len(sizes) == 1 else ():
        finished, unfinished = _sizes(part)
        yield _row(_noop("finished size"), finished)
        yield _row(_noop("unfinished size"), unfinished)
    for title, part in sewn.items():
        finished, unfinished = _sizes(part)
        yield _row(_noop("finished size of {name}"), finished, of=title)
        yield _row(_noop("unfinished size of {name}"), unfinished, of=title)
        if part.drawing:
            yield _row(_noop("patches of {name}"), len(part.drawing.patches), of=title)


def _sizes(part: PartWork) -> tuple[Size, Size]:
    if part.recipe is None:
        raise ValueError(f"{part.title} is not sewn")
    width, height = part.recipe.finished
    seams = 2 * part.recipe.seam
    return (width, height), (width + seams, height + seams)


def _of_steps(mine: InstallmentWork) -> Iterator[_Row]:
    """Give what each step measures, numbered as on the sheet."""
    steps = (step for part in mine.parts if part.recipe for step in part.recipe.steps)
    for number, step in enumerate(steps, 1):
        if step.check:
            yield _row(_noop("size after step {name}"), step.check, of=str(number))


def _of_piece(piece: Piece) -> Iterator[_Row]:
    yield _row(_noop("cut size of {name}"), (piece.width, piece.length), of=piece.id)
    for pattern, side in ((_noop("width of {name}"), piece.width), (_noop("length of {name}"), piece.length)):
        facts = {"name": piece.id}
        yield pattern, facts, Place(name=pattern.format(**facts), value=side, is_side=True)
    yield _row(_noop("number of {name}"), piece.count, of=piece.id)


def _of_finishing(part: PartWork) -> Iterator[_Row]:
    made = part.finishing
    if isinstance(made, Backing):
        yield _row(_noop("backing size"), (made.width, made.height))
    elif made is not None:
        yield _row(_noop("binding width"), made.strip)
        yield _row(_noop("binding length"), made.length)
        if isinstance(made, Binding):
            yield _row(_noop("binding strips"), made.strips)


def _of_cloth(installment: Installment, work: ProgramWork, colorway: Colorway) -> Iterator[_Row]:
    """Name the reader's own cloth, and say how much of it lies in the packet."""
    lines = packet(installment.program, work, colorway, installment.number).lines  # reads the cloth at once
    for row in colorway.fabrics.all():
        yield _row(_noop("fabric {name}"), row.fabric.name, of=row.letter.letter)
    for line in lines:
        is_length = line.line.form == FabricForm.LENGTH
        amount = line.line.suggested if is_length else form_text(line.line)
        for letter in line.letters:
            yield _row(_noop("packet of {name}"), amount, of=letter, is_cloth=is_length)


def lengths_known(
    places: Sequence[Place], lines: Sequence[FabricLine], allowances: Sequence[Fraction]
) -> dict[Number, str]:
    """Give every length that the sheet says, with the name of a place that fills it; "" where none does."""
    found: dict[Number, str] = {}
    for place in places:
        for length in place.lengths:
            found.setdefault(length, place.name)
    for line in lines:
        for length in (line.line.minimum, line.line.suggested, line.usable_width):
            found.setdefault(length, "")
    for length in allowances:
        found.setdefault(length, "")
    return found
