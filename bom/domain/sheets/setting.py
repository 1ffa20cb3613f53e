"""How a quilt is set, in facts: setting, blocks, sashing, triangles, borders, and the size of every layer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fractions_html, length_text, names_text, size_text
from patterns.engine.binding_bias import BiasBinding
from patterns.engine.finishing import Backing, Binding
from patterns.enums import BorderCorners, SettingKind
from patterns.models import QUILT_BORDERS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from fractions import Fraction

    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork, ProgramWork
    from patterns.engine.measure import Units
    from patterns.engine.surds import Number
    from patterns.models import Quilt

Fact = tuple[str, str]


def setting_facts(
    quilt: Quilt, work: ProgramWork, parts: Sequence[PartWork], *, variant: Variant
) -> list[tuple[str, SafeString]]:
    """Name everything with its size; what the quilt does not have is left out."""
    units = variant.measures
    facts = (
        *_setting(quilt, work, units),
        *_sashing(quilt, work, units),
        *_triangles(parts, units),
        *_borders(quilt, work, units),
        *_layers(parts, units),
    )
    return [(name, fractions_html(words)) for name, words in facts]


def _setting(quilt: Quilt, work: ProgramWork, units: Units) -> Iterator[Fact]:
    top = work.top
    yield _("Quilt"), _("{size} finished").format(size=size_text((top.width, top.height), units))
    rows = ngettext("{rows} row", "{rows} rows", quilt.rows).format(rows=quilt.rows)
    ways = {
        SettingKind.STRAIGHT: _("straight, {rows} of {columns}"),
        SettingKind.ON_POINT: _("on point, {rows} of {columns}, every second one a block shorter"),
        SettingKind.ROWS: _("in {rows}, each with blocks of its own size"),
    }
    words = ways[SettingKind(quilt.setting)].format(rows=rows, columns=quilt.columns)
    yield _("Set"), words
    if quilt.setting != SettingKind.ROWS:
        yield _("Block"), _both((quilt.block_size, quilt.block_size), work, units)
    if top.border is not None:
        yield _("Centre"), _both(top.centre_size, work, units)


def _sashing(quilt: Quilt, work: ProgramWork, units: Units) -> Iterator[Fact]:
    if not quilt.sashing_width:
        return
    words = _("{letter}, {finished} finished, cut {cut} wide").format(
        letter=quilt.sashing_letter, **_widths(quilt.sashing_width, work, units)
    )
    if quilt.cornerstone_letter:
        words = _("{sashing}; cornerstones {letter}").format(sashing=words, letter=quilt.cornerstone_letter)
    yield _("Sashing"), words


def _triangles(parts: Iterable[PartWork], units: Units) -> Iterator[Fact]:
    """Say from which squares the setting triangles are cut."""
    words = [
        ngettext(
            "{count} square {size}, {then}, for {purpose}",
            "{count} squares {size}, {then}, for {purpose}",
            piece.count,
        ).format(
            count=piece.count,
            size=size_text((piece.width, piece.length), units),
            then=_(piece.then),
            purpose=names_text(piece.purpose),
        )
        for part in parts
        for piece in part.pieces
        if piece.then
    ]
    if words:
        yield _("Triangles"), "; ".join(words)


def _borders(quilt: Quilt, work: ProgramWork, units: Units) -> Iterator[Fact]:
    names = (_("Border"), _("Second border"), _("Third border"))
    for name, field in zip(names, QUILT_BORDERS, strict=True):
        width, letter = getattr(quilt, f"{field}_width"), getattr(quilt, f"{field}_letter")
        block, corners = getattr(quilt, f"{field}_block"), getattr(quilt, f"{field}_corners")
        if block:
            words = _("pieced from {block}, coping strips {letter}") if letter else _("pieced from {block}")
            yield name, words.format(block=block.name, letter=letter)
        elif width and letter:
            words = _("{letter}, {finished} finished, cut {cut} wide").format(
                letter=letter, **_widths(width, work, units)
            )
            how = "" if corners == BorderCorners.BUTTED else f", {BorderCorners(corners).label}"
            yield name, f"{words}{how}"


def _layers(parts: Iterable[PartWork], units: Units) -> Iterator[Fact]:
    for part in parts:
        made = part.finishing
        if isinstance(made, Backing):
            size = size_text((made.width, made.height), units)
            more = length_text(made.overage, units)
            yield _("Backing"), _("{size}, {more} more on each side").format(size=size, more=more)
            yield _("Batting"), size
        elif isinstance(made, Binding):
            yield (
                _("Binding"),
                _("strips cut {width} wide, {length} in all").format(
                    width=length_text(made.strip, units), length=length_text(made.length, units)
                ),
            )
        elif isinstance(made, BiasBinding):
            yield (
                _("Binding"),
                _("on the bias, {width} wide, {length} in all").format(
                    width=length_text(made.strip, units), length=length_text(made.length, units)
                ),
            )
        if part.sleeve:
            yield (
                _("Sleeve"),
                _("{length} long when hemmed").format(length=length_text(part.sleeve.finished_length, units)),
            )


def _both(size: tuple[Number, Number], work: ProgramWork, units: Units) -> str:
    grown = (size[0] + 2 * work.style.seam, size[1] + 2 * work.style.seam)
    return _("{finished} finished, {unfinished} unfinished").format(
        finished=size_text(size, units), unfinished=size_text(grown, units)
    )


def _widths(width: Fraction, work: ProgramWork, units: Units) -> dict[str, str]:
    return {
        "finished": length_text(width, units),
        "cut": length_text(width + 2 * work.style.seam, units),
    }
