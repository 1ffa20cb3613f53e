"""The sums that have to agree over the whole year, each from two sources."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.keeping import Kept, hash_of
from bom.domain.packets import year_of
from bom.domain.proof_types import Finding
from bom.enums import PartKind
from patterns.engine.cutting import reconcile
from patterns.engine.surds import Number, sign, write_number

if TYPE_CHECKING:
    from bom.domain.packets import Packet
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from patterns.engine.cutting import Reconciliation
    from patterns.engine.parts import Point
    from patterns.engine.quilts import LaidBlock
    from patterns.engine.steps import Recipe
    from patterns.models import Quilt

HALF = Fraction(1, 2)

_kept: Kept[Reconciliation] = Kept(most=512)


def reconciles(work: ProgramWork, quilt: Quilt, packed: Iterable[tuple[Packet, ...]]) -> bool:
    """Say whether everything over the whole year agrees: pieces, spares, hands, areas, parts, packets."""
    months = [fault for installment in work.installments for fault in month_faults(installment)]
    return not (months or list(year_faults(work, quilt)) or list(packet_faults(work, packed)))


def month_faults(work: InstallmentWork) -> Iterator[Finding]:
    """List where pieces cut less named spares are not pieces sewn, per fabric and per hand."""
    cut = Counter({piece.id: piece.count for pieces in work.pieces.values() for piece in pieces})
    parts = Counter[str]()
    for part in work.parts:
        parts.update({piece.id: piece.count for piece in part.pieces})
        yield from _recipe_faults(part)
    for name in sorted(cut.keys() | parts.keys()):
        if cut[name] != parts[name]:
            yield Finding(piece=name, expected=f"{parts[name]} cut", found=f"{cut[name]} cut")


def year_faults(work: ProgramWork, quilt: Quilt) -> Iterator[Finding]:
    """List parts of the quilt that no installment holds, or two, and patches that do not fill the quilt."""
    held = Counter(_key(part) for installment in work.installments for part in installment.parts)
    wanted = set(_wanted(work, quilt))
    for key in sorted({*held, *wanted}):
        if held[key] != (key in wanted):
            expected = "in one installment" if key in wanted else "no such part in the quilt"
            yield Finding(piece=key, expected=expected, found=f"in {held[key]}")
    sewn, whole = area_sewn(work), _area(work.top.edge)
    if sewn != whole:
        yield Finding(piece="area in square inches", expected=write_number(whole), found=write_number(sewn))


def packet_faults(work: ProgramWork, packed: Iterable[tuple[Packet, ...]]) -> Iterator[Finding]:
    """List fabrics whose packets do not add up to what the whole quilt cuts, by letter."""
    cut: Counter[str] = Counter()
    for installment in work.installments:
        for letter, pieces in installment.pieces.items():
            cut[letter] += sum(piece.count for piece in pieces)
    for packets in packed:
        colorway = str(packets[0].colorway) if packets else ""
        for line in year_of(packets):
            expected = sum(cut[letter] for letter in line.letters)
            if line.pieces != expected:
                yield Finding(
                    step=colorway,
                    piece=line.fabric.name,
                    expected=f"{expected} cut",
                    found=f"{line.pieces}",
                )


def area_sewn(work: ProgramWork) -> Number:
    """Add the finished areas of all patches up that the installments sew, in square inches, exactly."""
    kinds = [part.kind for installment in work.installments for part in installment.parts]
    blocks = [
        part for installment in work.installments for part in installment.parts if part.place is not None
    ]
    plain = [patch for laid in work.top.blocks if is_plain(laid) for patch in laid.patches]
    sewn = [patch for part in blocks if part.drawing for patch in part.drawing.patches]
    if PartKind.SASHING in kinds:
        sewn += [*work.top.joining, *plain]
    if PartKind.BORDER in kinds:
        sewn += work.top.border_strips
    area: Number = Fraction(0)
    for patch in sewn:
        area = area + _area(patch.points)
    return area


def is_plain(laid: LaidBlock) -> bool:
    """Whether a place holds a plain square, which is cut when the centre is joined."""
    return len(laid.cloth) == 1


def _recipe_faults(part: PartWork) -> Iterator[Finding]:
    if part.recipe is None:
        return
    sums = _sums(part.recipe)  # blocks that a top is brought are not among what it makes
    accounts = {**sums.fabrics, **{f"{name}, {hand}": row for (name, hand), row in sums.hands.items()}}
    for name, (made, spare, sewn) in accounts.items():
        if made - spare != sewn:
            yield Finding(
                step=part.title, piece=name, expected=f"{sewn} sewn", found=f"{made} made, {spare} spare"
            )
    whole = _area_drawn(part, sums)
    if sums.area_of_patches != whole:
        areas = write_number(whole), write_number(sums.area_of_patches)
        yield Finding(step=part.title, piece="area", expected=areas[0], found=areas[1])


def _area_drawn(part: PartWork, sums: Reconciliation) -> Number:
    """Give the area of a drawing: a block fills its rectangle, a top its own outline."""
    if part.drawing is None or part.place:
        return sums.area_of_block
    return sum((_area(patch.points) for patch in part.drawing.patches), Fraction(0))


def _sums(recipe: Recipe) -> Reconciliation:
    return _kept.get(hash_of([recipe.as_data(), recipe.units]), lambda: reconcile(recipe))


def _wanted(work: ProgramWork, quilt: Quilt) -> Iterator[str]:
    """Name what the quilt is made of."""
    for laid in work.top.blocks:
        if not is_plain(laid):
            yield _place_key(laid.place)
    yield PartKind.SASHING.value
    for kind, there in (
        (PartKind.BORDER, work.top.border is not None),
        (PartKind.BINDING, quilt.binding_letter),
        (PartKind.BACKING, quilt.backing_letter),
    ):
        if there:
            yield kind.value


def _key(part: PartWork) -> str:
    return _place_key(part.place) if part.place else part.kind.value


def _place_key(place: tuple[int, int]) -> str:
    return f"block in row {place[0] + 1}, column {place[1] + 1}"


def _area(points: Sequence[Point]) -> Number:
    """Add the cross products of the corners up, halved (the shoelace sum)."""
    twice: Number = Fraction(0)
    for (x, y), (u, v) in zip(points, (*points[1:], points[0]), strict=True):
        twice = twice + x * v - u * y
    return (twice if sign(twice) > 0 else -twice) * HALF
