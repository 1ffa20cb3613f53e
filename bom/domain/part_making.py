"""Every kind of part, from the records to its drawing, recipe, proof and pieces."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.drawings import placed_drawing
from bom.domain.making import Made, make
from bom.domain.work import PartWork
from bom.enums import PartKind
from patterns.engine.assembly import sewing_order
from patterns.engine.binding_bias import bias_binding
from patterns.engine.binding_corners import binding_corners, finished_binding, outline_length
from patterns.engine.blocks import Block
from patterns.engine.finishing import backing, binding_round
from patterns.engine.hanging import hanging_sleeve
from patterns.engine.layout import laid_out, laid_shapes
from patterns.engine.measure import CENTIMETRE
from patterns.engine.steps import Phrase, Piece
from patterns.engine.surds import ceiling
from patterns.enums import BindingCut

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bom.models import InstallmentPart, Program
    from patterns.engine.binding_bias import BiasBinding
    from patterns.engine.binding_corners import BindingCorner
    from patterns.engine.finishing import Backing, Binding
    from patterns.engine.methods import Style
    from patterns.engine.parts import Assembly
    from patterns.engine.quilts import QuiltTop
    from patterns.engine.surds import Number
    from patterns.models import PlacedBlock, Quilt

MISSING = Phrase(
    "The quilt has no such part: give it a width and a fabric letter, or take it out of this month."
)
JOINED = Fraction(
    10_000
)  # inches: what is longer than the cloth is wide is joined from strips, see cut_lists

BINDING_STRIPS, BIAS, SLEEVE, PANELS = "binding strips", "bias binding", "hanging sleeve", "backing panels"
INCH = Fraction(1)  # what a bias square is rounded up to


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What every part is made with: the program, its top, its style, and the width of each letter's cloth."""

    program: Program
    quilt: Quilt
    top: QuiltTop
    style: Style
    widths: Mapping[str, Fraction]  # usable inches of the narrowest cloth that stands for the letter

    def width(self, letter: str) -> Fraction:
        """Give the usable width to reckon a letter with."""
        return self.widths.get(letter, self.style.usable_width)


def make_part(part: InstallmentPart, bench: Bench, placed: Mapping[int, PlacedBlock]) -> PartWork:
    """Work out one part.  ProgramError where the records of a block do not fit the quilt."""
    kind = PartKind(part.kind)
    if part.placed_block_id is not None:
        return _block(placed[part.placed_block_id], bench)
    return _OF_THE_TOP[kind](PartWork(kind=kind, name="", placed_block_id=None, place=None), bench)


def finishing_kinds(bench: Bench) -> list[PartKind]:
    """List the parts that this quilt has besides its blocks, in the order of sewing."""
    quilt = bench.quilt
    there = {
        PartKind.SASHING: True,
        PartKind.BORDER: bench.top.border is not None,
        PartKind.BACKING: bool(quilt.backing_letter),
        PartKind.BINDING: bool(quilt.binding_letter and quilt.binding_strip),
    }
    return [kind for kind, is_there in there.items() if is_there]


def _block(placed: PlacedBlock, bench: Bench) -> PartWork:
    drawing = placed_drawing(placed)
    style = replace(bench.style, overrides=placed.methods)
    part = PartWork(
        kind=PartKind.BLOCK,
        name=placed.block.name,
        placed_block_id=placed.pk,
        place=(placed.row, placed.column),
        own_size=placed.size,
        drawing=drawing,
    )
    return _with_recipe(part, make(drawing, order=lambda: sewing_order(drawing), style=style), style)


def _sashing(part: PartWork, bench: Bench) -> PartWork:
    """Join the centre from finished blocks."""
    top, (width, height) = bench.top, bench.top.centre_size
    drawing = Block(
        name="quilt centre",
        width=width,
        height=height,
        patches=laid_out(top.centre),
        applique=laid_shapes(top.centre),
    )
    return _joined(replace(part, drawing=drawing), top.centre, bench)


