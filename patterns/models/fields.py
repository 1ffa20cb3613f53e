"""A model field for exact lengths."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.core.exceptions import ValidationError
from django.db import models
from django.utils.translation import gettext_lazy as _

from patterns.engine.measure import inches, write_inches

if TYPE_CHECKING:
    from django.db.models.expressions import Combinable


FINEST = 2540  # parts of an inch: a thousandth of a centimetre, finer than any ruler or plan needs
LONGEST = 10_000  # inches; no bolt and no quilt is longer


def is_measurable(length: Fraction) -> bool:
    """Whether somebody could measure it: no finer and no longer than that; plans take forever beyond."""
    return length.denominator <= FINEST and length <= LONGEST


class InchesFormField(forms.CharField):
    """Read "2 1/2" as a Fraction of inches."""

    def prepare_value(self, value: Any) -> Any:
        """Show an exact length the way a quilter writes it."""
        return write_inches(value) if isinstance(value, Fraction) else value

    def to_python(self, value: Any) -> Fraction | None:  # type: ignore[override]  # reads text into a number
        """Give the exact length; ValidationError says how to type one."""
        text = super().to_python(value)
        self._look_at_text(text)
        if not text:
            return None
        try:
            length = self.read(text)
        except ValueError as error:
            raise ValidationError(_("Write a length in inches, for example 2 1/2.")) from error
        if not is_measurable(length):
            raise ValidationError(_("Write a length that can be measured."), code="not_measurable")
        return length

    def _look_at_text(self, text: str | None) -> None:
        """Refuse a text that is too long or no text at all: the first fault, with its code."""
        try:
            super().run_validators(text)
        except ValidationError as faults:
            raise faults.error_list[0] from faults

    def read(self, text: str) -> Fraction:
        """Read a typed length into inches; ValueError where it is none."""
        return inches(text)

    def run_validators(self, value: Any) -> None:
        """Do nothing more: the text has been looked at before it became a number."""


class InchesField(models.CharField):
    """An exact length in inches, kept as text such as "5/2"."""

    description = _("exact length in inches")
    if TYPE_CHECKING:
        _pyi_private_set_type: Fraction | str | int | Combinable  # type: ignore[assignment]  # wider than text
        _pyi_private_get_type: Fraction  # type: ignore[assignment]  # a number instead of its text

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Take the options of a CharField; the length of the text is fixed."""
        kwargs["max_length"] = 40
        super().__init__(*args, **kwargs)

    def from_db_value(self, value: str | None, *_: object) -> Fraction | None:
        """Give a Fraction from the column."""
        return None if value is None else Fraction(value)

    def to_python(self, value: Any) -> Fraction | None:
        """Give a Fraction from a form, a fixture or code."""
        if value is None or isinstance(value, Fraction):
            return value
        try:
            return inches(value)
        except (TypeError, ValueError) as error:
            raise ValidationError(_("Write a length in inches, for example 2 1/2.")) from error

    def get_prep_value(self, value: Any) -> str | None:
        """Write the Fraction into the column."""
        length = self.to_python(value)
        return None if length is None else str(length)

    def run_validators(self, value: Any) -> None:
        """Look at the length as it is written."""
        super().run_validators(self.get_prep_value(value))

    def value_to_string(self, obj: models.Model) -> str:
        """Write for fixtures."""
        return str(self.get_prep_value(self.value_from_object(obj)))

    def formfield(self, **kwargs: Any) -> Any:
        """Use the field that reads "2 1/2"."""
        return super().formfield(**{"form_class": InchesFormField, "max_length": 20, **kwargs})
