"""Keeps child processes running: one start, one stop, and whoever dies comes back."""

from __future__ import annotations

import ctypes
import os
import signal
import subprocess
import sys
import time
from collections import deque
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from types import FrameType

GRACE = 20.0  # seconds that a child may take to stop
LOOK = 0.2  # seconds between two looks at the children
MOST_DEATHS = 5  # within DEATH_WINDOW: then something is wrong that a new start does not mend
DEATH_WINDOW = 60.0
PR_SET_PDEATHSIG = 1  # Linux: the signal that a child gets when its parent dies (prctl(2))


@dataclass(slots=True, kw_only=True)
class Child:
    """One command that is kept running."""

    name: str
    command: Sequence[str]
    process: subprocess.Popen[bytes] | None = None
    deaths: deque[float] = field(default_factory=lambda: deque(maxlen=MOST_DEATHS))

    def start(self, environment: Mapping[str, str]) -> None:
        """Start in a session of its own, so that Ctrl-C reaches only the supervisor."""
        self.process = subprocess.Popen(  # noqa: S603 -- commands are our own, never a reader's
            self.command, env=dict(environment), start_new_session=True, preexec_fn=_die_with_parent
        )

    def is_running(self) -> bool:
        """Say whether the process is there."""
        return self.process is not None and self.process.poll() is None

    def signal(self, number: signal.Signals) -> None:
        """Send a signal to the process and all that it started."""
        if self.process is not None:
            try:
                os.killpg(self.process.pid, number)
            except ProcessLookupError:
                return

    def dies_too_often(self, at: float) -> bool:
        """Note a death; True when it is one too many for the window."""
        self.deaths.append(at)
        return len(self.deaths) == MOST_DEATHS and at - self.deaths[0] < DEATH_WINDOW


class Supervisor:
    """Runs children until it is told to stop; `say` gets one line for each thing that happens."""

    def __init__(
        self, children: Sequence[Child], *, environment: Mapping[str, str], say: Callable[[str], None]
    ) -> None:
        self.children = children
        self.environment = environment
        self.say = say
        self.stopping = False

    def run(self) -> int:
        """Keep the children running; 0 after Ctrl-C or SIGTERM, 1 when a child dies again and again."""
        for number in (signal.SIGINT, signal.SIGTERM):
            signal.signal(number, self._stop)
        try:
            for child in self.children:
                child.start(self.environment)
            return self._watch()
        finally:
            self._end_all()

    def _stop(self, number: int, frame: FrameType | None) -> None:  # noqa: ARG002 -- a signal handler's signature
        """Remember that somebody wants to stop."""
        self.stopping = True

    def _watch(self) -> int:
        """Look at the children until somebody wants to stop."""
        while not self.stopping:
            for child in self.children:
                if not child.is_running() and not self._revive(child):
                    return 1
            time.sleep(LOOK)
        return 0

    def _revive(self, child: Child) -> bool:
        """Start a dead child again; False when it has died too often."""
        code = child.process.returncode if child.process else None
        if child.dies_too_often(time.monotonic()):
            self.say(f"{child.name} ended {MOST_DEATHS} times within {DEATH_WINDOW:.0f} s; giving up.")
            return False
        child.signal(signal.SIGKILL)  # whatever it left behind would hold its port or its queue
        self.say(f"{child.name} ended ({code}); starting it again.")
        child.start(self.environment)
        return True

    def _end_all(self) -> None:
        """Ask all to stop, wait, and end those that did not."""
        for child in self.children:
            if child.process is not None and child.is_running():
                child.process.send_signal(signal.SIGTERM)
        until = time.monotonic() + GRACE
        for child in self.children:
            _wait(child, until=until)
            child.signal(signal.SIGKILL)


def _wait(child: Child, *, until: float) -> None:
    """Wait for a child's end, at most until then."""
    if child.process is None:
        return
    try:
        child.process.wait(timeout=max(0.0, until - time.monotonic()))
    except subprocess.TimeoutExpired:
        return


def _die_with_parent() -> None:
    """Ask the kernel to end this child when the supervisor is killed; Linux only."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(PR_SET_PDEATHSIG, signal.SIGTERM)
