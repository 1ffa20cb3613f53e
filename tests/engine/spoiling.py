"""What every kind of injected fault needs: a place chosen by chance, and a length a little changed."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import Any, TypeAlias

from patterns.engine.surds import parse_number, write_number

Data: TypeAlias = dict[str, Any]
Spoil: TypeAlias = Callable[[Data, Random], bool]


def operations(data: Data, *kinds: str) -> list[Data]:
    return [o for step in data["steps"] for o in step["operations"] if o["op"] in kinds]


def more(text: str, by: str) -> str:
    return write_number(parse_number(text) + parse_number(by))


def one(rows: list[Any], chance: Random) -> Any:
    return chance.choice(rows) if rows else None
