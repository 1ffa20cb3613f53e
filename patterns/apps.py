"""The app that knows what a quilt is and what it takes."""

from django.apps import AppConfig


class PatternsConfig(AppConfig):
    """Blocks, cloth, quilts, and the people who sign in."""

    name = "patterns"
    default_auto_field = "django.db.models.BigAutoField"
