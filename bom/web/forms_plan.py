"""Forms of the calendar: the rule of the year, and the day of one installment."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from bom.domain.wall_times import instant_of

if TYPE_CHECKING:
    from bom.models import Installment, Program

TYPED = "typed"
WEEKS = {"1": _("first"), "2": _("second"), "3": _("third"), "4": _("fourth"), "-1": _("last")}
WEEKDAYS = {
    "SA": _("Saturday"),
    "SU": _("Sunday"),
    "MO": _("Monday"),
    "TU": _("Tuesday"),
    "WE": _("Wednesday"),
    "TH": _("Thursday"),
    "FR": _("Friday"),
}
DAY = forms.DateInput(attrs={"type": "date", "class": "days"}, format="%Y-%m-%d")
TIME = forms.TimeInput(attrs={"type": "time", "class": "days"}, format="%H:%M")


def rule_choices() -> list[Any]:
    """Offer the rules that people say: the third Saturday, the last day of the month."""
    weekdays = [
        (name, [(f"FREQ=MONTHLY;BYDAY={n}{day}", f"{which} {name}") for n, which in WEEKS.items()])
        for day, name in WEEKDAYS.items()
    ]
    days = [
        ("FREQ=MONTHLY;BYMONTHDAY=1", _("first day of the month")),
        ("FREQ=MONTHLY;BYMONTHDAY=15", _("15th of the month")),
        ("FREQ=MONTHLY;BYMONTHDAY=-1", _("last day of the month")),
    ]
    return [*weekdays, (_("day of the month"), days), (TYPED, _("another rule, typed below"))]


def rule_words(rule: str) -> str:
    """Say a rule in words, or give it as it stands."""
    flat = dict(each for group in rule_choices() for each in (group[1] if isinstance(group[1], list) else ()))
    return str(flat.get(rule, rule))


class CalendarForm(forms.Form):
    """The days of a year by rule."""

    choice = forms.ChoiceField(label=_("Every month on the"), choices=rule_choices)
    rule = forms.CharField(
        label=_("Typed rule"),
        required=False,
        max_length=200,
        help_text=_("Only for another rule, as in calendars (RFC 5545): FREQ=MONTHLY;BYDAY=3SA"),
    )
    first_day = forms.DateField(
        label=_("First day to look from"),
        widget=DAY,
        help_text=_("The first installment comes on it or after it."),
    )
    release_time = forms.TimeField(label=_("Time of day"), widget=TIME)

    def __init__(self, *args: Any, program: Program) -> None:
        """Show the rule that stands, as a choice where it is one."""
        known = rule_words(program.rule) != program.rule
        initial = {
            "choice": program.rule if known else TYPED,
            "rule": "" if known else program.rule,
            "first_day": program.first_day,
            "release_time": program.release_time,
        }
        super().__init__(*args, initial=initial)  # type: ignore[misc]  # only data is given by place
        words = _("The clocks of the program: %(zone)s.") % {"zone": program.zone}
        self.fields["release_time"].help_text = words

    def clean(self) -> dict[str, Any]:
        """Ask for the rule where it is to be typed."""
        data: dict[str, Any] = super().clean() or {}
        if data.get("choice") == TYPED and not data.get("rule"):
            self.add_error("rule", _("Type the rule, or choose one above."))
        return data

    def values(self) -> dict[str, Any]:
        """Give the values of the change."""
        data = self.cleaned_data
        return {
            "rule": data["rule"] if data["choice"] == TYPED else data["choice"],
            "first_day": str(data["first_day"]),
            "release_time": f"{data['release_time']:%H:%M}",
        }


class DayForm(forms.Form):
    """A day of its own for one installment, and why."""

    day = forms.DateField(label=_("Day"), widget=DAY)
    time = forms.TimeField(label=_("Time of day"), widget=TIME)
    fold = forms.TypedChoiceField(
        label=_("Which of the two"),
        choices=((0, _("the first")), (1, _("the second"))),
        coerce=int,
        required=False,
        empty_value=0,  # type: ignore[arg-type]  # the choices are numbers
        widget=forms.RadioSelect,
    )
    reason = forms.CharField(
        label=_("Why"), max_length=200, help_text=_("One line, shown beside the day: the shops are closed.")
    )

    def __init__(self, *args: Any, installment: Installment, reason: str) -> None:
        """Show the day that stands; ask which of the two only where an hour happens twice."""
        program = installment.program
        initial = {
            "day": installment.wall_day,
            "time": installment.wall_time or program.release_time,
            "fold": installment.fold,
            "reason": reason,
        }
        super().__init__(*args, initial=initial)  # type: ignore[misc]  # only data is given by place
        self.zone = program.zone
        self.fields["time"].help_text = _("The clocks of the program: %(zone)s.") % {"zone": program.zone}
        if not self._is_doubled():
            del self.fields["fold"]

    def values(self) -> dict[str, Any]:
        """Give the values of the change."""
        data = self.cleaned_data
        return {
            "day": str(data["day"]),
            "time": str(data["time"]),
            "fold": data.get("fold", 0),
            "by_exception": True,
        }

    def _is_doubled(self) -> bool:
        """Whether the day and time that were typed, or stand, come twice when the clocks go back."""
        names = {name: self.fields[name] for name in ("day", "time")}
        try:
            day, time = (
                field.clean(self.data.get(name) if self.is_bound else self.initial[name])
                for name, field in names.items()
            )
        except forms.ValidationError:
            return False
        return instant_of(day=day, at=time, zone=self.zone).doubled
