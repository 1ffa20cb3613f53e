"""What a step says that joins parts: its title, what is laid out, and how borders and logs are sewn on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from patterns.engine import border_words
from patterns.engine.methods import is_one_piece
from patterns.engine.parts import Fitted, Part, Placed, Rows, Unit, UnitKind
from patterns.engine.steps import Fact, Phrase, listed
from patterns.engine.surds import Number
from patterns.engine.units.base import Style

PLAIN = (UnitKind.SQUARE, UnitKind.RECTANGLE)
BLOCK = UnitKind.FINISHED_BLOCK
MANY_LOGS = 6  # pieces sewn on one by one: from so many on they are counted
TITLES = {
    UnitKind.SQUARE: Phrase("Squares"),
    UnitKind.RECTANGLE: Phrase("Rectangles"),
    UnitKind.HALF_SQUARE: Phrase("Half-square triangles"),
    UnitKind.QUARTER_SQUARE: Phrase("Quarter-square triangles"),
    UnitKind.THREE_PATCH: Phrase("Three-patch quarter-square triangles"),
    UnitKind.FLYING_GEESE: Phrase("Flying geese"),
    UnitKind.SQUARE_IN_A_SQUARE: Phrase("Square in a square"),
    UnitKind.STRIP_SET: Phrase("Strip sets"),
    UnitKind.FOUR_PATCH: Phrase("Four-patches"),
    UnitKind.NINE_PATCH: Phrase("Nine-patches"),
    UnitKind.SIDE_TRIANGLE: Phrase("Side setting triangles"),
    UnitKind.CORNER_TRIANGLE: Phrase("Corner setting triangles"),
    UnitKind.HALF_RECTANGLE: Phrase("Half-rectangle triangles"),
    UnitKind.CORNER_FLIP: Phrase("Corner-flip squares"),
    UnitKind.TRIANGLE_IN_A_SQUARE: Phrase("Triangle in a square"),
    UnitKind.DRUNKARDS_PATH: Phrase("Drunkard's path"),
    UnitKind.TRIANGLE: Phrase("Triangles"),
    UnitKind.DIAMOND: Phrase("Diamonds"),
    UnitKind.HEXAGON: Phrase("Hexagons"),
    UnitKind.KITE: Phrase("Kites"),
    UnitKind.TEMPLATE: Phrase("Template patches"),
    UnitKind.FOUNDATION: Phrase("Foundation sections"),
}
COUNTED = {  # one, and more
    UnitKind.HALF_SQUARE: ("{count} half-square triangle", "{count} half-square triangles"),
    UnitKind.QUARTER_SQUARE: ("{count} quarter-square triangle", "{count} quarter-square triangles"),
    UnitKind.THREE_PATCH: ("{count} three-patch unit", "{count} three-patch units"),
    UnitKind.FLYING_GEESE: ("{count} flying goose", "{count} flying geese"),
    UnitKind.SQUARE_IN_A_SQUARE: ("{count} square in a square", "{count} squares in a square"),
    UnitKind.STRIP_SET: ("{count} segment of a strip set", "{count} segments of a strip set"),
    UnitKind.FOUR_PATCH: ("{count} four-patch", "{count} four-patches"),
    UnitKind.NINE_PATCH: ("{count} nine-patch", "{count} nine-patches"),
    UnitKind.SIDE_TRIANGLE: ("{count} side triangle", "{count} side triangles"),
    UnitKind.CORNER_TRIANGLE: ("{count} corner triangle", "{count} corner triangles"),
    UnitKind.FINISHED_BLOCK: ("{count} block", "{count} blocks"),
    UnitKind.HALF_RECTANGLE: ("{count} half-rectangle triangle", "{count} half-rectangle triangles"),
    UnitKind.CORNER_FLIP: ("{count} corner-flip square", "{count} corner-flip squares"),
    UnitKind.TRIANGLE_IN_A_SQUARE: ("{count} triangle in a square", "{count} triangles in a square"),
    UnitKind.DRUNKARDS_PATH: ("{count} drunkard's path", "{count} drunkard's paths"),
    UnitKind.TRIANGLE: ("{count} triangle", "{count} triangles"),
    UnitKind.DIAMOND: ("{count} diamond", "{count} diamonds"),
    UnitKind.HEXAGON: ("{count} hexagon", "{count} hexagons"),
    UnitKind.KITE: ("{count} kite", "{count} kites"),
    UnitKind.TEMPLATE: ("{count} template patch", "{count} template patches"),
    UnitKind.FOUNDATION: ("{count} foundation section", "{count} foundation sections"),
}
JOINED = ("{count} joined part", "{count} joined parts")
ROWS = ("{count} row", "{count} rows")
SEWN_ON = {  # which way the piece lies from the rest
    (1, 0): "Sew {piece} to the right side.",
    (-1, 0): "Sew {piece} to the left side.",
    (0, 1): "Sew {piece} to the lower side.",
    (0, -1): "Sew {piece} to the upper side.",
}
CORNER_WORDS = (
    Phrase("Crease the middle of the long side of each corner triangle, and of each edge it goes to."),
    Phrase(
        "Sew corner triangles to two opposite corners, middles matched; they reach a little past the ends. "
        "Press toward the triangles. Then sew on the other two."
    ),
)
SIDE_WORDS = Phrase(
    "Match the square corner of each side triangle with the corner of its block; the sharp end reaches past."
)


PLAINLY = Style()


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Rows to be sewn, or parts to be fitted, with all parts of the whole by name."""

    part: Rows | Fitted
    parts: Mapping[str, Part]
    style: Style = PLAINLY

    @property
    def cells(self) -> list[Placed]:
        """Give what is joined, row by row."""
        return list(self.part.placed)

    @property
    def joined(self) -> list[Part]:
        """Give the parts that are joined, row by row."""
        return [self.parts[cell.part] for cell in self.cells]

    @property
    def is_last(self) -> bool:
        """Whether this is the whole."""
        return self.part.id == list(self.parts)[-1]

    @property
    def border(self) -> str:
        """Name the border that is sewn on, as `border_words` has it, or nothing."""
        names = [self.parts[cell.part].name for cell in self.cells]
        return next((name for name in names if name in border_words.TITLES), "")

    @property
    def is_row(self) -> bool:
        """Whether this is a row of a quilt's blocks."""
        is_one = isinstance(self.part, Rows) and len(self.part.rows) == 1
        return is_one and any(_kind(self.parts[c.part]) is BLOCK for c in self.cells)

    @property
    def added(self) -> tuple[str, tuple[int, int]] | None:
        """Give the one plain piece that is sewn to what was joined before, and the side of it."""
        begins = all(isinstance(self.parts[cell.part], Unit) for cell in self.cells)
        few = sum(other.lone_piece is not None for other in _joints(self)) < MANY_LOGS
        return None if begins and few else self.lone_piece

    @property
    def lone_piece(self) -> tuple[str, tuple[int, int]] | None:
        """Give the one plain piece that is sewn to something, and the side that it is sewn to."""
        if isinstance(self.part, Fitted) or len(self.cells) != 2 or self.border:  # noqa: PLR2004 -- a piece and the rest
            return None
        plain = [i for i, cell in enumerate(self.cells) if _kind(self.parts[cell.part]) in PLAIN]
        if not plain:
            return None
        chosen = (
            min(plain, key=lambda i: _area(self.parts[self.cells[i].part])) if len(plain) > 1 else plain[0]
        )
        step = 1 if chosen else -1
        return self.cells[chosen].part, (step, 0) if len(self.part.rows) == 1 else (0, step)


