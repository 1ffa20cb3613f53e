"""What a sheet says of carried fabric: what to cut now and keep, and what was kept before."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from django.utils.html import format_html
from django.utils.translation import gettext as _

from bom.domain.sheets.rows import CutRow, FabricRow, cut_rows, cut_words, joined_rows
from bom.enums import PartKind
from patterns.domain.pictures import data_uri, swatch_svg
from patterns.domain.wording import fractions_html, length_text
from patterns.engine.steps import Piece

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import InstallmentWork, KeptPieces, ProgramWork
    from patterns.engine.hatches import Cloths


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepCard:
    """The card that lies with kept pieces: cut out and pinned to them.  Rows are count, size and name."""

    number: int  # of the installment that sews them
    title: str
    letter: str
    swatch: str
    name: str
    rows: tuple[tuple[SafeString, str], ...]


def keep_cards(
    mine: InstallmentWork, work: ProgramWork, cloths: Cloths, *, variant: Variant
) -> list[KeepCard]:
    """Give a card for every letter that this installment's packet holds for a later one."""
    return [
        KeepCard(
            number=kept.number,
            title=work.installment(kept.number).title,
            letter=kept.letter,
            swatch=data_uri(swatch_svg(cloths[kept.letter], width_px=56, height_px=28)),
            name=cloths[kept.letter].name,
            rows=tuple(
                (fractions_html(cut_words(piece, variant)), piece.id.replace(f" ({kept.number})", ""))
                for piece in _as_cut(kept)
            ),
        )
        for kept in mine.kept
    ]


def month_cut_rows(mine: InstallmentWork, cloths: Cloths, variant: Variant) -> list[CutRow]:
    """List what is cut this month, own and kept, and what lies ready since an earlier one."""
    kept = {piece.id: each.number for each in mine.kept for piece in _as_cut(each)}
    carried = {piece.id: number for piece, number in _carried(mine)}
    return [
        _row(row, kept=kept.get(row.label), carried=carried.get(row.label))
        for row in cut_rows(_all_pieces(mine), cloths, variant)
    ]


def carried_fabric_rows(
    mine: InstallmentWork, cloths: Cloths, *, roles: Mapping[str, str]
) -> list[FabricRow]:
    """Give the fabrics that are kept from earlier packets."""
    words = _("kept from installment {number}")
    return [
        FabricRow(
            letter=letter,
            swatch=data_uri(swatch_svg(cloths[letter], width_px=56, height_px=28)),
            name=cloths[letter].name,
            role=roles.get(letter, ""),
            in_packet=fractions_html(words.format(number=number)),
        )
        for letter, number in mine.carried.items()
    ]


def month_joined_rows(mine: InstallmentWork, variant: Variant) -> list[SafeString]:
    """Say which long pieces are cut from strips that are first joined, fresh or kept."""
    own = (each for each in mine.strips if each.fabric not in mine.carried)
    words = _(
        "{pieces}: join the {count} kept strips, {width} wide, end to end on the diagonal, then cut the "
        "pieces from the long strip, the longest first."
    )
    kept = [
        fractions_html(
            words.format(
                pieces=", ".join(each.pieces),
                count=each.count,
                width=length_text(each.width, variant.measures),
            )
        )
        for each in mine.strips
        if each.fabric in mine.carried and each.label not in each.pieces
    ]
    return [*joined_rows(own, variant), *kept]


def keeps_borders(mine: InstallmentWork, work: ProgramWork) -> bool:
    """Whether strips of a border are among what is kept: they are not cut to length before it is sewn."""
    return any(
        part.kind == PartKind.BORDER and any(piece.fabric == kept.letter for piece in part.pieces)
        for kept in mine.kept
        for part in work.installment(kept.number).parts
    )


def _row(row: CutRow, *, kept: int | None, carried: int | None) -> CutRow:
    if kept:
        return replace(row, purpose=_("keep for installment {number}").format(number=kept))
    if carried:
        words = _("kept from installment {number}:").format(number=carried)
        return replace(row, words=format_html("{} {}", words, row.words))
    return row


def _all_pieces(mine: InstallmentWork) -> dict[str, tuple[Piece, ...]]:
    found = dict(mine.pieces)
    for kept in mine.kept:
        found[kept.letter] = (*found.get(kept.letter, ()), *_as_cut(kept))
    return dict(sorted(found.items(), key=lambda item: (len(item[0]), item[0])))


def _carried(mine: InstallmentWork) -> Iterator[tuple[Piece, int]]:
    for letter, number in mine.carried.items():
        yield from ((piece, number) for piece in mine.pieces[letter] if piece.id not in mine.panels)


def _as_cut(kept: KeptPieces) -> Iterator[Piece]:
    """Give kept pieces as they are cut; long ones stay strips across the fabric until they are sewn."""
    joined = {name for strips in kept.strips for name in strips.pieces}
    yield from (piece for piece in kept.pieces if piece.id not in joined)
    for strips in kept.strips:
        yield Piece(
            id=strips.label, fabric=kept.letter, width=strips.width, length=strips.across, count=strips.count
        )
