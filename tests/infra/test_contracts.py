"""Each import contract holds, and finds a fault that is planted in a copy."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.infra.rules import ROOT

pytestmark = pytest.mark.slow
LINT = [str(Path(sys.executable).parent / "lint-imports"), "--no-cache"]
RUFF = [
    str(Path(sys.executable).parent / "ruff"),
    "check",
    "--no-cache",
    "--quiet",
    "--output-format=concise",
]


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """Give a copy of the source and its rules."""
    kept = shutil.ignore_patterns("__pycache__", "static")
    for name in ("patterns", "bom", "shops"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=kept)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    return tmp_path


def broken(folder: Path, *, contract: str) -> str:
    """Give what a contract says about a copy; empty when it is kept."""
    environment = {**os.environ, "PYTHONPATH": str(folder)}
    command = [*LINT, "--contract", contract]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode in {0, 1}, done.stderr
    return done.stdout if done.returncode else ""


def plant(folder: Path, path: str, code: str) -> None:
    """Add a line to a file of the copy, or make the file."""
    with (folder / path).open("a") as file:
        file.write(f"\n{code}\n")


PLANTED = [
    ("apps", "bom/models/outbox.py", "import shops.models"),
    ("apps", "patterns/models/user.py", "def f():\n    import bom.models"),
    ("apps", "patterns/domain/wording.py", "if TYPE_CHECKING:\n    import shops.enums"),
    ("patterns-layers", "patterns/models/user.py", "import patterns.domain.wording"),
    ("patterns-layers", "patterns/enums.py", "import patterns.engine.measure"),
    ("bom-layers", "bom/models/outbox.py", "import bom.domain.outbox"),
    ("bom-layers", "bom/domain/outbox.py", "import bom.tasks"),
    ("bom-layers", "bom/enums.py", "import bom.models"),
    ("bom-layers", "bom/helpers.py", "x = 1"),
    ("shops-layers", "shops/permissions.py", "import shops.domain.sign_ups"),
    ("shops-layers", "shops/utils.py", "x = 1"),
    ("engine", "patterns/engine/measure.py", "from django.utils import timezone"),
    ("engine", "patterns/engine/surds.py", "def f():\n    import patterns.enums"),
    ("virtual-sewing", "patterns/engine/rebuild.py", "import patterns.engine.steps"),
    (
        "virtual-sewing",
        "patterns/engine/rebuilding/works.py",
        "def f():\n    from patterns.engine import units",
    ),
    ("virtual-sewing", "patterns/engine/new_idea.py", "x = 1"),
]


@pytest.mark.parametrize(("contract", "path", "code"), PLANTED)
def test_a_planted_import_breaks_its_contract(copy: Path, *, contract: str, path: str, code: str) -> None:
    plant(copy, path, code)
    assert Path(path).stem in broken(copy, contract=contract)


def test_all_contracts_hold() -> None:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(LINT, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(
    ("path", "code"),
    [
        ("bom/domain/times.py", "import weasyprint"),
        ("bom/tasks.py", "from django.core.mail import send_mail"),
        ("patterns/engine/measure.py", "from math import isclose"),
        ("bom/domain/times.py", "import datetime as dt\nx = dt.datetime.now(dt.UTC)"),
        ("bom/domain/times.py", "import datetime as dt\nx = dt.date.today()"),
    ],
)
def test_a_planted_forbidden_name_is_found(copy: Path, path: str, code: str) -> None:
    plant(copy, path, code)
    found = subprocess.run(
        [*RUFF, "--select", "TID251", path], cwd=copy, capture_output=True, text=True, check=False
    )
    assert "banned-api" in found.stdout or "TID251" in found.stdout
