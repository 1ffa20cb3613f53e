"""Forms of a designer: blocks, the quilt, colorways, words, days."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from bom.domain.change_targets import QUILT_LENGTHS
from bom.domain.lengths import read_length, units_of, write_length
from patterns.engine.blocks import letters_in
from patterns.engine.measure import Units, write_inches
from patterns.models import QUILT_BLOCKS, QUILT_LETTERS, Block, Fabric, Quilt
from patterns.models.fields import InchesFormField

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from bom.domain.unit_methods import UnitChoice
    from bom.models import Installment, Program
    from patterns.models import Colorway, PlacedBlock, QuiltLetter

MOST_ROWS = 60
REPEATED = _(
    "A square block in the quilt's letters. The width is the size of one repeat, the border's letter that of "
    "the coping strips where the repeats do not come out; without corner squares the block fills the corners."
)
LARGEST = 120  # inches: no block and no border is larger
TURNS = ((0, _("as drawn")), (1, _("a quarter")), (2, _("half round")), (3, _("three quarters")))


def positive(length: Fraction | None) -> None:
    """Refuse lengths that nobody can sew."""
    if length is not None and not 0 < length <= LARGEST:
        raise forms.ValidationError(_("Write a length between 0 and %(most)s in."), params={"most": LARGEST})


def letter_choices(letters: Iterable[QuiltLetter]) -> list[tuple[str, str]]:
    """Offer letters with their roles."""
    return [(each.letter, f"{each.letter}, {each.role}") for each in letters]


class LengthField(InchesFormField):
    """A length in the program's own units."""

    def __init__(self, *, units: Units, **kwargs: Any) -> None:
        """Say in the hint how a length is typed."""
        self.units = units
        usual = _("Typed as 9 or 9 1/2, in inches.")
        if units == Units.CENTIMETRES:
            usual = _("Typed as 30 or 7.5, in centimetres; or in inches as 2 1/2 in.")
        super().__init__(**{"help_text": usual, "max_length": 20, **kwargs})

    def prepare_value(self, value: Any) -> Any:
        """Show an exact length as it is typed."""
        return write_length(value, self.units) if isinstance(value, Fraction) else value

    def to_python(self, value: Any) -> Fraction | None:  # type: ignore[override]  # reads text into a number
        """Give the exact length; ValidationError says how to type one in these units."""
        try:
            return super().to_python(value)
        except forms.ValidationError as error:
            if self.units != Units.CENTIMETRES or getattr(error, "code", None):
                raise
            raise forms.ValidationError(_("Write a length in centimetres, for example 30 or 7.5.")) from error

    def read(self, text: str) -> Fraction:
        """Read in the program's units."""
        return read_length(text, self.units)


class BlockForm(forms.Form):
    """A placed block: size, turn, letters, and how its units are sewn."""

    frame_letter = forms.ChoiceField(
        label=_("Frame"),
        required=False,
        help_text=_("Fabric of the strips around a block that is smaller than its place."),
    )
    turn = forms.TypedChoiceField(label=_("Turned"), choices=TURNS, coerce=int, widget=forms.RadioSelect)

    def __init__(
        self, *args: Any, placed: PlacedBlock, letters: Sequence[QuiltLetter], units: Sequence[UnitChoice]
    ) -> None:
        """Offer the quilt's letters for each letter of the block, and the methods of each unit."""
        super().__init__(*args, initial=_block_initial(placed))  # type: ignore[misc]  # only data is given by place
        self.units = units
        measures = units_of(placed.quilt.program)
        self.fields["own_size"] = LengthField(label=_("Finished size"), required=False, units=measures)
        choices = letter_choices(letters)
        self.fields["frame_letter"].choices = [("", _("none")), *choices]  # type: ignore[attr-defined]  # a ChoiceField
        self.block_letters = letters_in(placed.block.drawing)
        for letter in self.block_letters:
            label = _("Letter %(letter)s of the block") % {"letter": letter}
            initial = placed.letters.get(letter, "")
            self.fields[f"letter_{letter}"] = forms.ChoiceField(label=label, choices=choices, initial=initial)
        for number, unit in enumerate(units):
            self.fields[f"method_{number}"] = _method_field(unit, placed)

    def clean_own_size(self) -> Fraction | None:
        """Refuse sizes that nobody can sew; the place is looked at where the quilt is worked out."""
        size: Fraction | None = self.cleaned_data["own_size"]
        positive(size)
        return size

    def values(self) -> dict[str, Any]:
        """Give the values of the change."""
        data = self.cleaned_data
        return {
            "own_size": write_inches(data["own_size"]) if data["own_size"] else None,
            "frame_letter": data["frame_letter"],
            "turn": data["turn"],
            "letters": {letter: data[f"letter_{letter}"] for letter in self.block_letters},
            "chosen": [data[f"method_{number}"] for number in range(len(self.units))],
        }

    @property
    def size_fields(self) -> list[forms.BoundField]:
        """Give the fields of size and place."""
        return [self[name] for name in ("own_size", "frame_letter", "turn")]

    @property
    def letter_fields(self) -> list[forms.BoundField]:
        """Give the fields of letters."""
        return [self[f"letter_{letter}"] for letter in self.block_letters]

    @property
    def method_fields(self) -> list[tuple[UnitChoice, forms.BoundField]]:
        """Give each unit with its field."""
        return [(unit, self[f"method_{number}"]) for number, unit in enumerate(self.units)]


def _of_border(name: str) -> tuple[str, ...]:
    ends = ("width", "letter", "corners", "corner_letter", "block")
    return tuple(f"{name}_{end}" for end in ends)


