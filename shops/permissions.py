"""The one gate of shops and sign-ups: unknown and forbidden look alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404

from shops.enums import ShopRole
from shops.models import Participant, SignUp, Terms

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

    from patterns.models import User


def get_terms_for(user: User | AnonymousUser, shop: str, program: str) -> Terms:
    """Give a shop's terms for a program; Http404 unless this person works in the shop."""
    if not user.is_authenticated:
        raise Http404
    terms = (
        Terms.objects.select_related("shop", "program__quilt")
        .filter(shop__slug=shop, program__slug=program, shop__members__user=user)
        .first()
    )
    if terms is None:
        raise Http404
    return terms


def get_terms_to_order(user: User | AnonymousUser, shop: str, program: str) -> Terms:
    """Give the terms to who may freeze, price and order; Http404 else, for who cuts packets too."""
    terms = get_terms_for(user, shop, program)
    if not may_order(user, terms):
        raise Http404
    return terms


def may_order(user: User | AnonymousUser, terms: Terms) -> bool:
    """Whether this person manages the shop: only then are freezes and money theirs."""
    return terms.shop.members.filter(user=user.pk, role=ShopRole.MANAGER).exists()


def get_sign_up_for(user: User | AnonymousUser, pk: int) -> SignUp:
    """Give one sign-up; Http404 unless it is this person's own."""
    if not user.is_authenticated:
        raise Http404
    sign_up = (
        SignUp.objects.select_related(
            "terms__shop", "terms__program__designer", "participant__user", "colorway"
        )
        .filter(pk=pk, participant__user=user)
        .first()
    )
    if sign_up is None:
        raise Http404
    return sign_up


def sign_ups_of(user: User | AnonymousUser) -> list[SignUp]:
    """List a person's own sign-ups, those who left last; shop, program and colorway joined."""
    if not user.is_authenticated:
        return []
    found = SignUp.objects.select_related("terms__shop", "terms__program", "colorway")
    return list(found.filter(participant__user=user).order_by("left_on", "-joined_at", "pk"))


def get_participant_for(user: User | AnonymousUser) -> Participant:
    """Give this person as a participant; Http404 for somebody who never signed up."""
    participant = Participant.objects.filter(user=user).first() if user.is_authenticated else None
    if participant is None:
        raise Http404
    return participant
