"""A person's name, or whose preview it is, set on every page of a finished sheet, as real text in our font.

A stamp changes no tag and no page number: it is an artifact drawn over the page.  Letters that our
font does not have are never shown as boxes: `stampable` says beforehand whether a text can be set.
The font is made ready once in a process; a stamp then costs little more than reading and writing the file.
"""

from __future__ import annotations

import io
import zlib
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import pikepdf
from django.conf import settings
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name, Pdf, Stream

if TYPE_CHECKING:
    from collections.abc import Mapping

FONT = "atkinson-hyperlegible-next-latin-400-normal.woff2"
LEFT = 50  # pt from the page's edge, inside what printers reach


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a stamp is set: points of its baseline above the page's foot, below 0 under its head."""

    base: int
    size: int
    ink: str  # grey, 0 black


FOOT = Spot(base=18, size=8, ink="0.28")  # below the foot's line
HEAD = Spot(base=-20, size=11, ink="0")  # above the running head


@dataclass(frozen=True, slots=True, kw_only=True)
class _Font:
    """Our font as a stamp needs it: its file, compressed, and glyph number and advance of every letter."""

    name: str
    file: bytes
    length: int  # of the file, not compressed
    glyphs: Mapping[int, int]
    advances: tuple[int, ...]  # of every glyph, thousandths of the size
    box: tuple[int, ...]
    ascent: int
    descent: int


def stampable(text: str) -> bool:
    """Whether our font has every letter of the text."""
    return all(ord(letter) in _font().glyphs for letter in text)


def stamp(pdf: bytes, text: str, *, spot: Spot = FOOT) -> bytes:
    """Set the text on every page, a long one smaller.  The same input gives the same file.

    Raises ValueError when our font lacks a letter of it: ask `stampable` first.
    """
    if not stampable(text):
        missing = sorted({letter for letter in text if ord(letter) not in _font().glyphs})
        raise ValueError(f"no letters for {' '.join(missing)}: stamp the sign-up's number instead")
    with Pdf.open(io.BytesIO(pdf)) as document:
        font, glyphs = _embed(document, text)
        ems = _ems(text)
        for page in document.pages:
            room = float(page.mediabox[2]) - float(page.mediabox[0]) - 2 * LEFT
            size = min(spot.size, room / max(ems, 1))
            _draw(document, page, font=font, glyphs=glyphs, place=(size, _base(page, spot), spot.ink))
        out = io.BytesIO()
        document.save(out, deterministic_id=True)
    return out.getvalue()


def _base(page: pikepdf.Page, spot: Spot) -> float:
    """Give the height of the baseline on this page."""
    return spot.base if spot.base >= 0 else float(page.mediabox[3]) + spot.base


def _draw(
    document: Pdf, page: pikepdf.Page, *, font: Any, glyphs: bytes, place: tuple[float, float, str]
) -> None:
    size, base, ink = place
    name = page.add_resource(font, Name.Font, Name.StampFont)
    shown = f"<{glyphs.hex()}> Tj".encode()
    lines = (
        b"q /Artifact BMC BT",
        f"{name} {size:.4g} Tf {ink} g {LEFT} {base:.5g} Td".encode(),
        shown,
        b"ET EMC Q",
    )
    page.contents_add(Stream(document, b"q"), prepend=True)  # what turns the page's own content ends with it
    page.contents_add(Stream(document, b"\n".join((b"Q", *lines))), prepend=False)


def _embed(document: Pdf, text: str) -> tuple[Any, bytes]:
    """Embed the font; give it and the text in its glyph numbers."""
    font = _font()
    numbers = {letter: font.glyphs[ord(letter)] for letter in sorted(set(text))}
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType2,
        BaseFont=Name(f"/STAMPD+{font.name}"),
        CIDSystemInfo=Dictionary(Registry=b"Adobe", Ordering=b"Identity", Supplement=0),
        FontDescriptor=document.make_indirect(_descriptor(document, font)),
        CIDToGIDMap=Name.Identity,
        W=Array([0, Array(font.advances)]),
    )
    whole = Dictionary(
        Type=Name.Font,
        Subtype=Name.Type0,
        BaseFont=Name(f"/STAMPD+{font.name}"),
        Encoding=Name("/Identity-H"),
        DescendantFonts=Array([document.make_indirect(descendant)]),
        ToUnicode=document.make_indirect(Stream(document, _to_unicode(numbers))),
    )
    glyphs = b"".join(numbers[letter].to_bytes(2, "big") for letter in text)
    return document.make_indirect(whole), glyphs


def _descriptor(document: Pdf, font: _Font) -> Dictionary:
    file = Stream(document, font.file, Filter=Name.FlateDecode, Length1=font.length)
    return Dictionary(
        Type=Name.FontDescriptor,
        FontName=Name(f"/STAMPD+{font.name}"),
        Flags=4,
        FontBBox=Array(font.box),
        ItalicAngle=0,
        Ascent=font.ascent,
        Descent=font.descent,
        CapHeight=font.ascent,
        StemV=80,
        FontFile2=document.make_indirect(file),
    )


def _ems(text: str) -> float:
    """Measure the text in sizes of its letters."""
    font = _font()
    return sum(font.advances[font.glyphs[ord(letter)]] for letter in text) / 1000


def _to_unicode(numbers: dict[str, int]) -> bytes:
    rows = "\n".join(
        f"<{number:04x}> <{letter.encode('utf-16-be').hex()}>" for letter, number in numbers.items()
    )
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapType 2 def\n"
        "1 begincodespacerange <0000> <ffff> endcodespacerange\n"
        f"{len(numbers)} beginbfchar\n{rows}\nendbfchar\nendcmap end end"
    ).encode()


@lru_cache(maxsize=1)
def _font() -> _Font:
    """Read our font and leave out what a stamp has no use for: features, kerning, names."""
    font = TTFont(settings.BASE_DIR / "bom" / "static" / "fonts" / FONT, recalcTimestamp=False)
    letters = font.getBestCmap()
    options = Options(layout_features=[], hinting=False, recalc_timestamp=False)
    cutter = Subsetter(options)
    cutter.populate(unicodes=letters)
    cutter.subset(font)
    font.flavor = None
    out = io.BytesIO()
    font.save(out, reorderTables=False)
    scale, head, tall = 1000 / font["head"].unitsPerEm, font["head"], font["hhea"]
    order = {name: number for number, name in enumerate(font.getGlyphOrder())}
    return _Font(
        name=font["name"].getDebugName(6) or "Sheet",
        file=zlib.compress(out.getvalue(), 9),
        length=len(out.getvalue()),
        glyphs={letter: order[name] for letter, name in font.getBestCmap().items()},
        advances=tuple(round(font["hmtx"][name][0] * scale) for name in font.getGlyphOrder()),
        box=tuple(int(side * scale) for side in (head.xMin, head.yMin, head.xMax, head.yMax)),
        ascent=int(tall.ascent * scale),
        descent=int(tall.descent * scale),
    )
