"""One command serves web, worker and timer, keeps them running and stops them all."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import urllib.request
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.services.servers import ROOT, Setup, answers, free_port, running, wait_until

if TYPE_CHECKING:
    from collections.abc import Iterator

pytestmark = [pytest.mark.services, pytest.mark.slow]


def serve(port: int) -> list[str]:
    """Give the command."""
    return [sys.executable, "manage.py", "serve", "--port", str(port)]


def children_of(pid: int) -> set[int]:
    """List the processes that a process started and that still run (Linux)."""
    found: set[int] = set()
    for task in Path(f"/proc/{pid}/task").glob("*/children"):
        found.update(int(child) for child in task.read_text().split())
    return {child for child in found if is_alive(child)}


def is_alive(pid: int) -> bool:
    """Say whether a process runs; one that ended and was not collected does not."""
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


@pytest.fixture
def port() -> int:
    return free_port()


@pytest.fixture
def server(embedded: Setup, port: int) -> Iterator[subprocess.Popen[bytes]]:
    """Serve, and stop properly where the test did not."""
    with running(serve(port), environment=embedded.environment) as process:
        wait_until(lambda: answers(port), what="the web server answers")
        yield process
        if process.poll() is None:
            process.send_signal(signal.SIGTERM)
            process.wait(timeout=30)


def test_ctrl_c_stops_everything(server: subprocess.Popen[bytes], port: int) -> None:
    children = children_of(server.pid)
    assert len(children) == 2
    server.send_signal(signal.SIGINT)
    assert server.wait(timeout=30) == 0
    assert [child for child in children if is_alive(child)] == []
    assert not answers(port)


def test_a_killed_child_comes_back(server: subprocess.Popen[bytes], port: int) -> None:
    before = children_of(server.pid)
    for child in before:
        os.kill(child, signal.SIGKILL)
    wait_until(lambda: len(children_of(server.pid) - before) == 2, what="both children came back")
    wait_until(lambda: answers(port), what="the web server answers again")


def test_children_end_with_a_killed_supervisor(server: subprocess.Popen[bytes]) -> None:
    children = children_of(server.pid)
    server.kill()
    server.wait()
    wait_until(lambda: not any(map(is_alive, children)), what="the children end")


def test_a_taken_port_is_said_with_the_remedy(embedded: Setup) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        done = subprocess.run(
            serve(port), env=embedded.environment, cwd=ROOT, capture_output=True, text=True, check=False
        )
    assert done.returncode == 2
    assert done.stderr == (
        f"CommandError: Port {port} at 127.0.0.1 cannot be had (Address already in use): stop what uses it, "
        f"or choose another: manage.py serve --port {port + 1}, make run PORT={port + 1}.\n"
    )
    assert not (embedded.folder / "bom.sqlite3").exists()  # nothing half-begun


def test_no_port_at_all_names_the_field(embedded: Setup) -> None:
    done = subprocess.run(
        serve(70000), env=embedded.environment, cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (
        2,
        "CommandError: --port 70000: write a number from 1 to 65535.\n",
    )


def test_the_demo_is_loaded_marked_as_invented_and_says_where_its_mail_lies(
    embedded: Setup, port: int
) -> None:
    said = embedded.folder / "said"
    with (
        said.open("wb") as out,
        running([*serve(port), "--demo"], environment=embedded.environment, stdout=out),
    ):
        wait_until(lambda: answers(port), what="the web server answers", seconds=120)
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=30) as page:
            assert "Everything here is invented" in page.read().decode()
    assert said.read_text().splitlines()[:4] == [
        "The demo is loaded.",
        f"Serving at http://127.0.0.1:{port}/ - Ctrl-C stops all.",
        "Everything in the demo is invented: people, shops, fabrics and prices.",
        f"Mail is not sent; it lies in {embedded.folder / 'mail'}",
    ]
