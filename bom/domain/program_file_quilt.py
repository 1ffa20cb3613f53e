"""Quilt, placed blocks and colorways of a program file, from strict entries to records."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.program_file_cloth import SHORT, checked
from patterns.engine.blocks import letters_in
from patterns.enums import SettingKind
from patterns.models import (
    QUILT_BLOCKS,
    QUILT_BORDERS,
    QUILT_CHOICES,
    QUILT_LETTERS,
    Colorway,
    ColorwayFabric,
    PlacedBlock,
    Quilt,
    QuiltLetter,
)
from patterns.models.fields import LONGEST

if TYPE_CHECKING:
    from bom.domain.program_file_cloth import FabricKey
    from bom.domain.program_file_reading import Entry
    from patterns.models import Block, Fabric, User

    Place = tuple[int, int]

PLACE_NUMBERS = 2


def read_quilt(
    file: Entry, *, designer: User, blocks: dict[str, Block]
) -> tuple[Quilt, dict[Place, PlacedBlock]]:
    """Make the quilt with its letters and placed blocks."""
    entry = file.entry("quilt")
    quilt = _quilt(entry, designer, blocks)
    letters = _quilt_letters(entry, quilt)
    known = {letter.letter for letter in letters}
    for name in QUILT_LETTERS:
        _known_letter(entry, name, getattr(quilt, name), known=known | {""})
    placed: dict[Place, PlacedBlock] = {}
    for row in entry.entries("placed"):
        made = _placed(row, quilt, blocks=blocks, known=known)
        if (made.row, made.column) in placed:
            raise row.bad("place", _("Two blocks lie in this place. Give one another place."))
        placed[made.row, made.column] = made
    entry.done()
    QuiltLetter.objects.bulk_create(letters)
    PlacedBlock.objects.bulk_create(placed.values())
    return quilt, placed


def _quilt(entry: Entry, designer: User, blocks: dict[str, Block]) -> Quilt:
    quilt = Quilt(
        owner=designer,
        name=entry.text("name", most=SHORT),
        rows=entry.whole("rows", least=1, most=60),
        columns=entry.whole("columns", least=1, most=60),
        block_size=entry.length("block_size"),
        sashing_width=entry.length("sashing_width", default="0"),
        sashing_outside=entry.flag("sashing_outside"),
        binding_strip=entry.length("binding_strip", default="2 1/2"),
        backing_overage=entry.length("backing_overage", default="4"),
        backing_seam=entry.length("backing_seam", default="1/2"),
        **{f"{border}_width": entry.length(f"{border}_width", default="0") for border in QUILT_BORDERS},
        **{
            name: entry.choice(name, known, default=next(iter(known)))
            for name, known in QUILT_CHOICES.items()
        },
        **{name: entry.text(name, blank=True, most=3) for name in QUILT_LETTERS},
        **{name: _known_block(entry, name, blocks) for name in QUILT_BLOCKS if entry.has(name)},
    )
    for name in ("block_size", "binding_strip"):
        if not getattr(quilt, name):
            raise entry.bad(name, _("This length must be more than 0."))
    quilt.save()
    return quilt


def _quilt_letters(entry: Entry, quilt: Quilt) -> list[QuiltLetter]:
    rows = entry.entries("letters")
    letters: dict[str, QuiltLetter] = {}
    hatches: set[int] = set()
    for n, row in enumerate(rows):
        letter = row.text("letter", most=3)
        hatch = row.whole("hatch", default=n)
        if letter in letters or hatch in hatches:
            raise row.bad(
                "letter", _("Letter or hatch stands here twice. Each letter has a hatch of its own.")
            )
        letters[letter] = QuiltLetter(quilt=quilt, letter=letter, role=row.text("role", most=60), hatch=hatch)
        hatches.add(hatch)
        row.done()
    if not letters:
        raise entry.bad("letters", _("A quilt needs one fabric letter at least."))
    return list(letters.values())


def _placed(row: Entry, quilt: Quilt, *, blocks: dict[str, Block], known: set[str]) -> PlacedBlock:
    block = _known_block(row, "block", blocks)
    at_row, at_column = read_place(row.plain("place"), row, "place")
    placed = PlacedBlock(
        quilt=quilt,
        block=block,
        row=at_row,
        column=at_column,
        turn=row.whole("turn", most=3, default=0),
        own_size=row.length("own_size") if row.has("own_size") else None,
        frame_letter=row.text("frame_letter", blank=True, most=3),
        letters=row.texts("letters"),
        methods=row.texts("methods"),
    )
    row.done()
    _check_placed(row, placed, known)
    return placed


def _known_block(entry: Entry, name: str, blocks: dict[str, Block]) -> Block:
    key = entry.text(name, most=SHORT)
    if key not in blocks:
        raise entry.bad(name, _("There is no block {key} in the file. Add it under blocks."), key=key)
    return blocks[key]


def _check_placed(row: Entry, placed: PlacedBlock, known: set[str]) -> None:
    """See that the place is in the quilt, the block fits it, and its letters are known."""
    quilt = placed.quilt
    on_point = quilt.setting == SettingKind.ON_POINT
    shorter = placed.row % 2 if on_point else 0  # every second row holds one less
    if placed.row >= quilt.rows or placed.column >= quilt.columns - shorter:
        raise row.bad(
            "place",
            _("The quilt has {rows} rows and {columns} columns, counted from 0."),
            rows=quilt.rows,
            columns=quilt.columns,
        )
    _known_letter(row, "frame_letter", placed.frame_letter, known=known | {""})
    for letter in letters_in(placed.block.drawing):
        if letter not in placed.letters:
            raise row.bad(
                "letters",
                _("Letter {letter} of the block has no letter of the quilt. Add it."),
                letter=letter,
            )
    for letter, meant in placed.letters.items():
        _known_letter(row, f"letters.{letter}", meant, known=known)
    if placed.own_size is not None and not 0 < placed.own_size <= _largest(quilt):
        raise row.bad("own_size", _("Write a size above 0, at most that of the place."))


def _largest(quilt: Quilt) -> Fraction:
    """Give the largest own size of a block: rows hold blocks of any size, other settings a place's."""
    return Fraction(LONGEST) if quilt.setting == SettingKind.ROWS else quilt.block_size


