"""The worst words that somebody may write, on paper: nothing leaves the page, no foreign font, no tag."""

from __future__ import annotations

import re
import subprocess
from typing import TYPE_CHECKING

import pytest

from bom.domain.sheets.renderings import make_draft
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.variants import Variant
    from bom.models import Installment

pytestmark = pytest.mark.slow

LEFT, RIGHT = 36, 612 - 36  # pt of a Letter page
WORST = "\n\n".join(
    (
        "W" * 2_000,
        "\n".join("  " * depth + f"- level{depth}" for depth in range(60)),
        "</div></section><script>alert(1)</script>{seam}<img src=x>",
        "\u202eשלום مريم 🙂 花子 \x07\x1b" + "o\u0301\u0301\u0301\u0301" * 50,
        "*a **b " * 200,
        "last-word",
    )
)


def test_the_worst_words_stay_on_the_page(stars: Installment, variant: Variant, tmp_path: Path) -> None:
    stars.title, stars.story, stars.tips = "M" * 120, WORST, WORST
    path = tmp_path / "sheet.pdf"
    path.write_bytes(make_draft(stars, variant, now=NOW).data)
    boxes = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True)
    spans = re.findall(r'<word xMin="([\d.-]+)".*? xMax="([\d.-]+)"', boxes.stdout)
    assert min(float(left) for left, _right in spans) >= LEFT
    assert max(float(right) for _left, right in spans) <= RIGHT
    rows = subprocess.run(["pdffonts", path], capture_output=True, text=True, check=True).stdout
    fonts = [row.split()[0] for row in rows.splitlines()[2:]]
    assert [font for font in fonts if "Atkinson" not in font and "Vollkorn" not in font] == []
    said = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True).stdout
    assert said.count("last-word") == 2
    assert said.count("level59") == 2
    assert "<script>alert(1)</script>1⁄4 in<img src=x>" in said.replace("\n", "").replace("\u00a0", " ")
