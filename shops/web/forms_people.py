"""Forms of the people who take part."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.conf import settings
from django.utils.translation import get_language
from django.utils.translation import gettext_lazy as _

from bom.models import Problem
from patterns.models import Colorway
from shops.domain.sign_ups import Wish
from shops.enums import Takes
from shops.models import Participant

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

    from patterns.models import User
    from shops.models import Terms


TURNING = dict.fromkeys((*range(0x202A, 0x202F), *range(0x2066, 0x206A)))  # turn the writing of what follows


class NameField(forms.CharField):
    """A name as it is called: one line, in any script."""

    def to_python(self, value: Any) -> str:
        """Put lines and gaps together; leave signs out that would turn the words around on a list."""
        return " ".join((super().to_python(value) or "").translate(TURNING).split())


class SignUpForm(forms.Form):
    """Sign up at one shop."""

    name = NameField(
        label=_("Your name"), max_length=120, widget=forms.TextInput(attrs={"autocomplete": "name"})
    )
    email = forms.EmailField(
        label=_("E-mail"),
        max_length=254,
        help_text=_("The code to sign in and the days of release go there."),
        widget=forms.EmailInput(attrs={"autocomplete": "email"}),
    )
    packet_name = NameField(
        label=_("Name on the packet"),
        max_length=60,
        help_text=_("A first name is enough. Two for a family: sign up twice, with two names."),
    )
    colorway = forms.ModelChoiceField(
        label=_("Colorway"), queryset=Colorway.objects.none(), empty_label=None, widget=forms.RadioSelect
    )
    takes = forms.ChoiceField(
        label=_("Each month I get"), choices=Takes.choices, initial=Takes.BOTH, widget=forms.RadioSelect
    )

    def __init__(self, *args: Any, terms: Terms, user: User | AnonymousUser, **kwargs: Any) -> None:
        """Offer the shop's colorways; a person who is signed in signs up under the own address."""
        super().__init__(*args, **kwargs)
        self.terms = terms
        offered = terms.program.quilt.colorways.filter(offers__terms=terms)
        self.fields["colorway"].queryset = offered  # type: ignore[attr-defined]  # a ModelChoiceField
        if len(offered) == 1:
            self.initial["colorway"] = offered[0]
        if user.is_authenticated:
            self.initial.update(name=user.name, email=user.email)
            self.fields["email"].disabled = True

    def wish(self) -> Wish:
        """Give what the person asks for."""
        return Wish(
            name=self.cleaned_data["name"],
            email=self.cleaned_data["email"],
            packet_name=self.cleaned_data["packet_name"],
            colorway=self.cleaned_data["colorway"],
            takes=Takes(self.cleaned_data["takes"]),
            language=get_language() or "",
        )


class SheetChoicesForm(forms.ModelForm):
    """How I like my sheets, and in which language."""

    language = forms.ChoiceField(
        label=_("Language"),
        choices=settings.LANGUAGES,
        widget=forms.RadioSelect,
        help_text=_("Of these pages, of the mail and of the sheets."),
    )

    class Meta:
        model = Participant
        fields = ("units", "paper", "print_size")
        widgets = {
            "units": forms.RadioSelect,
            "paper": forms.RadioSelect,
            "print_size": forms.RadioSelect,
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Begin with the person's own language."""
        super().__init__(*args, **kwargs)
        self.initial["language"] = self.instance.user.language

    def save(self, commit: bool = True) -> Participant:  # noqa: FBT001, FBT002 -- the signature of Django
        """Keep the choices with the participant, and the language with the person."""
        made: Participant = super().save(commit)
        made.user.language = self.cleaned_data["language"]
        made.user.save(update_fields=["language"])
        return made


class ProblemForm(forms.ModelForm):
    """Something is wrong with a step."""

    words = forms.CharField(
        label=_("What is wrong"),
        max_length=4000,
        help_text=_("What the sheet says, and what you have found."),
        widget=forms.Textarea(attrs={"rows": 5}),
    )

    class Meta:
        model = Problem
        fields = ("step", "words")
        help_texts = {"step": _("The number of the step or the page, for example 4, or page 2.")}
