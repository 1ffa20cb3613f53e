"""Which documents there are, and what each of them is made of."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.domain.sheets.colouring import colouring_content
from bom.domain.sheets.documents import document_html, kept_pdf
from bom.domain.sheets.finishing_sheet import finishing_content
from bom.domain.sheets.supplies import supplies_content
from bom.domain.sheets.whole_cutting import whole_cutting_content
from bom.enums import Document

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bom.domain.sheets.documents import Wish

CONTENTS: Mapping[Document, Callable[[Wish], dict[str, Any]]] = {
    Document.SUPPLIES: supplies_content,
    Document.FINISHING: finishing_content,
    Document.CUTTING: whole_cutting_content,
    Document.COLOURING: colouring_content,
}


def said_in(kind: Document, wish: Wish) -> str:
    """Give the HTML of a document.  ProgramError where the chain cannot say it."""
    return document_html(kind, wish, CONTENTS[kind])


def document_pdf(kind: Document, wish: Wish) -> bytes:
    """Set a document, or give the file that says the same; errors as `said_in`."""
    return kept_pdf(said_in(kind, wish))
