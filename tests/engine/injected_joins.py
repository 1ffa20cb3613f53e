"""Faults in how parts are joined: seams, edges, rows, counts, and parts fitted to each other."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from patterns.engine.surds import parse_number, write_number
from tests.engine.spoiling import Data, Spoil, more, one, operations


def _seam_of(by: str, *kinds: str) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one([o for o in operations(data, *kinds) if isinstance(o.get("seam"), str)], chance)
        if row is None:
            return False
        row["seam"] = more(row["seam"], by)
        return True

    return spoil


def _join_edge(data: Data, chance: Random) -> bool:
    row = one(operations(data, "join"), chance)
    if row is None:
        return False
    edge = chance.choice(["a_edge", "b_edge"])
    x, y = row[edge]
    row[edge] = [write_number(-parse_number(y)), x]
    return True


def _join_end(data: Data, chance: Random) -> bool:
    row = one([o for o in operations(data, "join") if o.get("match") in ("start", "end")], chance)
    if row is None:
        return False
    row["match"] = "end" if row["match"] == "start" else "start"
    return True


def _times(by: int) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one(operations(data, "stack", "join", "rows", "fit", "across"), chance)
        if row is None:
            return False
        row["times"] += by
        return True

    return spoil


def _operation_dropped(data: Data, chance: Random) -> bool:
    step = one(data["steps"], chance)
    step["operations"].pop(chance.randrange(len(step["operations"])))
    return True


def _step_dropped(data: Data, chance: Random) -> bool:
    data["steps"].pop(chance.randrange(len(data["steps"])))
    for number, step in enumerate(data["steps"], start=1):
        step["number"] = number
    return True


def _part_turned(data: Data, chance: Random) -> bool:
    row = one(operations(data, "rows"), chance)
    if row is None:
        return False
    cell = chance.choice(chance.choice(row["rows"]))
    cell[1] = (cell[1] + chance.choice([1, 2, 3])) % 4
    return True


def _parts_exchanged(data: Data, chance: Random) -> bool:
    row = one(operations(data, "rows"), chance)
    if row is None:
        return False
    cells = [cell for cells in row["rows"] for cell in cells]
    first = chance.choice(cells)
    second = one([cell for cell in cells if cell[0] != first[0]], chance)
    if second is None:
        return False
    first[:], second[:] = list(second), list(first)
    return True


def _segments_beside(data: Data, chance: Random) -> bool:
    row = one(operations(data, "across"), chance)
    if row is None:
        return False
    row["every"] = more(row["every"], chance.choice(["1/8", "-1/8"]))
    return True


def _block_turned(data: Data, chance: Random) -> bool:
    data["place"]["turn"] = (data["place"]["turn"] + chance.choice([1, 2, 3])) % 4
    return True


def _fit(change: Callable[[Data, Random], bool]) -> Spoil:
    def spoil(data: Data, chance: Random) -> bool:
        row = one(operations(data, "fit"), chance)
        return row is not None and change(row, chance)

    return spoil


def _fit_shifted(row: Data, chance: Random) -> bool:
    part = chance.choice(row["parts"])
    part[2] = [more(part[2][0], "1/8"), part[2][1]]
    return True


def _fit_turned(row: Data, chance: Random) -> bool:
    part = chance.choice(row["parts"])
    x, y = part[3]
    part[3] = [write_number(-parse_number(y)), x]
    return True


def _fit_mirrored(row: Data, chance: Random) -> bool:
    part = chance.choice(row["parts"])
    part[3] = [part[3][0], more(part[3][1], "1/8")]
    return True


def _fit_path(row: Data, chance: Random) -> bool:
    end = chance.choice(chance.choice(row["seams"])["path"])
    end[0] = more(end[0], "1/8")
    return True


def _fit_order(row: Data, chance: Random) -> bool:
    if len(row["seams"]) == 1:
        return False
    place = chance.randrange(len(row["seams"]) - 1)
    row["seams"][place : place + 2] = reversed(row["seams"][place : place + 2])
    return True


def _fit_dropped(row: Data, chance: Random) -> bool:
    row["seams"].remove(chance.choice(row["seams"]))
    return True


def _fit_kind(row: Data, chance: Random) -> bool:
    seam = chance.choice(row["seams"])
    seam["kind"] = chance.choice(
        [k for k in ("straight", "set in", "partial", "closing") if k != seam["kind"]]
    )
    return True


def _template_outline(data: Data, chance: Random) -> bool:
    row = one(operations(data, "template"), chance)
    if row is None:
        return False
    corner = chance.choice(row["outline"])
    corner[0] = more(corner[0], "1/8")
    return True


JOINS: dict[str, Spoil] = {
    "seam 1/8 wider": _seam_of("1/8", "join", "rows", "fit"),
    "seam 1/8 narrower": _seam_of("-1/8", "join", "rows", "fit"),
    "wrong edge": _join_edge,
    "matched at the other end": _join_end,
    "made one less": _times(-1),
    "made one more": _times(1),
    "operation dropped": _operation_dropped,
    "step dropped": _step_dropped,
    "part turned": _part_turned,
    "parts exchanged": _parts_exchanged,
    "segments cut beside": _segments_beside,
    "block turned": _block_turned,
    "fitted part shifted": _fit(_fit_shifted),
    "fitted part turned": _fit(_fit_turned),
    "fitted part stretched": _fit(_fit_mirrored),
    "seam path moved": _fit(_fit_path),
    "seams exchanged": _fit(_fit_order),
    "seam dropped": _fit(_fit_dropped),
    "seam of another kind": _fit(_fit_kind),
    "template of another shape": _template_outline,
}
