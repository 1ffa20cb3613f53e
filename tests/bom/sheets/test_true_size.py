"""Templates and foundations in the PDF: at their own size, equal to the engine's outlines."""

from __future__ import annotations

import io
import json
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeAlias

import pikepdf
import pypdfium2
import pytest
from pdfua import validate

from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.true_size import AIR, tiles_for, true_size_pages
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize
from patterns.engine.blocks import block_as_data
from patterns.engine.drawing import rational
from patterns.engine.templates import cut_outline
from patterns.engine.true_size import foundation_shape
from tests.bom.sheets.conftest import NOW
from tests.engine.figure_drawings import slim_compass
from tests.factories import make_block, make_program

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bom.models import Installment

pytestmark = pytest.mark.slow

BLOCKS = Path(__file__).parents[3] / "fixtures" / "blocks"
POINT = 0.01  # pt: the greatest difference from the engine
Matrix: TypeAlias = tuple[float, ...]
Spot: TypeAlias = tuple[float, float]


def sheet_of(drawing: dict[str, Any], *, size: int = 12) -> Installment:
    """Give an installment of one block of this drawing."""
    program = make_program()
    program.quilt.block_size = size
    program.quilt.save()
    installment = program.installments.get(number=1)
    placed = installment.parts.get().placed_block
    placed.block = make_block(drawing, program.designer)
    placed.letters = {patch["fabric"]: patch["fabric"] for patch in drawing["patches"]}
    placed.save()
    installment.refresh_from_db()
    return installment


def traditional(name: str) -> dict[str, Any]:
    data: dict[str, Any] = json.loads((BLOCKS / f"{name}.json").read_text())
    return data


def draft(installment: Installment, **form: Any) -> bytes:
    colorway = installment.program.quilt.colorways.get(slug="harbour")
    return make_draft(installment, Variant(colorway=colorway, **form), now=NOW).data


def paths(data: bytes) -> list[list[list[Spot]]]:
    """Give, page by page, every path of the file in pt of the page: its corners, curves by their ends."""
    with pikepdf.open(io.BytesIO(data)) as document:
        return [list(_paths(page, (1, 0, 0, 1, 0, 0))) for page in document.pages]


def _paths(source: Any, base: Matrix) -> Iterator[list[Spot]]:
    now, path = base, list[Spot]()
    kept: list[Matrix] = []
    for row in pikepdf.parse_content_stream(source):
        operator, values = str(row.operator), row.operands
        if operator == "q":
            kept.append(now)
        elif operator == "Q":
            now = kept.pop()
        elif operator == "cm":
            now = _times(tuple(map(float, values)), now)
        elif operator in ("m", "l", "c", "re"):
            path = [*(path if operator in ("l", "c") else ()), *_corners(operator, values, now)]
        elif operator == "Do":
            yield from _inside(source.get("/Resources")["/XObject"][values[0]], now)
        elif operator in ("S", "s", "f", "B", "b", "f*", "n"):
            yield path


def _corners(operator: str, values: Any, now: Matrix) -> list[Spot]:
    numbers = [float(value) for value in values]
    if operator != "re":
        return [_at(now, numbers[-2], numbers[-1])]
    x, y, width, height = numbers
    return [_at(now, *c) for c in ((x, y), (x + width, y), (x + width, y + height), (x, y + height))]


def _inside(named: Any, now: Matrix) -> Iterator[list[Spot]]:
    if named.get("/Subtype") == "/Form":
        matrix = tuple(map(float, named.get("/Matrix", (1, 0, 0, 1, 0, 0))))
        yield from _paths(named, _times(matrix, now))


def _times(a: Matrix, b: Matrix) -> Matrix:
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def _at(matrix: Matrix, x: float, y: float) -> Spot:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def is_drawn(outline: list[Spot], drawn: list[list[Spot]]) -> bool:
    """Say whether a path has these corners, y upward, upright or on its side, wherever it stands."""
    lying = [(y, -x) for x, y in outline]  # a quarter turn clockwise
    return any(
        len(path) >= len(way) > 0 and all(abs(a - b) <= POINT for a, b in _differences(way, path))
        for path in drawn
        for way in (outline, lying)
    )


def _differences(outline: list[Spot], path: list[Spot]) -> list[tuple[float, float]]:
    (x0, y0), (u0, v0) = outline[0], path[0]
    return [
        pair
        for (x, y), (u, v) in zip(outline, path, strict=False)
        for pair in ((x - x0, u - u0), (y - y0, v - v0))
    ]


def in_points(outline: Any) -> list[Spot]:
    return [(float(rational(x)) * 72, -float(rational(y)) * 72) for x, y in outline]


def squares(drawn: list[list[Spot]]) -> set[float]:
    """Give the sides of all squares, pt."""
    sides = set()
    for path in filter(None, drawn):
        xs, ys = [x for x, _ in path], [y for _, y in path]
        width, height = max(xs) - min(xs), max(ys) - min(ys)
        if len(path) >= 4 and abs(width - height) < 1e-6:
            sides.add(round(width, 2))
    return sides


