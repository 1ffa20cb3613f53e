"""Labels: one for each packet, each at its exact place, with nobody's data but the name and the address."""

from __future__ import annotations

import io
import subprocess
from dataclasses import replace
from decimal import Decimal
from html import unescape
from typing import TYPE_CHECKING
from urllib.parse import unquote

import pikepdf
import pypdfium2
import pytest
import segno
from django.conf import settings
from django.urls import reverse
from pdfua import validate

from bom.domain.editions import newest_edition
from bom.domain.keeping import Kept
from bom.domain.sheets.pdf import SheetFile, make_pdf
from patterns.models import Fabric
from shops.domain.cutting_day import cutting_day
from shops.domain.label_stock import A4, EACH_PAGE, LETTER, LabelStock, stock_of
from shops.domain.labels import LabelledPacket, labelled_packets
from shops.models import SignUp, Terms
from shops.web.shop_labels_page import LabelWishes, address_of, code_of, labels_html
from tests.cast import login, olga, person, sam, sams_shop, seat
from tests.shops.factories import make_edition
from tests.shops.shop_cases import frozen_program, priced_terms, three_people, with_seats

if TYPE_CHECKING:
    from pathlib import Path

    from django.test import Client

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

ADDRESS = "/shop/sams-bolts/small/cutting/1/labels.pdf"
RULE_LEFT, RULE_TOP, RULE_HEIGHT = 12, 46, 1.2  # pt from the label's corner, as in labels.css
PAPERS = {LETTER: (612, 792), A4: (595.28, 841.89)}  # pt; 8 1/2 x 11 in, and ISO 216: 210 x 297 mm


@pytest.fixture(autouse=True)
def nothing_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every test set its own files."""
    monkeypatch.setattr("shops.web.shop_labels._files", Kept(most=8))


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    return terms


def packets_of(terms: Terms, number: int = 1) -> tuple[LabelledPacket, ...]:
    return labelled_packets(cutting_day(terms, terms.program.installments.get(number=number)))


def kinds(terms: Terms, number: int = 1) -> list[str]:
    return [each.kind.value for each in packets_of(terms, number)]


def pdf_of(client: Client, query: str = "") -> bytes:
    answer = login(client, sam()).get(ADDRESS + query)
    assert answer.status_code == 200
    return bytes(answer.content)


def html_of(terms: Terms, *, fibre: bool = False, seller: bool = False, escaped: bool = False) -> str:
    day = cutting_day(terms, terms.program.installments.get(number=1))
    edition = newest_edition(day.installment)
    wishes = LabelWishes(fibre=fibre, seller=seller)
    html = labels_html(day, labelled_packets(day), edition=edition, wishes=wishes)
    return html if escaped else unescape(html)


def rules_of(pdf: bytes, page: int = 0) -> list[tuple[float, float, float, float]]:
    """Give the rule of every label, row by row: left, top and right from the page's corner, height; pt."""
    document = pypdfium2.PdfDocument(pdf)[page]
    tall = document.get_height()
    bounds = (item.get_bounds() for item in document.get_objects(max_depth=1) if item.type == 2)
    boxes = [(left, tall - top, right, top - bottom) for left, bottom, right, top in bounds]
    found = {tuple(round(side, 3) for side in box) for box in boxes if abs(box[3] - RULE_HEIGHT) < 0.02}
    wide = [(box[0], box[1], box[2], box[3]) for box in found if box[2] - box[0] > 150]
    return sorted(wide, key=lambda box: (round(box[1]), box[0]))


def test_every_packet_has_one_label(terms: Terms) -> None:
    assert kinds(terms) == ["person", "person", "first", "sample", "spare", "spare"]
    packets = packets_of(terms)
    assert [each.number for each in packets] == [1, 2, 3, 4, 5, 6]
    assert len(packets) == cutting_day(terms, terms.program.installments.get(number=1)).counts.packets
    assert [each.sign_up and each.sign_up.packet_name for each in packets][:3] == ["Paula", "Marit", None]


def test_the_packet_of_who_left_or_joins_later_is_a_spare(terms: Terms) -> None:
    with_seats(terms, harbour=3)
    seat(terms, person("Joan"), first_installment=2)
    assert kinds(terms).count("spare") == 3
    assert kinds(terms, 2).count("person") == 3
    SignUp.objects.filter(packet_name="Paula").update(left_on="2027-01-02")
    assert kinds(terms).count("spare") == 4


def test_who_is_seated_after_the_freeze_gets_a_spare_and_nobody_goes_without(terms: Terms) -> None:
    with_seats(terms, harbour=1)
    assert kinds(terms) == ["person", "person", "first", "sample", "spare"]
    for number in range(5):
        seat(terms, person(f"Late{number}"))
    assert kinds(terms).count("person") == 7
    assert kinds(terms).count("spare") == 0


