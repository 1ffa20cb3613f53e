"""What the page of a cutting day says, gathered for its template."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.pictures import bolt_svg, swatch_svg
from patterns.domain.wording import fabric_text, fractions_html, length_text
from patterns.engine.drawing_counts import BoltView
from shops.web.shop_words import cloth_of, hatches_of, letters_text, stock_text, units_at

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine
    from patterns.engine.hatches import Cloth
    from patterns.engine.measure import Units
    from shops.domain.cutting_day import BoltToCut, CuttingDay, Job

WIDE, SMALL, SWATCH, TALLY_SMALL = 786, 358, 76, 340  # px
NAMED = 3  # bolts named one by one; more are said as a run


@dataclass(frozen=True, slots=True, kw_only=True)
class JobView:
    """One cloth on the page; `is_current` is the one that is being cut."""

    job: Job
    cloth: Cloth
    swatch: SafeString
    letters: str
    title: SafeString
    promised: SafeString
    bolts: SafeString
    caption: SafeString
    wide: SafeString
    small: SafeString
    is_current: bool

    @property
    def one_more(self) -> int:
        """Give what the tally says after one more cut."""
        return self.job.made + 1

    @property
    def one_less(self) -> int:
        """Give what the tally says after one is taken back."""
        return self.job.made - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class BagLine:
    """One fabric that goes into each bag."""

    cloth: Cloth
    amount: SafeString


def job_views(day: CuttingDay) -> list[JobView]:
    """Show every cloth; the first that is begun and not done, else the first not done, is current."""
    hatches, units = hatches_of(day.terms.program), units_at(day.terms)
    open_jobs = [job for job in day.jobs if not job.is_done]
    current = next((job for job in open_jobs if job.made), open_jobs[0] if open_jobs else None)
    return [
        _view(job, cloth_of(job.fabric, job.letters, hatches), units=units, is_current=job is current)
        for job in day.jobs
    ]


def bags_of(day: CuttingDay) -> list[tuple[str, list[BagLine]]]:
    """List what goes into each bag, colorway by colorway."""
    hatches, units = hatches_of(day.terms.program), units_at(day.terms)
    return [
        (name, [_bag_line(line, cloth_of(line.fabric, line.letters, hatches), units=units) for line in lines])
        for name, lines in day.bags
    ]


def _view(job: Job, cloth: Cloth, *, units: Units, is_current: bool) -> JobView:
    bolt = job.current
    picture = BoltView(length=bolt.length, cuts=bolt.cuts, done=job.done_on_current, straighten=job.end_loss)
    return JobView(
        job=job,
        cloth=cloth,
        swatch=swatch_svg(cloth, width_px=SWATCH, height_px=SWATCH),
        letters=letters_text(job.letters),
        title=fractions_html(cut_title(job, units)),
        promised=fractions_html(promised_text(job, units)),
        bolts=fractions_html(_bolts(job.bolts)),
        caption=fractions_html(_caption(job, bolt, units)),
        wide=bolt_svg(picture, cloth=cloth, width_px=WIDE),
        small=bolt_svg(picture, cloth=cloth, width_px=SMALL),
        is_current=is_current,
    )


def cut_title(job: Job, units: Units) -> str:
    """Say in big words what to cut: "Cut 43 lengths of 9 1/2 in, then 43 of 5 in"."""
    first, *others = ((number, length_text(line.line.cut_length, units)) for line, number in job.lines)
    words = ngettext("Cut {number} length of {length}", "Cut {number} lengths of {length}", first[0])
    then = [
        _(", then {number} of {length}").format(number=number, length=length) for number, length in others
    ]
    return words.format(number=first[0], length=first[1]) + "".join(then)


def promised_text(job: Job, units: Units) -> str:
    """Say how much is promised, how much is for cloth that is not straight, and who gets it."""
    return "; ".join(dict.fromkeys(_promise(line, units) + _shared(line) for line, _number in job.lines))


def _promise(line: FabricLine, units: Units) -> str:
    if not line.is_length:
        return _("full width, then halved at the fold: a {form} each").format(form=_(line.line.bought(units)))
    words = _("full width; {promised} promised and {tolerance} for cloth that is not straight")
    return words.format(
        promised=length_text(line.line.suggested, units),
        tolerance=length_text(line.line.cut_length - line.line.suggested, units),
    )


def _shared(line: FabricLine) -> str:
    if line.is_backing:
        return _(", for the backing")
    count = line.line.per_cut
    return _(", each cut serves {count} packets").format(count=count) if count > 1 else ""


def _bolts(bolts: tuple[BoltToCut, ...]) -> str:
    """Say which bolts the cuts come from: "43 from bolt A-4", or a run of bolts with their numbers."""
    if len(bolts) <= NAMED:
        each = (_("{count} from bolt {name}").format(count=len(bolt.today), name=bolt.name) for bolt in bolts)
        return _(", then ").join(each)
    runs = [(count, list(run)) for count, run in groupby(bolts, key=lambda bolt: len(bolt.today))]
    return "; ".join(_run(count, [bolt.name for bolt in run]) for count, run in runs)


def _run(count: int, names: list[str]) -> str:
    if len(names) == 1:
        return _("{count} from bolt {name}").format(count=count, name=names[0])
    return _("{count} each from bolts {first} to {last}").format(count=count, first=names[0], last=names[-1])


def _caption(job: Job, bolt: BoltToCut, units: Units) -> str:
    left = bolt.length - job.end_loss - sum(bolt.cuts)
    words = _(
        "Bolt {name} of {fabric}, {length} {how}: {end} to straighten it, {before} cut in earlier "
        "months, {today} today, {left} left after today."
    )
    return words.format(
        name=bolt.name,
        fabric=job.fabric.name,
        length=stock_text(bolt.length, units),
        how=_("as measured") if bolt.is_measured else _("as ordered"),
        end=length_text(job.end_loss, units),
        before=len(bolt.before),
        today=len(bolt.today),
        left=stock_text(left, units),
    )


def bag_amount(line: FabricLine, units: Units) -> str:
    """Say how much of a fabric goes into a bag: "3/8 yd", or "fat quarter" where a cut serves several."""
    amount = fabric_text(line.line.suggested, units)
    if line.line.per_cut > 1:
        amount = _(line.line.bought(units))
    words = _("{amount}, for the backing") if line.is_backing else "{amount}"
    return words.format(amount=amount)


def _bag_line(line: FabricLine, cloth: Cloth, *, units: Units) -> BagLine:
    amount = bag_amount(line, units)
    if line.kept_for:
        numbers = ", ".join(map(str, line.kept_for))
        amount = _("{amount}, also for installment {numbers}").format(amount=amount, numbers=numbers)
    return BagLine(cloth=cloth, amount=fractions_html(amount))
