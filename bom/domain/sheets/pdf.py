"""From a sheet's HTML to its PDF.  The only module that knows WeasyPrint; it runs in the worker.

The same HTML gives the same bytes.  The file is tagged (PDF/UA-1) and says how it is to be printed:
at its own size.  It is made of pictures inside the HTML and of our own style sheets and fonts: whatever
else an address names, on this machine or another, is not read.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname

import pikepdf
from django.conf import settings
from pikepdf import Name, Operator, Pdf

OURS = settings.BASE_DIR / "bom" / "static"


@dataclass(frozen=True, slots=True)
class SheetFile:
    """A finished PDF."""

    data: bytes
    pages: int


def make_pdf(html: str) -> SheetFile:
    """Set the HTML on paper and put right what checkers of PDF/UA ask for beside."""
    from weasyprint import HTML  # noqa: PLC0415 -- takes seconds and much memory; only the worker needs it

    page = HTML(string=html, base_url=OURS.as_uri() + "/", url_fetcher=_our_files())
    return finish(page.write_pdf(pdf_variant="pdf/ua-1") or b"")


def is_part_of_a_sheet(url: str) -> bool:
    """Whether a sheet may be made of this: data inside the address, or a file of our own folder."""
    parts = urlsplit(url)
    path = Path(url2pathname(parts.path)).resolve()
    return parts.scheme == "data" or (
        parts.scheme == "file" and not parts.netloc and path.is_relative_to(OURS)
    )


def _our_files() -> Any:
    """Give a reader of addresses that leaves out all that is no part of a sheet."""
    from weasyprint.urls import URLFetcher  # noqa: PLC0415 -- as above

    class OurFiles(URLFetcher):  # type: ignore[misc]  # the library has no types
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> Any:
            if not is_part_of_a_sheet(url):
                raise ValueError(f"no part of a sheet: {url[:80]}")
            return super().fetch(url, headers)

    return OurFiles(allow_redirects=False)


def finish(raw: bytes) -> SheetFile:
    """Give table heads a scope, make running heads and feet artifacts, and ask for no print scaling."""
    with Pdf.open(io.BytesIO(raw)) as document:
        owned = _owned_marks(document)
        for page in document.pages:
            _make_artifacts(document, page, owned.get(page.obj.objgen, set()))
        preferences = document.Root.get("/ViewerPreferences", pikepdf.Dictionary())
        preferences["/PrintScaling"] = Name("/None")
        document.Root["/ViewerPreferences"] = preferences
        out = io.BytesIO()
        document.save(out, deterministic_id=True)
        return SheetFile(out.getvalue(), len(document.pages))


def _owned_marks(document: Pdf) -> dict[tuple[int, int], set[int]]:
    """Walk the structure tree: which marked content of each page belongs to an element; set TH scopes."""
    owned: dict[tuple[int, int], set[int]] = {}
    todo: list[tuple[Any, Any, tuple[Any, ...]]] = [(document.Root["/StructTreeRoot"], None, ())]
    while todo:
        node, page, above = todo.pop()
        page = node.get("/Pg", page)
        if node.get("/S") == Name("/TH"):
            _set_scope(node, above)
        kids = node.get("/K", pikepdf.Array())
        for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
            if isinstance(kid, int):
                owned.setdefault(page.objgen, set()).add(kid)
            elif kid.get("/Type") == Name("/MCR"):
                owned.setdefault(kid.get("/Pg", page).objgen, set()).add(int(kid["/MCID"]))
            elif kid.get("/Type") != Name("/OBJR"):
                todo.append((kid, page, (*above, node.get("/S"))))
    return owned


def _set_scope(head: Any, above: tuple[Any, ...]) -> None:
    scope = Name("/Column") if Name("/THead") in above else Name("/Row")
    head["/A"] = pikepdf.Dictionary(O=Name("/Table"), Scope=scope)


def _make_artifacts(document: Pdf, page: pikepdf.Page, owned: set[int]) -> None:
    """Mark content that no structure element owns (running heads, feet) as artifacts."""
    rows: list[Any] = []
    for row in pikepdf.parse_content_stream(page):
        operands, operator = row.operands, row.operator
        if operator == Operator("BDC") and _mark(operands) is not None and _mark(operands) not in owned:
            rows.append(pikepdf.ContentStreamInstruction([Name("/Artifact")], Operator("BMC")))
        else:
            rows.append(row)
    page.Contents = document.make_stream(pikepdf.unparse_content_stream(rows))


def _mark(operands: Any) -> int | None:
    properties = operands[1] if len(operands) > 1 else None
    if isinstance(properties, pikepdf.Dictionary) and "/MCID" in properties:
        return int(properties["/MCID"])
    return None
