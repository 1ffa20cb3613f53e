"""A recipe and its proof as the plain data that the `block` command prints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from patterns.engine.measure import write_inches
from patterns.engine.rebuild import Proof
from patterns.engine.steps import Phrase, Piece, Recipe, Size, Step, UnitRow
from patterns.engine.surds import Number, write_number
from patterns.engine.templates import cut_outline, edges_of, way

BIAS = {
    "cut once diagonally": ["long"],
    "cut twice diagonally": ["short", "short"],
    "cut to a point": ["left", "right"],
    "cut into slanting pieces": ["slanting", "slanting"],
}


def recipe_as_answer(recipe: Recipe, proof: Proof, say: Callable[[Phrase], str]) -> dict[str, Any]:
    """Give name, size, order, units, pieces and steps, lengths in inches as a quilter writes them."""
    return {
        "name": recipe.name,
        "size": _sizes(recipe.finished),
        "order": recipe.order,
        "goes_together": proof.goes_together,
        "patches": proof.patches,
        "patches_right": proof.patches_right,
        "warnings": [say(warning) for warning in recipe.warnings],
        "findings": [_finding(finding) for finding in proof.findings],
        "units": _units(recipe),
        "pieces": [_piece(piece, recipe.seam) for piece in recipe.pieces],
        "steps": [_step(step, say) for step in recipe.steps],
        "spares": [
            {"count": s.count, "fabrics": list(s.fabrics), "size": _sizes(s.size)} for s in recipe.spares
        ],
    }


def _sizes(size: Size) -> list[str]:
    return [_inches(number) for number in size]


def _inches(number: Number) -> str:
    return write_inches(number) if isinstance(number, Fraction) else write_number(number)


def _units(recipe: Recipe) -> list[dict[str, Any]]:
    """Merge rows that differ only in their part."""
    counts: Counter[tuple[Any, ...]] = Counter()
    for row in recipe.units:
        counts[_unit_key(row)] += row.count
    names = ("kind", "fabrics", "finished", "trim_to", "method", "hand")
    return [
        {
            "count": count,
            **{name: list(v) if isinstance(v, tuple) else v for name, v in zip(names, key, strict=True)},
        }
        for key, count in counts.items()
    ]


def _unit_key(row: UnitRow) -> tuple[Any, ...]:
    sizes = (tuple(_sizes(row.finished)), row.trim_to and tuple(_sizes(row.trim_to)))
    return (row.kind.value, row.fabrics, *sizes, row.method, row.hand.value)


def _piece(piece: Piece, seam: Fraction) -> dict[str, Any]:
    row = {
        "id": piece.id,
        "fabric": piece.fabric,
        "shape": piece.shape,
        "width": write_inches(piece.width),
        "length": write_inches(piece.length),
        "count": piece.count,
        "then": piece.then,
        "bias": BIAS.get(piece.then, []),
    }
    return {**row, **_template(piece, seam)} if piece.outline else row


def _template(piece: Piece, seam: Fraction) -> dict[str, Any]:
    """Give both shapes of a template in its rectangle, and its edges off the grain, counted from 1."""
    edges = [way(*edge) for edge in edges_of(piece.outline)]
    return {
        "outline": [_sizes(corner) for corner in piece.outline],
        "polygon": [_sizes(corner) for corner in cut_outline(piece.outline, seam)],
        "bias": [f"edge {number}" for number, along in enumerate(edges, 1) if 0 not in along],
    }


def _step(step: Step, say: Callable[[Phrase], str]) -> dict[str, Any]:
    words = " ".join(say(words) for words in step.words)
    return {
        "number": step.number,
        "title": say(step.title),
        "text": words,
        "check": _sizes(step.check) if step.check else None,
    }


def _finding(finding: Any) -> dict[str, Any]:
    return {name: getattr(finding, name) for name in ("step", "piece", "expected", "found", "rule")}
