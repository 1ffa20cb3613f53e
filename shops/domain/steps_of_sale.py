"""The step by which a shop sells: its packets are rounded up to it, never below what the sheet says."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.domain.packets import allowances_of, grams
from bom.errors import WrongState
from patterns.engine.measure import CENTIMETRE, EIGHTH, up_to_step, write_inches
from patterns.engine.yardage import FabricForm
from shops.models import FabricOrder, Terms

if TYPE_CHECKING:
    from datetime import datetime
    from fractions import Fraction

    from bom.domain.packets import FabricLine
    from patterns.models import User


def at_shop(line: FabricLine, terms: Terms) -> FabricLine:
    """Give a packet's line as this shop cuts it: lengths up to its step, weight and cut with them."""
    step = terms.sold_by
    if not step or line.line.form != FabricForm.LENGTH:
        return line
    suggested = up_to_step(line.line.suggested, step)
    cut = allowances_of(terms.program).cut_length(suggested)
    return replace(
        line,
        line=replace(line.line, suggested=suggested, cut_length=cut),
        weight_grams=grams(line.fabric, suggested),
    )


def sells_metric(terms: Terms) -> bool:
    """Whether the shop cuts by centimetres: its program is made in them, or its step is."""
    step = terms.sold_by
    return terms.program.centimetres or bool(step and step % CENTIMETRE == 0 and step % EIGHTH)


@transaction.atomic
def keep_step(terms: Terms, step: Fraction | None, *, by: User, now: datetime) -> bool:
    """Keep the shop's step, None for the program's; False where nothing changed, WrongState once ordered."""
    locked = Terms.objects.select_for_update(of=("self",)).select_related("shop", "program").get(pk=terms.pk)
    if locked.sold_by == step:
        return False
    if FabricOrder.objects.filter(terms=locked).exists():
        raise WrongState("sold_by", _("The order has been sent already and is kept as sent."))
    locked.sold_by = step
    locked.save(update_fields=("sold_by",))
    facts = {"step": write_inches(step) if step else ""}
    subject = f"terms:{locked.shop.slug}/{locked.program.slug}"
    record("keep step of sale", actor=by, subject=subject, facts=facts, now=now)
    terms.sold_by = step
    return True
