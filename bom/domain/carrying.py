"""Carried fabric: what a later installment takes from an earlier packet is a line of that packet.

The pieces join the earlier cut list, so that they are planned, bought, cut and labelled with it; the
later packet has no line of that letter.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.work import InstallmentWork, KeptPieces
from bom.errors import ProgramError

if TYPE_CHECKING:
    from bom.domain.work import StripsAcross
    from patterns.engine.steps import Piece

Carried = Mapping[int, Mapping[str, int]]  # installment -> letter -> the earlier installment


def carry(installments: tuple[InstallmentWork, ...], carried: Carried) -> tuple[InstallmentWork, ...]:
    """Put what is carried into the packets that hold it.

    A letter that an installment does not cut carries nothing.  ProgramError where a packet is not of an
    earlier installment.
    """
    numbers = {each.number for each in installments}
    taken = {each.number: _taken(each, carried.get(each.number, {}), numbers) for each in installments}
    return tuple(
        replace(
            each,
            carried=taken[each.number],
            kept=tuple(_kept_in(each.number, installments, taken)),
        )
        for each in installments
    )


def kept_name(name: str, number: int) -> str:
    """Name a piece in the packet of another installment: "A1 (5)"."""
    return f"{name} ({number})"


def may_carry(work: InstallmentWork) -> tuple[str, ...]:
    """List the letters whose pieces an earlier packet may hold: those that are cut, not the backing."""
    return tuple(
        letter
        for letter, pieces in work.pieces.items()
        if any(piece.id not in work.panels for piece in pieces)
    )


def _taken(work: InstallmentWork, carried: Mapping[str, int], numbers: set[int]) -> dict[str, int]:
    found = {letter: number for letter, number in carried.items() if letter in may_carry(work)}
    for letter, number in found.items():
        if number not in numbers or number >= work.number:
            remedy = _(
                "Installment {number} takes letter {letter} from packet {other}, which is not earlier. "
                "Choose an earlier one."
            )
            raise ProgramError("carried", remedy, number=work.number, letter=letter, other=number)
    return found


def _kept_in(number: int, installments: tuple[InstallmentWork, ...], taken: Carried) -> Iterator[KeptPieces]:
    for later in installments:
        for letter, source in taken[later.number].items():
            if source == number:
                yield _kept(later, letter)


def _kept(later: InstallmentWork, letter: str) -> KeptPieces:
    pieces = (each for each in later.pieces[letter] if each.id not in later.panels)
    return KeptPieces(
        number=later.number,
        letter=letter,
        pieces=tuple(_uncut(each, later.number) for each in pieces),
        strips=tuple(_renamed(each, later.number) for each in later.strips if each.fabric == letter),
    )


def _uncut(piece: Piece, number: int) -> Piece:
    """Keep the square or rectangle: diagonals and templates are cut when the piece is sewn."""
    return replace(piece, id=kept_name(piece.id, number), then="", purpose="", outline=())


def _renamed(strips: StripsAcross, number: int) -> StripsAcross:
    names = tuple(kept_name(name, number) for name in strips.pieces)
    return replace(strips, label=" + ".join(names), pieces=names)
