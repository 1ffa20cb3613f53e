"""The block command on pictures: the same answer as from the drawing file, or a fault with a remedy."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from patterns.domain.drawing_words import REMEDIES
from patterns.engine import errors
from tests.patterns.test_block_command import drawn, run

PICTURES = Path(__file__).parents[1] / "engine" / "svg"
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4">'


def answer(file: Path | str, *, size: str = "12") -> tuple[int, Any]:
    code, out, _ = run(str(file), "--size", size, "--json")
    return code, json.loads(out)


def refused(path: Path, text: str) -> dict[str, Any]:
    path.write_text(text, encoding="utf-8")
    code, found = answer(path)
    assert code == 2
    assert found["remedy"]
    assert run(str(path), "--size", "12")[2].startswith(found["error"])
    return dict(found)


def test_a_picture_gives_the_answer_of_its_drawing_file() -> None:
    code, found = answer(PICTURES / "ohio-star-inches.svg")
    assert code == 0
    assert found == answer(drawn("ohio-star"))[1]


def test_a_picture_of_colours_alone_goes_together() -> None:
    code, found = answer(PICTURES / "ohio-star-pixels.svg", size="9")
    assert (code, found["goes_together"], found["patches"]) == (0, True, 21)
    assert [unit["fabrics"] for unit in found["units"] if unit["count"] == 4] == [["A"], ["A", "B", "A", "B"]]


def test_a_picture_is_known_by_its_first_character_too(tmp_path: Path) -> None:
    file = tmp_path / "star.txt"
    file.write_text("\ufeff\n" + (PICTURES / "ohio-star-inches.svg").read_text("utf-8"), encoding="utf-8")
    assert answer(file)[1]["name"] == "Ohio Star"


def test_a_picture_without_a_title_is_named_as_its_file(tmp_path: Path) -> None:
    file = tmp_path / "two-strips.SVG"
    file.write_text(
        f'{HEAD}<path d="M0 0h2v4h-2z"/><path fill="red" d="M2 0h2v4h-2z"/></svg>', encoding="utf-8"
    )
    assert answer(file)[1]["name"] == "two-strips"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("{}", ("bad-svg", "line 1")),
        ('<!DOCTYPE x [<!ENTITY a "b">]><svg>&a;</svg>', ("unsafe-svg", "doctype")),
        (f"{HEAD}<script/></svg>", ("unsafe-svg", "script[0]")),
        (f'{HEAD}<image href="a.png"/></svg>', ("outside-reference", "image[0]")),
        (f'{HEAD}<circle r="2"/></svg>', ("curve", "circle[0]")),
        (f"{HEAD}</svg>", ("no-patches", "svg[0]")),
        (f'{HEAD}<rect width="4" height="3"/></svg>', ("gap", ["2", "3"])),
        (f'{HEAD}<rect width="4" height="2.8685"/></svg>', ("off-grid", "rect[0] 4,2.868")),
        (
            f'{HEAD}<rect width="4" height="4" transform="rotate(7)"/></svg>',
            ("bad-transform", "rect[0].transform"),
        ),
        (f"{HEAD}{'<g/>' * 5001}</svg>", ("too-large", "g[4999]")),
        (HEAD + '<path d="M0 0h1v1z"/>' * 1501 + "</svg>", ("too-many-patches", "svg[0]")),
    ],
)
def test_faults_of_a_picture_tell_place_and_remedy(tmp_path: Path, text: str, fault: object) -> None:
    found = refused(tmp_path / "block.svg", text)
    assert (found["error"], found["where"]) == fault


def test_every_fault_of_a_picture_has_its_own_remedy() -> None:
    kinds = (
        errors.BadSvg, errors.UnsafeSvg, errors.OutsideReference, errors.TooLarge, errors.Curve,
        errors.BadTransform, errors.NoPatches, errors.OffGrid, errors.TooManyPatches,
    )  # fmt: skip
    assert {kind.remedy for kind in kinds} <= set(REMEDIES)


def test_a_picture_that_is_no_utf_8_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "latin.svg"
    file.write_bytes(b"<svg><title>\xe9</title></svg>")
    code, found = answer(file)
    assert (code, found["error"]) == (2, "bad-file")
