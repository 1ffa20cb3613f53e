"""A designer's words on a sheet, and how much room they take."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.domain.word_pages import said_words

if TYPE_CHECKING:
    from bom.domain.sheets.variants import Variant
    from bom.domain.work import ProgramWork
    from bom.models import Installment

LONG_TITLE, LONGEST_TITLE = 14, 40  # letters; longer titles are set smaller
LONG_WORDS, LONG_LINES = 600, 8  # letters and lines; longer words stand alone


def sheet_words(installment: Installment, variant: Variant, *, work: ProgramWork) -> dict[str, Any]:
    """Give the designer's words; long ones stand alone, since what stands side by side does not break."""
    texts = {"story": installment.story, "tips": installment.tips}
    said = {
        name: said_words(installment, text, work=work, colorway=variant.colorway, units=variant.measures)
        for name, text in texts.items()
    }
    long = {f"is_long_{name}": _is_long(text) for name, text in texts.items()}
    return {"title_class": title_class(installment.title), **said, **long}


def title_class(title: str) -> str:
    """Say how small a title is set: "", "long" or "longest"."""
    if len(title) > LONGEST_TITLE:
        return "longest"
    return "long" if len(title) > LONG_TITLE else ""


def _is_long(text: str) -> bool:
    return len(text) > LONG_WORDS or text.count("\n") > LONG_LINES
