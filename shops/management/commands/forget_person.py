"""Take a person's name and address out, as people may ask; what was counted and cut stays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.models import User
from shops.domain.forgetting import forget_person

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

BAD_INPUT = 2


class Command(BaseCommand):
    """For a person who has left every shop."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the address."""
        parser.add_argument("email", help="the person's e-mail address")

    def handle(self, **options: Any) -> None:
        """Take the person out; exit 2 for an unknown address and for who still takes part."""
        person = User.objects.filter(email=options["email"].strip().lower()).first()
        if person is None:
            raise CommandError(_("Nobody here has this address. Check it."), returncode=BAD_INPUT)
        try:
            forget_person(person, now=timezone.now())
        except ProgramError as error:
            raise CommandError(f"{error.field}: {error.remedy}", returncode=BAD_INPUT) from error
        self.stdout.write(_("Name, address, mails and stamps are taken out; numbers and counts stay."))
