"""Six chosen forms, each looked at whole; large print, purchase by the metre, and the run over every form."""

from __future__ import annotations

import base64
import json
import re
import subprocess
from io import StringIO
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from django.core.management import CommandError, call_command
from pypdfium2 import raw

from bom.domain.chain import work_of
from bom.domain.making import illustrated
from bom.domain.sheets import every_form
from bom.domain.sheets.content import sheet_context
from bom.domain.sheets.every_form import Form, progress_of
from bom.domain.sheets.large import LARGER, enlarged, layouts
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize, UnitsChoice
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.pdf import SheetFile
    from bom.models import Program, SheetEdition

pytestmark = pytest.mark.slow

OUR_FONTS = ("Atkinson", "Vollkorn")
LARGE_PT = 18
MARGIN_PT = 36  # half an inch at least stays free on both sides
FORMS = [  # one block, two blocks, a month to catch up, the joining, the finishing
    (1, ("letter", "in", "usual")),
    (2, ("a4", "cm", "usual")),
    (3, ("letter", "metric-purchase", "usual")),
    (4, ("a4", "in", "large")),
    (5, ("letter", "cm", "large")),
    (2, ("letter", "metric-purchase", "large")),
]


def form_of(program: Program, form: tuple[str, str, str]) -> Variant:
    paper, units, size = form
    return Variant(
        colorway=program.quilt.colorways.get(slug="harbour"),
        paper=Paper(paper),
        units=UnitsChoice(units),
        print_size=PrintSize(size),
    )


def words_of(path: Path) -> str:
    done = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True)
    return done.stdout.replace("\N{NO-BREAK SPACE}", " ").replace("\N{FRACTION SLASH}", "/")


def letters_of(made: SheetFile) -> list[tuple[str, float]]:
    """Give every letter with its size in points."""
    found: list[tuple[str, float]] = []
    for page in pypdfium2.PdfDocument(made.data):
        text = page.get_textpage()
        for at in range(text.count_chars()):
            box = raw.FS_MATRIX()
            raw.FPDFText_GetMatrix(text, at, box)
            size = raw.FPDFText_GetFontSize(text, at) * abs(box.d or box.b)
            found.append((chr(raw.FPDFText_GetUnicode(text, at)), size))
    return found


@pytest.mark.parametrize(("number", "form"), FORMS)
def test_a_form_is_set_in_our_fonts_and_stays_within_the_page(
    program: Program, tmp_path: Path, *, number: int, form: tuple[str, str, str]
) -> None:
    installment, path = program.installments.get(number=number), tmp_path / "sheet.pdf"
    path.write_bytes(make_draft(installment, form_of(program, form), now=NOW).data)
    rows = subprocess.run(["pdffonts", path], capture_output=True, text=True, check=True).stdout
    fonts = [row.split()[0] for row in rows.splitlines()[2:]]
    assert [font for font in fonts if not any(ours in font for ours in OUR_FONTS)] == []
    boxes = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True)
    spans = re.findall(r'<word xMin="([\d.-]+)".*? xMax="([\d.-]+)"', boxes.stdout)
    width = {"letter": 612, "a4": 595.28}[form[0]]
    assert min(float(left) for left, _right in spans) >= MARGIN_PT
    assert max(float(right) for _left, right in spans) <= width - MARGIN_PT
    assert installment.title in words_of(path)