SETTING = ("setting", "rows", "columns", "block_size", "plain_letter", "triangle_letter", "fill_letter")
QUILT_GROUPS = (  # headings of the quilt's form, and the fields under each
    (_("Setting"), SETTING),
    (_("Sashing"), ("sashing_width", "sashing_letter", "cornerstone_letter", "sashing_outside")),
    (_("Border"), _of_border("border")),
    (_("Second border"), _of_border("second_border")),
    (_("Third border"), _of_border("third_border")),
    (_("Binding"), ("binding_strip", "binding_letter", "binding_cut")),
    (_("Back"), ("backing_letter", "backing_overage", "sleeve_letter")),
)


class QuiltForm(forms.ModelForm):
    """The setting of the quilt."""

    class Meta:
        model = Quilt
        fields = tuple(name for _title, names in QUILT_GROUPS for name in names)

    def __init__(self, *args: Any, letters: Sequence[QuiltLetter], **kwargs: Any) -> None:
        """Offer the quilt's letters."""
        super().__init__(*args, **kwargs)
        choices = [("", _("none")), *letter_choices(letters)]
        for name in QUILT_LETTERS:
            old = self.fields[name]
            self.fields[name] = forms.ChoiceField(label=old.label, choices=choices, required=False)
        measures = units_of(self.instance.program)
        for name in QUILT_LENGTHS:
            self.fields[name] = LengthField(label=self.fields[name].label, units=measures)
        for name in ("rows", "columns"):
            self.fields[name] = forms.IntegerField(
                label=self.fields[name].label, min_value=1, max_value=MOST_ROWS
            )
        drawn = Block.objects.filter(Q(owner=self.instance.owner) | Q(owner=None))
        for name in QUILT_BLOCKS:
            self.fields[name] = forms.ModelChoiceField(
                drawn,
                label=self.fields[name].label,
                required=False,
                help_text=REPEATED,
                empty_label=_("none"),
            )

    def clean(self) -> dict[str, Any]:
        """Refuse a size of nothing, and lengths that nobody can sew."""
        data: dict[str, Any] = super().clean() or {}
        for name in QUILT_LENGTHS:
            length = data.get(name)
            least = None if name in {"block_size", "binding_strip"} else 0
            if length is not None and length != least and not 0 < length <= LARGEST:
                words = _("Write a length between 0 and %(most)s in.") % {"most": LARGEST}
                self.add_error(name, words)
        return data

    @property
    def groups(self) -> list[tuple[str, list[forms.BoundField]]]:
        """Give the fields under their headings."""
        return [(str(title), [self[name] for name in names]) for title, names in QUILT_GROUPS]

    def values(self) -> dict[str, Any]:
        """Give the values of the change; the quilt itself is left as it is."""
        lengths = {name: write_inches(self.cleaned_data[name]) for name in QUILT_LENGTHS}
        blocks = {f"{name}_id": getattr(self.cleaned_data[name], "pk", None) for name in QUILT_BLOCKS}
        others = {name: self.cleaned_data[name] for name in self.Meta.fields if name not in QUILT_BLOCKS}
        return {**others, **lengths, **blocks}


class ColorwayForm(forms.Form):
    """Which fabric stands for which letter."""

    def __init__(self, *args: Any, program: Program, colorway: Colorway) -> None:
        """Offer the designer's fabrics for each letter."""
        super().__init__(*args)
        fabrics = Fabric.objects.filter(collection__owner=program.designer).select_related("collection")
        choices = [(each.pk, f"{each.number} {each.name}") for each in fabrics]
        for row in colorway.fabrics.all():
            letter = row.letter
            self.fields[f"letter_{letter.letter}"] = forms.TypedChoiceField(
                label=f"{letter.letter}, {letter.role}",
                choices=choices,
                coerce=int,
                initial=row.fabric_id,
            )

    def values(self) -> dict[str, Any]:
        """Give letter -> fabric."""
        return {name.removeprefix("letter_"): chosen for name, chosen in self.cleaned_data.items()}


class WordsForm(forms.Form):
    """The words of an installment."""

    title = forms.CharField(label=_("Title"), max_length=120)
    story = forms.CharField(
        label=_("Story"), required=False, max_length=8000, widget=forms.Textarea(attrs={"rows": 6})
    )
    tips = forms.CharField(
        label=_("Tips"),
        required=False,
        max_length=8000,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text=_("What helps with these blocks. Write no sizes: name them, such as {finished size}."),
    )

    def __init__(self, *args: Any, installment: Installment, edition: int) -> None:
        """Ask what changed where a sheet has an edition already."""
        names = ("title", "story", "tips")
        initial = {name: getattr(installment, name) for name in names}
        super().__init__(*args, initial=initial)  # type: ignore[misc]  # only data is given by place
        if edition:
            words = _("What changed since edition %(number)s") % {"number": edition}
            self.fields["change_line"] = forms.CharField(
                label=words,
                required=False,
                max_length=200,
                help_text=_("One line, for everybody who has the sheet already."),
            )

    def words(self) -> dict[str, str]:
        """Give the words."""
        return {name: self.cleaned_data[name] for name in ("title", "story", "tips")}


def _block_initial(placed: PlacedBlock) -> dict[str, Any]:
    return {"own_size": placed.size, "frame_letter": placed.frame_letter, "turn": placed.turn}


def _method_field(unit: UnitChoice, placed: PlacedBlock) -> forms.ChoiceField:
    label = _("%(kind)s %(letters)s, sewn as") % {
        "kind": _(unit.unit.kind.value).capitalize(),
        "letters": " ".join(dict.fromkeys(unit.unit.fabrics)),
    }
    asked = placed.methods.get(unit.key, "")
    preferred = next(iter(unit.methods), "")
    return forms.ChoiceField(
        label=label,
        choices=[(name, _(name)) for name in unit.methods],
        initial=asked if asked in unit.methods else preferred,
        required=bool(preferred),
    )
