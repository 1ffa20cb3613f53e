"""Checks of how the parts of an installment are sewn; they look at recipes, not at what wrote them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from bom.domain.proof_types import Check, Finding, Outcome, stopping
from patterns.domain.wording import say
from patterns.engine.measure import Units, write_inches
from patterns.engine.parts import UnitKind
from patterns.engine.surds import Number, parse_number, write_number

if TYPE_CHECKING:
    from bom.domain.work import InstallmentWork, PartWork
    from patterns.engine.steps import Recipe

LITTLE = Fraction(1, 32)  # inches: a point that misses by more is to be looked at
ANY_OUTLINE = ("fit", "shape", "slice")  # what these make need not be a rectangle; virtual sewing measures it
TRIANGLES = {UnitKind.SIDE_TRIANGLE, UnitKind.CORNER_TRIANGLE}
Size = tuple[Number, Number]


def goes_together(work: InstallmentWork) -> Check:
    """Say what virtual sewing found: every patch in its place, by position, size and letter."""
    found, right, patches = Outcome(), 0, 0
    for part in work.parts:
        _sewn(part, found)
        right += part.proof.patches_right if part.proof else 0
        patches += part.proof.patches if part.proof else 0
    words = "{right} of {patches} patches."
    return found.check(
        "goes together", words if patches else "Nothing to sew.", {"right": right, "patches": patches}
    )


def sizes_stand(work: InstallmentWork, *, units: Units) -> Check:
    """See that every unit has its trim-to size, two seams more than finished, and every step its check."""
    found = Outcome()
    count = 0
    for part in work.parts:
        if part.recipe:
            count += sum(row.count for row in part.recipe.units)
            found.stops.extend(_sizes(part.title, part.recipe))
            found.looks.extend(
                Finding(step=part.title, found=say(warning, units)) for warning in part.recipe.warnings
            )
    return found.check("sizes", "{count} units have cut, trim-to and finished sizes.", {"count": count})


def rows_add_up(work: InstallmentWork) -> Check:
    """Add the finished sizes of every row up, from the units' own sizes, to the size of the whole."""
    faults = [each for part in work.parts if part.recipe for each in _rows(part.title, part.recipe)]
    return stopping(faults).check("rows add up", "The rows add up to the finished sizes.")


def _sewn(part: PartWork, found: Outcome) -> None:
    if part.fault:
        found.stops.append(Finding(step=part.title, expected="a way to make it", found=say(part.fault)))
    if part.proof is None:
        return
    for fault in part.proof.findings:
        found.stops.append(
            Finding(
                step=_step(part.title, fault.step),
                piece=fault.piece,
                expected=fault.expected or fault.rule,
                found=fault.found,
            )
        )
    for off in part.proof.deviations:
        if off.inches > LITTLE:
            size = f"off by {write_inches(off.inches)}"
            found.looks.append(
                Finding(step=_step(part.title, off.step), piece=off.ref, expected="points meet", found=size)
            )


def _sizes(title: str, recipe: Recipe) -> Iterator[Finding]:
    for row in recipe.units:
        wanted = tuple(side + 2 * recipe.seam for side in row.finished)
        if row.trim_to and row.trim_to != wanted and row.kind not in TRIANGLES:
            yield Finding(step=title, piece=row.part, expected=_text(wanted), found=_text(row.trim_to))
    for step in () if _is_slanted(recipe) else recipe.steps:
        if step.operations and step.check is None and step.operations[-1]["op"] not in ANY_OUTLINE:
            yield Finding(step=_step(title, step.number), expected="a size to measure", found="none")
    for piece in recipe.pieces:
        if min(piece.width, piece.length) <= 2 * recipe.seam:
            size = _text((piece.width, piece.length))
            yield Finding(step=title, piece=piece.id, expected="more than two seams", found=size)


def _rows(title: str, recipe: Recipe) -> Iterator[Finding]:
    """Follow the rows that are joined; parts whose size is not known by itself are passed over."""
    if _is_slanted(recipe):
        return  # virtual sewing measures those
    sizes = _known_sizes(recipe)
    for step in recipe.steps:
        for operation in (row for row in step.operations if row["op"] == "rows"):
            rows = [
                [_turned(sizes[ref], turn) for ref, turn in row if ref in sizes] for row in operation["rows"]
            ]
            if [len(row) for row in rows] != [len(row) for row in operation["rows"]]:
                continue
            widths = {sum((size[0] for size in row), Fraction(0)) for row in rows}
            if len(widths) > 1 or any(len({size[1] for size in row}) > 1 for row in rows):
                found = ", ".join(sorted(map(write_number, widths)))
                yield Finding(step=_step(title, step.number), expected="rows of one length", found=found)
            sizes[operation["gives"]] = (widths.pop(), sum((row[0][1] for row in rows), Fraction(0)))
    whole = recipe.place["ref"]
    if whole in sizes and _turned(sizes[whole], recipe.place["turn"]) != recipe.finished:
        yield Finding(step=title, expected=_text(recipe.finished), found=_text(sizes[whole]))


def _is_slanted(recipe: Recipe) -> bool:
    """Whether rows end in setting triangles, so that nothing before the whole has four square corners."""
    return any(row.kind in TRIANGLES for row in recipe.units)


def _known_sizes(recipe: Recipe) -> dict[str, Size]:
    """Give finished sizes by name: units, pieces that are sewn as they are cut, finished blocks."""
    seams = 2 * recipe.seam
    sizes: dict[str, Size] = {
        piece.id: (piece.width - seams, piece.length - seams)
        for piece in recipe.pieces
        if not (piece.then or piece.outline)
    }
    sizes |= {row.part: row.finished for row in recipe.units}
    return sizes | {ref: _given_size(given) for ref, given in recipe.given.items()}


def _given_size(given: Mapping[str, Any]) -> Size:
    width, height = (parse_number(side) for side in given["size"])
    return width, height


def _turned(size: Size, turn: int) -> Size:
    return (size[1], size[0]) if turn % 2 else size


def _step(title: str, number: int) -> str:
    return f"{title}, step {number}" if number else title


def _text(size: tuple[Number, ...]) -> str:
    return " x ".join(
        write_inches(side) if isinstance(side, Fraction) else write_number(side) for side in size
    )
