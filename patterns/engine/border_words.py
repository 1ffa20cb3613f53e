"""Words of a quilt's edge: borders, named, measured through the middle and sewn on; tops trimmed on point."""

from __future__ import annotations

from collections.abc import Iterable

from patterns.engine.parts import Part, Unit, UnitKind
from patterns.engine.steps import Fact, Phrase

HALF_POST = "half cornerstone"

SIDE_BORDER, END_BORDER = "side border", "end border"
SIDE_COPING, END_COPING = "side coping strip", "end coping strip"
CORNER_SQUARE, BORDER_PATCH, MITRED_STRIP = "corner square", "border patch", "mitred border"
END_WITH_CORNERS = "end border with corner squares"
PIECED_SIDE, PIECED_END = "pieced side border", "pieced end border"
TITLES = {  # of the step that sews them on
    SIDE_BORDER: Phrase("Side borders"),
    END_BORDER: Phrase("Top and bottom borders"),
    END_WITH_CORNERS: Phrase("Top and bottom borders"),
    SIDE_COPING: Phrase("Coping strips at the sides"),
    END_COPING: Phrase("Coping strips at top and bottom"),
    MITRED_STRIP: Phrase("Mitred border"),
    PIECED_SIDE: Phrase("Side borders"),
    PIECED_END: Phrase("Top and bottom borders"),
}
JOINED = {  # titles of the step that makes them
    "sashing row": Phrase("Sashing row"),
    END_WITH_CORNERS: Phrase("Corner squares, sewn to the borders"),
    PIECED_SIDE: Phrase("Join the side borders"),
    PIECED_END: Phrase("Join the top and bottom borders"),
}
SIDES = (SIDE_BORDER, SIDE_COPING, PIECED_SIDE)
MEASURED = (SIDE_BORDER, END_BORDER, SIDE_COPING, END_COPING)  # one strip, cut to the quilt's length
PINNED = "Pin the middles and the ends first, then between, easing what is over."


def border_title(name: str, *, number: int, count: int) -> Phrase:
    """Name the step that sews a border on; `number` tells several of one sort apart."""
    if count == 1:
        return TITLES[name]
    return Phrase("{step}, border {number}", {"step": TITLES[name], "number": number})


def border_words(name: str, piece: str) -> tuple[Phrase, ...]:
    """Say how a border is measured, sewn on and pressed; `piece` is the strip where it is one."""
    facts: dict[str, Fact] = {"piece": piece}
    words: tuple[Phrase, ...]
    if name in MEASURED:
        words = (Phrase(_measure(name), facts), _pinned(Phrase(_sew(name), facts)))
    elif name == END_WITH_CORNERS:
        words = (
            Phrase(
                "Pin the seams of the corner squares to those of the side borders first. Sew one border to "
                "the top and one to the bottom."
            ),
        )
    else:
        words = (_pinned(Phrase(_sew_pieced(name))),)
    return (*words, Phrase("Press toward the border."))


def edge_words(parts: Iterable[Part]) -> str:
    """Say how a top set on point is trimmed; one without corner triangles keeps its pointed ends."""
    units = [part for part in parts if isinstance(part, Unit)]
    if not any(unit.kind is UnitKind.CORNER_TRIANGLE for unit in units):
        return "Trim the long edges {seam} outside the corners of the blocks; the ends stay pointed."
    if any(unit.name == HALF_POST for unit in units):
        return "Trim the edges {seam} outside the corners of the sashing. It then measures {size} unfinished."
    return "Trim the edges {seam} outside the corners of the blocks. It then measures {size} unfinished."


def _pinned(sewn: Phrase) -> Phrase:
    return Phrase("{first} {then}", {"first": Phrase(PINNED), "then": sewn})


def _measure(name: str) -> str:
    if name in SIDES:
        return (
            "Measure the quilt through its middle, from top to bottom. Cut both {piece} to that length, "
            "which is the cut size in the table when every seam is right."
        )
    return (
        "Measure the quilt through its middle, from side to side, borders included. Cut both {piece} to "
        "that length, which is the cut size in the table when every seam is right."
    )


def _sew(name: str) -> str:
    if name in SIDES:
        return "Sew one {piece} to the left and one to the right side."
    return "Sew one {piece} to the top and one to the bottom."


def _sew_pieced(name: str) -> str:
    if name in SIDES:
        return "Sew one side border to the left and one to the right side, as drawn."
    return "Sew one border to the top and one to the bottom, as drawn."
