"""Editions of sheets: immutable states, numbered, known by the hash of what they say."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record, subject_of
from bom.domain.chain import work_of
from bom.domain.keeping import hash_of
from bom.domain.markup import PLACE
from bom.domain.packets import packet
from bom.domain.word_places import key_of, places_by_key
from bom.errors import ProgramError
from bom.models import SheetEdition
from patterns.engine.binding_corners import CornerKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Surd, write_number

if TYPE_CHECKING:
    from datetime import date, datetime

    from bom.domain.packets import FabricLine
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from bom.models import Installment
    from patterns.engine.steps import Fact, Piece, Size, Step, UnitRow
    from patterns.models import User


def sheet_data(installment: Installment) -> dict[str, Any]:
    """Say as plain data all that the sheet says, over all colorways; equal data is an equal edition."""
    program = installment.program
    work = work_of(program)
    mine = work.installment(installment.number)
    return {
        "program": program.title,
        "studio": program.studio,
        "number": installment.number,
        "of": len(work.installments),
        "title": installment.title,
        "story": installment.story,
        "tips": installment.tips,
        **_filled(installment, work),
        "day": str(installment.wall_day),
        "due": str(installment.due_day),
        "parts": [_part(part) for part in mine.parts],
        **_carried(mine),
        "packets": {
            colorway.slug: [_line(line) for line in packet(program, work, colorway, mine.number).lines]
            for colorway in program.quilt.colorways.all()
        },
    }


def _filled(installment: Installment, work: ProgramWork) -> dict[str, Any]:
    """Say what fills the places in the words; nothing where there are none."""
    names = [key_of(found["name"]) for found in PLACE.finditer(f"{installment.story}\n{installment.tips}")]
    if not names:
        return {}
    places = places_by_key(installment, work, None)
    return {"filled": {name: _fact(places[name].value) for name in names if name in places}}


def newest_edition(installment: Installment) -> SheetEdition | None:
    """Give the newest edition, or None before the first."""
    return installment.editions.order_by("-number").first()


def make_edition(
    installment: Installment, *, by: User | None, now: datetime, change_line: str = ""
) -> SheetEdition:
    """Make the next edition when the sheet says something new; else give the newest as it is.

    A correction of a sheet that has editions needs a line that says what changed (ProgramError).
    """
    data = sheet_data(installment)
    newest = newest_edition(installment)
    if newest and newest.content_hash == hash_of(data):
        return newest
    if newest and not change_line:
        raise ProgramError(
            "change_line", _("Say in one line what changed since edition {number}."), number=newest.number
        )
    return _keep_edition(
        installment, data, number=newest.number + 1 if newest else 1, by=by, now=now, line=change_line
    )


@transaction.atomic
def _keep_edition(
    installment: Installment, data: dict[str, Any], *, number: int, by: User | None, now: datetime, line: str
) -> SheetEdition:
    edition = SheetEdition.objects.create(
        installment=installment,
        number=number,
        content_hash=hash_of(data),
        data=data,
        change_line=line,
        made_at=now,
        made_by=by,
    )
    facts = {"edition": number, "changed": line}
    record("make edition", actor=by, subject=subject_of(installment), facts=facts, now=now)
    return edition


def _part(part: PartWork) -> dict[str, Any]:
    data: dict[str, Any] = {
        "kind": part.kind,
        "title": part.title,
        "pieces": [_piece(piece) for piece in part.pieces],
    }
    if part.recipe:
        data |= {
            "recipe": part.recipe.as_data(),
            "units": [_unit(row) for row in part.recipe.units],
            "words": [_words(step) for step in part.recipe.steps],
        }
    if part.finishing:
        data["finishing"] = str(part.finishing)
    if any(corner.kind is not CornerKind.SQUARE for corner in part.corners):
        data["corners"] = [[_phrase(words) for words in corner.words] for corner in part.corners]
    if part.sleeve:
        data["sleeve"] = str(part.sleeve)
    return data


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "id": piece.id,
        "fabric": piece.fabric,
        "width": write_number(piece.width),
        "length": write_number(piece.length),
        "count": piece.count,
        "then": piece.then,
        "purpose": piece.purpose,
    }


def _unit(row: UnitRow) -> dict[str, Any]:
    return {
        "kind": row.kind.value,
        "fabrics": list(row.fabrics),
        "hand": row.hand.value,
        "count": row.count,
        "finished": _texts(row.finished),
        "trim_to": _texts(row.trim_to) if row.trim_to else None,
        "method": row.method,
    }


def _texts(size: Size) -> list[str]:
    return [write_number(side) for side in size]


def _carried(mine: InstallmentWork) -> dict[str, Any]:
    """Say what comes from earlier packets and what is kept for later, where there is any."""
    kept = [[each.number, each.letter, [str(piece) for piece in each.pieces]] for each in mine.kept]
    facts: dict[str, Any] = {"carried": dict(mine.carried), "kept": kept}
    return {name: fact for name, fact in facts.items() if fact}


def _words(step: Step) -> list[Any]:
    return [_phrase(step.title), *(_phrase(words) for words in step.words)]


def _phrase(phrase: Phrase) -> list[Any]:
    return [phrase.text, {name: _fact(fact) for name, fact in phrase.facts.items()}]


def _fact(fact: Fact | date) -> Any:
    if isinstance(fact, Phrase):
        return _phrase(fact)
    if isinstance(fact, tuple):
        return " x ".join(write_number(side) for side in fact)
    return write_number(fact) if isinstance(fact, Surd) else str(fact)


def _line(line: FabricLine) -> dict[str, Any]:
    return {"letters": list(line.letters), "fabric": line.fabric.name, **line.line.as_data()}
