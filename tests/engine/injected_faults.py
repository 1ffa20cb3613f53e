"""Kinds of fault that are put into a recipe's data by chance, to see whether virtual sewing names them.

A kind changes one thing at a random place and says whether there was such a place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random

from patterns.engine.surds import parse_number, write_number
from tests.engine.injected_joins import JOINS
from tests.engine.spoiling import Data, Spoil, more, one, operations


def trims(data: Data) -> list[Data]:
    return [gives["trim"] for gives in _given(data) if "trim" in gives]


def _given(data: Data) -> Iterator[Data]:
    for operation in operations(data, "stack", "join"):
        gives = operation["gives"]
        yield from gives if isinstance(gives, list) else [gives]


def _piece_size(by: str, *sides: str) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one(data["pieces"], chance)
        for side in sides:
            row[side] = more(row[side], by)
        return True

    return spoil


def _piece_count(by: int) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        one(data["pieces"], chance)["count"] += by
        return True

    return spoil


def _letter(data: Data, chance: Random) -> bool:
    one(data["pieces"], chance)["fabric"] = "ZZ"
    return True


def _letters_swapped(data: Data, chance: Random) -> bool:
    first = one(data["pieces"], chance)
    second = one([row for row in data["pieces"] if row["fabric"] != first["fabric"]], chance)
    if second is None:
        return False
    first["fabric"], second["fabric"] = second["fabric"], first["fabric"]
    return True


def _spare_unnamed(data: Data, chance: Random) -> bool:
    if data["spares"]:
        data["spares"].remove(one(data["spares"], chance))
        return True
    return False


def _of_trim(change: Callable[[Data, Random], bool]) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one(trims(data), chance)
        return row is not None and change(row, chance)

    return spoil


def _trim_size(row: Data, chance: Random) -> bool:
    side = chance.choice(["width", "height"])
    row[side] = more(row[side], chance.choice(["1/8", "-1/8"]))
    return True


def _trim_allowance(row: Data, _: Random) -> bool:
    row["allowance"] = more(row["allowance"], "1/8")
    return True


def _trim_beside(row: Data, chance: Random) -> bool:
    if "at" not in row["align"]:
        return False
    place = chance.choice([0, 1])
    row["align"]["at"][place] = more(row["align"]["at"][place], "1/8")
    return True


def _trim_other_diagonal(row: Data, _: Random) -> bool:
    align = row["align"]
    if align["how"] != "slide" or "along" not in align:
        return False
    (x, y), width = align["along"], row["width"]
    align |= {"along": [write_number(-parse_number(x)), y], "at": [more(width, f"-{align['at'][0]}"), "0"]}
    return True


def _trim_turned(row: Data, _: Random) -> bool:
    for field in ("along", "toward"):
        if field in row["align"]:
            row["align"][field] = [write_number(-parse_number(n)) for n in row["align"][field]]
            return True
    return False


def _trim_missing(data: Data, chance: Random) -> bool:
    row = one([gives for gives in _given(data) if "trim" in gives], chance)
    return row is not None and row.pop("trim") is not None


def _stack_line(field: str, by: str) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one([o for o in operations(data, "stack") if o[field]], chance)
        if row is None:
            return False
        line = chance.choice(row[field])
        line["offset"] = more(line["offset"], by)
        return True

    return spoil


def _stack_line_missing(field: str) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one([o for o in operations(data, "stack") if o[field]], chance)
        if row is None:
            return False
        row[field].remove(chance.choice(row[field]))
        return True

    return spoil


def _other_diagonal(data: Data, chance: Random) -> bool:
    across = {"top left": "top right", "top right": "top left"}
    across |= {"bottom right": "bottom left", "bottom left": "bottom right"}
    row = one([o for o in operations(data, "stack") if isinstance(o["cut"][0]["from"], str)], chance)
    if row is None:
        return False
    for line in row["cut"]:
        line |= {end: across[line[end]] for end in ("from", "to") if line[end] in across}
    return True


def _top_corner(data: Data, chance: Random) -> bool:
    row = one([o for o in operations(data, "stack") if o["top"][0]["corner"] != "every"], chance)
    if row is None:
        return False
    top = chance.choice(row["top"])
    corners = ["top left", "top right", "bottom right", "bottom left"]
    top["corner"] = corners[(corners.index(top["corner"]) + 1) % 4]
    return True


def _outputs_exchanged(data: Data, chance: Random) -> bool:
    rows = [o for o in operations(data, "stack") if len({g["id"] for g in o["gives"]}) > 1]
    row = one(rows, chance)
    if row is None:
        return False
    first, second = row["gives"][:2]
    first["id"], second["id"] = second["id"], first["id"]
    return True


def _of_slice(field: str, change: Callable[[str], str]) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one(operations(data, "slice"), chance)
        if row is None:
            return False
        row[field] = change(row[field])
        return True

    return spoil


KINDS: dict[str, Spoil] = {
    "cut 1/8 small": _piece_size("-1/8", "width", "length"),
    "cut 1/8 small one way": _piece_size("-1/8", "length"),
    "cut 1/8 large": _piece_size("1/8", "width", "length"),
    "one piece more": _piece_count(1),
    "one piece less": _piece_count(-1),
    "another letter": _letter,
    "letters swapped": _letters_swapped,
    "spare unnamed": _spare_unnamed,
    "trim size": _of_trim(_trim_size),
    "trim allowance": _of_trim(_trim_allowance),
    "trim beside the seam": _of_trim(_trim_beside),
    "trim on the other diagonal": _of_trim(_trim_other_diagonal),
    "trim the other way round": _of_trim(_trim_turned),
    "trim missing": _trim_missing,
    "stack seam beside": _stack_line("sew", "1/8"),
    "stack cut beside": _stack_line("cut", "1/8"),
    "not sewn": _stack_line_missing("sew"),
    "not cut apart": _stack_line_missing("cut"),
    "cut on the other diagonal": _other_diagonal,
    "laid on the next corner": _top_corner,
    "outputs exchanged": _outputs_exchanged,
    "slanting cuts 1/8 near": _of_slice("apart", lambda text: more(text, "-1/8")),
    "slanting cuts 1/8 far": _of_slice("apart", lambda text: more(text, "1/8")),
    "cut at another angle": _of_slice("angle", lambda text: {"45": "60", "60": "45"}[text]),
    "cut leaning the other way": _of_slice("lean", lambda text: {"left": "right", "right": "left"}[text]),
    **JOINS,
}
