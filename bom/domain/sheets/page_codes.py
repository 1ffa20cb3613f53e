"""A code at the foot of each page: the address at which a problem on this very page is reported.

The code is drawn into the finished file, since only then is it known how many pages there are.  It is an
artifact for who has the page read aloud: the last page has the same address as a link.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import segno
from django.conf import settings
from pikepdf import Pdf

from bom.domain.sheets.pdf import SheetFile

if TYPE_CHECKING:
    from collections.abc import Callable

    from bom.models import SheetEdition

REPORT = "r/{program}/{number}/{edition}/"  # below the address of the site; shops.urls answers there
# Points.  The code stands at the right end of the page's foot; sheet.css leaves the place empty.
SIDE, FROM_RIGHT, FROM_BOTTOM = 40.0, 50.4, 22.0
QUIET = 4  # modules (ISO/IEC 18004)


def report_address(edition: SheetEdition, page: int | None = None) -> str:
    """Give the address where a problem of an edition is reported, of one page where that is known."""
    installment = edition.installment
    path = REPORT.format(program=installment.program.slug, number=installment.number, edition=edition.number)
    address = f"{settings.SITE_URL.rstrip('/')}/{path}"
    return f"{address}?page={page}" if page else address


def with_codes(made: SheetFile, address: Callable[[int], str]) -> SheetFile:
    """Draw on each page the code of its own address; the same file and addresses give the same bytes."""
    with Pdf.open(io.BytesIO(made.data)) as document:
        for number, page in enumerate(document.pages, 1):
            left = float(page.mediabox[2]) - FROM_RIGHT - SIDE
            drawn = _drawn(address(number), left)
            page.contents_add(document.make_stream(b"q"), prepend=True)  # the page's own scale ends with it
            page.contents_add(document.make_stream(b"Q " + drawn), prepend=False)
        out = io.BytesIO()
        document.save(out, deterministic_id=True)
        return SheetFile(out.getvalue(), made.pages)


def _drawn(address: str, left: float) -> bytes:
    """Draw the code in black, each row's dark modules that touch as one rectangle."""
    rows = modules(address)
    step = SIDE / len(rows)
    boxes = [
        (left + start * step, FROM_BOTTOM + (len(rows) - 1 - at) * step, length * step)
        for at, row in enumerate(rows)
        for start, length in _runs(row)
    ]
    drawn = (f"{x:.3f} {y:.3f} {width:.3f} {step:.3f} re" for x, y, width in boxes)
    return " ".join(("/Artifact BMC q 0 g", *drawn, "f Q EMC")).encode()


def modules(address: str) -> list[list[bool]]:
    """Give the code row by row, dark or not, its quiet zone too."""
    code = segno.make(address, error="m", micro=False, boost_error=False)
    return [[bool(module) for module in row] for row in code.matrix_iter(border=QUIET)]


def _runs(row: list[bool]) -> list[tuple[int, int]]:
    """Give start and length of every run of dark modules."""
    runs: list[tuple[int, int]] = []
    for at, is_dark in enumerate(row):
        if is_dark and runs and sum(runs[-1]) == at:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        elif is_dark:
            runs.append((at, 1))
    return runs
