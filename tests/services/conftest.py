"""Two private copies of the whole: one machine with SQLite and folders, and one with real servers."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING
from uuid import uuid4

import psycopg
import pytest

from tests.services.servers import ROOT, Setup, postgres_server, redis_server

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(scope="session")
def redis_url() -> Iterator[str]:
    """Give a Redis of our own."""
    with redis_server() as url:
        yield url


@pytest.fixture(scope="session")
def postgres_url() -> Iterator[str]:
    """Give a PostgreSQL of our own."""
    with postgres_server() as url:
        yield url


@pytest.fixture
def embedded(tmp_path: Path) -> Setup:
    """Give one machine: SQLite, a folder as broker, a folder of mails."""
    return _setup(tmp_path)


@pytest.fixture
def served(tmp_path: Path, postgres_url: str, redis_url: str) -> Setup:
    """Give a set-up with an empty PostgreSQL database and Redis, and still a folder of mails."""
    name = f"bom_{uuid4().hex}"
    with psycopg.connect(postgres_url, autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}"'.encode())
    database = postgres_url.rpartition("/")[0] + f"/{name}"
    return _setup(tmp_path, DATABASE_URL=database, BROKER_URL=redis_url)


def _setup(folder: Path, **more: str) -> Setup:
    """Give an environment that has only what is named, apart from the path and the home."""
    kept = {key: os.environ[key] for key in ("PATH", "HOME", "LANG", "TMPDIR") if key in os.environ}
    ours = {"VAR_DIR": str(folder), "PYTHONPATH": str(ROOT), "LOG_LEVEL": "WARNING", "SWEEP_SECONDS": "2"}
    return Setup(environment={**kept, **ours, **more}, folder=folder)
