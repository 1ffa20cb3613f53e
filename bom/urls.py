"""The address book: each app brings its own list."""

from __future__ import annotations

from importlib import import_module

from django.contrib import admin
from django.urls import include, path


def _present(name: str) -> bool:
    """Say whether an app's list is there yet."""
    try:
        import_module(name)
    except ImportError:
        return False
    return True


urlpatterns = [
    path("admin/", admin.site.urls),
    path("i18n/", include("django.conf.urls.i18n")),
    *(path("", include(name)) for name in ("bom.program_urls", "shops.urls") if _present(name)),
]
