"""The asynchronous web server's way in."""

import os

from django.core.asgi import get_asgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bom.settings")
application = get_asgi_application()
