"""Cut lists as people write them: lines such as "48 2 1/2 x 4 1/2 A1", or the cut list file (JSON).

Lengths are inches as cut, width across the fabric and length along it; a file's numbers are exact.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from patterns.engine.errors import LengthNotRead
from patterns.engine.measure import inches, write_inches
from patterns.engine.strips import Demand

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

MOST_PIECES = 100_000  # of one size
USUAL_WIDTH = "40"
AS_WRITTEN = "not turned"  # ends a line whose piece keeps its direction

_LENGTH = r"\d+[ \t]+\d+\s*[/⁄]\s*\d+|\d+\s*[/⁄]\s*\d+|\d+\s*[¼½¾⅐-⅞]|[¼½¾⅐-⅞]|\d*[.,]\d+|\d+"
_UNIT = r"(?:\s*(?:in\b\.?|inch(?:es)?\b|cm\b|[\"″]))?"
_LINE = re.compile(
    rf"(?P<count>\d+)(?:(?P<of>\s*(?:[x×*:]|of\b|pcs?\b|pieces?\b)\s*)|\s+)"
    rf"(?P<width>(?:{_LENGTH}){_UNIT})\s*(?:[x×*]|by\b)\s*(?P<length>(?:{_LENGTH}){_UNIT})"
    rf"(?!\s*[x×*/⁄]\s*\d)(?:[\s,;:]+(?P<label>.*))?",
    re.IGNORECASE,
)
_PART_OF_AN_INCH = re.compile(r"\d+\s*[/⁄]|[¼½¾⅐-⅞]")


class CutListError(ValueError):
    """A cut list cannot be read: which line or field, and what to do about it."""

    def __init__(self, *, where: str, remedy: str) -> None:
        """Keep the place and the remedy."""
        super().__init__(f"{where}: {remedy}")
        self.where = where
        self.remedy = remedy


def read_pasted(
    text: str, *, read: Callable[[str], Fraction] = inches
) -> tuple[tuple[Demand, ...], Fraction | None]:
    """Read what was pasted, lines or a cut list file, into demands and the file's usable width, if any.

    `read` reads a length of a line; files are in inches.  CutListError names the line or field.
    """
    if text.lstrip().startswith("{"):
        data = data_of(text, where=_("cut list"))
        demands, width = read_data(data)
        return demands, width if "usable_width" in data else None
    return read_lines(text, read=read), None


def read_lines(text: str, *, read: Callable[[str], Fraction] = inches) -> tuple[Demand, ...]:
    """Read lines of count, width x length and label; empty lines are passed over.

    >>> read_lines("48 2 1/2 x 4 1/2 A1")[0].width
    Fraction(5, 2)
    """
    rows = [(number, line.strip()) for number, line in enumerate(text.splitlines(), start=1) if line.strip()]
    if not rows:
        remedy = _("write one line for each size: count, width x length, label, such as 48 2 1/2 x 4 1/2 A1")
        raise CutListError(where=_("cut list"), remedy=remedy)
    found = [_line(line, number=number, read=read) for number, line in rows]
    labels = labels_for([demand.label for demand in found])
    return tuple(_renamed(demand, label) for demand, label in zip(found, labels, strict=True))


def write_lines(demands: Iterable[Demand], *, write: Callable[[Fraction], str] = write_inches) -> str:
    """Write demands the way `read_lines` reads them."""
    rows = []
    for each in demands:
        sides = f"{each.count} {write(each.width)} x {write(each.length)}"
        if write(each.width).partition(" ")[0].find("/") > 0:
            sides = f"{each.count} of {write(each.width)} x {write(each.length)}"
        rows.append(f"{sides} {each.label}" + ("" if each.may_turn else f", {AS_WRITTEN}"))
    return "\n".join(rows)


def data_of(text: str, *, where: str) -> dict[str, Any]:
    """Read a cut list file's text; numbers come as text, so that 2.1 is exact."""
    try:
        data = json.loads(text, parse_float=str)
    except (ValueError, RecursionError) as error:
        remedy = _("write the cut list as JSON: {error}").format(error=error)
        raise CutListError(where=where, remedy=remedy) from error
    if not isinstance(data, dict):
        raise CutListError(where=where, remedy=_('write an object with "usable_width" and "pieces"'))
    return data


