"""What the page of a substitution says, gathered for its template."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.quilt_pictures import quilt_drawing
from patterns.domain.pictures import quilt_svg
from patterns.engine.hatches import Cloth
from shops.domain.own_colorways import own_colorways
from shops.domain.swaps import candidates, contrasts, replaced, touched
from shops.web.shop_order_page import numbers_text
from shops.web.shop_words import hatches_of

if TYPE_CHECKING:
    from patterns.engine.hatches import Cloths
    from patterns.models import Fabric
    from shops.domain.swaps import Candidate, SwapPlace

PICTURE = 340  # px


def swap_page(place: SwapPlace, fabric: Fabric | None) -> dict[str, Any]:
    """Gather what is touched, what may stand in, and what the chosen fabric does."""
    hatch = hatches_of(place.terms.program).get(place.letter.letter, 0)
    found, old, touches = candidates(place), replaced(place), touched(place)
    chosen = next((each for each in found if fabric and each.fabric.pk == fabric.pk), None)
    page = {
        "place": place,
        "old": Cloth(place.letter.letter, old.colour, hatch, old.name),
        "old_value": old.value,
        "touched": touches,
        "numbers": numbers_text(touches.numbers),
        "candidates": [
            (
                Cloth(place.letter.letter, each.fabric.colour, hatch, each.fabric.name),
                each,
                _words(each),
                _query(place, each),
            )
            for each in found
        ],
    }
    return page | (_chosen(place, chosen, hatch=hatch) if chosen else {})


def _chosen(place: SwapPlace, chosen: Candidate, *, hatch: int) -> dict[str, Any]:
    before = cloths_of(own_colorways(place.terms).at(place.colorway, place.number))
    letter = place.letter.letter
    after = {**before, letter: Cloth(letter, chosen.fabric.colour, hatch, chosen.fabric.name)}
    return {
        "chosen": chosen,
        "contrasts": [
            (Cloth(each.letter, each.fabric.colour, before[each.letter].hatch, each.fabric.name), each)
            for each in contrasts(place, chosen.fabric)
        ],
        "before": _picture(place, before, _("The quilt as the designer planned it")),
        "after": _picture(place, after, _("The quilt with {name}").format(name=chosen.fabric.name)),
    }


def _picture(place: SwapPlace, cloths: Cloths, name: str) -> str:
    drawing = quilt_drawing(work_of(place.terms.program))
    return quilt_svg(drawing, cloths=cloths, width_px=PICTURE, name=name)


def _words(each: Candidate) -> str:
    """Say how a candidate compares with the print it replaces."""
    said = [_("as dark")]
    if each.darker:
        count = abs(each.darker)
        darker = ngettext("{count} step darker", "{count} steps darker", count)
        lighter = ngettext("{count} step lighter", "{count} steps lighter", count)
        said = [(darker if each.darker > 0 else lighter).format(count=count)]
    if each.has_role:
        said.append(_("the same letter in another colorway"))
    if not each.is_priced:
        said.append(_("no price yet"))
    return ", ".join(said)


def _query(place: SwapPlace, each: Candidate) -> str:
    where = {"colorway": place.colorway.pk, "letter": place.letter.pk, "number": place.number}
    return urlencode({**where, "fabric": each.fabric.pk})
