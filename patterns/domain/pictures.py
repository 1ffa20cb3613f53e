"""Pictures as SVG text, for pages and for sheets: the engine's drawings with our words in them.

Every picture is named for those who do not see it and is made for its width in CSS pixels.
"""

from __future__ import annotations

import base64
from collections import Counter
from typing import TYPE_CHECKING

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext, ngettext, pgettext

from patterns.domain.wording import length_text, line_text, say, size_text
from patterns.engine.drawing_blocks import draw_block, draw_plate, draw_unit
from patterns.engine.drawing_boards import draw_board
from patterns.engine.drawing_counts import Bar, BoltView, draw_bars, draw_bolt, draw_swatch, draw_tally
from patterns.engine.drawing_lines import draw_legend_mark
from patterns.engine.drawing_quilts import PartState, QuiltDrawing, draw_quilt
from patterns.engine.drawing_steps import draw_step_picture
from patterns.engine.drawing_strips import PlanLike, PlanWords, StripLike, draw_strip_plan
from patterns.engine.drawing_true_size import Tile, draw_true_size
from patterns.engine.measure import Units
from patterns.engine.steps import MarkKind, Picture, Size
from patterns.engine.svg import PAGE_COLOURS, SvgCanvas

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence
    from fractions import Fraction

    from patterns.engine.drawing import Canvas
    from patterns.engine.hatches import Cloth, Cloths
    from patterns.engine.parts import Patch, Shape, Unit
    from patterns.engine.subdivision import Subdivision
    from patterns.engine.true_size import TrueShape

CLOTH_CLASS = "cloth"  # a picture of cloth: the style sheet keeps it on a white plate in the dark


def block_svg(
    patches: Sequence[Patch], size: Size, *, cloths: Cloths, width_px: int, name: str, letters: bool = True
) -> SafeString:
    """Draw a block; `name` is its name, the letters are added to what is read aloud."""
    spoken = _with_letters(gettext("{name}, block").format(name=name), patches)
    return _svg(
        spoken,
        lambda canvas: draw_block(canvas, patches, size, cloths=cloths, width_px=width_px, letters=letters),
    )


def plate_svg(
    patches: Sequence[Patch], size: Size, *, cloths: Cloths, width_px: int, name: str
) -> SafeString:
    """Draw a block small and flat, for a page of many."""
    spoken = gettext("{name}, block").format(name=name)
    return _svg(spoken, lambda canvas: draw_plate(canvas, patches, size, cloths=cloths, width_px=width_px))


def board_svg(
    divided: Subdivision,
    *,
    cloths: Cloths,
    width_px: int,
    name: str,
    numbered: bool = False,
    shapes: Sequence[Shape] = (),
) -> SafeString:
    """Draw a drawing board; the letters are read aloud, or with numbers only the name.

    Appliqué `shapes` lie on its patches.
    """
    spoken = name if numbered else _with_letters(name, (*divided.patches, *shapes))
    return _svg(
        spoken,
        lambda canvas: draw_board(
            canvas, divided, cloths=cloths, width_px=width_px, numbered=numbered, shapes=shapes
        ),
    )


def unit_svg(unit: Unit, *, cloths: Cloths, width_px: int, letters: bool = True) -> SafeString:
    """Draw a unit."""
    spoken = _with_letters(gettext("{name}, unit").format(name=unit.name or unit.kind), unit.patches)
    return _svg(
        spoken, lambda canvas: draw_unit(canvas, unit, cloths=cloths, width_px=width_px, letters=letters)
    )


def quilt_svg(
    quilt: QuiltDrawing,
    *,
    cloths: Cloths,
    width_px: int,
    name: str,
    states: Mapping[str, PartState] | None = None,
    measures: tuple[str, str] | None = None,
) -> SafeString:
    """Draw the quilt: sewn parts as cloth, released ones in lines, others as numbers."""
    return _svg(
        name,
        lambda canvas: draw_quilt(
            canvas, quilt, cloths=cloths, states=states or {}, width_px=width_px, measures=measures
        ),
    )


def step_svg(
    picture: Picture,
    *,
    cloths: Cloths,
    width_px: int,
    name: str,
    units: Units = Units.INCHES,
    tallest_px: int = 0,
) -> SafeString:
    """Draw a picture of a step; `name` says which step, the caption and the size are read aloud too."""
    caption = [say(picture.caption, units)] if picture.caption else []
    measured = [size_text(picture.size, units)] if picture.size else []
    return _svg(
        ". ".join([name, *caption, *measured]),
        lambda canvas: draw_step_picture(
            canvas,
            picture,
            cloths=cloths,
            width_px=width_px,
            tallest_px=tallest_px,
            words=lambda length: line_text(length, units),
        ),
    )


