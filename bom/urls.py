"""Addresses of every area."""

from django.urls import include, path

urlpatterns = [
    path("", include("shops.urls")),
]