def test_a_month_that_cuts_nothing_has_no_labels(client: Client, terms: Terms) -> None:
    assert packets_of(terms, 3) == ()
    address = reverse("shop-labels", args=["sams-bolts", "small", 3])
    assert login(client, sam()).get(address).status_code == 404


@pytest.mark.parametrize("country", ["US", "CA", "ca"])
def test_paper_follows_the_country_of_the_shop(country: str) -> None:
    shop = sams_shop()
    shop.country = country
    assert stock_of(shop) is LETTER
    shop.country = "NO"
    assert stock_of(shop) is A4


@pytest.mark.parametrize("stock", [LETTER, A4])
def test_ten_labels_fill_the_paper_evenly(stock: LabelStock) -> None:
    """The margins left and right are alike, and so are those above and below."""
    width, height = (Decimal(str(side)) / stock.points(Decimal(1)) for side in PAPERS[stock])
    left, top = stock.place(0)
    last_left, last_top = stock.place(EACH_PAGE - 1)
    assert abs(width - (last_left + stock.width) - left) < Decimal("0.01")
    assert abs(height - (last_top + stock.height) - top) < Decimal("0.01")
    assert stock.place(EACH_PAGE) == (left, top)


@pytest.mark.parametrize("stock", [LETTER, A4])
def test_labels_lie_at_their_places_on_every_page(client: Client, terms: Terms, stock: LabelStock) -> None:
    for number in range(7):
        seat(terms, person(f"Seat{number}"))
    type(terms.shop).objects.update(country="CA" if stock is LETTER else "NO")
    pdf = pdf_of(client)
    document = pypdfium2.PdfDocument(pdf)
    assert [page.get_size() for page in document] == [pytest.approx(PAPERS[stock], abs=0.01)] * 2
    assert [len(rules_of(pdf, page)) for page in (0, 1)] == [10, 3]
    for page in (0, 1):
        for index, (left, top, right, _height) in enumerate(rules_of(pdf, page)):
            corner = [float(stock.points(side)) for side in stock.place(index)]
            assert (left, top) == pytest.approx((corner[0] + RULE_LEFT, corner[1] + RULE_TOP), abs=0.02)
            assert right < corner[0] + float(stock.points(stock.width))


@pytest.mark.parametrize("country", ["CA", "NO"])
def test_nothing_leaves_its_label_however_long(client: Client, terms: Terms, country: str) -> None:
    long = "Featherstonehaugh of the very long harbour wall and of all its daughters"
    type(terms.shop).objects.update(country=country, name=long)
    terms.program.installments.filter(number=1).update(title=long)
    SignUp.objects.filter(packet_name="Paula").update(packet_name=long[:60], number=137)
    Fabric.objects.update(name=long, fibre=long)
    pdf = pdf_of(client, "?fibre=on&seller=on")
    stock, page = stock_of(sams_shop()), pypdfium2.PdfDocument(pdf)[0]
    places = [[float(stock.points(side)) for side in stock.place(index)] for index in range(EACH_PAGE)]
    wide, tall = float(stock.points(stock.width)), float(stock.points(stock.height))
    for item in page.get_objects(max_depth=1):
        left, bottom, right, top = item.get_bounds()
        from_top = page.get_height() - top, page.get_height() - bottom
        assert any(
            x <= left and right <= x + wide and y <= from_top[0] and from_top[1] <= y + tall
            for x, y in places
        ), item.get_bounds()
    assert "…, 137" in html_of(Terms.objects.get())


def test_a_label_says_all_that_a_bag_needs(terms: Terms) -> None:
    make_edition(terms.program.installments.get(number=1), 2)
    Fabric.objects.update(fibre="100 % cotton")
    plain = html_of(terms)
    for words in ("First Light", "Paula, 1", "Marit, 2", "packet 6 of 6", "sheet edition 2", "Harbour"):
        assert words in plain
    for words in ("First packet", "For the window", "Spare", "Tidewater star", "your sheet"):
        assert words in plain
    assert plain.count('class="code"') == 2  # only a person has a sheet
    assert "Tove" not in plain  # takes the sheet only
    assert "100 % cotton" not in plain and "Sam's Bolts" not in plain
    wished = html_of(terms, fibre=True, seller=True)
    assert "100 % cotton" in wished and "Sam's Bolts" in wished


