"""The cut list of an installment: its parts' pieces merged, named once, and long ones joined from strips."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from bom.domain.piece_names import names_for, size_of, with_names
from bom.domain.work import InstallmentWork, PartWork, StripsAcross
from bom.enums import PartKind
from patterns.engine.finishing import strips_joined
from patterns.engine.naming import numbered

if TYPE_CHECKING:
    from fractions import Fraction

    from bom.domain.part_making import Bench
    from patterns.engine.steps import Piece

    Pieces = dict[str, tuple[Piece, ...]]


def installment_work(number: int, title: str, *, parts: Iterable[PartWork], bench: Bench) -> InstallmentWork:
    """Put the parts of an installment on one cut list, and give every part the names of that list."""
    parts = tuple(parts)
    listed = _listed(parts)
    named = tuple(_named(part, listed) for part in parts)
    return InstallmentWork(
        number=number,
        title=title,
        parts=named,
        pieces=_by_letter(listed),
        strips=tuple(_strips(named, listed, bench)),
    )


def _listed(parts: Iterable[PartWork]) -> list[Piece]:
    groups: dict[tuple[str, Fraction, Fraction, str], list[Piece]] = {}
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
    panels, bindings = (_ids(parts, kind) for kind in (PartKind.BACKING, PartKind.BINDING))
    long: dict[tuple[str, Fraction], list[Piece]] = {}
    for piece in listed:
        across = bench.width(piece.fabric)
        if piece.id in bindings:
            yield _across([piece], across, count=piece.count)
        elif piece.length > across and piece.id not in panels:
            long.setdefault((piece.fabric, piece.width), []).append(piece)
    for (fabric, width), pieces in long.items():
        total = sum(piece.length * piece.count for piece in pieces)
        across = bench.width(fabric)
        yield _across(pieces, across, count=strips_joined(total, strip=width, usable_width=across))


def _across(pieces: list[Piece], across: Fraction, *, count: int) -> StripsAcross:
    names = tuple(piece.id for piece in pieces)
    return StripsAcross(
        label=" + ".join(names),
        fabric=pieces[0].fabric,
        width=pieces[0].width,
        across=across,
        count=count,
        pieces=names,
    )


def _ids(parts: Iterable[PartWork], kind: PartKind) -> set[str]:
    return {piece.id for part in parts if part.kind == kind for piece in part.pieces}