@pytest.mark.parametrize("paper", list(Paper))
def test_every_template_of_a_star_is_drawn_as_the_engine_has_it(
    db: None, tmp_path: Path, paper: Paper
) -> None:
    installment = sheet_of(traditional("lemoyne-star"), size=10)  # no strip of diamonds is near a mark
    recipe = work_of(installment.program).installment(1).parts[0].recipe
    assert recipe is not None
    templates = [piece for piece in recipe.pieces if piece.outline]
    data = draft(installment, paper=paper)
    drawn = [path for page in paths(data) for path in page]
    assert templates
    for piece in templates:
        assert is_drawn(in_points(cut_outline(piece.outline, recipe.seam)), drawn), piece.id
    assert _faults(data, tmp_path) == []


def _faults(data: bytes, folder: Path) -> list[Any]:
    """Give what a checker of PDF/UA finds."""
    path = folder / "sheet.pdf"
    path.write_bytes(data)
    return list(validate(str(path)).findings)


def test_every_foundation_is_drawn_as_the_engine_has_it(db: None, tmp_path: Path) -> None:
    """Its cut line, its sewing line and every patch, in mirror image; a checker finds no error."""
    installment = sheet_of(traditional("storm-at-sea"))
    recipe = work_of(installment.program).installment(1).parts[0].recipe
    assert recipe is not None
    fabrics = {piece.id: piece.fabric for piece in recipe.pieces}
    rows = [row for step in recipe.steps for row in step.operations if row["op"] == "foundation"]
    data = draft(installment)
    drawn = [path for page in paths(data) for path in page]
    assert rows
    for row in rows:
        shape = foundation_shape(row, recipe.seam, fabrics)
        outlines = [shape.cut.points, shape.sewn.points, *(points for _name, points in shape.patches)]
        assert all(is_drawn(in_points(outline), drawn) for outline in outlines)
    assert _faults(data, tmp_path) == []


def test_a_template_is_read_aloud_with_its_fabric_and_count(db: None) -> None:
    installment = sheet_of(traditional("rolling-star"))
    variant = Variant(colorway=installment.program.quilt.colorways.get(slug="harbour"))
    mine = work_of(installment.program).installment(1)
    [page] = true_size_pages(mine, cloths_of(variant.colorway), variant)
    assert [row.alt for row in page.rows] == [
        "Template B1: Tidewater star, cut 8",
        "Template C1: Tidewater accent, cut 8",
    ]
    assert (page.has_templates, page.has_foundations) == (True, False)


@pytest.mark.parametrize("print_size", list(PrintSize))
def test_both_test_squares_stand_on_every_page_with_templates(db: None, print_size: PrintSize) -> None:
    """1 in = 72 pt, 3 cm = 85.039 pt (ISO 32000-1: 1 pt = 1/72 in)."""
    installment = sheet_of(block_as_data(slim_compass()), size=12)
    data = draft(installment, print_size=print_size)
    recipe = work_of(installment.program).installment(1).parts[0].recipe
    assert recipe is not None
    rows = [row for step in recipe.steps for row in step.operations if row["op"] == "foundation"]
    assert rows
    with_squares = [page for page in paths(data) if {72.0, 85.04} <= squares(page)]
    variant = Variant(colorway=installment.program.quilt.colorways.get(slug="harbour"), print_size=print_size)
    mine = work_of(installment.program).installment(1)
    pages = true_size_pages(mine, cloths_of(variant.colorway), variant)
    assert len(with_squares) == 1 + len(pages) > 1  # the cover has them too


@pytest.mark.parametrize(
    ("paper", "print_size"), [(Paper.LETTER, PrintSize.USUAL), (Paper.A4, PrintSize.LARGE)]
)
def test_every_page_of_shapes_is_one_page_of_paper(db: None, paper: Paper, print_size: PrintSize) -> None:
    """No shape slips to a page without the squares: names of templates stand on pages that have them."""
    installment = sheet_of(traditional("pineapple"))
    data = draft(installment, paper=paper, print_size=print_size)
    document = pypdfium2.PdfDocument(data)
    words = [page.get_textpage().get_text_bounded() for page in document]
    named = [number for number, text in enumerate(words) if "Template A" in text or "Template B" in text]
    squared = [number for number, page in enumerate(paths(data)) if {72.0, 85.04} <= squares(page)]
    assert named
    assert set(named) <= set(squared)


def test_a_shape_that_fits_is_one_part_and_a_larger_one_is_split_along_named_lines() -> None:
    assert len(tiles_for((Fraction(300), Fraction(200)), (680, 620))) == 1
    tiles = tiles_for((Fraction(1300), Fraction(900)), (680, 620))
    assert [tile.joins for tile in tiles] == [
        ("", "", "a", "b"),
        ("a", "", "", "d"),
        ("", "b", "c", ""),
        ("c", "d", "", ""),
    ]
    assert {tile.size for tile in tiles} == {(Fraction(642) + 2 * AIR, Fraction(442) + 2 * AIR)}
