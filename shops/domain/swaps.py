"""Substitution at one shop: what it touches, what may stand in, what it does to contrast; adopt, take back.

A print that did not arrive is replaced from an installment on, for one shop and one colorway: its
order, packets, labels and its people's sheets follow, nobody else's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db import transaction
from django.db.models import Q
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.domain.chain import work_of
from bom.domain.records import read_colorways
from bom.errors import WrongState
from patterns.enums import Direction
from patterns.models import Colorway, ColorwayFabric, Fabric, QuiltLetter
from shops.domain.needs import counts_of, seats_of
from shops.domain.own_colorways import keep_own_colorways
from shops.enums import Place
from shops.models import CutCount, FabricOffer, SheetCopy, SignUp, Swap, Terms

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.work import ProgramWork
    from patterns.models import User


@dataclass(frozen=True, slots=True, kw_only=True)
class SwapPlace:
    """Where a fabric is substituted: a letter of a colorway, from an installment on."""

    terms: Terms
    colorway: Colorway
    letter: QuiltLetter
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Touched:
    """What a substitution touches: installments, packets in each, people by number, sheets taken already."""

    numbers: tuple[int, ...]
    packets: int
    people: tuple[SignUp, ...]
    sheets_taken: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A fabric that may stand in; `darker` is its value less that of the print it replaces."""

    fabric: Fabric
    has_role: bool  # stands for the same letter in another colorway
    is_priced: bool
    darker: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Contrast:
    """How far apart in value a fabric and one that it meets are: before and after, negative for lighter."""

    letter: str
    fabric: Fabric
    before: int
    after: int

    @property
    def is_lost(self) -> bool:
        """Whether the two can no longer be told apart by value, or have changed sides."""
        return self.before * self.after <= 0 and self.before != 0


def replaced(place: SwapPlace) -> Fabric:
    """Give the fabric that the designer chose."""
    return (
        ColorwayFabric.objects.select_related("fabric")
        .get(colorway=place.colorway, letter=place.letter)
        .fabric
    )


def touched(place: SwapPlace) -> Touched:
    """Say which installments, packets and people a substitution touches; nobody of another colorway."""
    numbers = _numbers(work_of(place.terms.program), place)
    packets = counts_of(place.terms, seats_of(place.terms).get(place.colorway.slug, 0))
    people = SignUp.objects.filter(
        terms=place.terms, colorway=place.colorway, place=Place.SEAT, left_on__isnull=True
    ).order_by("number")
    taken = (
        SheetCopy.objects.filter(sign_up__in=people, rendering__edition__installment__number__in=numbers)
        .values("sign_up", "rendering__edition__installment")
        .distinct()
        .count()
    )
    return Touched(
        numbers=tuple(numbers),
        packets=packets.packets if packets.seats else 0,
        people=tuple(people),
        sheets_taken=taken,
    )


def candidates(place: SwapPlace) -> list[Candidate]:
    """List what may stand in, the likest first: of the same letter, then by value, light to dark.

    From the shop's fabrics and the collection; none that is in the colorway, is narrower than what is
    cut, or has a direction that the cuts do not know.
    """
    old, others = replaced(place), read_colorways(place.terms.program)
    rows = [row for each in others for row in each.fabrics.all() if row.letter_id == place.letter.pk]
    role = {row.fabric_id for row in rows}
    used = set(place.colorway.fabrics.values_list("fabric", flat=True))
    priced = set(FabricOffer.objects.filter(shop=place.terms.shop_id).values_list("fabric", flat=True))
    found = Fabric.objects.filter(Q(pk__in=priced) | Q(collection=old.collection_id)).exclude(pk__in=used)
    fits = [each for each in found if not _misfit(each, [row.fabric for row in rows])]
    made = [
        Candidate(
            fabric=each,
            has_role=each.pk in role,
            is_priced=each.pk in priced,
            darker=each.value - old.value,
        )
        for each in fits
    ]
    return sorted(
        made, key=lambda each: (not each.has_role, abs(each.darker), each.fabric.value, each.fabric.name)
    )


def contrasts(place: SwapPlace, fabric: Fabric) -> list[Contrast]:
    """Compare the value with every fabric that the letter meets at a corner of the drawings."""
    cloths = {
        row.letter.letter: row.fabric for row in place.colorway.fabrics.select_related("letter", "fabric")
    }
    old = cloths[place.letter.letter]
    return [
        Contrast(
            letter=letter,
            fabric=cloths[letter],
            before=old.value - cloths[letter].value,
            after=fabric.value - cloths[letter].value,
        )
        for letter in sorted(_meets(work_of(place.terms.program), place), key=lambda each: (len(each), each))
        if letter in cloths
    ]


