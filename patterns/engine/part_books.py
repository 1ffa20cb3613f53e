"""The parts of a sewing order while it is written: each once, with an id that tells its kind."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace

from patterns.engine.parts import Fitted, Part, Point, Rows, Unit, UnitKind

WHOLE = "block"
_LARGER = "part"
_SLUGS = {
    UnitKind.SQUARE: "square",
    UnitKind.RECTANGLE: "rectangle",
    UnitKind.HALF_SQUARE: "half-square",
    UnitKind.QUARTER_SQUARE: "quarter-square",
    UnitKind.THREE_PATCH: "three-patch",
    UnitKind.FLYING_GEESE: "geese",
    UnitKind.SQUARE_IN_A_SQUARE: "square-in-a-square",
    UnitKind.STRIP_SET: "strip-set",
    UnitKind.FOUR_PATCH: "four-patch",
    UnitKind.NINE_PATCH: "nine-patch",
    UnitKind.HALF_RECTANGLE: "half-rectangle",
    UnitKind.CORNER_FLIP: "corner-flip",
    UnitKind.TRIANGLE_IN_A_SQUARE: "triangle-in-a-square",
    UnitKind.DRUNKARDS_PATH: "drunkards-path",
    UnitKind.TRIANGLE: "triangle",
    UnitKind.DIAMOND: "diamond",
    UnitKind.HEXAGON: "hexagon",
    UnitKind.KITE: "kite",
    UnitKind.TEMPLATE: "template",
    UnitKind.FOUNDATION: "foundation",
}


@dataclass(slots=True)
class PartBook:
    """Keeps parts in the order of making; one that equals an earlier part is that part."""

    parts: list[Part] = field(default_factory=list)
    ids: dict[Part, str] = field(default_factory=dict)  # by the part without its id and name
    sizes: dict[str, Point] = field(default_factory=dict)
    numbers: Counter[str] = field(default_factory=Counter)

    def add(self, part: Part) -> str:
        """Keep a part that was written without an id, and give the id."""
        bare = part if part.name == WHOLE else replace(part, name="")
        if bare not in self.ids:
            self.ids[bare] = self._id(part)
            self.sizes[self.ids[bare]] = part.width, part.height
            self.parts.append(replace(part, id=self.ids[bare]))
        return self.ids[bare]

    def _id(self, part: Part) -> str:
        if isinstance(part, Rows | Fitted) and part.name == WHOLE:
            return WHOLE
        slug = _SLUGS[part.kind] if isinstance(part, Unit) else _LARGER
        self.numbers[slug] += 1
        return f"{slug}-{self.numbers[slug]}"
