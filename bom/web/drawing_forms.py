"""Forms of the drawing board: the board itself, a file to read in, the place a block goes to."""

from __future__ import annotations

import json
from bisect import bisect_right
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext_lazy

from patterns.domain.boards import (
    LEAST_GRID,
    MOST_GRID,
    board_of,
    number_text,
    point_text,
    read_number,
    read_point,
)
from patterns.domain.drawing_words import remedy_text
from patterns.engine.blocks import block_from_data, letter_order
from patterns.engine.errors import DrawingError
from patterns.engine.seam_lines import Seam
from patterns.engine.subdivision import point_inside
from patterns.engine.surds import write_number
from patterns.engine.svg_reading import block_from_svg

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from django.core.files.uploadedfile import UploadedFile

    from patterns.domain.boards import Board
    from patterns.engine.parts import Patch, Point
    from patterns.engine.subdivision import Subdivision
    from patterns.engine.surds import Number
    from patterns.models import PlacedBlock, QuiltLetter

MOST_BYTES = 200_000
LONGEST_NAME, LONGEST_CATEGORY = 120, 60
TABLES = (8, 20)  # patches, up to which one or two tables hold them
USUAL_LETTERS = "ABCDEFGH"
ON_GRID = _("Write a whole number from %(least)s to %(most)s.")


class SeamEnd(forms.CharField):
    """A point of the grid, typed as "3, 1" or "1 1/2, 2"."""

    def to_python(self, value: Any) -> Any:
        """Give the point; None where nothing is typed."""
        text = super().to_python(value)
        if not text:
            return None
        try:
            return read_point(text)
        except ValueError as error:
            raise forms.ValidationError(_("Write a point as across, down: 3, 1 or 1 1/2, 2.")) from error


