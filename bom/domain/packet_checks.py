"""Checks of the packets of one installment, in every colorway."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.carrying import kept_name
from bom.domain.plan_checks import layout_faults
from bom.domain.proof_types import Check, Finding, Outcome, stopping
from bom.enums import PartKind
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.finishing import strips_joined
from patterns.engine.measure import Units, show_length, up_to_millimetre, write_inches
from patterns.engine.strips import plan_strips
from patterns.engine.yardage import packet_line

if TYPE_CHECKING:
    from bom.domain.packets import FabricLine, Packet
    from bom.domain.work import InstallmentWork, PartWork, StripsAcross
    from patterns.engine.strips import Demand
    from patterns.engine.yardage import Allowances

LEAST_LEFT = Fraction(1, 2)  # inches: less is eaten by one crooked cut
NARROWER = (Fraction(1, 2), Fraction(1))


def letters_are_packed(work: InstallmentWork, packets: Iterable[Packet]) -> Check:
    """See that every letter of the pictures, and every letter that is cut, has a line in each packet."""
    drawn = {letter for part in work.parts for letter in _drawn(part)}
    faults = [
        Finding(step=str(packet.colorway), piece=letter, expected="a line in the packet", found="none")
        for packet in packets
        for letter in sorted(
            {*drawn, *work.letters}
            - {each for line in packet.lines for each in line.letters}
            - work.carried.keys()
        )
    ]
    return stopping(faults).check("letters", "Every letter of the pictures has its line in the packet.")


def carried_is_kept(work: InstallmentWork, packed: Mapping[int, Iterable[Packet]]) -> Check:
    """See that each packet which shall keep a letter for this installment holds just its pieces."""
    faults = [
        Finding(
            step=str(packet.colorway), piece=name, expected=f"{count} in packet {number}", found=f"{held}"
        )
        for letter, number in work.carried.items()
        for packet in packed.get(number, ())
        for name, count in _kept_names(work, letter)
        if (held := _held(packet, name)) != count
    ]
    words = "What is carried lies in the packet of the earlier installment."
    return stopping(faults).check("carried fabric", words)


def packets_hold_every_piece(
    work: InstallmentWork, packets: Iterable[Packet], *, faults: Iterable[Finding] = ()
) -> Check:
    """Look at every strip plan anew: pieces fit, none overlap, none is missing, and the cut is long enough.

    `faults` are of packets that could not be packed at all.
    """
    faults = list(faults)
    count = sum(piece.count for pieces in work.packed.values() for piece in pieces)
    for packet in packets:
        faults += (_in(packet, fault) for fault in _missing(work, packet))
        for line in packet.lines:
            faults += (_in(packet, fault) for fault in _line_faults(line))
    return stopping(faults).check("packet", "The packets hold all {count} pieces.", {"count": count})


def enough_is_left(packets: Iterable[Packet], allowances: Allowances, *, units: Units) -> Check:
    """Look at cuts of fabric of which less than 1/2 in is left when all is cut."""
    found = Outcome()
    least = show_length(LEAST_LEFT, units)
    for packet, line in _lines(packets):
        left = line.line.suggested - allowances.needed(line.line.minimum)
        if line.is_length and left < LEAST_LEFT:
            expected, amount = f"{least} left over", f"{show_length(left, units)} left over"
            found.looks.append(_at(packet, line, expected=expected, found=amount))
    return found.check("left over", "At least {least} of every fabric is left over.", {"least": LEAST_LEFT})


def holds_on_narrow_fabric(packets: Iterable[Packet], *, units: Units) -> Check:
    """Plan again with 1/2 in and 1 in less usable width, and look at where another strip is needed."""
    found = Outcome()
    for packet, line in _lines(packets):
        for less in NARROWER if line.line.plan and line.is_length else ():
            width = line.usable_width - less
            longer = _planned_on(line, width)
            if longer is None or longer > line.line.minimum:
                has = _of_width(line.line.minimum, line.usable_width, units)
                found.looks.append(_at(packet, line, expected=has, found=_of_width(longer, width, units)))
                break
    return found.check(
        "narrow fabric", "The plans hold on fabric that is {less} narrower.", {"less": NARROWER[-1]}
    )


def holds_in_centimetres(packets: Iterable[Packet], allowances: Allowances) -> Check:
    """Plan again with every size rounded up to 1 mm, as a sheet in centimetres shows it.

    The packet is the same; where it would not hold those pieces, look at it.
    """
    found = Outcome()
    for packet, line in _lines(packets):
        if not line.is_length:
            found.looks.extend(_small_in_millimetres(packet, line, allowances))
            continue
        needs = _planned_in_millimetres(line) if line.line.plan else Fraction(0)
        if needs is None or allowances.needed(needs) > line.line.suggested:
            has = show_length(line.line.suggested, Units.CENTIMETRES)
            text = (
                "a piece does not fit"
                if needs is None
                else show_length(allowances.needed(needs), Units.CENTIMETRES)
            )
            found.looks.append(_at(packet, line, expected=f"at most {has}", found=text))
    return found.check("centimetres", "The packets hold the pieces as shown in centimetres, too.")


def _small_in_millimetres(packet: Packet, line: FabricLine, allowances: Allowances) -> Iterator[Finding]:
    """See whether a fat quarter or eighth holds the pieces as shown in centimetres."""
    form = line.line.form
    width = allowances.washed(line.fabric.usable_width)
    try:
        again = packet_line(_in_millimetres(line), usable_width=width, allowances=allowances, forms=(form,))
    except PieceWiderThanFabric:
        again = None
    if again is None or again.suggested > line.line.suggested:
        yield _at(packet, line, expected=form.value, found="a piece does not fit")


def _in_millimetres(line: FabricLine) -> Iterator[Demand]:
    joined = {strips.label for strips in line.strips}
    return (
        replace(
            demand,
            width=demand.width if demand.label in joined else up_to_millimetre(demand.width),
            length=up_to_millimetre(demand.length),
        )
        for demand in line.demands
    )


def _planned_in_millimetres(line: FabricLine) -> Fraction | None:
    try:
        return plan_strips(_in_millimetres(line), usable_width=line.usable_width).total_length
    except PieceWiderThanFabric:
        return None


def _of_width(length: Fraction | None, width: Fraction, units: Units) -> str:
    needs = "a piece does not fit" if length is None else show_length(length, units)
    return f"{needs} at {show_length(width, units)}"


def _missing(work: InstallmentWork, packet: Packet) -> Iterator[Finding]:
    """Compare the pieces of the packet's lines with the installment's own list."""
    packed = Counter({piece.id: piece.count for line in packet.lines for piece in line.pieces})
    listed = Counter({piece.id: piece.count for pieces in work.packed.values() for piece in pieces})
    for name in sorted({*packed, *listed}):
        if packed[name] != listed[name]:
            yield Finding(piece=name, expected=f"{listed[name]} cut", found=f"{packed[name]} cut")


def _line_faults(line: FabricLine) -> Iterator[Finding]:
    if line.line.plan is None:
        total = sum((piece.length * piece.count for piece in line.pieces), Fraction(0))
        if line.line.suggested < total:
            yield Finding(
                piece=line.letters[0], expected=write_inches(total), found=write_inches(line.line.suggested)
            )
        return
    plan = line.line.plan
    yield from layout_faults(plan, line.laid, width=plan.usable_width)
    yield from _demanded(line)
    if line.is_length and plan.total_length > line.line.suggested:
        needs, has = write_inches(plan.total_length), write_inches(line.line.suggested)
        yield Finding(piece=", ".join(line.letters), expected=f"{needs} in", found=f"{has} in")


def _demanded(line: FabricLine) -> Iterator[Finding]:
    """See that what was planned is what is cut: pieces by name, joined ones by the length of their strips."""
    asked = {demand.label: demand for demand in line.demands}
    joined = {name for strips in line.strips for name in strips.pieces}
    for piece in (piece for piece in line.pieces if piece.id not in joined):
        demand = asked.get(piece.id)
        planned = (demand.count, {demand.width, demand.length}) if demand else (0, set())
        if planned != (piece.count, {piece.width, piece.length}):
            yield Finding(piece=piece.id, expected=f"{piece.count} planned", found=f"{planned[0]} planned")
    for strips in line.strips:
        gives = _joined_length(strips, asked.get(strips.label))
        if gives < strips.length:
            yield Finding(piece=strips.label, expected=write_inches(strips.length), found=write_inches(gives))


def _joined_length(strips: StripsAcross, demand: Demand | None) -> Fraction:
    """Join strips diagonally: each join takes a strip's width of length."""
    if demand is None or demand.length != strips.width:
        return Fraction(0)
    return demand.count * demand.width - (demand.count - 1) * strips.width


