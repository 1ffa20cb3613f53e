"""Where a person may go after signing in: one way in for each role held."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.urls import reverse
from django.utils.translation import gettext as _

from bom.permissions import programs_of
from shops.models import Terms
from shops.permissions import sign_ups_of

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

    from patterns.models import User


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """One thing that is a person's own: what it is, as what, and its address."""

    title: str
    role: str
    url: str


def ways_in(user: User | AnonymousUser) -> list[WayIn]:
    """List programs designed or worked on, shops worked in, then own sign-ups."""
    if not user.is_authenticated:
        return []
    return [*_programs(user), *_shops(user), *_sign_ups(user)]


def _programs(user: User) -> list[WayIn]:
    """List the programs."""
    return [
        WayIn(
            title=program.title,
            role=_("designer") if program.designer_id == user.pk else _("works on it"),
            url=reverse("program-year", args=[program.slug]),
        )
        for program in programs_of(user)
    ]


def _shops(user: User) -> list[WayIn]:
    """List the shops' terms."""
    terms = Terms.objects.filter(shop__members__user=user).select_related("shop", "program")
    return [
        WayIn(
            title=f"{each.shop.name}: {each.program.title}",
            role=_("shop"),
            url=reverse("shop-start", args=[each.shop.slug, each.program.slug]),
        )
        for each in terms.order_by("shop__name", "program__title")
    ]


def _sign_ups(user: User) -> list[WayIn]:
    """List the own sign-ups."""
    return [
        WayIn(
            title=f"{each.terms.program.title}, {each.packet_name}",
            role=_("participant"),
            url=reverse("my-program", args=[each.pk]),
        )
        for each in sign_ups_of(user)
    ]
