"""What the machine lacks is installed, or the exact command is said."""

from __future__ import annotations

import os
import shutil
import subprocess
from typing import TYPE_CHECKING

import pytest

from tests.infra.rules import ROOT

if TYPE_CHECKING:
    from pathlib import Path

SCRIPT = ROOT / ".ci" / "system-packages"
PRESENT = ("bash", "python3", "env")  # programs that the bare machine of the test has


def bare_machine(folder: Path, *, user: int) -> dict[str, str]:
    """Make a path with next to nothing on it, an `id` that says who we are, an apt-get that notes."""
    for name in PRESENT:
        (folder / name).symlink_to(shutil.which(name) or name)
    _program(folder / "id", f"echo {user}")
    _program(folder / "apt-get", f'echo "$*" >> {folder}/calls')
    return {"PATH": str(folder), "HOME": str(folder)}


def _program(path: Path, line: str) -> None:
    path.write_text(f"#!{shutil.which('bash')}\n{line}\n")
    path.chmod(0o755)


def ask(environment: dict[str, str], *packages: str) -> subprocess.CompletedProcess[str]:
    """Ask for packages on that machine."""
    command = [shutil.which("bash") or "bash", str(SCRIPT), *packages]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def test_root_installs_only_what_is_missing(tmp_path: Path) -> None:
    machine = bare_machine(tmp_path, user=0)
    _program(tmp_path / "msgfmt", "true")
    assert ask(machine, "gettext", "fontconfig", "poppler-utils").returncode == 0
    assert (tmp_path / "calls").read_text().splitlines() == [
        "update -qq",
        "install -y -qq --no-install-recommends fontconfig poppler-utils",
    ]


def test_others_are_told_the_exact_command(tmp_path: Path) -> None:
    done = ask(bare_machine(tmp_path, user=1000), "fontconfig", "poppler-utils")
    command = "apt-get update && apt-get install -y --no-install-recommends fontconfig poppler-utils"
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines() == [
        "System packages are missing: fontconfig poppler-utils",
        f"Ask an administrator to run: sudo sh -c '{command}'",
    ]
    assert not (tmp_path / "calls").exists()


@pytest.mark.parametrize("package", ["gettext", "fontconfig", "libpango-1.0-0", "libharfbuzz-subset0"])
def test_on_this_machine_nothing_is_missing(package: str) -> None:
    assert ask(dict(os.environ), package).returncode == 0
