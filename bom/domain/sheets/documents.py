"""Documents beside the monthly sheets: from the same numbers, in the same look, kept by what they say."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.template.loader import render_to_string
from django.utils import translation

from bom.domain.keeping import hash_of
from bom.domain.sheets.pdf import make_pdf

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bom.domain.sheets.variants import Variant
    from bom.enums import Document
    from bom.models import Program
    from patterns.models import Colorway


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a document is of, and in which form.

    `own` names the colorway of installments in which a shop substitutes a fabric; `more` is what only
    the one who asks knows, such as the cost at a shop.
    """

    program: Program
    variant: Variant
    own: Mapping[int, Colorway] = field(default_factory=dict)
    more: Mapping[str, Any] = field(default_factory=dict)
    only: frozenset[int] | None = None  # the installments that may be told of; None: all

    def months(self) -> frozenset[int]:
        """Give the numbers of the installments that may be told of."""
        numbers = frozenset(self.program.installments.values_list("number", flat=True))
        return numbers if self.only is None else numbers & self.only

    def colorway(self, number: int) -> Colorway:
        """Give the colorway of one installment."""
        return self.own.get(number, self.variant.colorway)


def document_html(kind: Document, wish: Wish, content: Callable[[Wish], dict[str, Any]]) -> str:
    """Write the HTML of a document in its language; `content` is called in that language."""
    with translation.override(wish.variant.language):
        context = {"program": wish.program, "title": kind.label, "variant": wish.variant}
        return render_to_string(f"sheets/{kind}.html", context | content(wish) | dict(wish.more))


def kept_pdf(html: str) -> bytes:
    """Give the file of this HTML; it is set once and kept in the storage under the hash of the HTML."""
    name = f"documents/{hash_of(html)}.pdf"
    if not default_storage.exists(name):
        made = make_pdf(html).data
        default_storage.save(name, ContentFile(made))
        return made
    with default_storage.open(name, "rb") as file:
        kept: bytes = file.read()
    return kept