def test_letters_outside_our_fonts_give_way_to_the_number(
    client: Client, terms: Terms, tmp_path: Path
) -> None:
    SignUp.objects.filter(packet_name="Marit").update(packet_name="Zażółć 花子")
    terms.program.installments.filter(number=1).update(title="Москва")
    Fabric.objects.filter(name="Tidewater star").update(name="Łódź")
    html = html_of(terms)
    assert "Seat 2" in html
    assert not any(words in html for words in ("Za", "花", ">Москва", "Łódź"))
    path = tmp_path / "labels.pdf"
    path.write_bytes(pdf_of(client))
    rows = subprocess.run(["pdffonts", path], capture_output=True, text=True, check=True).stdout
    fonts = [row.split()[0] for row in rows.splitlines()[2:]]
    assert len(fonts) == 3
    assert [font for font in fonts if "Atkinson" not in font and "Vollkorn" not in font] == []
    assert list(validate(str(path)).findings) == []


def test_more_fabrics_than_have_room_are_counted(terms: Terms) -> None:
    day = cutting_day(terms, terms.program.installments.get(number=1))
    packets = [replace(each, lines=each.lines * 4) for each in labelled_packets(day)]
    html = labels_html(day, packets, edition=None, wishes=LabelWishes())
    assert html.count("and 4 more fabrics: see the sheet") == len(packets)
    assert html.count("<tr") == 8 * len(packets)


def test_a_fabric_of_several_letters_names_them(terms: Terms) -> None:
    day = cutting_day(terms, terms.program.installments.get(number=1))
    lines = tuple(replace(line, letters=("A", "C")) for line in labelled_packets(day)[0].lines[:1])
    packets = [replace(each, lines=lines) for each in labelled_packets(day)]
    assert "(A, C)" in labels_html(day, packets, edition=None, wishes=LabelWishes())


def test_the_same_labels_are_the_same_bytes_tagged_and_not_scaled(client: Client, terms: Terms) -> None:
    first = pdf_of(client)
    assert make_pdf(html_of(terms, escaped=True)).data == first
    with pikepdf.open(io.BytesIO(first)) as document:
        assert document.Root.MarkInfo.Marked
        assert document.Root.ViewerPreferences.PrintScaling == "/None"


def test_labels_that_were_set_are_not_set_again(
    client: Client, terms: Terms, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("shops.web.shop_labels.make_pdf", lambda html: SheetFile(html.encode(), 1))
    first = pdf_of(client)
    monkeypatch.setattr("shops.web.shop_labels.make_pdf", lambda html: SheetFile(b"again", 1))
    assert pdf_of(client) == first
    SignUp.objects.filter(packet_name="Paula").update(packet_name="Paulina")
    assert pdf_of(client) == b"again"


def test_a_code_holds_the_address_of_the_sign_up_with_four_modules_of_quiet(terms: Terms) -> None:
    paula = SignUp.objects.get(packet_name="Paula")
    assert address_of(paula) == f"{settings.SITE_URL}/my/{paula.pk}/"
    wanted = segno.make(address_of(paula), error="m", micro=False, boost_error=False)
    side = wanted.symbol_size(border=0)[0] + 2 * 4  # ISO/IEC 18004: four modules of quiet on each side
    drawn = unquote(code_of(paula))
    assert f'width="{side}" height="{side}"' in drawn.replace("'", '"')
    assert "Paula" not in drawn and "example.org" not in drawn


def test_who_works_in_the_shop_and_nobody_else(client: Client, terms: Terms) -> None:
    asked = client.get(ADDRESS)
    assert asked.status_code == 302
    assert asked["Location"].startswith(reverse("sign-in"))
    for outsider in (olga(), terms.program.designer, person("Paula")):
        assert login(client, outsider).get(ADDRESS).status_code == 404
    answer = login(client, sam()).get(ADDRESS)
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Cache-Control"] == "private, no-store"
    assert client.post(ADDRESS).status_code == 405


def test_the_page_offers_as_many_labels_as_there_are_packets(client: Client, terms: Terms) -> None:
    page = login(client, sam()).get(reverse("shop-cutting", args=["sams-bolts", "small", 1]))
    assert "Print 6 labels" in page.content.decode()
    assert ADDRESS in page.content.decode()


def test_the_labels_cost_the_same_queries_for_more_people(  # noqa: PLR0917 -- fixtures
    client: Client, terms: Terms, django_assert_max_num_queries: object, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The program's own rows, the session and the day: nothing for each person."""
    monkeypatch.setattr("shops.web.shop_labels.make_pdf", lambda html: SheetFile(html.encode(), 1))
    counts = []
    for _round in range(2):
        login(client, sam()).get(ADDRESS)  # what is worked out once is kept
        with django_assert_max_num_queries(60) as made:  # type: ignore[operator]  # a fixture without types
            client.get(ADDRESS)
        counts.append(len(made))
        for number in range(6):
            seat(terms, person(f"More{number}"))
    assert counts[0] == counts[1]
