"""The form of a cut list: lines or a file's text, the usable width, how deep strips are cut."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bom.domain.chain import USABLE_WIDTH
from bom.domain.lengths import read_length, units_of, write_length
from bom.web.forms import LengthField, positive
from patterns.domain.cut_list_reading import CutListError, read_pasted, write_lines
from patterns.domain.wording import length_text
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.strips import PlanMode, plan_strips
from patterns.models.fields import is_measurable

if TYPE_CHECKING:
    from bom.domain.cut_sources import CutSource
    from bom.models import Program
    from patterns.engine.strips import Demand, StripPlan

MOST_SIZES = 16  # on a page; the command takes longer lists and the time they need
MOST_PIECES = 5_000
MODES = (
    (PlanMode.TRIM, _("cut down where a piece is lower than its strip")),
    (PlanMode.EXACT, _("every piece as high as its strip")),
    (PlanMode.STACK, _("smaller pieces also from what is left")),
)


class CutListForm(forms.Form):
    """A cut list to be planned; once read, `demands` and `plan` hold what it asks for."""

    pieces = forms.CharField(
        label=_("Cut list"),
        max_length=12_000,
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false"}),
        help_text=_(
            "A line for each size: count, width x length, label, seams included: 48 2 1/2 x 4 1/2 A1. "
            "Or a cut list file's text. End a line with “not turned” for a piece that keeps its direction."
        ),
    )
    mode = forms.ChoiceField(label=_("Pieces are"), choices=MODES, initial=PlanMode.TRIM)
    one_way = forms.BooleanField(label=_("The print has a direction: turn nothing"), required=False)

    def __init__(
        self, data: dict[str, Any] | None = None, *, program: Program, source: CutSource | None
    ) -> None:
        """Fill in the list that was asked for, and plan it at once."""
        self.units = units_of(program)
        self.demands: tuple[Demand, ...] = source.demands if source else ()
        self.plan: StripPlan | None = None
        self.chosen = PlanMode.TRIM
        self.wide = ""
        width = source.usable_width if source else USABLE_WIDTH
        listed = write_lines(self.demands, write=partial(write_length, units=self.units))
        super().__init__(data, initial={"pieces": listed, "width": width})
        self.fields["width"] = LengthField(label=_("Usable width"), units=self.units, required=False)
        self.order_fields(["pieces", "width", "mode", "one_way"])
        if data is not None:
            self.is_valid()
        elif source:
            self._plan(source.demands, width, PlanMode.TRIM)

    def clean_width(self) -> Fraction | None:
        """Refuse widths that no fabric has."""
        width: Fraction | None = self.cleaned_data["width"]
        positive(width)
        return width

    def clean(self) -> dict[str, Any]:
        """Read the list and plan it; its faults stand under the list."""
        data = super().clean() or {}
        if "pieces" not in data or "width" not in data or "mode" not in data:
            return data
        try:
            demands, given = read_pasted(data["pieces"], read=partial(read_length, units=self.units))
            _look_at(demands)
        except CutListError as error:
            self.add_error("pieces", f"{error.where}: {error.remedy}")
            return data
        wanted = tuple(replace(each, may_turn=False) for each in demands) if data["one_way"] else demands
        self._plan(wanted, data["width"] or given or USABLE_WIDTH, PlanMode(data["mode"]))
        return data

    def _plan(self, demands: tuple[Demand, ...], width: Fraction, mode: PlanMode) -> None:
        self.demands, self.chosen = demands, mode
        try:
            self.plan = plan_strips(demands, usable_width=width, mode=mode)
        except PieceWiderThanFabric as error:
            words = _(
                "Piece %(label)s is %(width)s across and %(usable)s is usable: make it smaller or join it."
            )
            facts = {"label": error.label, "width": length_text(error.width, self.units)}
            self.wide = words % {**facts, "usable": length_text(error.usable_width, self.units)}
            if self.is_bound:
                self.add_error("pieces", self.wide)


def _look_at(demands: tuple[Demand, ...]) -> None:
    """Refuse lists that a page cannot plan while somebody waits, and sizes that nobody can cut."""
    for each in demands:
        if not (is_measurable(each.width) and is_measurable(each.length)):
            raise CutListError(where=each.label, remedy=str(_("write a length that can be measured")))
    sizes = len({(each.width, each.length, each.may_turn) for each in demands})
    if sizes > MOST_SIZES:
        remedy = _(
            "%(found)s different sizes take too long for a page; it plans %(most)s at once. Paste one "
            "fabric's pieces at a time, or plan the whole list with manage.py strips"
        )
        facts = {"found": sizes, "most": MOST_SIZES}
        raise CutListError(where=str(_("cut list")), remedy=str(remedy) % facts)
    pieces = sum(each.count for each in demands)
    if pieces > MOST_PIECES:
        remedy = _("%(found)s pieces are too many for a page; it plans %(most)s at once. Paste fewer")
        facts = {"found": pieces, "most": MOST_PIECES}
        raise CutListError(where=str(_("cut list")), remedy=str(remedy) % facts)
