"""What the page of an installment's words shows beside its form: how they will read, faults, and numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.domain.chain import work_of
from bom.domain.proofs import units_of
from bom.domain.records import read_colorways
from bom.domain.word_checks import known_now, word_faults
from bom.domain.word_pages import said_words
from bom.domain.word_places import places_of
from bom.domain.words import WORDS
from bom.errors import ProgramError

if TYPE_CHECKING:
    from bom.models import Installment
    from bom.web.forms import WordsForm

MOST = 8000  # letters of a text that are read through; the form takes no more


def words_page(installment: Installment, form: WordsForm) -> dict[str, Any]:
    """Gather it, in the first colorway and the program's units; only the fault where nothing can be said."""
    words = {name: str(form[name].value() or "")[:MOST] for name in WORDS}
    units = units_of(installment.program)
    try:
        work = work_of(installment.program)
        colorway = next(iter(read_colorways(installment.program)), None)
        return {
            "read": [
                said_words(installment, words[name], work=work, colorway=colorway, units=units)
                for name in ("story", "tips")
                if words[name].strip()
            ],
            "faults": word_faults(words, known_now(installment)),
            "places": [
                (place.name, place.html(units))
                for place in places_of(installment, work, colorway)
                if not place.is_side
            ],
        }
    except ProgramError as error:
        return {"no_words": error.remedy}