def _planned_on(line: FabricLine, width: Fraction) -> Fraction | None:
    """Give the length of the plan on fabric of another usable width; None where a piece does not fit.

    What is longer than that width is then joined from strips, as it would be cut.
    """
    joined = {strips.label: strips.length for strips in line.strips}
    demands = (
        _narrowed(demand, joined.get(demand.label, demand.count * max(demand.width, demand.length)), width)
        for demand in line.demands
    )
    try:
        return plan_strips(demands, usable_width=width).total_length
    except PieceWiderThanFabric:
        return None


def _narrowed(demand: Demand, length: Fraction, width: Fraction) -> Demand:
    """Ask for strips across the narrower width where a piece or a strip is longer than that."""
    strip, long = sorted((demand.width, demand.length))
    if long <= width:
        return demand
    count = strips_joined(length, strip=strip, usable_width=width)
    return replace(demand, width=width, length=strip, count=count, may_turn=False)


def _kept_names(work: InstallmentWork, letter: str) -> Iterator[tuple[str, int]]:
    """Give the names that an installment's pieces have in an earlier packet, and how many there are."""
    for piece in work.pieces[letter]:
        if piece.id not in work.panels:
            yield kept_name(piece.id, work.number), piece.count


def _held(packet: Packet, name: str) -> int:
    return sum(piece.count for line in packet.lines for piece in line.pieces if piece.id == name)


def _drawn(part: PartWork) -> Iterable[str]:
    """List the letters that a part itself brings: finished blocks brought to it are of other months."""
    if part.kind == PartKind.BLOCK:
        return part.drawing.letters if part.drawing else ()
    return [letter for row in part.recipe.units for letter in row.fabrics] if part.recipe else ()


def _lines(packets: Iterable[Packet]) -> Iterator[tuple[Packet, FabricLine]]:
    for packet in packets:
        for line in packet.lines:
            yield packet, line


def _in(packet: Packet, fault: Finding) -> Finding:
    where = ", ".join(word for word in (str(packet.colorway), fault.step) if word)
    return replace(fault, step=where)


def _at(packet: Packet, line: FabricLine, *, expected: str, found: str) -> Finding:
    return Finding(step=str(packet.colorway), piece=", ".join(line.letters), expected=expected, found=found)
