"""What stops a designer's words: each finding with field, line and column, and what to do."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from bom.domain.markup import PLACE, clean, too_deep_line
from bom.domain.packets import packet
from bom.domain.proof_types import Check, Finding, Outcome
from bom.domain.records import read_colorways
from bom.domain.sheets.fitting import Face, has_letters
from bom.domain.typed_lengths import is_one_of, typed_lengths
from bom.domain.word_places import key_of, lengths_known, places_by_key, places_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bom.domain.packets import Packet
    from bom.domain.work import ProgramWork
    from bom.models import Installment
    from patterns.engine.surds import Number
    from patterns.models import Colorway

FIELDS = ("title", "story", "tips")
SHOWN = 40  # letters of a name that nobody knows


@dataclass(frozen=True, slots=True, kw_only=True)
class WordFault:
    """One fault of a text: where it begins (line and column from 1), what stands there, what to do."""

    field: str
    line: int
    column: int
    text: str
    remedy: str
    stops: bool = True

    @property
    def label(self) -> str:
        """Give the field's name as a reader knows it."""
        return _(self.field)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What the chain knows of one installment: names of places, and lengths with a place that fills them."""

    names: Mapping[str, str]  # as looked up -> as written
    lengths: Mapping[Number, str]


def words_hold(installment: Installment, known: Known) -> Check:
    """See that every place has its number, and that no length is typed that the sheet does not say."""
    found = Outcome()
    for fault in word_faults({name: getattr(installment, name) for name in FIELDS}, known):
        where = _("{field}, line {line}, column {column}").format(
            field=fault.label, line=fault.line, column=fault.column
        )
        finding = Finding(step=where, piece=fault.text, found=fault.remedy)
        (found.stops if fault.stops else found.looks).append(finding)
    return found.check("words", "Every number in the words comes from the drawing.")


def known_of(
    installment: Installment, work: ProgramWork, *, colorways: Sequence[Colorway], packets: Sequence[Packet]
) -> Known:
    """Gather what the words of one installment may say, over all colorways."""
    program, colorway = installment.program, next(iter(colorways), None) if packets else None
    lines = [line for packet in packets for line in packet.lines]
    allowances = (program.squaring_up, program.cutting_tolerance, program.binding_tail)
    by_key = places_by_key(installment, work, colorway)
    return Known(
        names={key: place.name for key, place in by_key.items()},
        lengths=lengths_known(places_of(installment, work, colorway), lines, allowances),
    )


def known_now(installment: Installment) -> Known:
    """Gather it from what is stored.  ProgramError where the quilt cannot be worked out."""
    program = installment.program
    work, colorways = work_of(program), read_colorways(program)
    packets = [packet(program, work, colorway, installment.number) for colorway in colorways]
    return known_of(installment, work, colorways=colorways, packets=packets)


def word_faults(words: Mapping[str, str], known: Known) -> list[WordFault]:
    """List the faults of texts by field, in the order of their places."""
    faults: list[WordFault] = []
    for field, text in words.items():
        plain = clean(text)
        found = [*_letters(field, plain)]
        if field != "title":
            found += [*_places(field, plain, known), *_lengths(field, plain, known), *_nesting(field, plain)]
        faults += sorted(found, key=lambda fault: (fault.line, fault.column))
    return faults


def _places(field: str, text: str, known: Known) -> Iterator[WordFault]:
    for found in PLACE.finditer(text):
        if key_of(found["name"]) not in known.names:
            yield _fault(field, text, found.start(), typed=found[0], remedy=_unknown(found["name"], known))
    for at, letter in enumerate(PLACE.sub(lambda found: " " * len(found[0]), text)):
        if letter in "{}":
            remedy = _("A brace opens or closes the name of a number. Close it, or leave it out.")
            yield _fault(field, text, at, typed=letter, remedy=remedy)


def _unknown(name: str, known: Known) -> str:
    near = get_close_matches(key_of(name)[:SHOWN], known.names, n=2, cutoff=0.5)
    if not near:
        return _("There is no number of this name. Choose one from the list beside the words.")
    names = ", ".join(f"{{{known.names[each]}}}" for each in dict.fromkeys(near))
    return _("There is no number of this name. Did you mean {names}?").replace("{names}", names)


def _lengths(field: str, text: str, known: Known) -> Iterator[WordFault]:
    for typed in typed_lengths(PLACE.sub(lambda found: "_" * len(found[0]), text)):
        if not typed.lengths or not all(is_one_of(each, known.lengths) for each in typed.lengths):
            remedy = _(
                "The drawing knows no such length. Write the name of a number in braces, such as "
                "{{finished size}}, or say it without a number."
            ).format()
            yield _fault(field, text, typed.start, typed=typed.text, remedy=remedy)
            continue
        names = dict.fromkeys(known.lengths.get(each, "") for each in typed.lengths)
        name = next((f"{{{each}}}" for each in names if each), "")
        remedy = _("A typed length follows no change and no reader's measure.")
        if name:
            remedy += " " + _("Write {name} instead.").replace("{name}", name)
        yield _fault(field, text, typed.start, typed=typed.text, remedy=remedy, stops=False)


def _letters(field: str, text: str) -> Iterator[WordFault]:
    """Name letters that the book's fonts do not have, each once."""
    seen: set[str] = set()
    for at, letter in enumerate(text):
        is_set = letter.isspace() or letter in seen or _is_built(letter)
        if not is_set and not all(has_letters(letter, face) for face in Face):
            seen.add(letter)
            remedy = _("Our fonts have no such letter; it is left out. Write it another way.")
            yield _fault(field, text, at, typed=letter, remedy=remedy)


def _is_built(letter: str) -> bool:
    """Whether a letter is a fraction, which is built from figures."""
    return "\N{FRACTION SLASH}" in unicodedata.normalize("NFKC", letter)


def _nesting(field: str, text: str) -> Iterator[WordFault]:
    line = too_deep_line(text)
    if line is not None:
        remedy = _("Lists and emphasis nest three deep at most, and lists begin at 99 at most.")
        yield WordFault(field=field, line=line, column=1, text="", remedy=remedy)


def _fault(field: str, text: str, at: int, *, typed: str, remedy: str, stops: bool = True) -> WordFault:
    before = text[:at]
    line = before.count("\n") + 1
    column = at - (before.rfind("\n") + 1) + 1
    shown = typed if len(typed) <= SHOWN else f"{typed[: SHOWN - 1]}…"
    return WordFault(field=field, line=line, column=column, text=shown, remedy=remedy, stops=stops)
