"""Private servers on free ports, started and stopped by the tests."""

from __future__ import annotations

import glob
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = Path(sys.executable).parent
STARTING = 40.0  # seconds a server may take, on a busy machine


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """The environment of one private copy of the whole."""

    environment: dict[str, str]
    folder: Path

    @property
    def mails(self) -> list[Path]:
        """List the files in the mail folder, halves of files too."""
        return sorted((self.folder / "mail").glob("*"))


def free_port() -> int:
    """Give a port that nobody uses at this moment."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def wait_until(true: Callable[[], bool], *, what: str, seconds: float = STARTING) -> None:
    """Look until it is true; AssertionError saying what did not come about within the deadline."""
    until = time.monotonic() + seconds
    while not true():
        assert time.monotonic() < until, f"not within {seconds:.0f} s: {what}"
        time.sleep(0.1)


def answers(port: int) -> bool:
    """Say whether somebody listens at the port."""
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


@contextmanager
def running(
    command: list[str], *, environment: dict[str, str], stdout: IO[bytes] | None = None
) -> Iterator[subprocess.Popen[bytes]]:
    """Run a command in a session of its own, and end all of it afterwards."""
    process = subprocess.Popen(command, env=environment, cwd=ROOT, start_new_session=True, stdout=stdout)
    try:
        yield process
    finally:
        kill_group(process)


def kill_group(process: subprocess.Popen[bytes]) -> None:
    """Kill a process and all that it started, as a power cut would."""
    with suppress(ProcessLookupError):
        os.killpg(process.pid, 9)
    process.wait()


@contextmanager
def redis_server() -> Iterator[str]:
    """Run a Redis; give its address."""
    port = free_port()
    with tempfile.TemporaryDirectory(prefix="bom-redis-") as folder:
        command = ["redis-server", "--port", str(port), "--bind", "127.0.0.1", "--dir", folder]
        command += ["--appendonly", "yes", "--save", "", "--loglevel", "warning"]
        with running(command, environment=dict(os.environ)):
            wait_until(lambda: answers(port), what="Redis answers")
            yield f"redis://127.0.0.1:{port}/0"


def postgres_tool(name: str) -> str:
    """Find a program of PostgreSQL, newest first; Debian keeps them away from the path."""
    places = sorted(glob.glob(f"/usr/lib/postgresql/*/bin/{name}"), key=lambda p: int(p.split("/")[4]))
    found = places[-1] if places else shutil.which(name)
    assert found, f"{name} is not here; apt-get install postgresql"
    return found


@contextmanager
def postgres_server() -> Iterator[str]:
    """Run a PostgreSQL, as its own user where we are root; give the address of an empty database."""
    port = free_port()
    as_root = os.geteuid() == 0
    user = ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"] if as_root else []
    with tempfile.TemporaryDirectory(prefix="bom-postgres-") as folder:
        if as_root:
            shutil.chown(folder, "postgres", "postgres")
        data = f"{folder}/data"
        initdb = [postgres_tool("initdb"), "-D", data, "-A", "trust", "-U", "postgres", "-E", "UTF8"]
        subprocess.run([*user, *initdb, "--locale=C.UTF-8"], check=True, capture_output=True, cwd="/")
        control = [*user, postgres_tool("pg_ctl"), "-D", data, "-w", "-l", f"{folder}/log"]
        options = f"-p {port} -c listen_addresses=127.0.0.1 -c fsync=off -k {folder}"
        subprocess.run([*control, "-o", options, "start"], check=True, capture_output=True, cwd="/")
        try:
            yield f"postgres://postgres@127.0.0.1:{port}/postgres"
        finally:
            subprocess.run([*control, "-m", "immediate", "stop"], check=True, capture_output=True, cwd="/")
