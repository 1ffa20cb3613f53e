"""What a step says of two ways of pressing, of open seams and of seams that swirl."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from patterns.engine.nesting import Nesting
from patterns.engine.nesting_data import press_by_rows, set_ways
from patterns.engine.nesting_forms import BANDED, DIAGONAL, Form, strip_letters, strip_ways
from patterns.engine.nesting_net import PressClass
from patterns.engine.parts import Rows, Unit
from patterns.engine.pressing import OPEN, arrows, long_arrows
from patterns.engine.steps import Fact, Phrase, listed
from patterns.engine.units.base import Style
from patterns.engine.units.strips import Band, bands, canonical

TOWARD = "Press toward fabric {fabric}."
ONE_WAY = "Press the seams all one way."
OPEN_SEAM = Phrase("Press the seam open.")
OTHER_WAY = "That is for {count} of them. Press the seams of the other {other} the other way."
OTHER_WAYS = "That is for {count} of them. Press the other {other} so: {ways}."
SWIRL = Phrase(
    "Where many seams meet, unpick the few stitches inside the seam allowance and press the last seam up on "
    "one side of the point and down on the other: the seams go round it and lie flat."
)
WHERE = "Of the {part}, those pressed the second way lie at {places}: then the seams nest."
ONLY_SECOND = "Take {part} pressed the second way: then the seams nest."


def unit_words(words: Sequence[Phrase], unit: Unit, *, nesting: Nesting, style: Style) -> tuple[Phrase, ...]:
    """Let a unit's words say how its seams are pressed, where nesting asks for more than the usual way."""
    classes = nesting.classes[unit.id]
    if unit.kind in DIAGONAL and classes[0].ways:
        return _diagonal_words(words, unit, classes)
    if unit.kind not in BANDED:
        return tuple(words)
    found = _striped_words(words, unit, nesting=nesting, style=style)
    return (*found, *other_way_words(nesting.forms[unit.id], classes))


def _diagonal_words(words: Sequence[Phrase], unit: Unit, classes: Sequence[PressClass]) -> tuple[Phrase, ...]:
    """Name the fabric that the seam goes toward, or both with how many of each."""
    letters = {each.ways[0]: unit.patches[each.ways[0] > 0].fabric for each in classes}
    facts: dict[str, Fact] = {"fabric": letters[classes[0].ways[0]]}
    said = Phrase(TOWARD, facts)
    if classes[0].ways[0] == OPEN:
        said = OPEN_SEAM
    elif len(classes) > 1:
        facts |= {
            "count": classes[0].count,
            "other": classes[1].count,
            "second": letters[classes[1].ways[0]],
        }
        text = (
            "Press {count} with the seam toward fabric {fabric}, and {other} the other way, toward {second}."
        )
        said = Phrase(text, facts)
    return tuple(said if each.text == TOWARD else each for each in words)


def _striped_words(
    words: Sequence[Phrase], unit: Unit, *, nesting: Nesting, style: Style
) -> tuple[Phrase, ...]:
    """Name the light fabric for each strip set that is pressed away from the dark."""
    sets = dict.fromkeys(canonical(band) for band in bands(unit))
    pressed = zip(sets, set_ways(nesting, unit), strict=True)
    found = []
    for said in words:
        is_set = said.text in (TOWARD, ONE_WAY)
        found.append(_set_words(said, *next(pressed), style=style) if is_set else said)
    return tuple(found)


def _set_words(said: Phrase, band: Band, ways: tuple[int, ...], *, style: Style) -> Phrase:
    if OPEN in ways:
        return Phrase("Press the seams open.")
    if said.text == ONE_WAY:
        return Phrase("Press the seams all one way, as the arrows show.")
    letters = strip_letters(band)
    dark = style.darker(letters)
    light = next(letter for letter in letters if letter != dark)
    return Phrase(TOWARD, {"fabric": dark if ways == strip_ways(band, style) else light})


def other_way_words(form: Form, classes: Sequence[PressClass]) -> tuple[Phrase, ...]:
    """Say how many copies are pressed as said before, and how the others are."""
    if len(classes) == 1:
        return ()
    first, second = classes
    facts: dict[str, Fact] = {"count": first.count, "other": second.count}
    if second.ways == tuple(-way for way in first.ways):
        return (Phrase(OTHER_WAY, facts),)
    return (Phrase(OTHER_WAYS, {**facts, "ways": _ways(form, second)}),)


def _ways(form: Form, one: PressClass) -> Phrase:
    press, long = press_by_rows(form, one)
    parts = []
    if any(press):
        parts.append(Phrase("rows {ways}", {"ways": arrows(press)}))
    if long:
        parts.append(Phrase("long seams {ways}", {"ways": long_arrows(long)}))
    return listed(parts)


def joined_words(part: Rows, *, nesting: Nesting, name: Callable[[str], Phrase]) -> tuple[Phrase, ...]:
    """Say for joined rows what is pressed another way, open or swirled, and where parts of two ways lie."""
    form, classes = nesting.forms[part.id], nesting.classes[part.id]
    return (
        *other_way_words(form, classes),
        *([SWIRL] if part.id in nesting.swirled else []),
        *_where_words(part, nesting, name),
    )


def _where_words(part: Rows, nesting: Nesting, name: Callable[[str], Phrase]) -> Iterable[Phrase]:
    """Say where the copies of the second way lie, row by row."""
    places = [(i, j) for i, row in enumerate(part.rows, 1) for j in range(1, len(row) + 1)]
    for ref in dict.fromkeys(cell.part for cell in part.placed):
        second = nesting.classes[ref][1:]
        if not second:
            continue
        found = [place for parent, place in second[0].places if parent == part.id]
        both = [place for parent, place in nesting.classes[ref][0].places if parent == part.id]
        if found and not both:
            yield Phrase(ONLY_SECOND, {"part": name(ref)})
        elif found and not set(found) & set(both):
            said = [_place(*places[number]) for number in found]
            yield Phrase(WHERE, {"part": name(ref), "places": listed(said)})


def _place(row: int, number: int) -> Phrase:
    return Phrase("row {row} number {number}", {"row": row, "number": number})
