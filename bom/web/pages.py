"""What all pages of a designer share: their context, and how errors of the domain reach a form."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from django.core import signing
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.domain.changes import change
from bom.domain.lengths import units_of
from bom.domain.records import read_colorways
from bom.errors import FabricIsFrozen, ProgramError
from patterns.domain.wording import fabric_text, length_text, size_text
from patterns.engine.measure import inches

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from fractions import Fraction
    from typing import TypeVar

    from django import forms
    from django.http import HttpRequest

    from bom.domain.changes import Change
    from bom.domain.freezing import Break
    from bom.domain.need_changes import NeedChange
    from bom.models import Program
    from patterns.engine.measure import Units
    from patterns.models import User

    Done = TypeVar("Done")

SALT = "take back a change"
DONE = "done:"
NEED = "need"
_LENGTH = re.compile(r"\d+/\d+|\d+(?: \d+/\d+)?")
_SIDES = re.compile(rf"(?P<width>{_LENGTH.pattern}) x (?P<length>{_LENGTH.pattern})")


def page(request: HttpRequest, program: Program, section: str, **context: Any) -> dict[str, Any]:
    """Give the context of a designer's page; what was changed last is told once."""
    return {
        "program": program,
        "section": section,
        "may_edit": program.designer_id == request.user.pk,
        "done": request.session.pop(DONE + program.slug, None),
        "now": timezone.now(),
        "in_units": units_of(program),
        **context,
    }


def tell(request: HttpRequest, program: Program, change: Change) -> None:
    """Show on the next page what was changed and what followed, with the way to take it back."""
    request.session[DONE + program.slug] = {
        "followed": list(change.followed),
        "needs": need_rows(program, change.needs),
        "token": signing.dumps(change.as_data(), salt=SALT),
    }


def need_rows(program: Program, needs: Iterable[NeedChange]) -> list[dict[str, Any]]:
    """Word the changed needs for a table: minimum, suggested and what is bought, before and after."""
    names, units = {each.slug: each.name for each in read_colorways(program)}, units_of(program)
    return [
        {
            "number": each.number,
            "cloth": each.cloth,
            "colorway": names.get(each.colorway, each.colorway),
            "rises": each.rises,
            **_both("minimum", each, lambda pair: length_text(pair[0], units)),
            **_both("suggested", each, lambda pair: length_text(pair[1], units)),
            **_both("bought", each, lambda pair: fabric_text(pair[1], units)),
        }
        for each in needs
    ]


def _both(name: str, each: NeedChange, word: Callable[[tuple[Fraction, Fraction]], str]) -> dict[str, str]:
    """Word one length before and after; a fabric that came or went has nothing there."""
    nothing = _("nothing")
    return {
        f"{name}_{when}": word(pair) if pair[1] else nothing
        for when, pair in (("before", each.before), ("after", each.after))
    }


def read_token(token: str) -> dict[str, Any]:
    """Read a signed change; ProgramError when it is not ours."""
    try:
        done: dict[str, Any] = signing.loads(token, salt=SALT)
    except signing.BadSignature as error:
        raise ProgramError("token", _("This change cannot be taken back from here.")) from error
    return done


def changed(request: HttpRequest, program: Program, form: forms.BaseForm, *, target: str) -> bool:
    """Carry out the change that a form asks for and tell what followed; False where it is refused."""
    user: User = request.user  # type: ignore[assignment]  # every page asks for a sign-in first
    values = form.values()  # type: ignore[attr-defined]  # every form of a change has them
    done = tried(form, program, lambda: change(program, target, values, by=user, now=timezone.now()))
    if done:
        tell(request, program, done)
    return done is not None


def tried(form: forms.BaseForm, program: Program, act: Callable[[], Done]) -> Done | None:
    """Do it; where the domain refuses, put its words on the form and give None."""
    try:
        return act()
    except FabricIsFrozen as error:
        form.add_error(None, error.remedy)
        form.breaks = break_rows(program, error.facts["breaks"])  # type: ignore[attr-defined]  # shown instead
    except ProgramError as error:
        form.add_error(_field(form, error), error.remedy)
    return None


def break_rows(program: Program, breaks: Iterable[Break]) -> list[dict[str, str]]:
    """Word what a change breaks for a table, the needs of fabric first."""
    colorways = read_colorways(program)
    names = {each.slug: each.name for each in colorways}
    cloths = {
        (each.slug, row.letter.letter): row.fabric.name for each in colorways for row in each.fabrics.all()
    }
    ordered = sorted(breaks, key=lambda each: each.what != NEED)
    units = units_of(program)
    return [
        _break(each, _what(each, cloths), names.get(each.colorway, each.colorway), units=units)
        for each in ordered
    ]


def _what(each: Break, cloths: dict[tuple[str, str], str]) -> str:
    if each.what == NEED:
        fabric = cloths.get((each.colorway, each.place.partition(",")[0]), "")
        return _("need of {fabric}, letter {letters}").format(fabric=fabric, letters=each.place)
    words = {
        "part": _("part: {place}"),
        "size": _("finished size of {place}"),
        "drawing": _("drawing of {place}"),
        "letters": _("letters of {place}"),
        "methods": _("how {place} is sewn"),
        "cut sizes": _("cut sizes of {place}"),
        "colorway": _("colorway {place}"),
        "fabric": _("fabric of letter {place}"),
        "carried": _("installments that letter {place} is kept for"),
    }
    return words.get(each.what, "{place}").format(place=each.place)


def _break(each: Break, what: str, colorway: str, *, units: Units) -> dict[str, str]:
    before, after = (_lengths_said(each.what, words, units) for words in (each.before, each.after))
    return {
        "number": str(each.number) if each.number else "",
        "what": what,
        "colorway": colorway,
        "before": before or _("nothing"),
        "after": after or _("nothing"),
    }


def _lengths_said(what: str, words: str, units: Units) -> str:
    """Say the lengths of a break in the program's units; they are kept in inches, as frozen."""
    if what in (NEED, "size"):
        return _LENGTH.sub(lambda found: length_text(inches(found[0]), units), words)
    if what == "cut sizes":
        return _SIDES.sub(
            lambda found: size_text((inches(found["width"]), inches(found["length"])), units), words
        )
    return words


def _field(form: forms.BaseForm, error: ProgramError) -> str | None:
    """Find the field that an error is about; None where it is about the whole."""
    letter = error.facts.get("letter")
    names = (error.field, f"{error.field.removesuffix('s')}_{letter}")
    return next((name for name in names if name in form.fields), None)
