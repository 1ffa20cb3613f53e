"""The form of a program's allowances."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bom.domain.allowance_words import SOLD_BY, sold_by_text
from bom.domain.lengths import units_of
from bom.domain.precut_choices import LABELS as LABELS_OF_PRECUTS
from bom.web.forms import LARGEST, LengthField
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from bom.models import Program

LABELS = {
    "squaring_up": _("Squaring up, each cut of fabric"),
    "cutting_tolerance": _("The shop adds, each half yard"),
    "binding_tail": _("Tail of the binding"),
}


class AllowancesForm(forms.Form):
    """What is added to a plan, and by what step fabric is sold."""

    sold_by = forms.ChoiceField(label=_("Fabric is sold by"))
    spare_strip = forms.BooleanField(label=_("One spare strip of each fabric"), required=False)
    prewash = forms.BooleanField(
        label=_("Participants wash the fabric before they cut it"),
        required=False,
        help_text=_("Length is divided by what is left after washing, and strips are planned on less width."),
    )
    shrinkage_percent = forms.DecimalField(
        label=_("Washing takes, per cent"),
        min_value=Decimal(0),
        max_value=Decimal("49.9"),
        decimal_places=1,
        help_text=_("Quilting cotton 3 to 5, flannel 5 and more; counts only where it is washed."),
    )

    precuts = forms.MultipleChoiceField(
        label=_("Precuts that may be used in place of a length"),
        choices=tuple(LABELS_OF_PRECUTS.items()),
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text=_(
            "A packet holds one fat quarter of 18 x 22 in or one fat eighth of 9 x 22 in where that is less "
            "cloth than a length. The others are shown beside the yardage, with the cloth that each takes."
        ),
    )

    def __init__(self, data: dict[str, Any] | None = None, *, program: Program) -> None:
        """Show the program's own."""
        names = ("spare_strip", "prewash", "shrinkage_percent", "precuts", *LABELS)
        initial = {name: getattr(program, name) for name in names}
        super().__init__(data, initial={**initial, "sold_by": write_inches(program.sold_by)})
        for name, label in LABELS.items():
            self.fields[name] = LengthField(label=label, units=units_of(program))
        steps = dict.fromkeys((*SOLD_BY, program.sold_by))
        choices = [(write_inches(step), sold_by_text(step)) for step in steps]
        self.fields["sold_by"].choices = choices  # type: ignore[attr-defined]  # a ChoiceField
        self.order_fields([*LABELS, "sold_by", "spare_strip", "prewash", "shrinkage_percent", "precuts"])

    def clean(self) -> dict[str, Any]:
        """Refuse lengths that nobody adds."""
        data: dict[str, Any] = super().clean() or {}
        for name in LABELS:
            length = data.get(name)
            if isinstance(length, Fraction) and not 0 <= length <= LARGEST:
                words = _("Write a length between 0 and %(most)s in.") % {"most": LARGEST}
                self.add_error(name, words)
        return data

    def values(self) -> dict[str, Any]:
        """Give the values of the change."""
        data = self.cleaned_data
        lengths = {name: write_inches(data[name]) for name in LABELS}
        return {
            **lengths,
            "sold_by": data["sold_by"],
            "spare_strip": data["spare_strip"],
            "prewash": data["prewash"],
            "shrinkage_percent": str(data["shrinkage_percent"]),
            "precuts": data["precuts"],
        }
