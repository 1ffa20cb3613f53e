"""The form that asks for a document: which, in which colorway, on which paper, in which measures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bom.domain.sheets.variants import Variant
from bom.enums import Document, Paper, PrintSize, UnitsChoice
from patterns.models import Colorway

if TYPE_CHECKING:
    from bom.models import Program


class DocumentForm(forms.Form):
    """One document in one form; all of it stands in the address."""

    kind = forms.ChoiceField(label=_("Document"), choices=Document.choices)
    colorway = forms.ModelChoiceField(
        label=_("Colorway"), queryset=Colorway.objects.none(), empty_label=None, to_field_name="slug"
    )
    paper = forms.ChoiceField(label=_("Paper"), choices=Paper.choices)
    units = forms.ChoiceField(label=_("Measures"), choices=UnitsChoice.choices)
    print_size = forms.ChoiceField(label=_("Print"), choices=PrintSize.choices)

    def __init__(self, *args: Any, program: Program, **kwargs: Any) -> None:
        """Offer the program's colorways; measures and paper begin with its own."""
        super().__init__(*args, **kwargs)
        self.program = program
        colorway: Any = self.fields["colorway"]
        colorway.queryset = program.quilt.colorways.all()
        if program.centimetres:
            self.initial.update(units=UnitsChoice.CENTIMETRES, paper=Paper.A4)

    def variant(self) -> Variant:
        """Give the form that is asked for, after the form was found valid."""
        chosen = self.cleaned_data
        return Variant(
            colorway=chosen["colorway"],
            paper=Paper(chosen["paper"]),
            units=UnitsChoice(chosen["units"]),
            print_size=PrintSize(chosen["print_size"]),
            language=self.program.language,
        )