def unit_title(unit: Unit, parts: Mapping[str, Part]) -> Phrase:
    """Name a step that makes units, with their fabrics where there are several of the kind."""
    units, letters = TITLES[unit.kind], _letters(unit)
    alike = [part for part in parts.values() if isinstance(part, Unit) and part.kind is unit.kind]
    if len(alike) == 1:
        return units
    if [_letters(other) for other in alike].count(letters) == 1:
        return Phrase("{units}: {letters}", {"units": units, "letters": letters})
    facts: dict[str, Fact] = {"units": units, "letters": letters, "size": (unit.width, unit.height)}
    return Phrase("{units}: {letters}, {size} finished", facts)


def rows_title(joint: Joint) -> Phrase:
    """Name a step that joins parts."""
    return _border_title(joint) or _log_title(joint) or _whole_title(joint) or _part_title(joint)


def _border_title(joint: Joint) -> Phrase | None:
    if not joint.border:
        return None
    alike = [other.part.id for other in _joints(joint) if other.border == joint.border]
    number = alike.index(joint.part.id) + 1
    return border_words.border_title(joint.border, number=number, count=len(alike))


def _whole_title(joint: Joint) -> Phrase | None:
    """Name the last step, or a row of a quilt."""
    if joint.part.name in border_words.JOINED:
        return border_words.JOINED[joint.part.name]
    if joint.is_last:
        return Phrase("Sew the {part} together", {"part": Phrase(joint.part.name or "block")})
    if joint.is_row:
        return Phrase("Row {number}", {"number": _number(joint, lambda other: other.is_row)})
    return None


def _part_title(joint: Joint) -> Phrase:
    return _alike_title(joint) or Phrase("Part {number} of the block", {"number": _number(joint, _is_part)})


def _alike_title(joint: Joint) -> Phrase | None:
    """Name a step that joins parts of one kind only."""
    kinds = {_kind(joint.parts[cell.part]) for cell in joint.cells}
    if kinds == {None}:
        return Phrase("Join the rows") if _are_rows(joint) else Phrase("Join what you made")
    kind = kinds.pop()
    if kinds or kind is None or kind in (*PLAIN, BLOCK):
        return None
    return Phrase("{units}, joined", {"units": TITLES[kind]})


