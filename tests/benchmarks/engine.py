"""Print how long the engine takes: traditional blocks, a star of 80 patches, a quilt top, proofs of drawings.

Order, recipe and virtual sewing are timed together, in time of one processor.
Run: make bench
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial
from statistics import median
from time import process_time
from typing import Any

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.errors import DrawingError
from patterns.engine.layout import PlacedDrawing
from patterns.engine.methods import Style
from patterns.engine.quilts import Sashing
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_straight import straight_set
from patterns.engine.svg_reading import block_from_svg
from tests.engine.drawings import TRADITIONAL, box, drawing, traditional
from tests.engine.figure_drawings import lone_star

MILLISECONDS = 1000
SIDES = ((25, 25), (25, 40), (30, 50))  # 625, 1,000 and 1,500 squares
BOMB = '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;">]><svg><title>&b;</title></svg>'


def say(line: str) -> None:
    """Print a line at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def timed(work: Callable[[], object]) -> float:
    """Give the milliseconds that a piece of work takes; the collector waits, as in `timeit`."""
    gc.collect()
    gc.disable()
    start = process_time()
    work()
    took = (process_time() - start) * MILLISECONDS
    gc.enable()
    return took


def sewn(block: Block) -> None:
    """Find the order, write the recipe, sew it."""
    recipe = write_recipe(sewing_order(block), name=block.name, style=Style())
    if not prove(recipe.as_data(), block_as_data(block)).goes_together:
        raise AssertionError(f"{block.name} does not go together")


def top_of_144() -> None:
    """Set twelve rows of twelve blocks with sashing and cornerstones, write and sew the whole centre."""
    star, geese = (PlacedDrawing(block=traditional(slug)) for slug in ("ohio-star", "sawtooth-star"))
    rows = [[(star, geese)[(row + column) % 2] for column in range(12)] for row in range(12)]
    sashing = Sashing(width=Fraction(2), fabric="S", cornerstone="K", outside=True)
    top = straight_set(rows, sashing=sashing)
    size = (top.width, top.height)
    recipe = write_recipe(top.centre, name="centre", style=Style(), finished=size)
    if not prove(recipe.as_data(), block_as_data(top.drawing)).goes_together:
        raise AssertionError("the top does not go together")


def squares(columns: int, rows: int) -> dict[str, Any]:
    """Draw squares of two letters."""
    return drawing(
        (columns, rows), *(box("AB"[(x + y) % 2], x, y) for y in range(rows) for x in range(columns))
    )


def broken() -> Iterator[tuple[str, Callable[[], object]]]:
    """Give broken drawings, most of them of 1,500 patches."""
    whole = squares(*SIDES[-1])
    patches = whole["patches"]

    def read(*drawn: Any) -> Callable[[], object]:
        return lambda: block_from_data(whole | {"patches": [*patches[:-1], *drawn]})

    yield "gap", read()
    yield "overlap", read(box("C", 4, 4))
    yield "patch outside", read(box("C", 29, 49, width=2))
    yield "zero area", read({"fabric": "A", "points": [[29, 49], [30, 49], [29, 49]]})
    yield "crossing edges", read({"fabric": "A", "points": [[29, 49], [30, 50], [30, 49], [29, 50]]})
    yield "letter missing", read({"points": [[29, 49], [30, 49], [30, 50], [29, 50]]})
    yield "10,000 patches", lambda: block_from_data(whole | {"patches": patches[:1] * 10_000})
    yield "entity bomb", lambda: block_from_svg(BOMB)
    yield "10,000 shapes", lambda: block_from_svg(f"<svg>{'<rect/>' * 10_000}</svg>")


def refused(read: Callable[[], object]) -> str:
    """Read a broken drawing and give the name of its fault."""
    try:
        read()
    except DrawingError as error:
        return error.kind
    raise AssertionError("a broken drawing was taken")


def main() -> int:
    """Print all figures."""
    times = {slug: timed(partial(sewn, traditional(slug))) for slug in TRADITIONAL}
    worst = max(times, key=lambda slug: times[slug])
    say(f"traditional blocks, {len(times)}: median {median(times.values()):.0f} ms (under 50)")
    say(f"  the worst, {worst}: {times[worst]:.0f} ms")
    star = lone_star()
    say(f"star of {len(star.patches)} patches: {timed(partial(sewn, star)):.0f} ms (under 2000)")
    say(f"quilt top of 144 blocks with sashing: {timed(top_of_144):.0f} ms (under 2000)")
    first = 0.0
    for columns, rows in SIDES:
        count = columns * rows
        took = min(timed(partial(block_from_data, squares(columns, rows))) for _ in range(3)) / count
        first = first or took
        say(f"proof of {count} patches: {took * count:.0f} ms, {took / first:.2f} times as long a patch")
    for name, read in broken():
        took, kind = timed(partial(refused, read)), refused(read)
        say(f"broken, {name}: {took:.0f} ms (under 200), {kind}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
