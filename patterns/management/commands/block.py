"""Find out how the block of a drawing file is made, and whether it goes together."""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand
from django.utils.translation import gettext as _

from patterns.domain.drawing_words import advice
from patterns.domain.size_words import size_notes
from patterns.domain.wording import say
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.errors import DrawingError, LengthNotRead
from patterns.engine.measure import Units, inches, is_on_ruler, show_length, write_inches
from patterns.engine.methods import HouseStyle, NoMethod, Style
from patterns.engine.rebuild import prove
from patterns.engine.recipe_data import recipe_as_answer
from patterns.engine.recipes import write_recipe
from patterns.engine.sizes import nearest_sizes
from patterns.engine.surds import parse_number
from patterns.engine.svg_reading import svg_as_data

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

    from patterns.engine.sizes import NearestSizes

BAD_INPUT = 2
FOUND_FAULT = 1


class BadInput(Exception):
    """What cannot be read: a slug, the place, and what to do."""

    def __init__(self, error: str, *, where: object, remedy: str, needs: str = "") -> None:
        """Keep the facts."""
        super().__init__(error)
        self.data = {"error": error, "where": where, "remedy": remedy}
        if needs:
            self.data["needs"] = needs


class Command(BaseCommand):
    """Read a drawing, write its recipe, sew it virtually."""

    help = __doc__ or ""
    requires_system_checks = ()  # it reads a file and the engine, nothing that is set up

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the drawing and how it is to be sewn."""
        parser.add_argument("file", type=Path)
        parser.add_argument(
            "--size", required=True, help="finished inches of the wider side, 12, or both sides, 12x8"
        )
        parser.add_argument(
            "--style", default=HouseStyle.EXACT.value, choices=[style.value for style in HouseStyle]
        )
        parser.add_argument("--seam", default="1/4", help="seam allowance in inches")
        parser.add_argument("--json", action="store_true")

    def handle(self, **options: Any) -> None:
        """Answer in words or JSON; exit 1 when the block does not go together, 2 on bad input."""
        try:
            answer = _answer(options)
        except BadInput as error:
            self._refuse(error.data, options)
            sys.exit(BAD_INPUT)
        self.stdout.write(
            json.dumps(answer, ensure_ascii=False, indent=1) if options["json"] else _in_words(answer)
        )
        if not answer["goes_together"]:
            sys.exit(FOUND_FAULT)

    def _refuse(self, data: dict[str, Any], options: dict[str, Any]) -> None:
        if options["json"]:
            self.stdout.write(json.dumps(data, ensure_ascii=False))
        else:
            where = data["where"] if isinstance(data["where"], str) else ", ".join(map(str, data["where"]))
            self.stderr.write(f"{data['error']} ({where}): {data['remedy']}")


def _answer(options: dict[str, Any]) -> dict[str, Any]:
    style = Style(seam=_length(options["seam"], "--seam"), house=HouseStyle(options["style"]))
    try:
        drawing = block_from_data(_read(options["file"]))
        block = drawing.at_size(*_size(options["size"], drawing))
        recipe = write_recipe(sewing_order(block), name=block.name, style=style)
    except DrawingError as error:
        remedy = advice(error)
        place = error.where_as_data(error.where)
        raise BadInput(error.kind, where=place, remedy=remedy, needs=getattr(error, "needs", "")) from error
    except NoMethod as error:
        raise BadInput("no-method", where=error.unit, remedy=_("Choose another size or style.")) from error
    answer = recipe_as_answer(recipe, prove(recipe.as_data(), block_as_data(drawing)), say)
    answer["warnings"] += size_notes(drawing, block, step=style.step)
    return answer | {"nearest_sizes": _nearest(nearest_sizes(block, style.step))}


def _nearest(found: NearestSizes | None) -> dict[str, str | None] | None:
    """Write what is offered instead of a size off the cutting step; None where the size lies on it."""
    if found is None:
        return None
    sizes = {"below": found.below, "above": found.above}
    offered = {name: None if size is None else write_inches(size) for name, size in sizes.items()}
    return {"part": write_inches(found.part), **offered}


def _read(path: Path) -> Any:
    """Read a drawing file, or a picture: SVG by its name or by its first character."""
    try:
        text = path.read_text(encoding="utf-8-sig")
        if path.suffix.lower() == ".svg" or text.lstrip().startswith("<"):
            return svg_as_data(text, name=path.stem)
        return json.loads(text)
    except DrawingError:
        raise
    except OSError as error:
        raise BadInput(
            "no-file", where=str(path), remedy=_("Name a drawing file that can be read.")
        ) from error
    except (ValueError, RecursionError) as error:
        raise BadInput(
            "bad-file", where=str(path), remedy=_("Write the drawing file as JSON or SVG in UTF-8.")
        ) from error


def _length(text: str, where: str) -> Fraction:
    try:
        length = inches(text)
    except LengthNotRead as error:
        raise BadInput("bad-length", where=where, remedy=_("Write inches as 2 1/2, 5/2 or 2.5.")) from error
    if not length:
        raise BadInput("bad-length", where=where, remedy=_("Give a length above zero."))
    return length


def _size(text: str, drawing: Block) -> tuple[Any, Any]:
    """Read the wider side, or width x height; the drawing keeps its proportions when one is given."""
    sides = [_length(side, "--size") for side in text.lower().replace("×", "x").split("x")]
    if len(sides) == 1:
        wider = max(drawing.width, drawing.height)
        return (drawing.width * sides[0] / wider, drawing.height * sides[0] / wider)
    if len(sides) > 2:  # noqa: PLR2004 -- a rectangle has two sides
        raise BadInput("bad-length", where="--size", remedy=_("Give one side, 12, or two, 12x8."))
    return (sides[0], sides[1])


def _in_words(answer: dict[str, Any]) -> str:
    verdict = (
        _("goes together: {right} of {all} patches")
        if answer["goes_together"]
        else _("DOES NOT GO TOGETHER: {right} of {all} patches")
    )
    lines = [
        f"{answer['name']}, {_said(answer['size'])} in finished, {answer['order']}",
        verdict.format(right=answer["patches_right"], all=answer["patches"]),
        *(f"! {warning}" for warning in answer["warnings"]),
        *(
            f"! {f['rule']}: step {f['step']}, {f['piece']}: {f['expected']} / {f['found']}"
            for f in answer["findings"]
        ),
        "",
        *(_unit_words(unit) for unit in answer["units"]),
        "",
        *(_piece_words(piece) for piece in answer["pieces"]),
    ]
    for step in answer["steps"]:
        lines += ["", f"{step['number']}. {step['title']}", f"   {step['text']}"]
        if step["check"]:
            lines.append("   " + _("Measures {size} in.").format(size=_said(step["check"])))
    return "\n".join(lines)


def _unit_words(unit: dict[str, Any]) -> str:
    sizes = _("finished {finished}").format(finished=_said(unit["finished"]))
    if unit["trim_to"]:
        sizes = _("{sizes}, trim to {trim}").format(sizes=sizes, trim=_said(unit["trim_to"]))
    return f"{unit['count']:>4}  {unit['kind']} {' '.join(unit['fabrics'])}: {sizes}; {unit['method']}"


def _piece_words(piece: dict[str, Any]) -> str:
    then = f", {piece['then']}" if piece["then"] else ""
    size = f"{'from ' * ('polygon' in piece)}{piece['width']} x {piece['length']} in{then}"
    return f"{piece['id']:>4}  {piece['count']:>3} {piece['shape']:<9} {size}"


def _said(size: list[str]) -> str:
    """Say a size; sides that no ruler has up to the next sixteenth."""
    return " x ".join(map(_said_side, size))


def _said_side(side: str) -> str:
    length = parse_number(side) if "r" in side else inches(side)
    shown = show_length(length, Units.INCHES).removesuffix(" in")
    return shown if is_on_ruler(length) else f"about {shown}"