def test_purchase_is_in_metres_and_sewing_in_inches(program: Program, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    form = form_of(program, ("letter", "metric-purchase", "usual"))
    path.write_bytes(make_draft(program.installments.get(number=2), form, now=NOW).data)
    said = words_of(path)
    assert re.search(r"\b0\.\d+ m\b", said)
    assert "6 1/2 × 6 1/2 in" in said
    assert re.findall(r"\S+ yd\b", said) == ["1/8 yd"]  # the step of sale is what the shop cuts by


def test_large_print_is_18_points_and_more(program: Program) -> None:
    made = make_draft(
        program.installments.get(number=1), form_of(program, ("letter", "in", "large")), now=NOW
    )
    small = {letter for letter, size in letters_of(made) if size < LARGE_PT and letter.strip()}
    assert small <= set("13incm/02456789\N{FRACTION SLASH}")  # test squares and marks, figures of fractions


def test_the_layout_is_said_in_words_where_nobody_sees_the_picture(program: Program) -> None:
    part = work_of(program).installment(1).parts[0]
    recipe = illustrated(part)
    first, second, third = layouts(recipe, part.drawing)[len(recipe.steps)]
    level, upright = ("(B top, A right, B bottom, A left)", "(A top, B right, A bottom, B left)")
    assert first == f"Row 1, from the left: A2; quarter-square triangle {upright}; A2"
    assert second.removeprefix("Row 2, from the left: ").split("; ") == [
        f"quarter-square triangle {level}",
        "C1",
        f"quarter-square triangle {level}",
    ]
    assert third == first.replace("Row 1", "Row 3")
    assert layouts(recipe, None) == {}


def test_a_picture_in_large_print_is_larger_with_its_letters() -> None:
    svg = '<svg width="100" height="40" viewBox="0 0 100 40"><text font-size="11">A1</text></svg>'
    assert enlarged(svg) == svg.replace('width="100" height="40"', 'width="225" height="90"')
    assert 8.25 * LARGER >= LARGE_PT  # 11 px are 8 1/4 pt
    with pytest.raises(ValueError, match="width and height"):
        enlarged("<svg/>")


def test_fabrics_are_told_apart_without_colour(edition: SheetEdition, variant: Variant) -> None:
    rows = sheet_context(edition, variant)["fabrics"]
    drawn = [base64.b64decode(row.swatch.split(",", 1)[1]).decode() for row in rows]
    bare = {re.sub(r"#[0-9A-Fa-f]{6}|<title>.*?</title>", "", picture) for picture in drawn}
    assert len(bare) == len(rows) > 1


def test_every_form_of_a_program_is_listed(program: Program) -> None:
    forms = every_form.every_form(program)
    assert len(forms) == 5 * 2 * 2 * 3 * 2  # installments, colorways, papers, measures, sizes of print
    assert len({form.name for form in forms}) == len(forms)
    assert forms[0].name == "small-01-harbour-letter-in-usual-en"


def set_nothing(form: Form, *, now: object) -> None:
    if "-03-" in form.name and "large" in form.name:
        raise ValueError("no room")


def test_the_worker_sets_form_after_form_and_tells_what_fails(
    program: Program, monkeypatch: pytest.MonkeyPatch, settings: object
) -> None:
    monkeypatch.setattr(every_form, "set_one", set_nothing)
    said = StringIO()
    with pytest.raises(CommandError, match="no room") as caught:
        call_command("sheets", program.slug, here=True, every=7, json=True, stdout=said)
    rows = [json.loads(row) for row in said.getvalue().splitlines()]
    assert [row["done"] for row in rows] == list(range(1, 19))
    assert (rows[-1]["of"], caught.value.returncode) == (18, 1)
    assert all("-03-" in name for name in rows[-1]["failed"])
    from bom.tasks import set_every_form

    monkeypatch.setattr("bom.tasks.set_every_form.delay", lambda program, at: set_every_form(program, at))
    monkeypatch.setattr("bom.tasks.every_form", lambda found: every_form.every_form(found)[:4])
    set_every_form(program.pk, 0)
    progress = progress_of(program)
    assert progress is not None
    assert (progress.done, progress.is_over) == (4, True)


def test_an_unknown_program_is_named(program: Program) -> None:
    with pytest.raises(CommandError, match=r"^program: ") as caught:
        call_command("sheets", "nowhere", here=True)
    assert caught.value.returncode == 2
