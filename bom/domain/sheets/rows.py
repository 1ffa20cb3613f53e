"""Tables of a sheet: fabrics, cutting, and how the pieces lie."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.sheets.large import enlarged, small_width
from patterns.domain.pictures import data_uri, strip_plan_svg, swatch_svg
from patterns.domain.strip_words import answer_words
from patterns.domain.wording import (
    fabric_text,
    form_text,
    fractions_html,
    length_text,
    names_text,
    size_text,
)
from patterns.engine.strip_cliffs import breaks_at_once

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine, Packet
    from bom.domain.sheets.variants import Variant
    from bom.domain.work import StripsAcross
    from patterns.engine.hatches import Cloths
    from patterns.engine.steps import Piece
    from patterns.engine.yardage import Allowances

STRIP = 4  # a rectangle so many times as long as it is wide is called a strip
MOST_STRIPS_SMALL = 2  # a plan of so few strips is drawn half the width of the page


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricRow:
    """A fabric of the packet: swatch, letter, name, role, and what is in the packet."""

    letter: str
    swatch: str
    name: str
    role: str
    in_packet: SafeString


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """One line of cutting; swatch and name only on a fabric's first line."""

    swatch: str
    name: str
    letter: str
    words: SafeString
    then: str
    purpose: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """How one fabric's pieces lie."""

    title: str
    bought: SafeString
    picture: str
    alt: str
    words: SafeString
    is_small: bool


def fabric_rows(
    packet: Packet, cloths: Cloths, *, roles: Mapping[str, str], variant: Variant
) -> list[FabricRow]:
    """List the fabrics, one row a letter; two letters of one fabric share what is in the packet."""
    rows: list[FabricRow] = []
    for line in packet.lines:
        for letter in line.letters:
            shared = letter != line.letters[0]
            same = _("in the piece of {letter}").format(letter=line.letters[0])
            amount = _kept(_in_packet(line, variant), line)
            rows.append(
                FabricRow(
                    letter=letter,
                    swatch=data_uri(swatch_svg(cloths[letter], width_px=56, height_px=28)),
                    name=line.fabric.name,
                    role=roles.get(letter, ""),
                    in_packet=fractions_html(same if shared else amount),
                )
            )
    return sorted(rows, key=lambda row: (len(row.letter), row.letter))


def cut_rows(pieces: Mapping[str, Iterable[Piece]], cloths: Cloths, variant: Variant) -> list[CutRow]:
    """List what is cut, fabric by fabric, largest first."""
    rows: list[CutRow] = []
    for letter, cut in pieces.items():
        for number, piece in enumerate(cut):
            rows.append(_cut_row(piece, cloths, variant, is_first=number == 0, letter=letter))
    return rows


def plan_rows(packet: Packet, cloths: Cloths, variant: Variant, *, allowances: Allowances) -> list[PlanRow]:
    """Draw the strip plan of every fabric that is cut into strips."""
    return [
        _plan_row(line, cloths, variant, allowances=allowances) for line in packet.lines if line.line.plan
    ]


def joined_rows(strips: Iterable[StripsAcross], variant: Variant) -> list[SafeString]:
    """Say which long pieces are cut from strips that are first joined; a binding's strips are not."""
    words = _(
        "{pieces}: cut {count} strips {width} wide across the fabric and join them end to end on the "
        "diagonal, then cut the pieces from the long strip, the longest first."
    )
    return [
        fractions_html(
            words.format(
                pieces=", ".join(each.pieces),
                count=each.count,
                width=length_text(each.width, variant.measures),
            )
        )
        for each in strips
        if each.label not in each.pieces
    ]


