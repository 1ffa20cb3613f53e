"""The program over its months, and the project that serves it."""

from bom.celery import app as celery_app

__all__ = ("celery_app",)
