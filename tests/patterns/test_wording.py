"""Words for readers: lengths, sizes, sentences, money and days."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from fractions import Fraction

import pytest
from django.utils import translation

from patterns.domain.wording import (
    amount_text,
    day_text,
    fabric_text,
    fractions_html,
    hours_text,
    instant_text,
    length_text,
    line_text,
    measure_html,
    money_text,
    names_text,
    say,
    say_html,
    short_day_text,
    size_text,
    zone_text,
)
from patterns.engine.measure import Units
from patterns.engine.steps import Phrase
from patterns.engine.surds import root

F = Fraction

HALF = '<span class="fr"><i>1</i>⁄<b>2</b></span>'


@pytest.mark.parametrize(
    ("length", "units", "words"),
    [
        (F(5, 2), Units.INCHES, "2 1/2 in"),
        (F(1, 4), Units.INCHES, "1/4 in"),
        (12, Units.INCHES, "12 in"),
        (F(5, 2), Units.CENTIMETRES, "6.4 cm"),  # 6.35, up to the millimetre
        (F(5, 2), Units.METRIC_PURCHASE, "2 1/2 in"),  # buys by the metre, sews in inches
        (root(2), Units.INCHES, "about 1 7/16 in"),  # 1.414, up to the eighth
    ],
)
def test_length_in_plain_words(length: F | int, units: Units, words: str) -> None:
    assert length_text(length, units) == words


def test_size_says_its_unit_once() -> None:
    assert size_text((F(7, 2), F(13, 2))) == "3 1/2\u00a0×\u00a06 1/2 in"
    assert size_text((F(7, 2), F(13, 2)), Units.CENTIMETRES) == "8.9\u00a0×\u00a016.6 cm"  # 8.89, 16.51


def test_fabric_is_said_as_one_asks_for_it() -> None:
    assert fabric_text(F(27, 2)) == "3/8 yd"  # 13 1/2 in
    assert fabric_text(F(14)) == "14 in"
    assert fabric_text(F(27, 2), Units.METRIC_PURCHASE) == "0.35 m"  # 34.29 cm, up to 5 cm


def test_the_decimal_point_is_that_of_the_language() -> None:
    with translation.override("de"):
        assert length_text(F(5, 2), Units.CENTIMETRES) == "6,4 cm"


def test_sentence_gets_its_facts_with_units() -> None:
    phrase = Phrase(
        "Cut {count} {piece}, {size}, and sew {seam} from the edge.",
        {"count": 8, "piece": "A1", "size": (F(4), F(4)), "seam": F(1, 4)},
    )
    assert say(phrase) == "Cut 8 A1, 4\u00a0×\u00a04 in, and sew 1/4 in from the edge."
    assert (
        say(phrase, Units.CENTIMETRES) == "Cut 8 A1, 10.2\u00a0×\u00a010.2 cm, and sew 0.64 cm from the edge."
    )


def test_sentence_for_a_page_is_escaped_and_its_measures_built() -> None:
    phrase = Phrase("Sew {a} & {b}, {seam}.", {"a": "<b>", "b": "B1/2", "seam": F(5, 2)})
    assert say_html(phrase) == (f'Sew &lt;b&gt; &amp; B1/2, <span class="m">2\u00a0{HALF} in</span>.')


def test_a_fact_that_is_missing_stays_visible() -> None:
    assert say(Phrase("Press toward {letter}.")) == "Press toward {letter}."


def test_fractions_are_built_and_words_escaped() -> None:
    assert fractions_html("2 1/2 in <") == f"2\u00a0{HALF} in &lt;"
    assert fractions_html("11/16") == '<span class="fr"><i>11</i>⁄<b>16</b></span>'
    assert fractions_html("4/5/2027") == "4/5/2027"
    assert measure_html("1/2 in") == f'<span class="m">{HALF} in</span>'


def test_money_has_the_minor_units_of_its_currency() -> None:
    assert money_text(Decimal("2991"), "CAD") == "CAD\u00a02,991.00"
    assert money_text(Decimal("1250"), "JPY") == "JPY\u00a01,250"
    assert amount_text(Decimal("1.5"), "KWD") == "1.500"


def test_hours_are_said_in_quarters() -> None:
    assert hours_text(F(17, 4)) == "4 1/4 h"


def test_days_are_said_with_their_weekday() -> None:
    day = dt.date(2027, 3, 20)
    assert day_text(day) == "Saturday 20 March"
    assert day_text(day, year=True) == "Saturday 20 March 2027"
    assert short_day_text(day) == "Sat 20 Mar"


def test_an_instant_is_said_on_the_clock_of_the_zone() -> None:
    instant = dt.datetime(2027, 1, 16, 14, 0, tzinfo=dt.UTC)
    assert instant_text(instant, "America/Halifax") == "Sat 16 Jan, 10:00"
    assert instant_text(instant, "Australia/Perth") == "Sat 16 Jan, 22:00"
    assert instant_text(instant, "Pacific/Auckland") == "Sun 17 Jan, 03:00"


def test_zones_are_named_by_their_place() -> None:
    assert zone_text("America/Halifax") == "Halifax time"
    assert zone_text("America/New_York") == "New York time"


def test_directions_of_pressing_are_said_in_words() -> None:
    press = Phrase("Press the seams: {rows}.", {"rows": "1: ← →; 2: → →"})
    assert say(press) == "Press the seams: 1: left, right; 2: all right."


def test_inches_are_named_in_the_language_in_use() -> None:
    with translation.override("de"):
        assert length_text(F(5, 2)) == "2 1/2 Zoll"
        assert size_text((F(7, 2), F(3))) == "3 1/2\u00a0×\u00a03 Zoll"
        assert line_text(F(5, 2)) == '2 1/2"'
        assert length_text(F(5, 2), Units.CENTIMETRES) == "6,4 cm"
        assert fabric_text(F(27, 2)) == "3/8 yd"
        assert day_text(dt.date(2026, 11, 25), year=True) == "Mittwoch, 25. November 2026"
        assert day_text(dt.date(2026, 11, 25)) == "Mittwoch, 25. November"
        assert short_day_text(dt.date(2026, 11, 25), year=True) == "Mi, 25. Nov 2026"
    assert line_text(F(5, 2)) == "2 1/2 in"


def test_names_of_several_units_are_said_one_by_one() -> None:
    with translation.override("de"):
        assert names_text("flying geese, plain squares") == "Fliegende Gänse, einfache Quadrate"
        assert names_text("from strips across the fabric, joined end to end").startswith("aus Streifen")
        assert names_text("") == ""
    assert names_text("flying geese, plain squares") == "flying geese, plain squares"
