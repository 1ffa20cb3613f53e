"""The app of the program over its months."""

from django.apps import AppConfig


class BomConfig(AppConfig):
    """Programs, installments, sheets, releases and the outbox."""

    name = "bom"
    default_auto_field = "django.db.models.BigAutoField"
