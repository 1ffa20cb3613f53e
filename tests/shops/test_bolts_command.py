"""What a shop must order, on the command line."""

from __future__ import annotations

import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from shops.domain.orders import order_of
from shops.models import FabricOffer
from tests.shops.shop_cases import frozen_program, priced_terms, three_people, with_seats

pytestmark = pytest.mark.django_db


def run(*options: str) -> str:
    out = StringIO()
    call_command("bolts", *options, stdout=out)
    return out.getvalue().strip()


def test_as_data_it_says_people_cuts_bolts_and_what_is_left() -> None:
    """45 packets of 2/3 yd need three bolts of 15 yd (case C52; public account, common practice)."""
    program = frozen_program(sold_by="24", squaring_up="0", cutting_tolerance="0")
    with_seats(priced_terms(program, end_loss="0"), harbour=41)
    said = json.loads(run("small", "sams-bolts", "--json"))
    assert (said["shop"], said["program"], said["people"]) == ("sams-bolts", "small", 41)
    binding = next(line for line in said["lines"] if line["fabric"] == "Tidewater binding")
    assert binding == {
        "fabric": "Tidewater binding",
        "cuts": [{"length": "24", "count": 45}],
        "bolts": [{"length": "540", "count": 3}],
        "left_over": "540",
        "risk": "0",
    }


def test_for_a_person_it_says_the_same_in_words() -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    words = run("small", "sams-bolts").splitlines()
    order = order_of(terms)
    assert words[:2] == ["Sam's Bolts, Small Tide", "2 people take a packet"]
    assert words[-1] == f"Together {order.bolts} bolts, CAD\u00a0{order.total} before tax and freight"
    assert len(words) == len(order.rows) + 3
    assert run("small", "sams-bolts").splitlines() == words


def test_an_unknown_program_or_shop_is_named_with_those_that_are_there() -> None:
    priced_terms(frozen_program())
    for options, field, known in (
        (("nowhere", "sams-bolts"), "program", "small"),
        (("small", "nobody"), "shop", "sams-bolts"),
    ):
        with pytest.raises(CommandError, match=rf"^{field}: .*{known}") as refused:
            run(*options)
        assert refused.value.returncode == 2


def test_bad_input_as_data_names_field_and_remedy() -> None:
    frozen_program()
    out = StringIO()
    with pytest.raises(CommandError):
        call_command("bolts", "small", "nobody", "--json", stdout=out)
    said = json.loads(out.getvalue())
    assert (said["where"], said["remedy"]) == (
        "shop",
        "There is no shop nobody that runs small. These do: none.",
    )


def test_a_bolt_that_is_too_short_is_bad_input() -> None:
    terms = with_seats(priced_terms(frozen_program()), harbour=3)
    FabricOffer.objects.filter(shop=terms.shop, fabric__name="Tidewater backing").update(bolt_length="9")
    with pytest.raises(CommandError, match=r"^bolt_length: .*Tidewater backing") as refused:
        run("small", "sams-bolts")
    assert refused.value.returncode == 2
