"""Serve everything from this machine: web server, worker and timer; Ctrl-C stops all."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext as _

from bom.supervisor import Child, Supervisor

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

LAST_PORT = 65535


class Command(BaseCommand):
    """Migrate, load the demo where asked, and keep web, worker and timer running."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the port, the address to listen at, and --demo."""
        parser.add_argument("--port", type=int, default=8000, help="default 8000")
        parser.add_argument("--bind", default="127.0.0.1", help="default 127.0.0.1, this machine only")
        parser.add_argument("--demo", action="store_true", help="load and serve the invented program")

    def handle(self, **options: Any) -> None:
        """Run until somebody stops it; exit 2 when the port cannot be had, 1 when a child keeps dying."""
        if options["demo"] and not settings.DEMO:
            _start_again_as_demo()
        port, bind = options["port"], options["bind"]
        _check_port(bind, port)
        prepare()
        if options["demo"]:
            call_command("load_demo", stdout=self.stdout)
        self._announce(bind, port)
        environment = {"SITE_URL": f"http://{bind}:{port}", **os.environ}  # where links in mails lead
        code = Supervisor(children(bind, port), environment=environment, say=self._say).run()
        self._say(_("Stopped."))
        if code:
            sys.exit(code)

    def _announce(self, bind: str, port: int) -> None:
        """Say where the pages and the mails are."""
        self._say(_("Serving at http://{bind}:{port}/ - Ctrl-C stops all.").format(bind=bind, port=port))
        if settings.DEMO:
            self._say(_("Everything in the demo is invented: people, shops, fabrics and prices."))
        if settings.EMAIL_BACKEND == "bom.mailfolder.MailFolder":
            self._say(_("Mail is not sent; it lies in {folder}").format(folder=settings.EMAIL_FILE_PATH))

    def _say(self, words: str) -> None:
        """Say it at once, also into a pipe."""
        self.stdout.write(words)
        self.stdout.flush()


def prepare() -> None:
    """Bring database and traditional blocks up to date, and lay style sheets and fonts out for the pages."""
    call_command("migrate", verbosity=0)
    call_command("keep_blocks", verbosity=0)
    if not settings.WHITENOISE_USE_FINDERS:
        call_command("collectstatic", interactive=False, verbosity=0)


def children(bind: str, port: int) -> list[Child]:
    """Give the two processes: the web server, and the worker that holds the timer too."""
    scripts = Path(sys.executable).parent
    web = [
        str(scripts / "gunicorn"), "bom.wsgi:application", "--bind", f"{bind}:{port}",
        "--worker-class", "gthread", "--workers", "2", "--threads", "4", "--log-level", "warning",
    ]  # fmt: skip
    worker = [
        str(scripts / "celery"), "--app", "bom", "--quiet", "worker", "--beat", "--concurrency", "2",
        "--schedule", str(settings.VAR_DIR / "timer"), "--loglevel", "WARNING",
        "--without-mingle", "--without-gossip", "--without-heartbeat",
    ]  # fmt: skip
    return [Child(name="web", command=web), Child(name="worker", command=worker)]


def _check_port(bind: str, port: int) -> None:
    """Raise CommandError, exit 2, where the web server could not listen."""
    if not 0 < port <= LAST_PORT:
        raise CommandError(
            _("--port {port}: write a number from 1 to 65535.").format(port=port), returncode=2
        )
    with socket.socket(socket.AF_INET6 if ":" in bind else socket.AF_INET) as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((bind, port))
        except OSError as error:
            raise CommandError(_port_words(bind, port, error), returncode=2) from error


def _port_words(bind: str, port: int, error: OSError) -> str:
    """Say what is the matter with a port and what to do."""
    words = _(
        "Port {port} at {bind} cannot be had ({reason}): stop what uses it, or choose another: "
        "manage.py serve --port {other}, make run PORT={other}."
    )
    other = port + 1 if port < LAST_PORT else 8000
    return words.format(port=port, bind=bind, reason=error.strerror, other=other)


def _start_again_as_demo() -> None:
    """Start this command again with DEMO set, since settings are read once."""
    os.environ["DEMO"] = "1"
    os.execv(sys.executable, [sys.executable, *sys.argv])  # noqa: S606 -- the same command