def _known_letter(entry: Entry, name: str, letter: str, *, known: set[str]) -> None:
    if letter not in known:
        listed = ", ".join(sorted(known - {""}))
        raise entry.bad(
            name, _("The quilt has no letter {letter}. It has {known}."), letter=letter, known=listed
        )


def read_place(value: object, entry: Entry, key: str) -> Place:
    """Read [row, column], counted from 0."""
    pair = value if isinstance(value, list) else []
    if len(pair) != PLACE_NUMBERS or not all(type(number) is int and number >= 0 for number in pair):
        raise entry.bad(key, _("Write a place as [row, column], counted from 0."))
    row, column = pair
    return row, column


def read_colorways(file: Entry, quilt: Quilt, fabrics: dict[FabricKey, Fabric]) -> None:
    """Make the colorways; each gives every letter of the quilt a fabric of the file."""
    letters = {each.letter: each for each in quilt.letters.all()}
    slugs: set[str] = set()
    for position, entry in enumerate(file.entries("colorways")):
        slug = entry.text("slug", most=60)
        if slug in slugs:
            raise entry.bad("slug", _("There are two colorways {slug}. Rename one."), slug=slug)
        slugs.add(slug)
        colorway = Colorway(quilt=quilt, slug=slug, name=entry.text("name", most=60), position=position)
        checked(colorway, entry, "slug").save()
        chosen = entry.entry("fabrics")
        rows = [
            ColorwayFabric(colorway=colorway, letter=letter, fabric=_chosen(chosen, name, fabrics))
            for name, letter in letters.items()
        ]
        chosen.done()
        entry.done()
        ColorwayFabric.objects.bulk_create(rows)
    if not slugs:
        raise file.bad("colorways", _("A program needs one colorway at least."))


def _chosen(chosen: Entry, letter: str, fabrics: dict[FabricKey, Fabric]) -> Fabric:
    pair = chosen.plain(letter)
    fabric = (
        fabrics.get(tuple(pair)) if isinstance(pair, list) and all(isinstance(x, str) for x in pair) else None
    )
    if fabric is None:
        raise chosen.bad(letter, _("Write [collection, number] of a fabric that stands under collections."))
    return fabric
