"""A name at the foot of every page, in our font, without changing anything else."""

from __future__ import annotations

import io
import re
import subprocess
from typing import TYPE_CHECKING

import pikepdf
import pytest

from bom.domain.sheets.stamp import FOOT, HEAD, Spot, stamp, stampable

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.pdf import SheetFile

WORDS = "Paula Fjøs · 12 · Sam's Bolts"


def test_every_page_says_whose_copy_it_is(drawn: SheetFile, tmp_path: Path) -> None:
    path = tmp_path / "stamped.pdf"
    path.write_bytes(stamp(drawn.data, WORDS))
    text = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True).stdout
    assert text.count(WORDS) == drawn.pages


def test_a_stamp_is_the_same_each_time(drawn: SheetFile) -> None:
    assert stamp(drawn.data, WORDS) == stamp(drawn.data, WORDS)


def test_tags_and_title_stay(drawn: SheetFile) -> None:
    with pikepdf.open(io.BytesIO(stamp(drawn.data, WORDS))) as document:
        assert document.Root.MarkInfo.Marked
        assert "Two Boats" in str(document.docinfo["/Title"])


def test_letters_that_our_font_lacks_are_said_beforehand(drawn: SheetFile) -> None:
    assert stampable(WORDS)
    assert not stampable("Ωμέγα")
    with pytest.raises(ValueError, match="Ω"):
        stamp(drawn.data, "Ω")


@pytest.mark.parametrize(("spot", "top", "bottom"), [(FOOT, 0.96, 1), (HEAD, 0, 0.04)])
def test_a_stamp_stands_upright_at_its_place(  # noqa: PLR0917 -- where it is set, and what is looked at
    drawn: SheetFile, tmp_path: Path, spot: Spot, top: float, bottom: float
) -> None:
    """Upright words are as high as their letters: a turned page would set them mirrored at its other end."""
    path = tmp_path / "stamped.pdf"
    path.write_bytes(stamp(drawn.data, "PREVIEW12345", spot=spot))
    done = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True)
    found = re.findall(r'<word .*yMin="([\d.]+)".*yMax="([\d.]+)">PREVIEW12345<', done.stdout)
    assert len(found) == drawn.pages
    assert all(top * 792 <= float(low) and float(high) <= bottom * 792 for low, high in found)


@pytest.mark.parametrize("words", [WORDS, "W" * 120])
def test_a_stamp_of_any_length_stays_on_the_page(words: str, tmp_path: Path) -> None:
    empty = io.BytesIO()
    with pikepdf.new() as document:
        document.add_blank_page(page_size=(595, 842))  # A4, the narrower paper
        document.save(empty)
    path = tmp_path / "stamped.pdf"
    path.write_bytes(stamp(empty.getvalue(), words))
    done = subprocess.run(["pdftotext", "-bbox", path, "-"], capture_output=True, text=True, check=True)
    ends = [float(end) for end in re.findall(r'<word .*xMax="([\d.]+)"', done.stdout)]
    assert ends and max(ends) <= 595 - 49
