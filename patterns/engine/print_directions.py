"""What must be said of prints that have a direction: which fabric lies in several, and by which method."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from patterns.engine.geometry import cross, dot, exact, minus
from patterns.engine.laying import Lying, units_in_whole
from patterns.engine.methods import admitted_methods
from patterns.engine.parts import Assembly, Patch, Point, Unit
from patterns.engine.row_words import TITLES
from patterns.engine.steps import Fact, Phrase, UnitRow
from patterns.engine.surds import sign
from patterns.engine.units.base import Style
from patterns.engine.units.prints import NONE, TWO_WAY, scattered

BY_METHOD = (
    "Fabric {fabric} has a direction in its print, and {units} made {method} show it in several directions."
)
BY_PLACE = (
    "Fabric {fabric} has a direction in its print, and it lies in {count} directions where it is placed."
)


def direction_warnings(assembly: Assembly, style: Style, rows: Iterable[UnitRow]) -> tuple[Phrase, ...]:
    """Name every fabric with a direction whose patches lie in several, first by method, else by place."""
    directions = {letter: way for letter, way in style.directions.items() if way != NONE}
    if not directions:
        return ()
    units = {part.id: part for part in assembly.parts if isinstance(part, Unit)}
    told: dict[Phrase, None] = {}
    turned: set[str] = set()
    for row in rows:
        unit = units[row.part]
        for letter in scattered(unit, row.method, directions):
            turned.add(letter)
            told[_by_method(letter, unit, row, style=style)] = None
    ways = _ways(units_in_whole(assembly), units, directions)
    placed = [
        Phrase(BY_PLACE, {"fabric": letter, "count": len(found)})
        for letter, found in sorted(ways.items())
        if len(found) > 1 and letter not in turned
    ]
    return (*told, *placed)


def _by_method(letter: str, unit: Unit, row: UnitRow, *, style: Style) -> Phrase:
    facts: dict[str, Fact] = {"fabric": letter, "units": TITLES[unit.kind], "method": Phrase(row.method)}
    kept = (
        name
        for name in admitted_methods(unit, row.count, style)
        if letter not in scattered(unit, name, style.directions)
    )
    other = next(kept, "")
    if not other:
        return Phrase(BY_METHOD, facts)
    told = {**facts, "turned": Phrase(BY_METHOD, facts), "other": Phrase(other)}
    return Phrase("{turned} Made {other} they keep it.", told)


def _ways(
    lying: Iterable[Lying], units: Mapping[str, Unit], directions: Mapping[str, str]
) -> dict[str, set[Point]]:
    """Give the turns (cosine, sine) in which every fabric with a direction lies in the whole."""
    ways: dict[str, set[Point]] = {}
    for each in lying:
        for drawn, laid in zip(units[each.unit].patches, each.patches, strict=True):
            if drawn.fabric in directions:
                two_way = directions[drawn.fabric] in TWO_WAY
                ways.setdefault(drawn.fabric, set()).add(_turn(drawn, laid, two_way=two_way))
    return ways


def _turn(drawn: Patch, laid: Patch, *, two_way: bool) -> Point:
    """Give by how much a patch is turned, from its first edge; half a turn does not count where two-way."""
    before, after = (minus(patch.points[1], patch.points[0]) for patch in (drawn, laid))
    square = exact(dot(before, before))
    turn = (exact(dot(before, after)) / square, exact(cross(before, after)) / square)
    first = next(number for number in turn if sign(number))
    return (-turn[0], -turn[1]) if two_way and sign(first) < 0 else turn
