"""What one program takes, from the drawing to the pieces of every installment; no colorway in it yet.

All values are frozen and come from `bom.domain.chain.work_of`.  Lengths are inches; cut sizes hold
their seams, finished sizes do not.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bom.enums import PartKind

if TYPE_CHECKING:
    from patterns.engine.blocks import Block
    from patterns.engine.finishing import Backing, Binding
    from patterns.engine.quilts import QuiltTop
    from patterns.engine.rebuild import Proof
    from patterns.engine.recipes import Style
    from patterns.engine.steps import Piece, Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class PartWork:
    """One part of an installment: a block, or what is made of the whole top.

    `drawing` is the finished part in quilt letters (none for backing and binding, which have
    `finishing` instead); `proof` is what virtual sewing found.  Pieces keep the ids of the recipe.
    """

    kind: PartKind
    title: str
    placed_block_id: int | None
    place: tuple[int, int] | None  # row and column of the block
    drawing: Block | None
    recipe: Recipe | None
    proof: Proof | None
    finishing: Backing | Binding | None
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class InstallmentWork:
    """One installment: its parts, and all its pieces by letter with ids of the whole installment."""

    number: int
    title: str
    parts: tuple[PartWork, ...]
    pieces: Mapping[str, tuple[Piece, ...]]

    @property
    def letters(self) -> tuple[str, ...]:
        """List the fabric letters that this installment cuts, in order."""
        return tuple(self.pieces)


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
