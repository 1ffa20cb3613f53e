"""The supervisor gives up what does not stay up, and ends what does not stop."""

from __future__ import annotations

import os
import signal
import sys
import threading
from typing import TYPE_CHECKING

import pytest

from bom import supervisor
from bom.supervisor import DEATH_WINDOW, MOST_DEATHS, Child, Supervisor

if TYPE_CHECKING:
    from collections.abc import Iterator

STUBBORN = "import signal, time; signal.signal(15, signal.SIG_IGN); print('up', flush=True); time.sleep(60)"


@pytest.fixture(autouse=True)
def same_handlers() -> Iterator[None]:
    """Put back what the supervisor does to the signals of this process."""
    kept = {number: signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)}
    yield
    for number, handler in kept.items():
        signal.signal(number, handler)


def run(*children: Child) -> tuple[int, list[str]]:
    """Supervise; give the exit code and what was said."""
    said: list[str] = []
    code = Supervisor(children, environment=os.environ, say=said.append).run()
    return code, said


def test_a_child_that_dies_again_and_again_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(supervisor, "LOOK", 0.01)
    code, said = run(Child(name="worker", command=["false"]))
    assert code == 1
    assert said == ["worker ended (1); starting it again."] * (MOST_DEATHS - 1) + [
        "worker ended 5 times within 60 s; giving up."
    ]


def test_deaths_far_apart_are_forgiven() -> None:
    child = Child(name="worker", command=["false"])
    assert not any(child.dies_too_often(number * DEATH_WINDOW / 2) for number in range(20))
    close = Child(name="worker", command=["false"])
    assert [close.dies_too_often(float(second)) for second in range(MOST_DEATHS)] == [False] * 4 + [True]


def test_a_child_that_does_not_stop_is_ended_after_the_grace(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(supervisor, "GRACE", 0.2)
    monkeypatch.setattr(supervisor, "LOOK", 0.01)
    child = Child(name="worker", command=[sys.executable, "-c", STUBBORN])
    threading.Timer(0.5, os.kill, (os.getpid(), signal.SIGTERM)).start()
    assert run(child) == (0, [])
    assert child.process is not None
    assert child.process.wait(timeout=5) in {-signal.SIGKILL, -signal.SIGTERM}