def cut_words(piece: Piece, variant: Variant) -> str:
    """Say a cut: "8 squares, 4 x 4 in", or "8 with template A3, each from a rectangle 3 x 7 in"."""
    size = size_text((piece.width, piece.length), variant.measures)
    if piece.outline:
        words = ngettext(
            "{count} with template {piece}, from a rectangle {size}",
            "{count} with template {piece}, each from a rectangle {size}",
            piece.count,
        )
        return words.format(count=piece.count, piece=piece.id, size=size)
    if piece.shape == "square":
        shape = ngettext("{count} square", "{count} squares", piece.count)
    elif piece.length >= STRIP * piece.width:
        shape = ngettext("{count} strip", "{count} strips", piece.count)
    else:
        shape = ngettext("{count} rectangle", "{count} rectangles", piece.count)
    return f"{shape.format(count=piece.count)}, {size}"


def _cut_row(piece: Piece, cloths: Cloths, variant: Variant, *, is_first: bool, letter: str) -> CutRow:
    cloth = cloths[letter]
    return CutRow(
        swatch=data_uri(swatch_svg(cloth, width_px=40, height_px=26)) if is_first else "",
        name=cloth.name if is_first else "",
        letter=letter,
        words=fractions_html(cut_words(piece, variant)),
        then=_(piece.then) if piece.then else "",
        purpose=names_text(piece.purpose),
        label=piece.id,
    )


def _in_packet(line: FabricLine, variant: Variant) -> str:
    if not line.is_length:
        return form_text(line.line, variant.measures)
    bought = fabric_text(line.line.suggested, variant.measures)
    length = length_text(line.line.suggested, variant.measures)
    return bought if bought == length else f"{bought}, {length}"


def _kept(amount: str, line: FabricLine) -> str:
    """Say of a fabric that part of it is for later installments."""
    if not line.kept_for:
        return amount
    words = _("{amount}; pieces of it are kept for installment {numbers}")
    return words.format(amount=amount, numbers=get_text_list([str(each) for each in line.kept_for], _("and")))


def _plan_row(line: FabricLine, cloths: Cloths, variant: Variant, *, allowances: Allowances) -> PlanRow:
    plan, letter = line.line.plan, line.letters[0]
    if plan is None:
        raise ValueError(f"no plan for {line.fabric}")
    small = len(plan.strips) <= MOST_STRIPS_SMALL and not variant.is_large
    width = variant.column_px // 2 - 16 if small else variant.column_px
    if variant.is_large:
        width = small_width(variant.column_px)
    picture = strip_plan_svg(plan, cloth=cloths[letter], width_px=width, units=variant.measures)
    return PlanRow(
        title=f"{', '.join(line.letters)}, {line.fabric.name}",
        bought=fractions_html(_in_packet(line, variant)),
        picture=data_uri(enlarged(picture) if variant.is_large else picture),
        alt=_("Strip plan of {letter}, {name}: {cuts}").format(
            letter=letter, name=line.fabric.name, cuts=_plan_words(line)
        ),
        words=fractions_html(_uses(line, variant, allowances)),
        is_small=small,
    )


def _plan_words(line: FabricLine) -> str:
    return ", ".join(f"{piece.count} {piece.id}" for piece in line.pieces)


def _along_words(line: FabricLine) -> str:
    """Say which way a fat quarter or eighth is cut first."""
    if line.line.strips_along:
        return _("Square it up; cut the strips along its short side.")
    return _("Square it up; cut the strips along its long side.")


def _uses(line: FabricLine, variant: Variant, allowances: Allowances) -> str:
    plan = line.line.plan
    if plan is None:
        return ""
    if not line.is_length:
        return _along_words(line)
    words = _("Uses {used} of the {given} you have.")
    if 2 * plan.needs_width > plan.usable_width:
        words = _(
            "Uses {used} of the {given} you have. Your fabric must be at least {width} wide inside the "
            "selvages."
        )
    used = words.format(
        used=length_text(plan.total_length, variant.measures),
        given=length_text(line.line.suggested, variant.measures),
        width=length_text(plan.needs_width, variant.measures),
    )
    used += " " + answer_words(plan, allowances, variant.measures)
    if breaks_at_once(plan, line.demands):
        return used + " " + _("Measure it first: half an inch less costs another strip.")
    return used