@transaction.atomic
def adopt(place: SwapPlace, fabric: Fabric, *, by: User, now: datetime) -> Swap:
    """Substitute from that installment on; the shop's order, packets, labels and sheets follow.

    WrongState where the letter is not cut from then on, the fabric cannot stand in, the letter is
    substituted already, or cuts of the print are counted in those installments.
    """
    terms = Terms.objects.select_for_update(of=("self",)).get(pk=place.terms.pk)
    _refuse(place, fabric)
    swap = Swap.objects.create(
        terms=terms,
        colorway=place.colorway,
        letter=place.letter,
        from_installment=place.number,
        fabric=fabric,
        adopted_at=now,
        adopted_by=by,
    )
    keep_own_colorways(terms, place.colorway)
    record("substitute fabric", actor=by, subject=_subject(place.terms), facts=_facts(swap), now=now)
    return swap


@transaction.atomic
def take_back(swap: Swap, *, by: User, now: datetime) -> None:
    """Give the designer's fabric back; WrongState when cuts of the substitute are counted."""
    terms = Terms.objects.select_for_update(of=("self",)).get(pk=swap.terms_id)
    _refuse_cut(terms, swap.fabric, swap.from_installment)
    facts = _facts(swap)
    swap.delete()
    keep_own_colorways(terms, swap.colorway)
    record("take back substitution", actor=by, subject=_subject(terms), facts=facts, now=now)


def _refuse(place: SwapPlace, fabric: Fabric) -> None:
    if not _numbers(work_of(place.terms.program), place):
        remedy = _("Letter {letter} is not cut from installment {number} on. Choose an earlier one.")
        raise WrongState("installment", remedy, letter=place.letter.letter, number=place.number)
    _refuse_carried(place)
    if Swap.objects.filter(terms=place.terms, colorway=place.colorway, letter=place.letter).exists():
        remedy = _("Letter {letter} is substituted already. Take that back first.")
        raise WrongState("letter", remedy, letter=place.letter.letter)
    if fabric.pk not in {each.fabric.pk for each in candidates(place)}:
        remedy = _("{fabric} cannot stand in. Choose one of the list.")
        raise WrongState("fabric", remedy, fabric=fabric.name)
    _refuse_cut(place.terms, replaced(place), place.number)


def _refuse_carried(place: SwapPlace) -> None:
    """Refuse to begin between the packet that holds carried fabric and the installment that sews it."""
    for each in work_of(place.terms.program).installments:
        source = each.carried.get(place.letter.letter, each.number)
        if source < place.number <= each.number:
            remedy = _(
                "Letter {letter} of installment {number} is cut from packet {other} and kept. Begin with "
                "installment {other}, or after installment {number}."
            )
            facts = {"letter": place.letter.letter, "number": each.number, "other": source}
            raise WrongState("installment", remedy, **facts)


def _refuse_cut(terms: Terms, fabric: Fabric, number: int) -> None:
    counts = CutCount.objects.filter(terms=terms, fabric=fabric, installment__number__gte=number, made__gt=0)
    cut = ", ".join(
        str(each) for each in counts.order_by("installment").values_list("installment__number", flat=True)
    )
    if cut:
        remedy = _("Cuts of {fabric} are counted in installment {numbers}. Take them back, or begin later.")
        raise WrongState("cuts", remedy, fabric=fabric.name, numbers=cut)


def _numbers(work: ProgramWork, place: SwapPlace) -> list[int]:
    letter = place.letter.letter
    return [
        each.number
        for each in work.installments
        if each.number >= place.number and letter in {*each.letters, *each.packed}
    ]


def _misfit(fabric: Fabric, known: list[Fabric]) -> bool:
    """Whether a fabric is narrower than what is cut, or has a direction that no fabric of the letter has."""
    directions = {Direction.NONE, *(each.direction for each in known)}
    return (
        fabric.usable_width < min(each.usable_width for each in known) or fabric.direction not in directions
    )


def _meets(work: ProgramWork, place: SwapPlace) -> set[str]:
    letter, found = place.letter.letter, set[str]()
    drawings = (part.drawing for each in work.installments for part in each.parts)
    for drawing in (each for each in drawings if each):
        corners = [(patch.fabric, set(patch.points)) for patch in drawing.patches]
        mine = {point for fabric, points in corners if fabric == letter for point in points}
        found |= {fabric for fabric, points in corners if points & mine}
        found |= {other for pair in drawing.laid_over if letter in pair for other in pair}
    return found - {letter}


def _facts(swap: Swap) -> dict[str, object]:
    return {
        "colorway": swap.colorway.slug,
        "letter": swap.letter.letter,
        "from": swap.from_installment,
        "fabric": swap.fabric.number,
    }


def _subject(terms: Terms) -> str:
    return f"terms:{terms.shop.slug}/{terms.program.slug}"
