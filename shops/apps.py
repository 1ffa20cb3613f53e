"""The app of those who take part."""

from django.apps import AppConfig


class ShopsConfig(AppConfig):
    """Shops, terms, sign-ups, fabric orders and cutting day."""

    name = "shops"
    default_auto_field = "django.db.models.BigAutoField"
