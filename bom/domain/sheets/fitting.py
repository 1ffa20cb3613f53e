"""Text that has to fit on a line of known width, in one of our fonts.

The rule: the largest of the offered sizes at which the text fits; where it fits at none, the smallest
one, and the text is cut after the last whole letter that leaves room for an ellipsis.  A tail (a
number, say) is never cut.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING

from django.conf import settings
from fontTools.ttLib import TTFont

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

ELLIPSIS = "…"
ROOM = 1.03  # lining figures and the like are up to 3 % wider than the advances say


class Face(StrEnum):
    """A font of ours, by its file."""

    SANS = "atkinson-hyperlegible-next-latin-400-normal"
    SANS_BOLD = "atkinson-hyperlegible-next-latin-700-normal"
    BOOK = "vollkorn-latin-400-normal"
    BOOK_BLACK = "vollkorn-latin-900-normal"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A text as it is set; size in points."""

    text: str
    size: float

    @property
    def style(self) -> str:
        """Give the size as CSS, the same in every language."""
        return f"font-size:{self.size:.4g}pt"


def has_letters(text: str, face: Face) -> bool:
    """Whether the font has every letter of the text."""
    return all(ord(letter) in _advances(face) for letter in text)


def width_of(text: str, face: Face, *, size: float) -> float:
    """Give the width in points, a little more rather than less; a letter the font lacks counts as one em."""
    advances = _advances(face)
    return sum(advances.get(ord(letter), 1.0) for letter in text) * size * ROOM


def fit(text: str, *, face: Face, width: float, sizes: Sequence[float], tail: str = "") -> Fitted:
    """Shrink the text with its tail to the width in points, or cut it with an ellipsis, as stated above."""
    fits = (size for size in sizes if width_of(text + tail, face, size=size) <= width)
    size = next(fits, None)
    if size is not None:
        return Fitted(text=text + tail, size=size)
    room = width - width_of(ELLIPSIS + tail, face, size=sizes[-1])
    return Fitted(text=_cut(text, face, size=sizes[-1], room=room) + ELLIPSIS + tail, size=sizes[-1])


def _cut(text: str, face: Face, *, size: float, room: float) -> str:
    """Give the longest start of the text that takes no more room."""
    while text and width_of(text, face, size=size) > room:
        text = text[:-1]
    return text.rstrip(" ,")


@lru_cache(maxsize=len(Face))
def _advances(face: Face) -> Mapping[int, float]:
    """Give the advance of every letter in parts of the size."""
    font = TTFont(settings.BASE_DIR / "bom" / "static" / "fonts" / f"{face}.woff2")
    scale = font["head"].unitsPerEm
    return {letter: font["hmtx"][name][0] / scale for letter, name in font.getBestCmap().items()}