def _border(part: PartWork, bench: Bench) -> PartWork:
    """Sew the border to the finished centre."""
    if bench.top.border is None:
        return replace(part, fault=MISSING)
    return _joined(replace(part, drawing=bench.top.drawing), bench.top.border, bench)


def _joined(part: PartWork, assembly: Assembly, bench: Bench) -> PartWork:
    if part.drawing is None:  # pragma: no cover -- both callers give one
        return part
    style = replace(bench.style, usable_width=JOINED)
    return _with_recipe(part, make(part.drawing, order=lambda: assembly, style=style), style)


def _binding(part: PartWork, bench: Bench) -> PartWork:
    letter, strip = bench.quilt.binding_letter, bench.quilt.binding_strip
    if not letter or not strip:
        return replace(part, fault=MISSING)
    across = bench.width(letter)
    length = outline_length(bench.top.edge) + bench.program.binding_tail
    part = replace(_sleeved(part, bench), corners=_corners(bench))
    if bench.quilt.binding_cut == BindingCut.BIAS:
        return _on_the_bias(part, length, bench)
    plan = binding_round(length, strip=strip, usable_width=across)
    piece = Piece(id="", fabric=letter, width=strip, length=across, count=plan.strips, purpose=BINDING_STRIPS)
    return _finished(part, plan, piece)


def _corners(bench: Bench) -> tuple[BindingCorner, ...]:
    seam = bench.program.seam
    finished = finished_binding(bench.quilt.binding_strip, seam=seam)
    return binding_corners(bench.top.edge, seam=seam, finished=finished)


def _on_the_bias(part: PartWork, length: Number, bench: Bench) -> PartWork:
    """Cut one square whose continuous bias strip goes round."""
    letter, program = bench.quilt.binding_letter, bench.program
    plan = bias_binding(
        length,
        strip=bench.quilt.binding_strip,
        usable_width=bench.width(letter),
        seam=program.seam,
        step=CENTIMETRE if program.centimetres else INCH,
    )
    side = plan.square
    return _finished(part, plan, Piece(id="", fabric=letter, width=side, length=side, count=1, purpose=BIAS))


def _sleeved(part: PartWork, bench: Bench) -> PartWork:
    """Add the hanging sleeve, which is sewn in with the binding, where the quilt has one."""
    letter = bench.quilt.sleeve_letter
    if not letter:
        return part
    across = bench.width(letter)
    plan = hanging_sleeve(bench.top.width, usable_width=across, seam=bench.program.seam)
    length = across if plan.strips > 1 else ceiling(plan.cut_length, bench.style.step)
    width = ceiling(plan.cut_width, bench.style.step)
    piece = Piece(id="", fabric=letter, width=width, length=length, count=plan.strips, purpose=SLEEVE)
    return replace(part, sleeve=plan, pieces=(piece,))


def _backing(part: PartWork, bench: Bench) -> PartWork:
    quilt, letter = bench.quilt, bench.quilt.backing_letter
    if not letter:
        return replace(part, fault=MISSING)
    across = bench.width(letter)
    plan = backing(
        bench.top.width,
        bench.top.height,
        overage=quilt.backing_overage,
        seam=quilt.backing_seam,
        usable_width=across,
    )
    length, panels = ceiling(plan.best.panel_length, bench.style.step), plan.best.panels
    piece = Piece(id="", fabric=letter, width=across, length=length, count=panels, purpose=PANELS)
    return _finished(part, plan, piece)


def _finished(part: PartWork, plan: Backing | Binding | BiasBinding, piece: Piece) -> PartWork:
    return replace(part, finishing=plan, pieces=(piece, *part.pieces))


def _with_recipe(part: PartWork, made: Made, style: Style) -> PartWork:
    pieces = made.recipe.pieces if made.recipe else ()
    return replace(part, recipe=made.recipe, style=style, proof=made.proof, fault=made.fault, pieces=pieces)


_OF_THE_TOP: dict[PartKind, Callable[[PartWork, Bench], PartWork]] = {
    PartKind.SASHING: _sashing,
    PartKind.BORDER: _border,
    PartKind.BINDING: _binding,
    PartKind.BACKING: _backing,
}
