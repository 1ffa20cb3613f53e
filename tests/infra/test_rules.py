"""Every file keeps the rules, and each rule finds a planted fault."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from tests.infra import rules
from tests.infra.rules import ROOT, source_files

if TYPE_CHECKING:
    from pathlib import Path

ENGINE = source_files("patterns/engine")
SEWING = [path for path in ENGINE if path.name == "rebuild.py" or "rebuilding" in path.parts]
OURS = source_files("patterns", "bom", "shops")
ALL = [*OURS, *source_files("tests"), ROOT / "manage.py"]
PAGES = sorted((ROOT / "templates").rglob("*.*"))


def documents() -> list[Path]:
    """List what people read and what the tools read, at the top of the tree."""
    found = [path for path in ROOT.glob("*") if path.suffix in {".md", ".toml", ".in", ".txt"}]
    return [*found, ROOT / "Makefile", *sorted((ROOT / ".ci").iterdir())]


def faults(files: list[Path], rule: object) -> dict[str, object]:
    """Give what a rule finds, file by file; empty where all is well."""
    assert callable(rule)
    found = {str(path.relative_to(ROOT)): rule(path.read_text()) for path in files}
    return {name: what for name, what in found.items() if what}


def test_the_engine_is_exact_and_knows_nothing_of_the_world() -> None:
    found = {path.name: rules.engine_faults(path.read_text(), name=path.name) for path in ENGINE}
    assert {name: what for name, what in found.items() if what} == {}
    assert len(ENGINE) > 20


def test_virtual_sewing_depends_on_nothing_that_it_checks() -> None:
    assert faults(SEWING, rules.sewing_faults) == {}
    assert len(SEWING) > 1


def test_no_file_is_longer_than_300_lines() -> None:
    assert faults(ALL, lambda text: max(0, text.count("\n") - rules.MOST_FILE_LINES)) == {}


def test_no_function_is_longer_than_40_lines() -> None:
    assert faults(ALL, rules.long_functions) == {}


def test_every_suppression_names_its_rule_and_its_reason() -> None:
    infra = ROOT / "tests" / "infra"
    assert faults([path for path in ALL if infra not in path.parents], rules.bare_suppressions) == {}


def test_no_file_names_a_place_on_somebodys_machine() -> None:
    infra = ROOT / "tests" / "infra"
    files = [path for path in [*ALL, *documents(), *PAGES] if infra not in path.parents]
    assert faults(files, lambda text: [hit.group(0) for hit in rules.MACHINE_PLACES.finditer(text)]) == {}


def test_no_file_sends_its_reader_or_its_page_to_another_host() -> None:
    written = [path for path in (ROOT / "fixtures").rglob("*.*") if path.suffix != ".png"]
    stored = sorted(written) + sorted((ROOT / "bom" / "static").rglob("*.css"))
    infra = ROOT / "tests" / "infra"
    files = [path for path in [*ALL, *documents(), *PAGES, *stored] if infra not in path.parents]
    assert faults(files, rules.foreign_hosts) == {}


def test_pages_and_mails_use_our_words() -> None:
    assert faults(PAGES, rules.words_to_change) == {}


@pytest.mark.parametrize("name", ["requirements.lock.txt", "requirements-dev.lock.txt"])
def test_lock_files_pin_versions_and_name_no_address(name: str) -> None:
    lines = (ROOT / name).read_text().splitlines()
    pin = re.compile(r"[a-z0-9._-]+(\[[a-z,]+\])?==[0-9][A-Za-z0-9.+!]*( ; .+)?")
    assert [line for line in lines if "://" in line or not pin.fullmatch(line)] == []
    assert len(lines) > 20


def test_the_two_lock_files_agree() -> None:
    runtime, development = (
        set((ROOT / name).read_text().splitlines())
        for name in ("requirements.lock.txt", "requirements-dev.lock.txt")
    )
    names = {re.split("==", line)[0] for line in development - runtime}
    assert {line for line in runtime if re.split("==", line)[0] in names} <= development


@pytest.mark.parametrize(
    ("planted", "found"),
    [
        ("x = 0.25", "line 1: float literal 0.25"),
        ("x = 1 / 4", "line 1: division of whole numbers"),
        ("def f():\n    from math import isclose as same\n    return math.isclose(1, 2)", "line 3: isclose"),
        ("import django", "line 1: import of django"),
        ("def f():\n    import numpy", "line 2: import of numpy"),
        ("from datetime import datetime", "line 1: import of datetime"),
        ("from patterns.models import Block", "line 1: import of patterns.models"),
        ("print(1)", "line 1: call of print"),
        ("open('x')", "line 1: call of open"),
    ],
)
def test_a_fault_planted_in_the_engine_is_found(planted: str, found: str) -> None:
    assert rules.engine_faults(planted) == [found]


def test_the_solver_and_only_the_solver_may_call_for_its_library() -> None:
    assert rules.engine_faults("import highspy", name="solver.py") == []
    assert rules.engine_faults("import highspy", name="measure.py") == ["line 1: import of highspy"]


def test_virtual_sewing_that_looks_at_the_methods_is_found() -> None:
    planted = (
        "from patterns.engine.units.geese import sew\nfrom patterns.engine import surds, steps\nimport re"
    )
    assert rules.sewing_faults(planted) == ["patterns.engine.units.geese", "patterns.engine.steps"]


def test_a_planted_long_function_is_found() -> None:
    assert rules.long_functions("def f():\n" + "    x = 1\n" * 39) == []
    assert rules.long_functions("def f():\n" + "    x = 1\n" * 40) == ["f: 41 lines"]


def test_planted_suppressions_without_a_reason_are_found() -> None:
    bare = [
        "import x  # noqa",
        "import x  # noqa: F401",
        "x = 1  # type: ignore",
        "x = 1  # type: ignore[misc]",
    ]
    good = [
        "import x  # noqa: F401 -- kept for its effect",
        "x = 1  # type: ignore[misc]  # untyped upstream",
    ]
    assert rules.bare_suppressions("\n".join([*bare, *good])) == bare


def test_a_planted_host_is_found_and_examples_may_stand() -> None:
    text = "https://bom.example.org http://shop.example/x http://www.w3.org/2000/svg http://127.0.0.1:8000"
    assert rules.foreign_hosts(text) == []
    assert rules.foreign_hosts(text + " https://" + "cdn.somewhere.net/a.css") == ["cdn.somewhere.net"]


def test_a_planted_place_and_a_planted_word_are_found() -> None:
    assert rules.MACHINE_PLACES.search("see /" + "home/anna/x") is not None
    assert rules.MACHINE_PLACES.search("the/home/stretch") is None
    page = '{% load vendor %}<p class="sku">{% trans "Subscriptions" %}</p>'
    assert rules.words_to_change(page) == {"subscription": "sign-up"}
