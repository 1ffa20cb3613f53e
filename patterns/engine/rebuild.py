"""Virtual sewing: cut, sew and trim a recipe from its own data, and compare the result with the drawing.

This is a check on the methods, so it shares nothing with them but exact numbers: it reads the plain
data of `Recipe.as_data()` and has a plane geometry of its own (`rebuilding`).  No tolerance anywhere,
save where a method cannot end exact and says so.

A step's operations, each carried out `times` times (all lengths text such as "39/8", in inches):

- cut: `of` a square, `along` "one diagonal" or "both diagonals", of a rectangle a "falling diagonal" or
  "rising diagonal", or "to a point"; `gives` the triangles.  A cut part is turned by quarter turns so that
  its corners, sorted, come first: half squares have their right angle top left, quarter squares their long
  edge on the left.  Cut to a point, the part under the middle of the upper edge is kept as it lies.
- across: `of` a strip set, every `every` inches, `pieces` times, `gives` the segments.
- stack: turn each of `top` by quarter turns, lay it face down on a `corner` of `base`, or "every" one;
  `sew` and `cut` along lines from place to place, moved right by `offset`; open all; `gives` names the parts
  by a place in them, or "each"; `loose` layers fall off.
- join: `a` and `b` along the edges facing `a_edge` and `b_edge`, matched at start, end, middle (of `a`,
  which lies on the left), at two seams or at dots on the seam line, sewn `seam` from the edge; `name` of the
  new seam; the parts may lie `play` inches off either way, and the trim must still give the same.
- rows: join the parts of each row, then the rows; a part is a name and its quarter turns clockwise.
- shape: a cut triangle for a setting triangle of a finished `outline`, its "right angle" or "long side" true.
- lay: join `parts` (name, quarter turns, place of the finished corner) that are not all rectangles.
- template: a piece cut with a template stands for its finished `outline`, turned by the unit vector
  `turned_by`; the piece's own rows state its cut `polygon` and its finished `outline` within the rectangle it
  is cut from.
- slice: a strip that lies across is cut into `pieces` at `angle` degrees, "45" or "60", to its long edge, the
  cuts leaning `lean` "right" or "left" and `apart` inches from each other; each piece, turned by `turned_by`,
  stands for the finished `outline` when its seams fit all round.
- fit: `parts` (name, quarter turns, place of its finished frame, unit vector it is turned by) are joined by
  `seams` in order: each adds `part` to all before it along `path`, or closes that part's partial seam; its
  `kind` is straight, set in, curved (points of one circle), partial (start, stop, end) or closing; the result
  has the finished `outline`.
- applique: the part `on`, turned by quarter turns, has `shapes` laid on it in order: each is cut with a
  template (`of`), turned by the unit vector `turned_by`, and its finished box begins `at` a point of the
  finished block; `turn_under` of its edge is turned under all round.
- ease: a piece whose size is not on the cutting step stands for one of the exact size.
A part of stack or join may have a `trim`: finished `width` and `height`, `allowance`, and how it is aligned.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from patterns.engine.rebuilding.applique import compare_shapes
from patterns.engine.rebuilding.comparing import Finding, compare, finding, left_over, scaled
from patterns.engine.rebuilding.easing import Deviation
from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import tidy
from patterns.engine.rebuilding.reading import number, point, polygon
from patterns.engine.rebuilding.setting import turned_whole
from patterns.engine.rebuilding.shaping import cut_template
from patterns.engine.rebuilding.table import TEMPLATE, Table
from patterns.engine.rebuilding.trimming import inner_facets
from patterns.engine.rebuilding.works import Facet, Work, cloth, same, total_area
from patterns.engine.surds import Number

__all__ = ["Deviation", "Finding", "Proof", "Sewn", "finished_area", "prove", "scaled", "sew", "table_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sewn:
    """What lies on the table at the end; `whole` is None when sewing had to stop."""

    whole: Work | None
    stock: Mapping[str, tuple[Work, int]]
    findings: tuple[Finding, ...]
    deviations: tuple[Deviation, ...]
    made: Counter[str] = field(default_factory=Counter)  # how many of each piece and part there ever were

    def patches(self, *, brought: Container[str] = ()) -> Counter[str]:
        """Count the patches out of the pieces, by letter; blocks `brought` finished do not count."""
        counts: Counter[str] = Counter()
        works = [(self.whole, 1)] if self.whole else []
        for work, count in (*works, *self.stock.values()):
            for facet in (*work.facets, *work.shapes):
                counts[facet.letter] += 0 if facet.piece in brought else count
        return +counts


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """The result of virtual sewing: "goes together: 45 of 45 patches", or why not."""

    goes_together: bool
    patches: int
    patches_right: int
    findings: tuple[Finding, ...]
    deviations: tuple[Deviation, ...]  # units that cannot end exact, and by how much they miss


def sew(data: Mapping[str, Any]) -> Sewn:
    """Sew a recipe from its data; whatever is wrong with it becomes a finding, never an exception."""
    try:
        table = table_for(data)
    except (KeyError, TypeError, ValueError, ZeroDivisionError, SewingFault) as error:
        return Sewn(whole=None, stock={}, findings=(_found(0, error),), deviations=())
    for step in data["steps"]:
        try:
            _sew_step(table, step)
        except (KeyError, IndexError, TypeError, ValueError, ZeroDivisionError, SewingFault) as error:
            findings = (_found(table.step, error),)
            return Sewn(whole=None, stock=table.stock, findings=findings, deviations=tuple(table.deviations))
    return _cleared(table, data)


def prove(data: Mapping[str, Any], drawing: Mapping[str, Any]) -> Proof:
    """Sew a recipe and compare it with the drawing (`grid` and `patches` as in a block drawing file)."""
    sewn = sew(data)
    drawn = len(drawing["patches"]) + len(drawing.get("applique", ()))
    right, findings = 0, list(sewn.findings)
    if sewn.whole is not None:
        for comparing in (compare, compare_shapes):
            found, wrong = comparing(sewn.whole, data, drawing, allowance=number(data["seam"]))
            right, findings = right + found, findings + wrong
    return Proof(
        goes_together=not findings,
        patches=drawn,
        patches_right=right,
        findings=tuple(findings),
        deviations=sewn.deviations,
    )


def table_for(data: Mapping[str, Any]) -> Table:
    """Lay the cut pieces and the finished blocks of a recipe on a table."""
    table = Table(number(data["seam"]))
    for row in data["pieces"]:
        table.put(row["id"], _cut_piece(row), int(row["count"]))
        table.to_cut[row["id"]] = TEMPLATE if "polygon" in row else row["then"]
    for ref, block in data.get("given", {}).items():
        table.put(ref, _given(ref, block, table), int(block["count"]))
    return table


def _cut_piece(row: Mapping[str, Any]) -> Work:
    """Cut a piece: a rectangle, or a template's shape out of one."""
    if "polygon" in row:
        return cut_template(row)
    return cloth(row["fabric"], width=number(row["width"]), length=number(row["length"]), piece=row["id"])


