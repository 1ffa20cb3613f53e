"""Settings, all from the environment; without any, one machine serves everything from var/.

With DEBUG off nothing is guessed: what is missing is listed in one message.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import environ
from csp.constants import NONE, SELF, UNSAFE_INLINE
from django.core.exceptions import ImproperlyConfigured

from bom.configuring import (
    file_storage,
    folder_fault,
    local_secret,
    missing_settings,
    redis_options,
    sqlite_options,
)

env = environ.Env()

BASE_DIR = Path(__file__).resolve().parent.parent
VAR_DIR = Path(env.str("VAR_DIR", str(BASE_DIR / "var"))).resolve()
if fault := folder_fault(VAR_DIR):
    raise ImproperlyConfigured(fault)

DEMO: bool = env.bool("DEMO", False)  # everything served is invented; pages say so and offer its people
DEBUG: bool = env.bool("DEBUG", not DEMO)
if not DEBUG and not DEMO and (missing := missing_settings(env.ENVIRON)):
    raise ImproperlyConfigured(missing)

SECRET_KEY: str = env.str("SECRET_KEY", "") or local_secret(VAR_DIR)
ALLOWED_HOSTS: list[str] = env.list("ALLOWED_HOSTS", default=["localhost", "127.0.0.1", "[::1]"])
CSRF_TRUSTED_ORIGINS: list[str] = env.list("CSRF_TRUSTED_ORIGINS", default=[])
SITE_URL: str = env.str("SITE_URL", "http://127.0.0.1:8000")  # for links in mails

INSTALLED_APPS = [
    "patterns",
    "bom",
    "shops",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.humanize",
    "django.contrib.messages",
    "django.contrib.sessions",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "allauth",
    "allauth.account",
    "csp",
    "django_tables2",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "bom.web.privacy.keep_private",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "bom.web.languages.speak",
    "allauth.account.middleware.AccountMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]

ROOT_URLCONF = "bom.urls"
WSGI_APPLICATION = "bom.wsgi.application"
ASGI_APPLICATION = "bom.asgi.application"

TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "bom.web.context.site",
            ],
        },
    },
]

# Database: no ATOMIC_REQUESTS, since on SQLite every atomic block takes the write lock.
DATABASES: dict[str, dict[str, Any]] = {
    "default": env.db_url("DATABASE_URL", default=f"sqlite:///{VAR_DIR / 'bom.sqlite3'}"),
}
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    DATABASES["default"]["OPTIONS"] = sqlite_options()
else:
    DATABASES["default"].update(CONN_MAX_AGE=60, CONN_HEALTH_CHECKS=True)
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

CACHES: dict[str, dict[str, Any]] = {
    "default": env.cache_url("CACHE_URL", default=f"filecache://{VAR_DIR / 'cache'}"),
}

# Files: sheets that were rendered, kept by the hash of their bytes.
MEDIA_ROOT = VAR_DIR / "files"
STORAGES: dict[str, dict[str, Any]] = {
    "default": file_storage(env.str("STORAGE_URL", f"file://{MEDIA_ROOT}")),
    "staticfiles": {
        "BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"
        if DEBUG or DEMO
        else "whitenoise.storage.CompressedManifestStaticFilesStorage"
    },
}
STATIC_URL = "/static/"
STATIC_ROOT = VAR_DIR / "static"
STATIC_ROOT.mkdir(exist_ok=True)
WHITENOISE_USE_FINDERS = DEBUG or DEMO
WHITENOISE_AUTOREFRESH = DEBUG

# Mail: only bom.domain.outbox sends, and without EMAIL_URL into a folder.
EMAIL_FILE_PATH = VAR_DIR / "mail"
if "EMAIL_URL" in env.ENVIRON:
    vars().update(env.email_url("EMAIL_URL"))
else:
    EMAIL_BACKEND = "bom.mailfolder.MailFolder"
DEFAULT_FROM_EMAIL: str = env.str("MAIL_FROM", "Block of the month <post@bom.example>")
SERVER_EMAIL = DEFAULT_FROM_EMAIL

# Worker: a message only wakes it; the outbox row is the queue.  Without a broker, folders stand for it.
CELERY_BROKER_URL: str = env.str("BROKER_URL", "filesystem://localhost//")
EMBEDDED: bool = CELERY_BROKER_URL.startswith("filesystem:")
BROKER_DIR = VAR_DIR / "broker"
CELERY_BROKER_TRANSPORT_OPTIONS: dict[str, Any] = (
    {
        "data_folder_in": str(BROKER_DIR / "queue"),
        "data_folder_out": str(BROKER_DIR / "queue"),
        "control_folder": str(BROKER_DIR / "control"),
        "polling_interval": 0.3,
    }
    if EMBEDDED
    else redis_options(CELERY_BROKER_URL)
)
if EMBEDDED:
    for folder in ("queue", "control"):
        (BROKER_DIR / folder).mkdir(parents=True, exist_ok=True)
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_TASK_REJECT_ON_WORKER_LOST = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_TIMEZONE = "UTC"
SWEEP_SECONDS: int = env.int("SWEEP_SECONDS", 5 if EMBEDDED else 30)
CELERY_BEAT_SCHEDULE = {
    "sweep": {
        "task": "bom.tasks.sweep",
        "schedule": SWEEP_SECONDS,
        "options": {"expires": SWEEP_SECONDS},  # sweeps do not pile up while no worker runs
    },
    "set sheets": {
        "task": "shops.tasks.set_sheets",
        "schedule": 60,
        "options": {"expires": 60},
    },
    "prove strip plans": {
        "task": "bom.tasks.prove_strip_plans",
        "schedule": 60,
        "options": {"expires": 60},
    },
    "forget sessions": {
        "task": "bom.tasks.forget_sessions",
        "schedule": 3600,
        "options": {"expires": 3600},
    },
    "pull releases": {
        "task": "shops.tasks.pull_releases",
        "schedule": SWEEP_SECONDS,
        "options": {"expires": SWEEP_SECONDS},
    },
}

# People sign in by a mailed code.
AUTH_USER_MODEL = "patterns.User"
AUTHENTICATION_BACKENDS = [
    "django.contrib.auth.backends.ModelBackend",
    "allauth.account.auth_backends.AuthenticationBackend",
]
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*"]
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_LOGIN_BY_CODE_ENABLED = True
ACCOUNT_ADAPTER = "bom.web.account_adapter.AccountAdapter"
ACCOUNT_LOGIN_BY_CODE_TIMEOUT = 15 * 60
ACCOUNT_LOGIN_BY_CODE_MAX_ATTEMPTS = 5
ACCOUNT_LOGIN_BY_CODE_FORMAT = {"numeric": True, "length": 6, "dashed": False}
ACCOUNT_RATE_LIMITS = {  # six figures and five tries a code: at most 25 guesses an hour at one address
    "request_login_code": "30/h/ip,5/h/key",
    "shop_sign_up": "40/h/ip",  # a shop may sign people up at its counter
}
ALLAUTH_TRUSTED_PROXY_COUNT = env.int("PROXIES", 0)  # in front of this server: whose addresses are limited
ACCOUNT_EMAIL_UNKNOWN_ACCOUNTS = False
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = "/"

# Words and clocks.
LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English"), ("de", "Deutsch")]
LOCALE_PATHS = [BASE_DIR / "bom" / "locale"]  # the .mo lies beside the .po: `manage.py translations --write`
USE_I18N = True
TIME_ZONE = "UTC"
USE_TZ = True

# Security.
HTTPS: bool = SITE_URL.startswith("https://")
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
SECURE_SSL_REDIRECT = HTTPS
SECURE_HSTS_SECONDS = 30 * 24 * 3600 if HTTPS else 0
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if HTTPS else None
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "img-src": [SELF, "data:"],
        "style-src": [SELF, UNSAFE_INLINE],  # drawings inside pages carry style attributes
        "object-src": [NONE],
        "base-uri": [SELF],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    },
}

LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["stderr"], "level": env.str("LOG_LEVEL", "INFO")},
    "loggers": {
        name: {"level": "WARNING"} for name in ("fontTools", "pikepdf", "weasyprint")
    },  # they tell every step
}
