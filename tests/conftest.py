"""What every test stands on: own folders, no outside world, few and repeatable examples."""

from __future__ import annotations

import os
import shutil
import tempfile
from typing import TYPE_CHECKING, Any

import pytest
from django.core.cache import cache
from hypothesis import HealthCheck
from hypothesis import settings as examples

if TYPE_CHECKING:
    from pathlib import Path

# The settings read the environment once: tests must not find the caller's database, broker or mail server.
for name in (
    "DEMO",
    "DEBUG",
    "DATABASE_URL",
    "BROKER_URL",
    "EMAIL_URL",
    "STORAGE_URL",
    "CACHE_URL",
    "SITE_URL",
):
    os.environ.pop(name, None)
os.environ["VAR_DIR"] = tempfile.mkdtemp(prefix="bom-tests-")
os.environ["CACHE_URL"] = "locmemcache://"
os.environ["LOG_LEVEL"] = "WARNING"

examples.register_profile(
    "few",
    max_examples=25,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow],
)
examples.load_profile("few")


def pytest_unconfigure() -> None:
    """Remove what the tests wrote."""
    shutil.rmtree(os.environ["VAR_DIR"], ignore_errors=True)


@pytest.fixture(autouse=True)
def own_surroundings(settings: Any, tmp_path: Path) -> None:
    """Give each test its own files, mails and cache, and wake no worker."""
    cache.clear()
    settings.MEDIA_ROOT = tmp_path / "files"
    settings.STORAGES = {
        **settings.STORAGES,
        "default": {
            "BACKEND": "django.core.files.storage.FileSystemStorage",
            "OPTIONS": {"location": tmp_path / "files"},
        },
    }
    settings.EMAIL_FILE_PATH = tmp_path / "mail"
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    """Start the system's Chromium, also as root."""
    quiet = [
        "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync",
    ]  # fmt: skip
    chromium = shutil.which("chromium") or "/usr/bin/chromium"
    return {**browser_type_launch_args, "executable_path": chromium, "chromium_sandbox": False, "args": quiet}
