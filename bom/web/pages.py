"""What all pages of a designer share: their context, and how errors of the domain reach a form."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.core import signing
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.errors import FabricIsFrozen, ProgramError
from bom.models import Program

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeVar

    from django import forms
    from django.http import HttpRequest

    from bom.domain.changes import Change
    from bom.domain.freezing import Break

    Done = TypeVar("Done")

SALT = "take back a change"
DONE = "done:"


def page(request: HttpRequest, program: Program, section: str, **context: Any) -> dict[str, Any]:
    """Give the context of a designer's page; what was changed last is told once."""
    return {
        "program": program,
        "section": section,
        "may_edit": program.designer_id == request.user.pk,
        "done": request.session.pop(DONE + program.slug, None),
        "now": timezone.now(),
        **context,
    }


def tell(request: HttpRequest, program: Program, change: Change) -> None:
    """Show on the next page what was changed and what followed, with the way to take it back."""
    request.session[DONE + program.slug] = {
        "followed": list(change.followed),
        "token": signing.dumps(change.as_data(), salt=SALT),
    }


def read_token(token: str) -> dict[str, Any]:
    """Read a signed change; ProgramError when it is not ours."""
    try:
        done: dict[str, Any] = signing.loads(token, salt=SALT)
    except signing.BadSignature as error:
        raise ProgramError("token", _("This change cannot be taken back from here.")) from error
    return done


def tried(form: forms.Form, act: Callable[[], Done]) -> Done | None:
    """Do it; where the domain refuses, put its words on the form and give None."""
    try:
        return act()
    except ProgramError as error:
        form.add_error(_field(form, error), error.remedy)
        form.breaks = breaks_of(error)  # type: ignore[attr-defined]  # shown beside the form
    return None


def breaks_of(error: ProgramError) -> list[dict[str, str]]:
    """Word what a change would break after the fabric freeze."""
    if not isinstance(error, FabricIsFrozen):
        return []
    return [_break(each) for each in error.facts["breaks"]]


def _break(each: Break) -> dict[str, str]:
    what = {
        "part": _("part"),
        "size": _("finished size"),
        "drawing": _("drawing"),
        "letters": _("letters"),
        "methods": _("sewn as"),
        "cut sizes": _("cut sizes"),
        "colorway": _("colorway"),
        "fabric": _("fabric of letter"),
        "need": _("need of letter"),
    }
    inches = " in" if each.what == "need" else ""
    return {
        "number": str(each.number) if each.number else "",
        "what": f"{what.get(each.what, each.what)}, {each.place}",
        "colorway": each.colorway,
        "before": f"{each.before}{inches}" if each.before else _("nothing"),
        "after": f"{each.after}{inches}" if each.after else _("nothing"),
    }


def _field(form: forms.Form, error: ProgramError) -> str | None:
    """Find the field that an error is about; None where it is about the whole."""
    letter = error.facts.get("letter")
    names = (error.field, f"{error.field.removesuffix('s')}_{letter}")
    return next((name for name in names if name in form.fields), None)
