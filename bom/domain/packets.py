"""Packets: what fabric one participant gets for one installment in one colorway."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from django.db.models import prefetch_related_objects
from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import write_inches
from patterns.engine.precut_sizes import FAT_EIGHTH, FAT_QUARTER
from patterns.engine.strips import Demand
from patterns.engine.surds import ceiling
from patterns.engine.yardage import Allowances, FabricForm, PacketLine, length_line, packet_line

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from bom.domain.work import InstallmentWork, ProgramWork, StripsAcross
    from bom.models import Program
    from patterns.engine.steps import Piece
    from patterns.models import Colorway, Fabric

SMALL_FORMS = {FAT_QUARTER.name: FabricForm.FAT_QUARTER, FAT_EIGHTH.name: FabricForm.FAT_EIGHTH}
SQUARE_METRES = Fraction(254, 10_000) ** 2  # in a square inch, exactly
GRAM = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricLine:
    """One fabric of a packet: planned and packed by fabric, labelled by letter.

    `pieces` keep the names of their letters (A1, B1).  `demands` is what the strip plan was asked
    for: the same pieces, save that what is joined from `strips` is asked for as strips across the
    width.  `line` holds form, minimum and suggested inches, what is bought, and the plan.  Weight is
    of the suggested cut at nominal width, grams rounded up.  An `is_backing` line is lengths of
    fabric, never cut into strips, beside the packet.  `kept_for` numbers the later installments whose
    pieces it holds too.
    """

    fabric: Fabric
    letters: tuple[str, ...]
    pieces: tuple[Piece, ...]
    demands: tuple[Demand, ...]
    strips: tuple[StripsAcross, ...]
    line: PacketLine
    weight_grams: int
    is_backing: bool = False
    kept_for: tuple[int, ...] = ()

    @property
    def usable_width(self) -> Fraction:
        """Give the inches that strips are planned on: as washed, where the fabric is washed first."""
        return self.line.plan.usable_width if self.line.plan else self.fabric.usable_width

    @property
    def is_length(self) -> bool:
        """Whether it is a length of full width, no fat quarter or eighth."""
        return self.line.form == FabricForm.LENGTH

    @property
    def laid(self) -> tuple[Demand, ...]:
        """Give the demands as the plan lays them: the other way where its strips run along the fabric."""
        if not self.line.strips_along:
            return self.demands
        return tuple(replace(each, width=each.length, length=each.width) for each in self.demands)


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """The packet of one installment in one colorway, its fabrics in the order of their first letter.

    `is_finishing`: it holds no block, only sashing, borders, binding or backing.
    """

    number: int
    colorway: Colorway
    lines: tuple[FabricLine, ...]
    is_finishing: bool = False

    @property
    def weight_grams(self) -> int:
        """Sum the fabrics; paper and bag not included."""
        return sum(line.weight_grams for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class YearLine:
    """One fabric over all installments: pieces, and inches of the packets' lines added up.

    `finishing` is how much of `suggested` lies in installments without a block.
    """

    fabric: Fabric
    letters: tuple[str, ...]
    pieces: int
    minimum: Fraction
    suggested: Fraction
    finishing: Fraction = Fraction(0)


def packet(program: Program, work: ProgramWork, colorway: Colorway, number: int) -> Packet:  # noqa: PLR0917 -- the four things a packet is of, in this order everywhere
    """Work out one packet; strip plans are kept by what they were asked for.

    Where the fabric is washed first, strips are planned on what washing leaves of its width.

    ProgramError names the letter that has no fabric in this colorway, or the piece that no strip of
    its fabric can hold.  KeyError when there is no such installment.
    """
    return packet_of(program, work.installment(number), colorway)


def packet_of(program: Program, installment: InstallmentWork, colorway: Colorway) -> Packet:
    """Work out the packet of an installment's work, as `packet` does."""
    cloths = cloths_of(colorway)
    return Packet(
        number=installment.number,
        colorway=colorway,
        lines=tuple(_lines(installment, cloths, allowances=allowances_of(program), forms=forms_of(program))),
        is_finishing=installment.is_finishing,
    )


def packets(program: Program, work: ProgramWork, colorway: Colorway) -> tuple[Packet, ...]:
    """Work out the packet of every installment, in order."""
    return tuple(packet(program, work, colorway, each.number) for each in work.installments)


def year(program: Program, work: ProgramWork, colorway: Colorway) -> tuple[YearLine, ...]:
    """Add the packets up, fabric by fabric."""
    return year_of(packets(program, work, colorway))


def year_of(year_packets: Iterable[Packet]) -> tuple[YearLine, ...]:
    """Add packets of one colorway up, fabric by fabric, in the order of their first letter."""
    found: dict[int, list[FabricLine]] = {}
    finishing: dict[int, Fraction] = {}
    for each in year_packets:
        for line in each.lines:
            key = line.fabric.pk
            found.setdefault(key, []).append(line)
            if each.is_finishing:
                finishing[key] = finishing.get(key, Fraction(0)) + line.line.suggested
    added = [_added(lines, finishing.get(key, Fraction(0))) for key, lines in found.items()]
    return tuple(sorted(added, key=lambda line: _order(line.letters[0])))


def allowances_of(program: Program) -> Allowances:
    """Give the program's allowances; they stand on every sheet."""
    return Allowances(
        squaring_up=program.squaring_up,
        cutting_tolerance=program.cutting_tolerance,
        shrinkage=Fraction(program.shrinkage_percent) / 100 if program.prewash else Fraction(0),
        spare_strip=program.spare_strip,
        sold_by=program.sold_by,
    )


