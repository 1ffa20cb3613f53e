"""The code as it is printed: read back from the page, module by module, its quiet zone too."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2
import pytest
import segno

from bom.domain.sheets.pdf import make_pdf
from shops.domain.cutting_day import cutting_day
from shops.domain.label_stock import A4, LETTER, LabelStock
from shops.domain.labels import labelled_packets
from shops.models import SignUp
from shops.web.shop_labels_page import CODE, LabelWishes, address_of, labels_html
from tests.shops.shop_cases import frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

RIGHT, TOP = 8, 4  # pt from the label's corner, as in labels.css
FINE = 8  # pixels to a point


def dark_at(pdf: bytes) -> Callable[[float, float], bool]:
    """Give a reader of the first page: whether it is dark so many points from its top left corner."""
    bitmap = pypdfium2.PdfDocument(pdf)[0].render(scale=FINE, grayscale=True)
    pixels = bitmap.to_numpy()
    return lambda x, y: int(pixels[int(y * FINE), int(x * FINE)].flat[0]) < 128


@pytest.mark.parametrize("stock", [LETTER, A4])
def test_the_printed_code_leads_to_the_page_of_the_person(stock: LabelStock) -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    terms.shop.country = "CA" if stock is LETTER else "NO"
    day = cutting_day(terms, terms.program.installments.get(number=1))
    packets = labelled_packets(day)
    dark = dark_at(make_pdf(labels_html(day, packets, edition=None, wishes=LabelWishes())).data)
    for place, name in enumerate(("Paula", "Marit")):
        address = address_of(SignUp.objects.get(packet_name=name))
        wanted = segno.make(address, error="m", micro=False, boost_error=False)
        rows = [[bool(module) for module in row] for row in wanted.matrix_iter(border=4)]
        corner = [float(stock.points(side)) for side in stock.place(place)]
        left, top = corner[0] + float(stock.points(stock.width)) - RIGHT - CODE, corner[1] + TOP
        step = CODE / len(rows)
        middles = [(number + 0.5) * step for number in range(len(rows))]
        assert [[dark(left + x, top + y) for x in middles] for y in middles] == rows
