"""`manage.py strips FILE`: the strip plan of a cut list."""

from __future__ import annotations

import json
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext as _

from patterns.domain.cut_list_reading import CutListError, data_of, read_data
from patterns.domain.strip_words import cliff_words, near_words
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import EIGHTH_YARD, YARD, Units, up_to_step, write_inches
from patterns.engine.strip_cliffs import cliffs
from patterns.engine.strips import Answer, Demand, PlanMode, Strip, StripPlan, plan_strips, sensitivity


class Command(BaseCommand):
    """Reads a cut list file and prints its strip plan, in words or as JSON."""

    help = "Strip plan of a cut list: the fewest inches of full-width strips."

    def add_arguments(self, parser: CommandParser) -> None:
        """Name the file and the options."""
        parser.add_argument("file", help="cut list, JSON")
        parser.add_argument("--width", help="usable width in inches; the file's, or 40, if not given")
        depth = parser.add_mutually_exclusive_group()
        depth.add_argument("--no-trim", action="store_true", help="every piece as high as its strip")
        depth.add_argument("--stack", action="store_true", help="cut smaller pieces from what is left")
        parser.add_argument("--no-turn", action="store_true", help="lay every piece as written")
        parser.add_argument(
            "--seconds", type=int, default=10, help="about how long the proof may take, counted in steps"
        )
        parser.add_argument("--json", action="store_true", help="print JSON")

    def handle(self, **options: Any) -> None:
        """Print the plan; exit 2 on bad input, with the field and the remedy."""
        try:
            demands, width = read_cut_list(
                options["file"], width=options["width"], turn=not options["no_turn"]
            )
            if options["seconds"] < 0:
                raise CutListError(where="--seconds", remedy=_("give a whole number of seconds, 0 or more"))
            mode = _mode(no_trim=options["no_trim"], stack=options["stack"])
            plan = plan_strips(demands, usable_width=width, mode=mode, effort=options["seconds"])
        except CutListError as error:
            self._refuse("cut list", error.where, error.remedy, as_json=options["json"])
        except PieceWiderThanFabric as error:
            remedy = _(
                "it is {piece} in across and {usable} in are usable; make it smaller or join it"
            ).format(piece=write_inches(error.width), usable=write_inches(error.usable_width))
            self._refuse("piece wider than fabric", error.label, remedy, as_json=options["json"])
        if options["json"]:
            self.stdout.write(json.dumps(plan.as_data(), ensure_ascii=False))
        else:
            self.stdout.write("\n".join(in_words(plan, mode)))
            self.stdout.write("\n".join(_narrower(demands, width, mode)))
            found = cliffs(demands, usable_width=width, mode=mode)
            edges = cliff_words(found, usable_width=width, units=Units.INCHES)
            self.stdout.write("\n".join([*edges, *near_words(plan, Units.INCHES)]))

    def _refuse(self, error: str, where: str, remedy: str, *, as_json: bool) -> None:
        if as_json:
            self.stdout.write(
                json.dumps({"error": error, "where": where, "remedy": remedy}, ensure_ascii=False)
            )
        raise CommandError(f"{where}: {remedy}", returncode=2)


def read_cut_list(file: str, *, width: str | None, turn: bool) -> tuple[tuple[Demand, ...], Fraction]:
    """Read a cut list file into demands and the usable width; CutListError names what is wrong."""
    try:
        text = Path(file).read_text(encoding="utf-8")
    except OSError as error:
        raise CutListError(where=file, remedy=_("no file that can be read; check its name")) from error
    except ValueError as error:
        raise CutListError(
            where=file, remedy=_("write the cut list as JSON: {error}").format(error=error)
        ) from error
    return read_data(data_of(text, where=file), width=width, turn=turn)


def in_words(plan: StripPlan, mode: PlanMode) -> list[str]:
    """Write a plan for a person who cuts."""
    kinds = {
        PlanMode.EXACT: _("best two-stage layout without trimming"),
        PlanMode.TRIM: _("best two-stage layout"),
        PlanMode.STACK: _("best layout with stacks"),
    }
    answers = {
        Answer.PROVEN: _("proven"),
        Answer.NO_SMALLER_PURCHASE: _("no smaller purchase possible (at least {bound} in)"),
        Answer.OPEN: _("no such layout is shorter than {bound} in: {gap} in or {share} yd are open"),
    }
    proven = answers[plan.answer].format(
        bound=write_inches(plan.lower_bound), gap=write_inches(plan.gap), share=_yards(plan.gap)
    )
    head = _("{total} in of fabric · {kind}, {proven}").format(
        total=write_inches(plan.total_length), kind=kinds[mode], proven=proven
    )
    needs = _("needs {needs} in of {usable} in usable width").format(
        needs=write_inches(plan.needs_width), usable=write_inches(plan.usable_width)
    )
    return [head, needs, *(_strip_in_words(strip) for strip in plan.strips)]


def _yards(length: Fraction) -> str:
    """Write inches in yards, rounded up to an eighth."""
    return write_inches(up_to_step(length, EIGHTH_YARD) / YARD)


def _strip_in_words(strip: Strip) -> str:
    pieces = Counter((cut.label, cut.width, cut.length, cut.turned) for cut in strip.cuts)
    cuts = [
        f"{count} × {label} {write_inches(width)} x {write_inches(length)} in"
        + (f" ({_('turned')})" if turned else "")
        for (label, width, length, turned), count in pieces.items()
    ]
    return _("{number} × strip {height} in: {cuts}").format(
        number=strip.repeat, height=write_inches(strip.height), cuts=", ".join(cuts)
    )


def _narrower(demands: tuple[Demand, ...], width: Fraction, mode: PlanMode) -> list[str]:
    rows = sensitivity(demands, usable_width=width, mode=mode)
    first = rows[0][1]
    return [
        _("on {width} in usable: {total} in{warning}").format(
            width=write_inches(narrow),
            total=write_inches(total),
            warning=" · " + _("look: more fabric") if total > first else "",
        )
        for narrow, total in rows[1:]
    ]


def _mode(*, no_trim: bool, stack: bool) -> PlanMode:
    if no_trim:
        return PlanMode.EXACT
    return PlanMode.STACK if stack else PlanMode.TRIM