def forms_of(program: Program) -> tuple[FabricForm, ...]:
    """Give the forms that a packet may hold; of those that take as much cloth, a length."""
    small = (form for name, form in SMALL_FORMS.items() if name in program.precuts)
    return (FabricForm.LENGTH, *small)


def cloths_of(colorway: Colorway) -> dict[str, Fabric]:
    """Give the fabric of every letter of a colorway."""
    prefetch_related_objects([colorway], "fabrics__letter", "fabrics__fabric")
    return {row.letter.letter: row.fabric for row in colorway.fabrics.all()}


def _lines(
    installment: InstallmentWork,
    cloths: dict[str, Fabric],
    *,
    allowances: Allowances,
    forms: tuple[FabricForm, ...],
) -> Iterator[FabricLine]:
    packed = installment.packed
    for letters in _shared(packed, cloths):
        pieces = [piece for letter in letters for piece in packed[letter]]
        fabric = cloths[letters[0]]
        panels = tuple(piece for piece in pieces if piece.id in installment.panels)
        cut = tuple(piece for piece in pieces if piece.id not in installment.panels)
        if cut:
            strips = tuple(each for each in installment.packed_strips if each.fabric in letters)
            line = _cut_line(fabric, cut, strips=strips, allowances=allowances, forms=forms)
            yield replace(line, kept_for=_kept_for(installment, letters))
        if panels:
            yield _backing_line(fabric, panels, allowances)


def _kept_for(installment: InstallmentWork, letters: tuple[str, ...]) -> tuple[int, ...]:
    return tuple(sorted({each.number for each in installment.kept if each.letter in letters}))


def _shared(letters: Iterable[str], cloths: dict[str, Fabric]) -> list[tuple[str, ...]]:
    """Put letters that are one fabric together."""
    found: dict[int, tuple[str, ...]] = {}
    for letter in letters:
        if letter not in cloths:
            remedy = _("Letter {letter} has no fabric in this colorway. Choose one.")
            raise ProgramError("fabrics", remedy, letter=letter)
        key = cloths[letter].pk
        found[key] = (*found.get(key, ()), letter)
    return list(found.values())


def _cut_line(
    fabric: Fabric,
    pieces: tuple[Piece, ...],
    *,
    strips: tuple[StripsAcross, ...],
    allowances: Allowances,
    forms: tuple[FabricForm, ...],
) -> FabricLine:
    demands = tuple(_demands(pieces, strips, may_turn=fabric.may_turn))
    try:
        usable_width = allowances.washed(fabric.usable_width)
        line = packet_line(demands, usable_width=usable_width, allowances=allowances, forms=forms)
    except PieceWiderThanFabric as error:
        remedy = _(
            "Piece {piece} is {width} in across and {fabric} gives {usable} in. Make the part smaller."
        )
        facts = {"piece": error.label, "fabric": fabric.name}
        width, usable = write_inches(error.width), write_inches(error.usable_width)
        raise ProgramError("usable_width", remedy, width=width, usable=usable, **facts) from error
    return _line(fabric, pieces, line, demands=demands, strips=strips)


def _backing_line(fabric: Fabric, panels: tuple[Piece, ...], allowances: Allowances) -> FabricLine:
    length = sum((piece.length * piece.count for piece in panels), Fraction(0))
    return _line(fabric, panels, length_line(length, allowances=allowances), is_backing=True)


def _line(
    fabric: Fabric,
    pieces: tuple[Piece, ...],
    line: PacketLine,
    *,
    demands: tuple[Demand, ...] = (),
    strips: tuple[StripsAcross, ...] = (),
    is_backing: bool = False,
) -> FabricLine:
    return FabricLine(
        fabric=fabric,
        letters=tuple(dict.fromkeys(piece.fabric for piece in pieces)),
        pieces=pieces,
        demands=demands,
        strips=strips,
        line=line,
        weight_grams=grams(fabric, line.suggested),
        is_backing=is_backing,
    )


def grams(fabric: Fabric, length: Fraction) -> int:
    """Weigh inches of full-width fabric, from area and weight per square metre, rounded up."""
    area = length * fabric.nominal_width * SQUARE_METRES
    return int(ceiling(area * fabric.weight_gsm, GRAM))


def piece_demands(pieces: Iterable[Piece], *, may_turn: bool) -> Iterator[Demand]:
    """Ask for pieces as cut; a print that may not turn is cut with the long side across the fabric."""
    for piece in pieces:
        sides = sorted((piece.width, piece.length), reverse=not may_turn)
        yield Demand(label=piece.id, width=sides[0], length=sides[1], count=piece.count, may_turn=may_turn)


def _demands(
    pieces: Iterable[Piece], strips: tuple[StripsAcross, ...], *, may_turn: bool
) -> Iterator[Demand]:
    """Ask for pieces as cut, and for strips across the width where pieces are joined from them."""
    joined = {name for each in strips for name in each.pieces}
    yield from piece_demands((piece for piece in pieces if piece.id not in joined), may_turn=may_turn)
    for each in strips:
        yield Demand(label=each.label, width=each.across, length=each.width, count=each.count, may_turn=False)


def _added(lines: list[FabricLine], finishing: Fraction) -> YearLine:
    add: Callable[[Iterable[Fraction]], Fraction] = lambda lengths: sum(lengths, Fraction(0))  # noqa: E731 -- one sum, twice
    letters = {letter for line in lines for letter in line.letters}
    return YearLine(
        fabric=lines[0].fabric,
        letters=tuple(sorted(letters, key=_order)),
        pieces=sum(piece.count for line in lines for piece in line.pieces),
        minimum=add(line.line.minimum for line in lines),
        suggested=add(line.line.suggested for line in lines),
        finishing=finishing,
    )


def _order(letter: str) -> tuple[int, str]:
    return len(letter), letter
