"""The country of a time zone."""

from __future__ import annotations

import pytest

from bom.domain.places import country_of


@pytest.mark.parametrize(
    ("zone", "country"),
    [
        ("Europe/Oslo", "NO"),
        ("America/Halifax", "CA-NS"),  # one province with holidays of its own
        ("America/New_York", "US"),
        ("UTC", ""),
    ],
)
def test_the_country_whose_holidays_a_zone_keeps(zone: str, country: str) -> None:
    assert country_of(zone) == country
