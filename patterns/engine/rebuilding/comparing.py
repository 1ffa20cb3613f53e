"""What is compared at the end: the whole with the drawing, and what is left with the spares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import Polygon, inside, middle, tidy
from patterns.engine.rebuilding.reading import Data, number, outline, point, polygon
from patterns.engine.rebuilding.trimming import inner_facets, inner_looks
from patterns.engine.rebuilding.works import Facet, Work, same
from patterns.engine.surds import Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One fault, where it is, and what was expected; `step` is 0 when no one step is to blame."""

    step: int
    piece: str
    expected: str
    found: str
    rule: str


def finding(step: int, fault: SewingFault) -> Finding:
    """Give a fault the step it happened in."""
    return Finding(
        step=step, piece=fault.where, expected=fault.expected, found=fault.found, rule=fault.rule.value
    )


def compare(whole: Work, data: Data, drawing: Data, *, allowance: Number) -> tuple[int, list[Finding]]:
    """Compare the sewn whole, up to its finished edge, with the drawing: patches that are right, findings."""
    finished = point(data["finished"])
    expected = [(row["fabric"], scaled(row["points"], drawing, finished)) for row in drawing["patches"]]
    if not all(same(whole.box[k], finished[k] + 2 * allowance) for k in (0, 1)):
        found = f"{whole.box[0]} x {whole.box[1]}"
        size = f"{finished[0] + 2 * allowance} x {finished[1] + 2 * allowance}"
        return 0, [Finding(step=0, piece="", expected=size, found=found, rule=Rule.SIZE.value)]
    sewn = _inner(whole, finished, allowance)
    by_shape = {shape: facet for facet, shape in sewn}
    findings = [
        _patch_finding(letter, shape, sewn)
        for letter, shape in expected
        if shape not in by_shape or by_shape[shape].letter != letter
    ]
    right = len(expected) - len(findings)
    if not findings and len(sewn) != len(expected):
        findings.append(
            Finding(
                step=0, piece="", expected=str(len(expected)), found=str(len(sewn)), rule=Rule.PATCH.value
            )
        )
    return right, findings


def scaled(points: object, drawing: Data, finished: tuple[Number, Number]) -> Polygon:
    """Bring a drawing's corners from its grid to finished inches."""
    grid = point(drawing["grid"])
    factors = (finished[0] / grid[0], finished[1] / grid[1])
    return tidy(tuple((x * factors[0], y * factors[1]) for x, y in outline(points)))


def _inner(whole: Work, finished: tuple[Number, Number], allowance: Number) -> list[tuple[Facet, Polygon]]:
    corners = ((allowance, allowance), (finished[0] + allowance, finished[1] + allowance))
    clipped = inner_facets(whole.facets, corners)
    return [(f, tidy(tuple((x - allowance, y - allowance) for x, y in f.points))) for f in clipped]


def _patch_finding(letter: str, shape: Polygon, sewn: list[tuple[Facet, Polygon]]) -> Finding:
    spot = middle(shape)
    there = next((f for f, found in sewn if inside(found, spot)), None)
    found = there.letter if there else "nothing"
    if there and found == letter:
        found = f"{letter} in another shape"
    place = ", ".join(f"({x}, {y})" for x, y in shape)
    return Finding(
        step=there.step if there else 0,
        piece=there.piece if there else "",
        expected=f"{letter} at {place}",
        found=found,
        rule=Rule.PATCH.value,
    )


def left_over(
    stock: Mapping[str, tuple[Work, int]], made_in: Mapping[str, int], spares: list[Any], *, allowance: Number
) -> list[Finding]:
    """Compare what is left on the table with the named spares: how many, of which fabrics, how large."""
    named = {row["ref"]: row for row in spares}
    findings = []
    for ref in sorted({*stock, *named}):
        work, count = stock.get(ref, (None, 0))
        expected = int(named[ref]["count"]) if ref in named else 0
        if count != expected:
            findings.append(_spare(made_in, ref, expected=str(expected), found=str(count), rule=Rule.COUNT))
        elif work is not None and count:
            findings += _described(work, named[ref], made_in=made_in, allowance=allowance)
    return findings


def _described(work: Work, row: Data, *, made_in: Mapping[str, int], allowance: Number) -> list[Finding]:
    letters = sorted(f.letter for f in work.facets)
    found = (letters, tuple(map(str, work.box)))
    expected = (sorted(row["fabrics"]), tuple(str(number(n)) for n in row["size"]))
    if found == expected and (
        "patches" not in row or inner_looks(work.facets, work.box, allowance) == _drawn(row, allowance)
    ):
        return []
    return [_spare(made_in, row["ref"], expected=_words(expected), found=_words(found), rule=Rule.SPARE)]


def _drawn(row: Data, allowance: Number) -> frozenset[tuple[str, Polygon]]:
    """Give a spare's patches, finished inches, in the frame of the trimmed unit."""
    drawn = ((patch["fabric"], polygon(patch["points"])) for patch in row["patches"])
    return frozenset(
        (f, tidy(tuple((x + allowance, y + allowance) for x, y in points))) for f, points in drawn
    )


def _words(described: tuple[list[str], tuple[str, ...]]) -> str:
    return f"{' '.join(described[0])}, {' x '.join(described[1])}"


def _spare(made_in: Mapping[str, int], ref: str, *, expected: str, found: str, rule: Rule) -> Finding:
    return Finding(step=made_in.get(ref, 0), piece=ref, expected=expected, found=found, rule=rule.value)
