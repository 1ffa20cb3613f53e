"""Results kept by the hash of what they were made from.

Nothing is ever stale: another input has another key.  Each process keeps its own, bounded, and may
lose it at any time; the database stays the only place where anything lasts.
"""

from __future__ import annotations

import hashlib
import json
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future
from threading import Lock
from typing import Any, Generic, TypeVar

T = TypeVar("T")


def hash_of(facts: Any) -> str:
    """Give the SHA-256 of plain data, the same on every machine; other values are hashed as their text."""
    text = json.dumps(facts, sort_keys=True, separators=(",", ":"), default=str)
    return hashlib.sha256(text.encode()).hexdigest()


class Kept(Generic[T]):
    """The last results, oldest dropped first; two threads that ask for one thing make it once."""

    def __init__(self, most: int) -> None:
        """Keep at most so many results."""
        self._most = most
        self._kept: OrderedDict[str, Future[T]] = OrderedDict()
        self._lock = Lock()

    def get(self, key: str, make: Callable[[], T]) -> T:
        """Give what is kept under the key, or make it; an error of `make` is raised and not kept."""
        with self._lock:
            mine = key not in self._kept
            future = self._kept.setdefault(key, Future())
            self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
        if mine:
            self._fill(key, future, make)
        return future.result()

    def _fill(self, key: str, future: Future[T], make: Callable[[], T]) -> None:
        try:
            future.set_result(make())
        except BaseException as error:  # noqa: BLE001 -- raised again by result(), in every waiting thread
            with self._lock:
                self._kept.pop(key, None)
            future.set_exception(error)
