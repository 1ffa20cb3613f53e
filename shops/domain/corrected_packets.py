"""Which packets a correction touches, shop by shop: cut already, handed out already."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db.models import Q

from bom.domain.edition_types import ChangeKind
from shops.domain.own_colorways import own_colorways
from shops.domain.packet_editions import cut_before
from shops.models import CutCount, PickUp

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bom.domain.edition_types import EditionChange
    from bom.models import SheetEdition
    from patterns.engine.steps import Phrase
    from patterns.models import Colorway, Fabric
    from shops.models import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedPacket:
    """One fabric of one shop's packets that the correction changes.

    `cut` counts the cuts of that fabric that were made from an older edition, over all colorways that
    take it; `given` the packets of this colorway, cut from an older one, that people have.
    """

    terms: Terms
    colorway: Colorway
    fabric: Fabric
    change: EditionChange
    cut: int
    given: int


def touched_packets(edition: SheetEdition, changes: Iterable[EditionChange]) -> list[TouchedPacket]:
    """List the packets of which an edition asks for another cut; shops by name.

    `changes` are the edition's, or those of one to come, which has the next number and is not kept yet.
    Only what a shop cuts counts: another cloth, or another length.
    """
    cuts = [change for change in changes if _is_cut(change)]
    if not cuts:
        return []
    program = edition.installment.program
    named = {each.slug: each for each in program.quilt.colorways.all()}
    touched = [(named[each.colorway], each) for each in cuts if each.colorway in named]
    shops = program.terms.select_related("shop").order_by("shop__name")
    return [row for terms in shops for row in _of_shop(terms, edition, touched)]


def _is_cut(change: EditionChange) -> bool:
    if change.kind == ChangeKind.PACKET:
        return _asked(change.before) != _asked(change.after)
    return change.kind == ChangeKind.FABRIC


def _asked(amount: Phrase | None) -> object:
    """Give what is in the packet, without what the plan takes at least."""
    return amount and (amount.facts.get("suggested") or amount.facts.get("form"))


def _of_shop(
    terms: Terms, edition: SheetEdition, changes: list[tuple[Colorway, EditionChange]]
) -> Iterator[TouchedPacket]:
    installment = edition.installment
    counts = CutCount.objects.filter(terms=terms, installment=installment)
    cut = {each.fabric_id: cut_before(each, edition.number) for each in counts}
    own = own_colorways(terms)
    for colorway, change in changes:
        cloths = own.at(colorway, installment.number).fabrics.select_related("fabric")
        row = cloths.filter(letter__letter__in=change.letters).order_by("letter__letter").first()
        if row:
            yield TouchedPacket(
                terms=terms,
                colorway=colorway,
                fabric=row.fabric,
                change=change,
                cut=cut.get(row.fabric_id, 0),
                given=_given(terms, edition, colorway),
            )


def _given(terms: Terms, edition: SheetEdition, colorway: Colorway) -> int:
    """Count the packets that were handed out, cut from an older edition, or before this one was made."""
    older = Q(edition__number__lt=edition.number) | Q(edition=None, at__lt=edition.made_at)
    people = Q(sign_up__terms=terms, sign_up__colorway=colorway, installment=edition.installment)
    return PickUp.objects.filter(people & older).count()