def rows_before(joint: Joint) -> int:
    """Count the rows of the quilt that are sewn before this one; 0 for anything else than such a row."""
    return _number(joint, lambda other: other.is_row) - 1 if joint.is_row else 0


def laid_words(joint: Joint) -> tuple[Phrase, ...]:
    """Say what is laid out, with counts and names, and how side triangles are matched."""
    counts: Counter[str] = Counter(cell.part for cell in joint.cells)
    ordered = sorted(counts, key=lambda ref: _kind(joint.parts[ref]) in PLAIN)
    joined = sum(counts[ref] for ref in counts if not isinstance(joint.parts[ref], Unit))
    units = [ref for ref in ordered if _kind(joint.parts[ref]) not in (None, BLOCK)]
    named = [_counted(joint, ref, counts[ref]) for ref in units]
    named = _blocks_in_one(joint, counts) + named
    if joined:
        named.insert(0, _plural(ROWS if _are_rows(joint) else JOINED, joined))
    sides = any(_kind(joint.parts[ref]) is UnitKind.SIDE_TRIANGLE for ref in counts)
    return (Phrase("Lay out {parts}, as drawn.", {"parts": listed(named)}), *([SIDE_WORDS] if sides else []))


def laid_part(joint: Joint, ref: str) -> Phrase:
    """Say how many of one part are laid: "4 half-square triangles"."""
    count = [cell.part for cell in joint.cells].count(ref)
    return _counted(joint, ref, count) if isinstance(joint.parts[ref], Unit) else _plural(JOINED, count)


def sewn_on_words(joint: Joint, ways: list[int]) -> tuple[Phrase, ...]:
    """Say how borders, corners or one piece are sewn on; nothing for other rows.  `ways` are the presses."""
    if joint.border:
        return border_words.border_words(joint.border, joint.cells[0].part)
    if any(_kind(joint.parts[cell.part]) is UnitKind.CORNER_TRIANGLE for cell in joint.cells):
        return CORNER_WORDS
    if joint.added is None:
        return ()
    ref, side = joint.added
    press = {sum(side): "Press toward {piece}.", -sum(side): "Press away from {piece}."}
    said = press.get(ways[0], "Press the seam open.")
    return (Phrase(SEWN_ON[side], {"piece": ref}), Phrase(said, {"piece": ref}))


def _log_title(joint: Joint) -> Phrase | None:
    if joint.added is None:
        return None
    logs = [other for other in _joints(joint) if other.added]
    if len(logs) < MANY_LOGS:
        return None if joint.is_last else Phrase("Add {piece}", {"piece": joint.added[0]})
    number = [other.part.id for other in logs].index(joint.part.id) + 1
    return Phrase("Log {number}: {piece}", {"number": number, "piece": joint.added[0]})


def _joints(joint: Joint) -> list[Joint]:
    return [Joint(part=p, parts=joint.parts) for p in joint.parts.values() if not isinstance(p, Unit)]


def _number(joint: Joint, wanted: Callable[[Joint], bool]) -> int:
    """Count the step among those of its sort."""
    return [other.part.id for other in _joints(joint) if wanted(other)].index(joint.part.id) + 1


def _is_part(joint: Joint) -> bool:
    return not (joint.is_last or joint.is_row or joint.border or joint.added or _alike_title(joint))


def _are_rows(joint: Joint) -> bool:
    parts = (joint.parts[cell.part] for cell in joint.cells)
    return all(Joint(part=p, parts=joint.parts).is_row for p in parts if not isinstance(p, Unit))


def _blocks_in_one(joint: Joint, counts: Counter[str]) -> list[Phrase]:
    """Count finished blocks together: each is known by its place in the drawing."""
    blocks = sum(counts[ref] for ref in counts if _kind(joint.parts[ref]) is BLOCK)
    return [_plural(COUNTED[BLOCK], blocks)] if blocks else []


def _counted(joint: Joint, ref: str, count: int) -> Phrase:
    """Say how many of a piece, or of a kind of unit, with its letters where that tells kinds apart."""
    unit = joint.parts[ref]
    if not isinstance(unit, Unit) or is_one_piece(unit, joint.style):
        return Phrase("{count}\N{NO-BREAK SPACE}{piece}", {"count": count, "piece": ref})
    said = _plural(COUNTED[unit.kind], count)
    alike = {cell.part for cell in joint.cells if _kind(joint.parts[cell.part]) is unit.kind}
    if len(alike) == 1:
        return said
    return Phrase("{units} ({letters})", {"units": said, "letters": _letters(unit)})


def _plural(forms: tuple[str, str], count: int) -> Phrase:
    return Phrase(forms[count > 1], {"count": count})


def _letters(unit: Unit) -> str:
    return ", ".join(dict.fromkeys(unit.fabrics))


def _kind(part: Part) -> UnitKind | None:
    return part.kind if isinstance(part, Unit) else None


def _area(part: Part) -> Number:
    return part.width * part.height
