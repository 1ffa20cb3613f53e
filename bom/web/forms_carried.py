"""The form of carried fabric: which letters of an installment an earlier packet holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext as _

from bom.domain.carrying import may_carry

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bom.domain.work import InstallmentWork, ProgramWork

OWN = ""  # the packet of the installment itself


class CarriedForm(forms.Form):
    """One choice for each letter that is cut: its own packet, or that of an earlier installment."""

    def __init__(
        self,
        data: Mapping[str, Any] | None = None,
        *,
        mine: InstallmentWork,
        work: ProgramWork,
        roles: Mapping[str, str],
    ) -> None:
        """Offer every earlier installment that is there; letters are named with their roles."""
        super().__init__(data)
        earlier = [
            (str(each.number), _("packet {number}, {title}").format(number=each.number, title=each.title))
            for each in work.installments
            if each.number < mine.number
        ]
        for letter in may_carry(mine):
            role = roles.get(letter, "")
            words = _("Letter {letter}, {role}") if role else _("Letter {letter}")
            self.fields[f"letter_{letter}"] = forms.ChoiceField(
                label=words.format(letter=letter, role=role),
                choices=[(OWN, _("its own packet")), *earlier],
                initial=str(mine.carried.get(letter, OWN)),
                required=False,
            )

    def values(self) -> dict[str, int]:
        """Give the values of the change."""
        chosen = ((name.removeprefix("letter_"), value) for name, value in self.cleaned_data.items())
        return {letter: int(value) for letter, value in chosen if value != OWN}
