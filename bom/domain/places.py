"""Where a time zone lies, for the holidays that its people keep."""

from __future__ import annotations

from functools import lru_cache
from importlib import resources

# Zones that lie in one province with holidays of its own.
PROVINCES = {
    "America/Halifax": "CA-NS",
    "America/Moncton": "CA-NB",
    "America/Regina": "CA-SK",
    "America/St_Johns": "CA-NL",
    "America/Winnipeg": "CA-MB",
}


def country_of(zone: str) -> str:
    """Give the country of a zone, with its province where the zone has one: "NO", "CA-NS"; "" if unknown."""
    return PROVINCES.get(zone) or _countries().get(zone, "")


@lru_cache(maxsize=1)
def _countries() -> dict[str, str]:
    """Read zone.tab of the time zone database: country, coordinates, zone."""
    text = resources.files("tzdata").joinpath("zoneinfo", "zone.tab").read_text(encoding="utf-8")
    rows = (line.split("\t") for line in text.splitlines() if not line.startswith("#"))
    return {row[2]: row[0] for row in rows}
