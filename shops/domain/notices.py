"""Notices of a release: shops look up what has opened and tell their people, each once.

At least once towards the outbox, exactly once in it: the notice and its mail are written together,
and both have a unique key.  A pull that dies goes on where it stopped; a second one finds nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    pass

__all__ = ("RELEASED", "queue_release_notices", "untold")

RELEASED = "released"
AT_ONCE = 50  # people told in one transaction
