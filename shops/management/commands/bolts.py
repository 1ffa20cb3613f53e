"""Say what a shop must order, fabric by fabric: cuts, bolts, what is left over."""

from __future__ import annotations

import json
from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.errors import ProgramError
from bom.management.program_commands import ProgramCommand, find_program
from patterns.domain.wording import fabric_text, length_text, money_text
from patterns.engine.measure import write_inches
from shops.domain.orders import order_of
from shops.errors import LongerThanBolt
from shops.models import Terms

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

    from bom.models import Program
    from patterns.engine.bolts import BoltCuts
    from shops.domain.orders import Order, OrderRow

NO_RISK = Fraction(0)  # every seat is ordered for, so no leaver makes it run short


class Command(ProgramCommand):
    """Words for a person, or JSON; exit 2 on bad input."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the addresses of the program and the shop."""
        super().add_arguments(parser)
        parser.add_argument("shop", help="address of the shop, such as oblong-drawer")

    def handle(self, **options: Any) -> None:
        """Work the order out and print it."""
        try:
            order = _order(options["program"], options["shop"])
        except ProgramError as error:
            self.refuse(error, as_json=options["json"])
        if options["json"]:
            self.stdout.write(json.dumps(_data(order), ensure_ascii=False))
        else:
            self.stdout.write("\n".join(_words(order)))


def _order(program: str, shop: str) -> Order:
    try:
        return order_of(_terms(find_program(program), shop))
    except LongerThanBolt as error:
        facts = {"fabric": error.fabric, "cut": length_text(error.length), "bolt": length_text(error.longest)}
        remedy = _("A cut of {fabric} is {cut} and a bolt gives {bolt}. Say the length of a longer bolt.")
        raise ProgramError("bolt_length", remedy, **facts) from error


def _terms(program: Program, shop: str) -> Terms:
    """Find the shop's terms; ProgramError lists the shops that have some."""
    chosen = Terms.objects.select_related("shop", "program__quilt").filter(program=program)
    terms = chosen.filter(shop__slug=shop).first()
    if terms is None:
        known = ", ".join(chosen.order_by("shop__slug").values_list("shop__slug", flat=True)) or _("none")
        remedy = _("There is no shop {shop} that runs {program}. These do: {known}.")
        raise ProgramError("shop", remedy, shop=shop, program=program.slug, known=known)
    return terms


def _data(order: Order) -> dict[str, Any]:
    return {
        "shop": order.terms.shop.slug,
        "program": order.terms.program.slug,
        "people": order.people,
        "lines": [_line_data(row) for row in order.rows],
    }


def _line_data(row: OrderRow) -> dict[str, Any]:
    return {
        "fabric": row.fabric.name,
        "cuts": [{"length": write_inches(length), "count": count} for length, count in row.cuts],
        "bolts": [
            {"length": write_inches(length), "count": count} for length, count in _bolts(row.plan.bolts)
        ],
        "left_over": write_inches(row.plan.left_over),
        "risk": str(NO_RISK),
    }


def _bolts(bolts: tuple[BoltCuts, ...]) -> list[tuple[Fraction, int]]:
    """Count bolts by length, the longest first."""
    found: dict[Fraction, int] = {}
    for bolt in bolts:
        found[bolt.length] = found.get(bolt.length, 0) + bolt.repeat
    return sorted(found.items(), reverse=True)


def _words(order: Order) -> Iterator[str]:
    yield f"{order.terms.shop.name}, {order.terms.program.title}"
    people = ngettext("{count} person takes a packet", "{count} people take a packet", order.people)
    yield people.format(count=order.people)
    for row in order.rows:
        yield _row_words(row)
    total = money_text(order.total, order.terms.shop.currency)
    yield _("Together {bolts} bolts, {total} before tax and freight").format(bolts=order.bolts, total=total)


def _row_words(row: OrderRow) -> str:
    cuts = ", ".join(
        _("{count} of {length}").format(count=n, length=length_text(each)) for each, n in row.cuts
    )
    bolts = ", ".join(
        ngettext("{count} bolt of {length}", "{count} bolts of {length}", n).format(
            count=n, length=fabric_text(each)
        )
        for each, n in _bolts(row.plan.bolts)
    )
    facts = {"letters": ", ".join(row.letters), "fabric": row.fabric.name, "cuts": cuts, "bolts": bolts}
    words = _("  {letters} {fabric}: {bolts}; cuts {cuts}; left over {left}")
    return words.format(**facts, left=length_text(row.plan.left_over))
