"""Addresses of the shops' own pages."""

from __future__ import annotations

from django.urls import URLPattern

shop_urls: list[URLPattern] = []
