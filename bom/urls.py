"""The address book: each app brings its own list."""

from __future__ import annotations

from importlib.util import find_spec

from allauth.account.decorators import secure_admin_login
from django.contrib import admin
from django.urls import include, path

APPS = ("bom.program_urls", "shops.urls")

urlpatterns = [
    path("admin/login/", secure_admin_login(admin.site.login)),  # by a mailed code, with its limits of tries
    path("admin/", admin.site.urls),
    path("i18n/", include("django.conf.urls.i18n")),
    *(path("", include(name)) for name in APPS if find_spec(name)),
]