def true_size_svg(shape: TrueShape, tile: Tile, *, words: Sequence[str], name: str) -> SafeString:
    """Draw a template or a foundation, or one part of it, at its own size."""
    return _svg(name, lambda canvas: draw_true_size(canvas, shape, tile, words=words))


def strip_plan_svg(
    plan: PlanLike,
    *,
    cloth: Cloth,
    width_px: int,
    units: Units = Units.INCHES,
    given_length: Fraction | None = None,
) -> SafeString:
    """Draw a strip plan; what each strip holds is read aloud."""
    spoken = [gettext("Strip plan for {letter}, {name}").format(letter=cloth.letter, name=cloth.name)]
    spoken += [_strip_text(strip, units) for strip in plan.strips]
    return _svg(
        "; ".join(spoken),
        lambda canvas: draw_strip_plan(
            canvas, plan, cloth=cloth, width_px=width_px, given_length=given_length, words=_plan_words(units)
        ),
    )


def swatch_svg(cloth: Cloth, *, width_px: int = 34, height_px: int = 26) -> SafeString:
    """Draw a swatch with its letter."""
    return _svg(
        f"{cloth.letter}, {cloth.name}" if cloth.name else cloth.letter,
        lambda canvas: draw_swatch(canvas, cloth, width_px=width_px, height_px=height_px),
    )


def bolt_svg(bolt: BoltView, *, cloth: Cloth, width_px: int) -> SafeString:
    """Draw a bolt and its cuts."""
    spoken = gettext("Bolt of {name}, {total} cuts, {done} done").format(
        name=cloth.name or cloth.letter, total=len(bolt.cuts), done=bolt.done
    )
    return _svg(spoken, lambda canvas: draw_bolt(canvas, bolt, cloth=cloth, width_px=width_px))


def tally_svg(*, done: int, total: int, width_px: int = 340) -> SafeString:
    """Draw tally marks, in the colours of the page."""
    spoken = gettext("{done} of {total} cut").format(done=done, total=total)
    return _svg(spoken, lambda canvas: draw_tally(canvas, done=done, total=total, width_px=width_px), kind="")


def bars_svg(
    bars: Sequence[Bar], *, width_px: int, name: str, mean: Fraction | None = None, unit: str = " h"
) -> SafeString:
    """Draw bars, in the colours of the page; `name` and every bar's words are read aloud.

    `unit` stands after the numbers of the scale.
    """
    spoken = "; ".join([name, *(f"{bar.label}: {bar.words}" for bar in bars)])
    return _svg(
        spoken,
        lambda canvas: draw_bars(
            canvas, bars, width_px=width_px, mean=mean, scale_words=lambda level: f"{level}{unit}"
        ),
        kind="",
    )


def legend_svg(kind: MarkKind) -> SafeString:
    """Draw one of the marks of sewing, for the legend."""
    return _svg(mark_words(kind), lambda canvas: draw_legend_mark(canvas, kind))


def mark_words(kind: MarkKind) -> str:
    """Say what a mark means."""
    return {
        MarkKind.PENCIL: gettext("pencil line, on the back"),
        MarkKind.SEAM: pgettext("mark", "seam"),
        MarkKind.CUT: pgettext("mark", "cut"),
        MarkKind.PRESS: gettext("press this way"),
        MarkKind.MEASURE: gettext("measure here"),
        MarkKind.DOT: gettext("dot on the back: sew only as far"),
        MarkKind.STOP: gettext("stop; the rest stays open"),
    }[kind]


def data_uri(svg: str) -> str:
    """Give a picture as an address for <img>."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"


def _svg(name: str, draw: Callable[[Canvas], None], *, kind: str = CLOTH_CLASS) -> SafeString:
    canvas = SvgCanvas() if kind else SvgCanvas(colours=PAGE_COLOURS)
    draw(canvas)
    return mark_safe(canvas.svg(name, kind=kind))  # noqa: S308 -- the canvas escapes every word


def _with_letters(name: str, patches: Sequence[Patch]) -> str:
    letters = ", ".join(sorted({patch.fabric for patch in patches}, key=lambda letter: (len(letter), letter)))
    return gettext("{name}, letters {letters}").format(name=name, letters=letters)


def _plan_words(units: Units) -> PlanWords:
    return PlanWords(
        width=lambda width: gettext("usable width {width}").format(width=length_text(width, units)),
        height=lambda height: length_text(height, units).rsplit(" ", 1)[0],
        again=lambda times: gettext("{times} strips like this").format(times=times),
    )


def _strip_text(strip: StripLike, units: Units) -> str:
    """Say what one strip holds: "2 strips 4 in: 8 A1"."""
    counts = Counter(cut.label for cut in strip.cuts)
    words = ngettext("{times} strip {height}: {pieces}", "{times} strips {height}: {pieces}", strip.repeat)
    pieces = ", ".join(f"{count} {label}" for label, count in counts.items())
    return words.format(times=strip.repeat, height=length_text(strip.height, units), pieces=pieces)
