"""Signing in by a mailed code, signing out, and the demo's invented people."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from allauth.account.forms import ConfirmLoginCodeForm, RequestLoginCodeForm
from allauth.account.views import ConfirmLoginCodeView, RequestLoginCodeView
from django import forms
from django.conf import settings
from django.contrib.auth import login
from django.db.models import Q
from django.http import Http404
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST

from patterns.models import User

if TYPE_CHECKING:
    from allauth.account.stages import LoginStage
    from django.http import HttpRequest, HttpResponse
    from django.utils.functional import Promise

INVENTED = Q(email__endswith=".example") | Q(
    email__endswith="@example.org"
)  # nobody can own these (RFC 2606)
BACKEND = "django.contrib.auth.backends.ModelBackend"


class AddressForm(RequestLoginCodeForm):
    """The address that a code goes to."""

    email = forms.EmailField(
        label=_("E-mail"), widget=forms.EmailInput(attrs={"autocomplete": "email", "autofocus": True})
    )


class CodeForm(ConfirmLoginCodeForm):
    """The code from the mail."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Let a phone offer the code and show figures to type."""
        super().__init__(*args, **kwargs)
        field = self.fields["code"]
        field.label = _("Code")
        field.widget.attrs = {
            "autocomplete": "one-time-code",
            "inputmode": "numeric",
            "autofocus": True,
            "class": "short",
        }


class SignInView(RequestLoginCodeView):
    """Ask for the e-mail and send a code; the answer is the same whether the address is known or not."""

    template_name = "accounts/sign_in.html"
    form_class = AddressForm

    def get_context_data(self, **kwargs: Any) -> dict[str, Any]:
        """Add the invented people where this is the demo."""
        context = super().get_context_data(**kwargs)
        if settings.DEMO:
            context.update(invented_people=invented_people(), mail_folder=settings.EMAIL_FILE_PATH)
        return context

    def _redirect_to_pending_stage(self, request: HttpRequest, stage: LoginStage) -> None:
        """Let a person ask again, with another address too, while a code is on its way."""


class CodeView(ConfirmLoginCodeView):
    """Ask for the code."""

    template_name = "accounts/code.html"
    form_class = CodeForm


@require_POST
def sign_in_as(request: HttpRequest, pk: int) -> HttpResponse:
    """Sign in as one of the demo's invented people, without a code; nowhere else."""
    if not settings.DEMO:
        raise Http404
    login(request, get_object_or_404(_invented_users(), pk=pk), backend=BACKEND)
    return redirect("start")


def invented_people() -> list[tuple[str | Promise, list[User]]]:
    """List the demo's people by what they do; of the participants the first of each shop."""
    people = _invented_users().order_by("pk").distinct()
    groups = [
        (_("Designer"), list(people.filter(programs__isnull=False))),
        (_("Technical editor, test sewers"), list(people.filter(program_roles__isnull=False))),
        (_("Shops"), list(people.filter(shop_roles__isnull=False))),
        (_("Participants"), list(people.filter(participant__sign_ups__number=1))),
    ]
    return [(title, found) for title, found in groups if found]


def _invented_users() -> Any:
    """Give the active people whose addresses cannot exist and who may not enter the admin."""
    return User.objects.filter(INVENTED, is_active=True, is_staff=False)
