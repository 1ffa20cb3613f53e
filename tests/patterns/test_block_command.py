"""The block command: answers, exit codes, and what it says of bad input."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from patterns.engine.blocks import block_as_data
from tests.engine.figure_drawings import slim_compass

BLOCKS = Path(__file__).parents[2] / "fixtures" / "blocks"
APPLIQUE = BLOCKS.parent / "applique"


def run(*arguments: str) -> tuple[int, str, str]:
    out, err = StringIO(), StringIO()
    try:
        call_command("block", *arguments, stdout=out, stderr=err)
    except SystemExit as stop:
        return int(stop.code or 0), out.getvalue(), err.getvalue()
    return 0, out.getvalue(), err.getvalue()


def drawn(slug: str) -> str:
    return str(BLOCKS / f"{slug}.json")


def test_ohio_star_as_json() -> None:
    code, out, _ = run(drawn("ohio-star"), "--size", "12", "--json")
    answer = json.loads(out)
    assert code == 0
    assert (answer["name"], answer["size"], answer["order"]) == ("Ohio Star", ["12", "12"], "straight")
    assert answer["goes_together"] is True
    assert answer["warnings"] == []
    assert {
        "kind": "quarter-square triangle",
        "count": 4,
        "fabrics": ["A", "C", "A", "C"],
        "finished": ["4", "4"],
        "trim_to": ["4 1/2", "4 1/2"],
        "method": "from two half-square triangles",
        "hand": "either",
    } in answer["units"]
    expected = {"fabric": "A", "shape": "square", "width": "5 1/4", "length": "5 1/4", "count": 2, "then": ""}
    assert expected.items() <= answer["pieces"][0].items()
    assert [step["number"] for step in answer["steps"]] == [1, 2]
    assert answer["steps"][-1]["check"] == ["12 1/2", "12 1/2"]


def test_answer_in_words() -> None:
    code, out, _ = run(drawn("sawtooth-star"), "--size", "8")
    assert code == 0
    assert "goes together: 17 of 17 patches" in out
    assert "5 1/4 x 5 1/4 in" in out


@pytest.mark.parametrize(
    ("slug", "order", "kinds"),
    [
        ("lemoyne-star", "set-in seam", {"diamond"}),
        ("hexagon-flower", "set-in seam", {"hexagon"}),
        ("bright-hopes", "partial seam", {"rectangle", "square"}),
        ("attic-window", "set-in seam", {"template"}),
        ("drunkards-path", "template", {"drunkard's path"}),
        ("trip-around-the-world", "straight", {"square"}),
    ],
)
def test_blocks_that_rows_do_not_make_say_how_they_are_sewn(slug: str, order: str, kinds: set[str]) -> None:
    code, out, _ = run(drawn(slug), "--size", "12", "--json")
    answer = json.loads(out)
    assert (code, answer["order"], answer["goes_together"]) == (0, order, True)
    assert kinds <= {unit["kind"] for unit in answer["units"]}
    assert all(step["check"] or "measures" in step["text"] for step in answer["steps"])


def test_a_compass_is_pieced_on_foundations(tmp_path: Path) -> None:
    file = tmp_path / "compass.json"
    file.write_text(json.dumps(block_as_data(slim_compass())), encoding="utf-8")
    code, out, _ = run(str(file), "--size", "12", "--json")
    answer = json.loads(out)
    assert (code, answer["order"], answer["goes_together"]) == (0, "foundation", True)
    assert [(unit["kind"], unit["count"]) for unit in answer["units"]] == [("foundation section", 4)] * 2
    assert "mirror image" in answer["steps"][0]["text"]


def test_applique_is_cut_with_templates_and_laid_last() -> None:
    code, out, _ = run(str(APPLIQUE / "four-petals.json"), "--size", "12", "--json")
    answer = json.loads(out)
    assert (code, answer["goes_together"], answer["patches"]) == (0, True, 13)
    cut = [(piece["id"], piece["shape"], piece["count"]) for piece in answer["pieces"]]
    assert cut[2:] == [("C1", "template", 4), ("D1", "template", 4), ("E1", "template", 1)]
    last = answer["steps"][-1]
    assert (last["title"], last["check"]) == ("Appliqué", ["12 1/2", "12 1/2"])
    assert "9: E1, 4 7/8 in from the left, 4 7/8 in from the top." in last["text"]


def test_a_fault_of_a_shape_names_its_field(tmp_path: Path) -> None:
    data = json.loads((APPLIQUE / "four-petals.json").read_text("utf-8"))
    data["applique"][3]["points"] = [[1, 1], [3, 3], [3, 1], [1, 3]]
    file = tmp_path / "crossed.json"
    file.write_text(json.dumps(data), encoding="utf-8")
    code, _, err = run(str(file), "--size", "12")
    assert code == 2
    assert err.startswith("crosses-itself (applique[3].points): Give the corners in their order")


def test_style_and_seam() -> None:
    _, out, _ = run(drawn("pinwheel"), "--size", "12", "--style", "oversized", "--seam", "3/8", "--json")
    answer = json.loads(out)
    assert answer["goes_together"]
    assert {piece["width"] for piece in answer["pieces"]} == {"7 1/2"}  # exact 7.2803, and 1/8 in to trim
    assert answer["units"][0]["trim_to"] == ["6 3/4", "6 3/4"]


def test_size_of_both_sides() -> None:
    code, out, _ = run(drawn("four-patch"), "--size", "12x8", "--json")
    assert code == 0
    assert json.loads(out)["size"] == ["12", "8"]


@pytest.mark.parametrize("size", ["twelve", "0", "12x8x4", "", "-3"])
def test_bad_size_names_the_field_and_a_remedy(size: str) -> None:
    code, out, _ = run(drawn("ohio-star"), f"--size={size}", "--json")
    answer = json.loads(out)
    assert code == 2
    assert (answer["error"], answer["where"]) == ("bad-length", "--size")
    assert answer["remedy"]
    assert run(drawn("ohio-star"), f"--size={size}")[2]


def test_file_that_is_missing_or_no_json(tmp_path: Path) -> None:
    broken = tmp_path / "broken.json"
    broken.write_text("{", encoding="utf-8")
    assert json.loads(run(str(tmp_path / "none.json"), "--size", "12", "--json")[1])["error"] == "no-file"
    code, out, _ = run(str(broken), "--size", "12", "--json")
    assert (code, json.loads(out)["error"]) == (2, "bad-file")


def test_drawing_with_a_gap_is_refused(tmp_path: Path) -> None:
    drawing = json.loads((BLOCKS / "ohio-star.json").read_text(encoding="utf-8"))
    drawing["patches"].pop()
    file = tmp_path / "gap.json"
    file.write_text(json.dumps(drawing), encoding="utf-8")
    code, out, _ = run(str(file), "--size", "12", "--json")
    answer = json.loads(out)
    assert code == 2
    assert answer["error"] == "gap"
    assert answer["where"]
    assert answer["remedy"]


def test_a_file_that_is_nested_without_end_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "deep.json"
    path.write_text("[" * 200_000 + "]" * 200_000)
    code, out, _ = run(str(path), "--size", "12", "--json")
    assert (code, json.loads(out)["error"]) == (2, "bad-file")


def test_a_drawing_of_too_many_patches_tells_its_count_and_the_reason(tmp_path: Path) -> None:
    squares = [{"fabric": "A", "points": [[0, 0], [1, 0], [1, 1]]}] * 10_000
    path = tmp_path / "many.json"
    path.write_text(json.dumps({"name": "Many", "grid": [9, 9], "patches": squares}), encoding="utf-8")
    code, out, _ = run(str(path), "--size", "12", "--json")
    assert (code, json.loads(out)["error"]) == (2, "too-many-patches")
    assert json.loads(out)["remedy"].startswith("It has 10000 patches. A block may have 1500:")


def test_a_size_beside_the_marks_of_a_ruler_offers_the_nearest_that_lie_on_them(tmp_path: Path) -> None:
    squares = [
        {"fabric": "AB"[(x + y) % 2], "points": [[x, y], [x + 1, y], [x + 1, y + 1], [x, y + 1]]}
        for x in range(9)
        for y in range(9)
    ]
    path = tmp_path / "nine.json"
    path.write_text(json.dumps({"name": "Nine", "grid": [9, 9], "patches": squares}), encoding="utf-8")
    code, out, _ = run(str(path), "--size", "12", "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["nearest_sizes"] == {"part": "1 1/3", "below": "11 1/4", "above": "12 3/8"}
    assert answer["warnings"][-1] == (
        "Its parts are 1 1/3 in, beside the marks of a ruler. Nearest sizes that lie on them: "
        "11 1/4 in or 12 3/8 in."
    )
    assert json.loads(run(str(path), "--size", "9", "--json")[1])["nearest_sizes"] is None


def test_a_thin_patch_is_a_warning_with_its_place(tmp_path: Path) -> None:
    strips = [("A", 0, 500), ("B", 500, 505), ("C", 505, 1000)]
    patches = [
        {"fabric": letter, "points": [[left, 0], [right, 0], [right, 1000], [left, 1000]]}
        for letter, left, right in strips
    ]
    path = tmp_path / "thin.json"
    path.write_text(json.dumps({"name": "Thin", "grid": [1000, 1000], "patches": patches}), encoding="utf-8")
    warnings = json.loads(run(str(path), "--size", "12", "--json")[1])["warnings"]
    assert any(warning.startswith("Patch 2 at 502 1/2, 500 is thinner") for warning in warnings)
