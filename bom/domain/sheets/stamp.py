"""A person's name set at the foot of every page of a finished sheet, as real text in our font.

A stamp changes no tag and no page number: it is an artifact drawn over the page.  Letters that our
font does not have are never shown as boxes: `stampable` says beforehand whether a text can be set.
"""

from __future__ import annotations

import io
from functools import lru_cache
from typing import Any

import pikepdf
from django.conf import settings
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from pikepdf import Array, Dictionary, Name, Pdf, Stream

FONT = "atkinson-hyperlegible-next-latin-400-normal.woff2"
SIZE = 8  # pt
LEFT, BOTTOM = (
    50,
    18,
)  # pt from the page's corner: below the foot, inside what printers reach


def stampable(text: str) -> bool:
    """Whether our font has every letter of the text."""
    return all(ord(letter) in _letters() for letter in text)


def stamp(pdf: bytes, text: str) -> bytes:
    """Set the text at the foot of every page, a long one smaller.  The same input gives the same file.

    Raises ValueError when our font lacks a letter of it: ask `stampable` first.
    """
    if not stampable(text):
        missing = sorted({letter for letter in text if ord(letter) not in _letters()})
        raise ValueError(f"no letters for {' '.join(missing)}: stamp the sign-up's number instead")
    with Pdf.open(io.BytesIO(pdf)) as document:
        font, glyphs = _embed(document, text)
        ems = _ems(text)
        for page in document.pages:
            room = float(page.mediabox[2]) - float(page.mediabox[0]) - 2 * LEFT
            _draw(document, page, font=font, glyphs=glyphs, size=min(SIZE, room / max(ems, 1)))
        out = io.BytesIO()
        document.save(out, deterministic_id=True)
    return out.getvalue()


def _draw(document: Pdf, page: pikepdf.Page, *, font: Any, glyphs: bytes, size: float) -> None:
    name = page.add_resource(font, Name.Font, Name.StampFont)
    shown = f"<{glyphs.hex()}> Tj".encode()
    lines = (
        b"q /Artifact BMC BT",
        f"{name} {size:.4g} Tf 0.28 g {LEFT} {BOTTOM} Td".encode(),
        shown,
        b"ET EMC Q",
    )
    page.contents_add(Stream(document, b"\n".join(lines)), prepend=False)


def _embed(document: Pdf, text: str) -> tuple[Any, bytes]:
    """Embed the letters of the text; give the font and the text in its glyph numbers."""
    font = _subset(text)
    order = {name: number for number, name in enumerate(font.getGlyphOrder())}
    numbers = {letter: order[font.getBestCmap()[ord(letter)]] for letter in sorted(set(text))}
    bare = font["name"].getDebugName(6) or "Sheet"
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType2,
        BaseFont=Name(f"/STAMPD+{bare}"),
        CIDSystemInfo=Dictionary(Registry=b"Adobe", Ordering=b"Identity", Supplement=0),
        FontDescriptor=document.make_indirect(_descriptor(document, font, bare)),
        CIDToGIDMap=Name.Identity,
        W=_widths(font),
    )
    whole = Dictionary(
        Type=Name.Font,
        Subtype=Name.Type0,
        BaseFont=Name(f"/STAMPD+{bare}"),
        Encoding=Name("/Identity-H"),
        DescendantFonts=Array([document.make_indirect(descendant)]),
        ToUnicode=document.make_indirect(Stream(document, _to_unicode(numbers))),
    )
    glyphs = b"".join(numbers[letter].to_bytes(2, "big") for letter in text)
    return document.make_indirect(whole), glyphs


def _descriptor(document: Pdf, font: TTFont, bare: str) -> Dictionary:
    scale = 1000 / font["head"].unitsPerEm
    head, tall = font["head"], font["hhea"]
    return Dictionary(
        Type=Name.FontDescriptor,
        FontName=Name(f"/STAMPD+{bare}"),
        Flags=4,
        FontBBox=Array([int(side * scale) for side in (head.xMin, head.yMin, head.xMax, head.yMax)]),
        ItalicAngle=0,
        Ascent=int(tall.ascent * scale),
        Descent=int(tall.descent * scale),
        CapHeight=int(tall.ascent * scale),
        StemV=80,
        FontFile2=document.make_indirect(Stream(document, _bytes(font))),
    )


def _widths(font: TTFont) -> Array:
    scale = 1000 / font["head"].unitsPerEm
    widths = [round(font["hmtx"][name][0] * scale) for name in font.getGlyphOrder()]
    return Array([0, Array(widths)])


def _ems(text: str) -> float:
    """Measure the text in sizes of its letters."""
    font = _font()
    names = font.getBestCmap()
    return float(sum(font["hmtx"][names[ord(letter)]][0] for letter in text) / font["head"].unitsPerEm)


def _to_unicode(numbers: dict[str, int]) -> bytes:
    rows = "\n".join(
        f"<{number:04x}> <{letter.encode('utf-16-be').hex()}>" for letter, number in numbers.items()
    )
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapType 2 def\n"
        "1 begincodespacerange <0000> <ffff> endcodespacerange\n"
        f"{len(numbers)} beginbfchar\n{rows}\nendbfchar\nendcmap end end"
    ).encode()


def _subset(text: str) -> TTFont:
    font = _font()
    options = Options()
    options.recalc_timestamp = False
    cutter = Subsetter(options)
    cutter.populate(text=text)
    cutter.subset(font)
    font.flavor = None
    return font


def _bytes(font: TTFont) -> bytes:
    out = io.BytesIO()
    font.save(out, reorderTables=False)
    return out.getvalue()


def _font() -> TTFont:
    return TTFont(settings.BASE_DIR / "bom" / "static" / "fonts" / FONT, recalcTimestamp=False)


@lru_cache(maxsize=1)
def _letters() -> frozenset[int]:
    return frozenset(_font().getBestCmap())
