"""Where a cut list can be taken from: a fabric of an installment's packet, or a letter of one block."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.chain import USABLE_WIDTH
from bom.domain.cloth import cloths_of
from bom.domain.packets import allowances_of, packet, piece_demands
from bom.domain.records import read_colorways
from patterns.engine.hatches import Cloth

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bom.domain.packets import FabricLine
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from bom.models import Program
    from patterns.engine.strips import Demand
    from patterns.models import Colorway

BLOCK = "block"
PLAIN = Cloth("", "#EDE6D8", 0)  # where no fabric is named
NOMINAL_WIDTH = Fraction(44)  # inches with selvages, where no fabric is named


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSource:
    """A cut list with the fabric it is cut from; inches as cut."""

    key: str
    title: str
    demands: tuple[Demand, ...]
    usable_width: Fraction = USABLE_WIDTH
    nominal_width: Fraction = NOMINAL_WIDTH
    cloth: Cloth = PLAIN


def fabric_key(number: int, colorway: Colorway, line: FabricLine) -> str:
    """Name a fabric of a packet in an address."""
    return f"{number}.{colorway.slug}.{line.fabric.pk}"


def find_source(program: Program, work: ProgramWork, key: str) -> CutSource | None:
    """Find what a key names; None where there is no such list.  ProgramError as `packet`."""
    first, _dot, rest = key.partition(".")
    named, _dot, last = rest.rpartition(".")
    if first == BLOCK:
        return _of_block(program, work, place=named, letter=last)
    colorway = next((each for each in read_colorways(program) if each.slug == named), None)
    numbers = {str(each.number): each.number for each in work.installments}
    if colorway is None or first not in numbers:
        return None
    found = _of_packet(program, work, colorway, numbers[first])
    return next((each for each in found if each.key == key), None)


def sources_of(program: Program, work: ProgramWork) -> list[tuple[InstallmentWork, list[CutSource]]]:
    """List the fabrics of every installment in the first colorway; ProgramError as `packet`."""
    colorway = next(iter(read_colorways(program)), None)
    if colorway is None:
        return []
    listed = ((each, list(_of_packet(program, work, colorway, each.number))) for each in work.installments)
    return [(each, found) for each, found in listed if found]


def block_keys(work: ProgramWork, placed: int) -> list[tuple[str, str]]:
    """Give the letters of a placed block with their keys."""
    part = next(_blocks(work, str(placed)), None)
    letters = sorted({piece.fabric for piece in part.pieces}) if part else []
    return [(letter, f"{BLOCK}.{placed}.{letter}") for letter in letters]


def _of_packet(program: Program, work: ProgramWork, colorway: Colorway, number: int) -> Iterator[CutSource]:  # noqa: PLR0917 -- the four things a packet is of, in this order everywhere
    cloths = cloths_of(colorway)
    title = work.installment(number).title
    for line in (each for each in packet(program, work, colorway, number).lines if each.demands):
        letters = ", ".join(line.letters)
        yield CutSource(
            key=fabric_key(number, colorway, line),
            title=f"{number} {title}: {letters} {line.fabric.name}",
            demands=line.demands,
            usable_width=line.usable_width
            if line.is_length
            else allowances_of(program).washed(line.fabric.usable_width),
            nominal_width=line.fabric.nominal_width,
            cloth=cloths[line.letters[0]],
        )


def _of_block(program: Program, work: ProgramWork, *, place: str, letter: str) -> CutSource | None:
    part = next(_blocks(work, place), None)
    pieces = [piece for piece in part.pieces if piece.fabric == letter] if part else []
    if part is None or not pieces:
        return None
    colorway = next(iter(read_colorways(program)), None)
    rows = [row for row in colorway.fabrics.all() if row.letter.letter == letter] if colorway else []
    fabric = rows[0].fabric if rows else None
    return CutSource(
        key=f"{BLOCK}.{place}.{letter}",
        title=_("{block}: letter {letter}").format(block=part.title, letter=letter),
        demands=tuple(piece_demands(pieces, may_turn=fabric.may_turn if fabric else True)),
        usable_width=allowances_of(program).washed(fabric.usable_width) if fabric else USABLE_WIDTH,
        nominal_width=fabric.nominal_width if fabric else NOMINAL_WIDTH,
        cloth=cloths_of(colorway)[letter] if colorway and fabric else PLAIN,
    )


def _blocks(work: ProgramWork, place: str) -> Iterator[PartWork]:
    parts = (part for month in work.installments for part in month.parts)
    return (part for part in parts if part.placed_block_id is not None and str(part.placed_block_id) == place)