def read_data(
    data: dict[str, Any], *, width: str | None = None, turn: bool = True
) -> tuple[tuple[Demand, ...], Fraction]:
    """Read a cut list file's data into demands and the usable width; `width` goes before the file's."""
    rows = data.get("pieces")
    if not isinstance(rows, list) or not rows:
        raise CutListError(where="pieces", remedy=_("give a list of pieces, one at least"))
    where = "usable_width" if width is None else "--width"
    usable = _length(data.get("usable_width", USUAL_WIDTH) if width is None else width, where=where)
    labels = labels_for([row.get("label") if isinstance(row, dict) else None for row in rows])
    demands = tuple(
        _demand(row, where=f"pieces[{at}]", label=label, turn=turn)
        for at, (row, label) in enumerate(zip(rows, labels, strict=True))
    )
    return demands, usable


def labels_for(given: list[Any]) -> list[str]:
    """Give numbers to the pieces that have no label, and those that share one."""
    names = [str(label).strip() if label is not None else "" for label in given]
    often, taken, labels = Counter(names), set(names), []
    for name in names:
        if name and often[name] == 1:
            labels.append(name)
            continue
        number = 1
        while f"{name}-{number}".removeprefix("-") in taken:
            number += 1
        labels.append(f"{name}-{number}".removeprefix("-"))
        taken.add(labels[-1])
    return labels


def _line(line: str, *, number: int, read: Callable[[str], Fraction]) -> Demand:
    where = _("line {number}, “{line}”").format(number=number, line=line[:60])
    found = _LINE.fullmatch(line)
    if found is None:
        remedy = _("write count, width x length, label: 48 2 1/2 x 4 1/2 A1")
        raise CutListError(where=where, remedy=remedy)
    if not found["of"] and _PART_OF_AN_INCH.match(found["width"]):
        remedy = _("is the count missing? Write 1 {line}; or, where it is meant so, {count} of {width} x …")
        facts = {"line": line[:60], "count": found["count"], "width": found["width"]}
        raise CutListError(where=where, remedy=remedy.format(**facts))
    label, may_turn = _label(found["label"] or "")
    return Demand(
        label=label,
        width=_side(found["width"], where=where, read=read),
        length=_side(found["length"], where=where, read=read),
        count=_count(found["count"], where=where),
        may_turn=may_turn,
    )


def _label(text: str) -> tuple[str, bool]:
    label = text.strip()
    if not label.casefold().endswith(AS_WRITTEN):
        return label[:40], True
    return label[: -len(AS_WRITTEN)].rstrip(" ,;")[:40], False


def _count(text: str, *, where: str) -> int:
    count = int(text[:9])
    if not 1 <= count <= MOST_PIECES:
        remedy = _("give a whole number from 1 to {most}").format(most=MOST_PIECES)
        raise CutListError(where=where, remedy=remedy)
    return count


def _side(text: str, *, where: str, read: Callable[[str], Fraction]) -> Fraction:
    number = re.sub(r"(?:inch(?:es)?|in\.?|[\"″])$", "", text.strip(), flags=re.IGNORECASE).strip()
    try:
        length = read(number.replace(",", ".").replace("⁄", "/"))
    except ValueError as error:
        remedy = _("“{text}” is no length; write it such as 2 1/2").format(text=text)
        raise CutListError(where=where, remedy=remedy) from error
    if not length:
        raise CutListError(where=where, remedy=_("give a length above zero"))
    return length


def _renamed(demand: Demand, label: str) -> Demand:
    return Demand(
        label=label,
        width=demand.width,
        length=demand.length,
        count=demand.count,
        may_turn=demand.may_turn,
    )


def _demand(row: Any, *, where: str, label: str, turn: bool) -> Demand:
    if not isinstance(row, dict):
        raise CutListError(where=where, remedy=_("write an object with width, length and count"))
    count, one_way = row.get("count"), row.get("one_way", False)
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= MOST_PIECES:
        raise CutListError(
            where=f"{where}.count", remedy=_("give a whole number from 1 to {most}").format(most=MOST_PIECES)
        )
    if not isinstance(one_way, bool):
        raise CutListError(where=f"{where}.one_way", remedy=_("write true or false"))
    return Demand(
        label=label,
        width=_length(row.get("width"), where=f"{where}.width"),
        length=_length(row.get("length"), where=f"{where}.length"),
        count=count,
        may_turn=turn and not one_way,
    )


def _length(value: Any, *, where: str) -> Fraction:
    """Read a length above zero; numbers of the file came as text, so that 2.1 is exact."""
    try:
        length = inches(value)
    except (LengthNotRead, TypeError) as error:
        remedy = _('give a length in inches such as "2 1/2", "5/2" or "2.5"')
        raise CutListError(where=where, remedy=remedy) from error
    if not length:
        raise CutListError(where=where, remedy=_("give a length above zero"))
    return length
