"""A shop's own colorways: the designer's, with the fabrics that the shop substitutes, month by month."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bom.domain.keeping import hash_of
from patterns.models import Colorway, ColorwayFabric
from shops.models import Swap, Terms

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnColorways:
    """The substitutions of one shop for one program; `own` holds its colorways by address."""

    swaps: tuple[Swap, ...]
    own: Mapping[str, Colorway]

    def at(self, colorway: Colorway, number: int) -> Colorway:
        """Give what the shop's people have in place of a colorway in one installment; mostly itself."""
        return self.own.get(own_slug(colorway, self.swaps, number), colorway)


def own_colorways(terms: Terms) -> OwnColorways:
    """Read a shop's substitutions: one query, two where there are some."""
    swaps = tuple(Swap.objects.filter(terms=terms).select_related("letter", "fabric", "colorway"))
    if not swaps:
        return OwnColorways(swaps=(), own={})
    bases = {swap.colorway_id for swap in swaps}
    found = Colorway.everything.filter(stands_for__in=bases).prefetch_related(
        "fabrics__letter", "fabrics__fabric"
    )
    return OwnColorways(swaps=swaps, own={each.slug: each for each in found})


def own_slug(colorway: Colorway, swaps: Iterable[Swap], number: int) -> str:
    """Give the address of a shop's own colorway in one installment; empty where nothing is substituted."""
    mine = sorted(
        (swap.terms_id, swap.letter_id, swap.fabric_id)
        for swap in swaps
        if swap.colorway_id == colorway.pk and swap.from_installment <= number
    )
    return f"{colorway.slug[:40]}-{hash_of(mine)[:12]}" if mine else ""


def keep_own_colorways(terms: Terms, colorway: Colorway) -> None:
    """Make the own colorways that the shop's substitutions ask for, each once.

    None is ever deleted: sheets that were set in it stay what they are.
    """
    swaps = list(Swap.objects.filter(terms=terms, colorway=colorway))
    for number in sorted({swap.from_installment for swap in swaps}):
        slug = own_slug(colorway, swaps, number)
        if Colorway.everything.filter(quilt=colorway.quilt_id, slug=slug).exists():
            continue
        made = Colorway.everything.create(
            quilt_id=colorway.quilt_id,
            slug=slug,
            name=colorway.name,
            position=colorway.position,
            stands_for=colorway,
        )
        taken = {swap.letter_id: swap.fabric_id for swap in swaps if swap.from_installment <= number}
        ColorwayFabric.objects.bulk_create(
            ColorwayFabric(
                colorway=made, letter_id=row.letter_id, fabric_id=taken.get(row.letter_id, row.fabric_id)
            )
            for row in colorway.fabrics.all()
        )