def _given(ref: str, block: Mapping[str, Any], table: Table) -> Work:
    """Take a finished block from elsewhere: patches and shapes in finished inches, raw edges round them."""
    seam = table.allowance
    width, height = point(block["size"])
    facets, shapes = (
        tuple(
            Facet(
                row["fabric"],
                tidy(tuple((x + seam, y + seam) for x, y in polygon(row["points"]))),
                ref,
                inner=True,
            )
            for row in rows
        )
        for rows in (block["patches"], block.get("applique", ()))
    )
    return Work(facets, (width + 2 * seam, height + 2 * seam), solid=True, shapes=shapes)


def _sew_step(table: Table, step: Mapping[str, Any]) -> None:
    before, table.step = table.step, int(step["number"])
    if table.step != before + 1:
        raise SewingFault(Rule.ORDER, expected=str(before + 1), found=str(table.step))
    for operation in step["operations"]:
        table.sew(operation)
    if step.get("check"):
        _measure(table, step)


def _measure(table: Table, step: Mapping[str, Any]) -> None:
    """Hold the last part made against the step's check measurement."""
    made = step["operations"][-1]["gives"]
    last = made if isinstance(made, str) else (made[0] if isinstance(made, list) else made)["id"]
    box, check = table.stock[last][0].box, point(step["check"])
    if not all(same(a, b) for a, b in zip(box, check, strict=True)):
        raise SewingFault(
            Rule.CHECK, where=last, expected=f"{check[0]} x {check[1]}", found=f"{box[0]} x {box[1]}"
        )


def _cleared(table: Table, data: Mapping[str, Any]) -> Sewn:
    table.step = 0
    try:
        whole = table.take(data["place"]["ref"], 1).turned(int(data["place"]["turn"]))
        if "turned_by" in data["place"]:
            whole = turned_whole(whole, data["place"], point(data["finished"]), allowance=table.allowance)
        findings = left_over(table.stock, table.made_in, data["spares"], allowance=table.allowance)
    except (KeyError, TypeError, ValueError, SewingFault) as error:
        return Sewn(whole=None, stock=table.stock, findings=(_found(0, error),), deviations=())
    return Sewn(
        whole=whole,
        stock=table.stock,
        findings=tuple(findings),
        deviations=tuple(table.deviations),
        made=table.made,
    )


def finished_area(sewn: Sewn, seam: Number) -> Number:
    """Add up the finished areas of the patches of the whole, square inches."""
    if sewn.whole is None:
        return Fraction(0)
    width, height = sewn.whole.box
    return total_area(inner_facets(sewn.whole.facets, ((seam, seam), (width - seam, height - seam))))


def _found(step: int, error: Exception) -> Finding:
    if isinstance(error, SewingFault):
        return finding(step, error)
    return Finding(step=step, piece="", expected="readable data", found=repr(error), rule=Rule.READABLE.value)
