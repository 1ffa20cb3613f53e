"""The form of how a program is sewn."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bom.domain.lengths import units_of
from bom.domain.sewing_settings import SEAMS, added, least_added
from bom.web.forms import LengthField
from patterns.domain.wording import length_text
from patterns.engine.measure import CENTIMETRE, Units, inches, write_inches
from patterns.enums import HouseStyleChoice, UnnestedChoice

if TYPE_CHECKING:
    from bom.models import Program

HALF_CENTIMETRE, QUARTER_CENTIMETRE = CENTIMETRE / 2, CENTIMETRE / 4
CHOSEN = {  # seams and steps that rulers have
    "seam": (
        Fraction(1, 4),
        Fraction(3, 8),
        HALF_CENTIMETRE,
        3 * QUARTER_CENTIMETRE,
        CENTIMETRE,
    ),
    "cutting_step": (Fraction(1, 16), Fraction(1, 8), Fraction(1, 4), QUARTER_CENTIMETRE, HALF_CENTIMETRE),
}
LABELS = {
    "half_square_over": _("Half-square triangles, added to finished"),
    "quarter_square_over": _("Quarter-square triangles and geese, added to finished"),
}
MOST_OVER = Fraction(2)  # inches above what the seams take: more is a slip of the pen


class SewingForm(forms.Form):
    """Seam, cutting step, house style, and how much larger oversized units are cut."""

    seam = forms.ChoiceField(label=_("Seam allowance"))
    cutting_step = forms.ChoiceField(label=_("Cutting step"), help_text=_("Cut sizes are rounded up to it."))
    house_style = forms.ChoiceField(
        label=_("House style"), choices=HouseStyleChoice, widget=forms.RadioSelect
    )
    unnested = forms.ChoiceField(
        label=_("Where seams cannot nest"),
        choices=UnnestedChoice,
        widget=forms.RadioSelect,
        help_text=_("Copies that are pressed the other way are named so on the sheet."),
    )

    def __init__(self, data: dict[str, Any] | None = None, *, program: Program) -> None:
        """Show the program's own; amounts as they are added to a finished size."""
        self.program = program
        initial: dict[str, Any] = {name: write_inches(getattr(program, name)) for name in CHOSEN}
        initial |= {"house_style": program.house_style, "unnested": program.unnested}
        super().__init__(data, initial={**initial, **{name: added(program, name) for name in LABELS}})
        units = units_of(program)
        for name, usual in CHOSEN.items():
            lengths = dict.fromkeys((*usual, getattr(program, name)))
            choices = [(write_inches(each), _text(each)) for each in lengths]
            self.fields[name].choices = choices  # type: ignore[attr-defined]  # a ChoiceField
        for name, label in LABELS.items():
            words = _("Cut so much larger than finished where the house style is oversized.")
            self.fields[name] = LengthField(label=label, units=units, help_text=words)
        self.order_fields(["seam", "cutting_step", "house_style", *LABELS, "unnested"])

    def clean(self) -> dict[str, Any]:
        """Refuse an amount that does not cover the seams of a unit, or that nobody cuts off again."""
        data: dict[str, Any] = super().clean() or {}
        if not {"seam", "cutting_step"} <= data.keys():
            return data
        for name in LABELS:
            least = self._least(name)
            if isinstance(data.get(name), Fraction) and not least <= data[name] <= least + MOST_OVER:
                self.add_error(name, self._refused(least))
        return data

    def values(self) -> dict[str, Any]:
        """Give the values of the change."""
        data = self.cleaned_data
        chosen = {name: data[name] for name in (*CHOSEN, "house_style", "unnested")}
        return {**chosen, **{name: write_inches(self._over(name)) for name in SEAMS}}

    def _refused(self, least: Fraction) -> str:
        lengths = (length_text(each, units_of(self.program)) for each in (least, least + MOST_OVER))
        words = _("At this seam the seams take %(least)s; write that to %(most)s.")
        return words % dict(zip(("least", "most"), lengths, strict=True))

    def _least(self, name: str) -> Fraction:
        seam, step = (inches(self.cleaned_data[each]) for each in ("seam", "cutting_step"))
        return least_added(name, seam=seam, step=step)

    def _over(self, name: str) -> Fraction:
        """Give the room to trim; what was not touched stays as exact as it is kept."""
        if not {name, *CHOSEN} & set(self.changed_data):
            kept: Fraction = getattr(self.program, name)
            return kept
        over: Fraction = self.cleaned_data[name] - self._least(name)
        return over


def _text(length: Fraction) -> str:
    """Say a length in the units in which it is short."""
    thousandths = length / CENTIMETRE * 1000
    is_metric = thousandths.denominator == 1 and length % Fraction(1, 64)
    return length_text(length, Units.CENTIMETRES if is_metric else Units.INCHES)