class BoardForm(forms.Form):
    """All of a drawing board: name, grid, a seam to draw or to take back, and a letter for each patch."""

    name = forms.CharField(label=_("Name"), max_length=LONGEST_NAME, required=False)
    across = forms.CharField(label=_("Across"), max_length=24)
    down = forms.CharField(label=_("Down"), max_length=24)
    start = SeamEnd(label=_("From"), max_length=40, required=False)
    end = SeamEnd(label=_("To"), max_length=40, required=False)
    centre = SeamEnd(
        label=_("Round"),
        max_length=40,
        required=False,
        help_text=_("The centre, for a quarter circle. Leave it empty for a straight seam."),
    )
    taken = forms.ChoiceField(label=_("Seam"), required=False)
    many = forms.CharField(
        label=_("Patches"), max_length=200, required=False, help_text=_("By their numbers: 2, 5 to 8.")
    )
    many_letter = forms.ChoiceField(label=_("Letter"), required=False)

    def __init__(self, *args: Any, board: Board, divided: Subdivision, roles: Iterable[QuiltLetter]) -> None:
        """Show the board, its seams with the newest first, and a choice of letters for each patch."""
        size = {"across": number_text(board.width), "down": number_text(board.height)}
        super().__init__(*args, initial={"name": board.name, **size})  # type: ignore[misc]  # only data is given by place
        self.board = board
        drawn = [seam_text(seam) for seam in reversed(board.seams)]
        self.fields["taken"].choices = [(words, words) for words in drawn]  # type: ignore[attr-defined]  # a ChoiceField
        choices = letter_choices(divided.patches, roles)
        self.fields["many_letter"].choices = choices  # type: ignore[attr-defined]  # a ChoiceField
        plain = [(letter, letter) for letter, _role in choices]
        self.patches: list[tuple[Patch, Point, str]] = []
        for number, patch in enumerate(divided.patches, start=1):
            point = point_inside(patch.points)
            field = "letter_" + "_".join(map(write_number, point))
            label = _("Letter of patch %(number)s") % {"number": number}
            chosen = forms.ChoiceField(label=label, choices=plain, initial=patch.fabric, required=False)
            self.fields[field] = chosen
            self.patches.append((patch, point, field))

    def clean_across(self) -> Number:
        """Read the width of the grid."""
        return self._side("across", self.board.width)

    def clean_down(self) -> Number:
        """Read the height of the grid."""
        return self._side("down", self.board.height)

    def clean_many(self) -> set[int]:
        """Read numbers of patches, "2, 5 to 8", counted from 1."""
        found: set[int] = set()
        for part in filter(None, self.cleaned_data["many"].replace(" ", "").split(",")):
            first, _to, last = part.replace("to", "-").partition("-")
            ends = [int(end) if end.isdecimal() else 0 for end in (first, last or first)]
            if not 1 <= ends[0] <= ends[1] <= len(self.patches):
                words = ngettext_lazy(
                    "There is one patch, number 1.", "Write numbers from 1 to %(most)s: 2, 5 to 8.", "most"
                )
                raise forms.ValidationError(words, params={"most": len(self.patches)})
            found |= set(range(ends[0], ends[1] + 1))
        return found

    def clean(self) -> dict[str, Any]:
        """Ask for both ends of a seam, in different places, or none."""
        data: dict[str, Any] = super().clean() or {}
        ends = [data.get("start"), data.get("end")]
        if data.get("centre") and not any(ends):
            self.add_error("centre", _("Write where the quarter circle begins and where it ends."))
        for name, there in zip(("start", "end"), ends, strict=True):
            if there is None and any(ends) and name not in self.errors:
                self.add_error(name, _("Write the other end of the seam too."))
        if self.seam and self.seam in both_ways(self.board.seams):
            self.add_error("end", _("This seam is drawn already."))
        return data

    @property
    def seam(self) -> Seam | None:
        """Give the seam that is typed."""
        start, end, centre = (self.cleaned_data.get(name) for name in ("start", "end", "centre"))
        return Seam(start=start, end=end, centre=centre) if start and end else None

    @property
    def letters(self) -> dict[Point, str]:
        """Give the letters chosen, those by number first; where none was sent it stays."""
        sent = self.cleaned_data
        chosen = dict.fromkeys(sent["many"] if sent["many_letter"] else (), sent["many_letter"])
        return {
            point: chosen.get(number) or sent[field] or patch.fabric
            for number, (patch, point, field) in enumerate(self.patches, start=1)
        }

    @property
    def left(self) -> tuple[Seam, ...]:
        """Give the seams without the one to be taken back."""
        return tuple(seam for seam in self.board.seams if seam_text(seam) != self.cleaned_data["taken"])

    @property
    def patch_tables(self) -> list[list[dict[str, Any]]]:
        """Give each patch with its place and its field, in as many tables as lie beside each other."""
        rows = self._patch_rows()
        tables = bisect_right(TABLES, len(rows)) + 1
        each = -(-len(rows) // tables)
        return [rows[start : start + each] for start in range(0, len(rows), each)]

    def _patch_rows(self) -> list[dict[str, Any]]:
        return [
            {"number": number, "place": point_text(min(patch.points, key=_top_left)), "field": self[field]}
            for number, (patch, _point, field) in enumerate(self.patches, start=1)
        ]

    def _side(self, name: str, now: Number) -> Number:
        text: str = self.cleaned_data[name].strip()
        if text == number_text(now):
            return now
        limits = {"least": LEAST_GRID, "most": MOST_GRID}
        try:
            number = read_number(text)
        except ValueError as error:
            raise forms.ValidationError(ON_GRID, params=limits) from error
        if number.denominator != 1 or not LEAST_GRID <= number <= MOST_GRID:
            raise forms.ValidationError(ON_GRID, params=limits)
        return number


class FileForm(forms.Form):
    """A drawing file or an SVG picture to be laid on the board."""

    file = forms.FileField(
        label=_("File"), help_text=_("A drawing file (JSON) or a plain SVG picture, up to 200 kB.")
    )

    def clean_file(self) -> Board:
        """Read the file into a board; the fault is named with its place."""
        file: UploadedFile = self.cleaned_data["file"]
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(_("The file is larger than 200 kB: it is no drawing of one block."))
        try:
            return _read(file.read())
        except DrawingError as error:
            raise forms.ValidationError(remedy_text(error)) from error
        except (ValueError, RecursionError) as error:
            words = _("This is neither a drawing file (JSON) nor an SVG picture.")
            raise forms.ValidationError(words) from error


class PlaceForm(forms.Form):
    """The place of the quilt that a block goes to."""

    place = forms.ChoiceField(label=_("Place"))

    def __init__(self, *args: Any, placed: Iterable[PlacedBlock]) -> None:
        """Offer every place with what lies in it."""
        super().__init__(*args)
        words = _("Row %(row)s, column %(column)s, instead of %(block)s")
        self.fields["place"].choices = [  # type: ignore[attr-defined]  # a ChoiceField
            (
                f"{each.row},{each.column}",
                words % {"row": each.row + 1, "column": each.column + 1, "block": each.block.name},
            )
            for each in placed
        ]


def letter_choices(patches: Sequence[Patch], roles: Iterable[QuiltLetter]) -> list[tuple[str, str]]:
    """Offer the quilt's letters with their roles, and beside them the usual ones and those drawn."""
    named = {each.letter: f"{each.letter}, {each.role}" for each in roles}
    letters = {*named, *USUAL_LETTERS, *(patch.fabric for patch in patches)}
    return [(letter, named.get(letter, letter)) for letter in sorted(letters, key=letter_order)]


def seam_text(seam: Seam) -> str:
    """Name a seam by its ends, a quarter circle by its centre too."""
    ends = {"start": point_text(seam.start), "end": point_text(seam.end)}
    if seam.centre is None:
        return _("%(start)s to %(end)s") % ends
    return _("%(start)s to %(end)s, round %(centre)s") % {**ends, "centre": point_text(seam.centre)}


def both_ways(seams: Iterable[Seam]) -> set[Seam]:
    """Give the seams, each from both ends."""
    return {each for seam in seams for each in (seam, replace(seam, start=seam.end, end=seam.start))}


def _top_left(point: Point) -> Point:
    return point[1], point[0]


def _read(data: bytes) -> Board:
    text = data.decode("utf-8-sig")
    if "\0" in text or "\\u0000" in text:
        raise ValueError("no text")
    is_picture = text.lstrip().startswith("<")
    block = block_from_svg(text) if is_picture else block_from_data(json.loads(text))
    board = board_of(block)
    board.block()
    if len(block.name) > LONGEST_NAME or len(block.category) > LONGEST_CATEGORY:
        raise forms.ValidationError(_("The block's name is longer than 120 signs: give it a shorter one."))
    return board
