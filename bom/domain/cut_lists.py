"""The cut list of an installment: its parts' pieces merged, named once, and long ones joined from strips."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.part_making import BINDING_STRIPS, SLEEVE
from bom.domain.piece_names import Size, names_for, size_of, with_names
from bom.domain.work import InstallmentWork, PartWork, StripsAcross
from patterns.engine.finishing import Binding, strips_joined
from patterns.engine.naming import numbered
from patterns.engine.surds import ceiling

if TYPE_CHECKING:
    from bom.domain.part_making import Bench
    from patterns.engine.steps import Piece

    Pieces = dict[str, tuple[Piece, ...]]

FROM_STRIPS = "from strips across the fabric, joined end to end"


def installment_work(number: int, title: str, *, parts: Iterable[PartWork], bench: Bench) -> InstallmentWork:
    """Put the parts of an installment on one cut list, and give every part the names of that list."""
    parts = tuple(parts)
    listed = _listed(parts)
    named = tuple(_named(part, listed) for part in parts)
    strips = tuple(_strips(named, listed, bench))
    return InstallmentWork(
        number=number,
        title=title,
        parts=named,
        pieces=_by_letter(_told(listed, strips)),
        strips=strips,
    )


def _told(listed: Iterable[Piece], strips: Iterable[StripsAcross]) -> Iterator[Piece]:
    """Say of long pieces that they are cut from joined strips; a binding's strips are what they are."""
    joined = {name for each in strips for name in each.pieces}
    for piece in listed:
        is_long = piece.id in joined and piece.purpose != BINDING_STRIPS
        yield replace(piece, purpose=FROM_STRIPS) if is_long else piece


def _listed(parts: Iterable[PartWork]) -> list[Piece]:
    groups: dict[Size, list[Piece]] = {}
    for piece in (piece for part in parts for piece in part.pieces):
        groups.setdefault(size_of(piece), []).append(piece)
    return numbered(groups)


def _by_letter(listed: Iterable[Piece]) -> Pieces:
    found: Pieces = {}
    for piece in listed:
        found[piece.fabric] = (*found.get(piece.fabric, ()), piece)
    return found


def _named(part: PartWork, listed: list[Piece]) -> PartWork:
    if part.recipe is None:
        known = {size_of(piece): piece.id for piece in listed}
        return replace(part, pieces=tuple(replace(each, id=known[size_of(each)]) for each in part.pieces))
    names = names_for(part.recipe, listed)
    recipe = with_names(part.recipe, names)
    proof = part.proof and replace(
        part.proof,
        findings=tuple(
            replace(each, piece=names.get(each.piece, each.piece)) for each in part.proof.findings
        ),
    )
    return replace(part, recipe=recipe, pieces=recipe.pieces, proof=proof)


def _strips(parts: Iterable[PartWork], listed: list[Piece], bench: Bench) -> Iterator[StripsAcross]:
    """Find what is cut as strips across the width: bindings, and pieces longer than the cloth is wide."""
    whole = {name: part for part in parts if part.recipe is None for name in _ids(part)}
    long: dict[tuple[str, Fraction], list[Piece]] = {}
    for piece in listed:
        finishing = whole[piece.id].finishing if piece.id in whole else None
        if isinstance(finishing, Binding) and piece.purpose != SLEEVE:
            yield _across([piece], ceiling(finishing.length, bench.style.step), bench)
        elif finishing is None and _is_strip(piece, bench.width(piece.fabric)):
            long.setdefault((piece.fabric, piece.width), []).append(piece)
    for pieces in long.values():
        yield _across(pieces, sum((each.length * each.count for each in pieces), Fraction(0)), bench)


def _is_strip(piece: Piece, usable_width: Fraction) -> bool:
    """Say whether a piece is longer than the cloth is wide, and may be joined from strips."""
    return piece.width < usable_width < piece.length and not (piece.then or piece.outline)


def _across(pieces: list[Piece], length: Fraction, bench: Bench) -> StripsAcross:
    fabric, width = pieces[0].fabric, pieces[0].width
    across = bench.width(fabric)
    names = tuple(piece.id for piece in pieces)
    return StripsAcross(
        label=" + ".join(names),
        fabric=fabric,
        width=width,
        across=across,
        count=strips_joined(length, strip=width, usable_width=across),
        length=length,
        pieces=names,
    )


def _ids(part: PartWork) -> list[str]:
    return [piece.id for piece in part.pieces]
