"""What one program takes, from the drawing to the pieces of every installment; no colorway in it yet.

All values are frozen and come from `bom.domain.chain.work_of`.  Lengths are inches; cut sizes hold
their seams, finished sizes do not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bom.enums import PartKind

if TYPE_CHECKING:
    from fractions import Fraction

    from patterns.engine.binding_bias import BiasBinding
    from patterns.engine.binding_corners import BindingCorner
    from patterns.engine.blocks import Block
    from patterns.engine.finishing import Backing, Binding
    from patterns.engine.hanging import Sleeve
    from patterns.engine.methods import Style
    from patterns.engine.quilts import QuiltTop
    from patterns.engine.rebuild import Proof
    from patterns.engine.steps import Phrase, Piece, Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWork:
    """One part of an installment: a block, or what is made of the whole top.

    `drawing` is the finished part in quilt letters (none for backing and binding, which have
    `finishing` instead); `proof` is what virtual sewing found.  `fault` says why there is no recipe,
    as a sentence for the designer; such a part has no pieces, and the proof stops.  Pieces carry the
    names of the installment's own list, in the recipe too: A1 means one thing all month.
    """

    kind: PartKind
    name: str  # of the block; empty for parts of the whole top
    placed_block_id: int | None
    place: tuple[int, int] | None  # row and column of the block, from 0
    own_size: Fraction | None = None  # finished side of the block itself, without its frame
    drawing: Block | None = None
    recipe: Recipe | None = None  # without pictures: see bom.domain.making.illustrated
    style: Style | None = None  # of the recipe
    proof: Proof | None = None
    finishing: Backing | Binding | BiasBinding | None = None
    sleeve: Sleeve | None = None  # of a binding: it is sewn in with it
    corners: tuple[BindingCorner, ...] = ()  # of a binding, all round the top
    pieces: tuple[Piece, ...] = ()
    fault: Phrase | None = None

    @property
    def title(self) -> str:
        """Give the block's name, or what part of the top it is, in the language in use."""
        return self.name or str(self.kind.label)


@dataclass(frozen=True, slots=True, kw_only=True)
class StripsAcross:
    """Strips cut across the whole usable width and joined end to end, diagonally: binding, long borders.

    `length` is what the joined strip must give, `pieces` what is cut from it: a binding's strips are
    pieces themselves.
    """

    label: str
    fabric: str
    width: Fraction  # of the strip as cut
    across: Fraction  # usable width, of the narrowest cloth that stands for the letter
    count: int
    length: Fraction
    pieces: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptPieces:
    """Pieces of one letter that are cut from an earlier packet and kept for a later installment.

    They go by the name of that installment's list with its number: its A1 is "A1 (5)".
    """

    number: int  # of the installment that sews them
    letter: str
    pieces: tuple[Piece, ...]
    strips: tuple[StripsAcross, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class InstallmentWork:
    """One installment: its parts, and all its pieces by letter, largest first, numbered A1, A2.

    `pieces` and `strips` are what it sews.  `carried` gives the letters that it takes from an earlier
    packet, and whose; `kept` is what its own packet holds for later installments.
    """

    number: int
    title: str
    parts: tuple[PartWork, ...]
    pieces: Mapping[str, tuple[Piece, ...]]
    strips: tuple[StripsAcross, ...] = ()
    carried: Mapping[str, int] = field(default_factory=dict)
    kept: tuple[KeptPieces, ...] = ()

    @property
    def letters(self) -> tuple[str, ...]:
        """List the fabric letters that this installment sews, in order."""
        return tuple(self.pieces)

    @property
    def packed(self) -> Mapping[str, tuple[Piece, ...]]:
        """Give the pieces that its packet holds, by letter: its own less what is carried, and what is kept.

        A backing is never carried: it is lengths of fabric, not pieces.
        """
        found: dict[str, tuple[Piece, ...]] = {}
        for letter, pieces in self.pieces.items():
            own = tuple(each for each in pieces if letter not in self.carried or each.id in self.panels)
            found |= {letter: own} if own else {}
        for each in self.kept:
            found[each.letter] = (*found.get(each.letter, ()), *each.pieces)
        return dict(sorted(found.items(), key=lambda item: (len(item[0]), item[0])))

    @property
    def packed_strips(self) -> tuple[StripsAcross, ...]:
        """Give the strips across the fabric that its packet holds."""
        own = (each for each in self.strips if each.fabric not in self.carried)
        return (*own, *(strips for each in self.kept for strips in each.strips))

    @property
    def is_finishing(self) -> bool:
        """Whether it holds no block, only sashing, borders, binding or backing."""
        return bool(self.parts) and all(part.kind != PartKind.BLOCK for part in self.parts)

    @property
    def panels(self) -> frozenset[str]:
        """Name the pieces that are lengths of backing, never cut into strips."""
        backings = (part for part in self.parts if part.kind == PartKind.BACKING)
        return frozenset(piece.id for part in backings for piece in part.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramWork:
    """The whole quilt, installment by installment.

    `content_hash` covers every number that was read (drawings, sizes, letters, methods, settings,
    what lies in which installment) and no words: a new title keeps it.
    """

    top: QuiltTop
    installments: tuple[InstallmentWork, ...]
    style: Style
    content_hash: str

    def installment(self, number: int) -> InstallmentWork:
        """Give one installment by its number; KeyError when there is none."""
        for work in self.installments:
            if work.number == number:
                return work
        raise KeyError(number)
