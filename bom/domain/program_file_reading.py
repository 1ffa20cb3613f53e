"""Strict reading of a program file: every refusal names the path of the entry and the remedy."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, time
from enum import Enum
from typing import TYPE_CHECKING, Any, TypeVar

from django.utils.translation import gettext as _

from bom.errors import BadProgramFile
from patterns.engine.measure import centimetres, inches
from patterns.models.fields import is_measurable

if TYPE_CHECKING:
    from fractions import Fraction

Choice = TypeVar("Choice", bound=Enum)

MOST_CHARACTERS = 20_000
MOST_ENTRIES = 2_000
MOST_NUMBER = 1_000


class Entry:
    """One object of a program file, with its path; what was not asked for is refused by `done`."""

    def __init__(self, value: object, path: str = "") -> None:
        """Take an object of the file; BadProgramFile when it is something else."""
        self.path = path
        if not isinstance(value, Mapping) or not all(isinstance(key, str) for key in value):
            raise self.bad("", _("This must be an object with named entries."))
        self._values: Mapping[str, Any] = value
        self._asked: set[str] = set()

    def at(self, key: str) -> str:
        """Give the path of one entry, such as quilt.letters[2].role."""
        return ".".join(part for part in (self.path, key) if part) or "file"

    def bad(self, key: str, remedy: str, /, **facts: object) -> BadProgramFile:
        """Make the error about one entry."""
        return BadProgramFile(self.at(key), remedy, **facts)

    def done(self) -> None:
        """Refuse entries that nobody asked for: a misspelt name would be lost without a word."""
        unknown = sorted(set(self._values) - self._asked)
        if unknown:
            known = ", ".join(sorted(self._asked))
            raise self.bad(unknown[0], _("This name is not known here. Known are: {known}."), known=known)

    def has(self, key: str) -> bool:
        """Whether the entry is there and not null."""
        self._asked.add(key)
        return self._values.get(key) is not None

    def text(self, key: str, *, most: int = MOST_CHARACTERS, blank: bool = False) -> str:
        """Read a text; with `blank` it may be empty or left out."""
        value = self._get(key, "" if blank else None)
        if not isinstance(value, str) or len(value) > most or not (value.strip() or blank):
            raise self.bad(key, _("Write a text of at most {most} characters."), most=most)
        return value

    def flag(self, key: str) -> bool:
        """Read true or false; left out is false."""
        value = self._get(key, False)  # noqa: FBT003 -- the value of a flag that is left out
        if not isinstance(value, bool):
            raise self.bad(key, _("Write true or false."))
        return value

    def whole(self, key: str, *, least: int = 0, most: int = MOST_NUMBER, default: int | None = None) -> int:
        """Read a whole number."""
        value = self._get(key, default)
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            raise self.bad(key, _("Write a whole number from {least} to {most}."), least=least, most=most)
        return value

    def length(self, key: str, *, default: str | None = None) -> Fraction:
        """Read an exact length, "2 1/2" in inches or "30 cm", into inches."""
        value = self._get(key, default)
        try:
            if not isinstance(value, str):
                raise TypeError(key)
            number = value.strip().removesuffix("cm")
            length = centimetres(number.strip()) if number != value.strip() else inches(value)
        except (TypeError, ValueError) as error:
            raise self.bad(key, _('Write a length as text: "2 1/2" for inches, or "30 cm".')) from error
        if not is_measurable(length):
            raise self.bad(key, _("Write a length that can be measured."))
        return length

    def day(self, key: str) -> date:
        """Read a day, 2027-01-16."""
        try:
            return date.fromisoformat(self.text(key))
        except ValueError as error:
            if isinstance(error, BadProgramFile):
                raise
            raise self.bad(key, _("Write a day as 2027-01-16.")) from error

    def clock(self, key: str) -> time:
        """Read a time of day, 10:00."""
        try:
            read = time.fromisoformat(self.text(key))
        except ValueError as error:
            if isinstance(error, BadProgramFile):
                raise
            raise self.bad(key, _("Write a time of day as 10:00.")) from error
        if read.tzinfo is not None:
            raise self.bad(key, _("Write a time of day as 10:00; the zone is that of the program."))
        return read

    def choice(self, key: str, choices: type[Choice], *, default: Choice | None = None) -> Choice:
        """Read one value of a closed list."""
        value = self._get(key, default.value if default else None)
        for choice in choices:
            if choice.value == value:
                return choice
        known = ", ".join(str(choice.value) for choice in choices)
        raise self.bad(key, _("Write one of these: {known}."), known=known)

    def entry(self, key: str) -> Entry:
        """Read an object inside this one."""
        return Entry(self._get(key, None), self.at(key))

    def entries(self, key: str) -> list[Entry]:
        """Read a list of objects; left out is empty."""
        return [Entry(value, f"{self.at(key)}[{n}]") for n, value in enumerate(self.values(key))]

    def values(self, key: str) -> list[Any]:
        """Read a list of anything; left out is empty."""
        value = self._get(key, [])
        if not isinstance(value, list) or len(value) > MOST_ENTRIES:
            raise self.bad(key, _("This must be a list of at most {most} entries."), most=MOST_ENTRIES)
        return value

    def texts(self, key: str) -> dict[str, str]:
        """Read an object of texts by name; left out is empty."""
        read = Entry(self._get(key, {}), self.at(key))
        return {name: read.text(name) for name in read}

    def plain(self, key: str) -> Any:
        """Read whatever stands there, to be checked elsewhere."""
        return self._get(key, None)

    def raw(self, name: str) -> Any:
        """Give a value as it stands, null included, without asking for it."""
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        """Go through the names."""
        return iter(self._values)

    def _get(self, key: str, default: object) -> Any:
        self._asked.add(key)
        value = self._values.get(key, default)
        if value is None:
            raise self.bad(key, _("This entry is missing. Add it."))
        return value
