"""How all seams of a block are pressed, so that they nest wherever they meet.

Every seam is pressed one way or the other.  At a joint, earlier seams that end on both sides of a later
one lie opposite along it, where they are in one line or mirror each other; those in one line come first.
What is left free goes toward the dark or the plain neighbour.  All copies of a part are pressed alike while
that nests; else the copies of the smallest part that helps fall into two classes; what does not nest even
so is pressed open.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from patterns.engine.nesting_forms import Choice, Form, form_of
from patterns.engine.nesting_joints import Meeting
from patterns.engine.nesting_net import Net, PressClass, plain_choice
from patterns.engine.parts import Assembly, Rows, Unit, UnitKind
from patterns.engine.pressing import press_long, press_rows
from patterns.engine.row_words import Joint, rows_before
from patterns.engine.surds import Number
from patterns.engine.units.base import Style, Unnested

MOST_CLASSES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Nesting:
    """The seams of each part, how its copies are pressed, and how many joints came out how."""

    forms: Mapping[str, Form]
    classes: Mapping[str, tuple[PressClass, ...]]
    swirled: frozenset[str]  # parts with a point where many seams swirl
    joints: Mapping[str, int]  # nested, open, swirled; each joint of a part once for every copy of it


def nest(assembly: Assembly, style: Style) -> Nesting:
    """Press the seams of a block; NoMethod where a unit has no method in this style."""
    parts = {part.id: part for part in assembly.parts}
    forms = {
        part.id: form_of(part, parts, make=assembly.make[part.id], style=style) for part in assembly.parts
    }
    if any(isinstance(part, Unit) and part.kind is UnitKind.FINISHED_BLOCK for part in assembly.parts):
        return _in_turn(assembly, forms, style)
    net = Net(forms=forms, whole=assembly.whole.part).solve()
    while (better := _split(net, style.unnested)) is not None:
        net = better
    while (flatter := _opened(net)) is not None:
        net = flatter
    while (fewer := _fewer_ways(net)) is not None:
        net = fewer
    swirled = [joint for joint in net.found if joint.swirls(net.values)]
    return Nesting(
        forms=forms,
        classes={**_usual(assembly, forms), **net.classes()},
        swirled=frozenset(joint.across[0][0] for joint in swirled),
        joints=_tally(net, swirled),
    )


def _in_turn(assembly: Assembly, forms: Mapping[str, Form], style: Style) -> Nesting:
    """Press the rows of a quilt in turn: finished blocks come pressed as they are."""
    parts = {part.id: part for part in assembly.parts}
    classes = {}
    for name, form in forms.items():
        ways = [1] * len(form.choices)
        if isinstance(form.part, Rows):
            before = rows_before(Joint(part=form.part, parts=parts))
            rows = press_rows(form.part, parts, style, before=before)
            ways = [way for row in (*rows, press_long(form.part, parts)) for way in row]
        classes[name] = (PressClass(count=assembly.make[name], ways=tuple(ways)),)
    return Nesting(forms=forms, classes=classes, swirled=frozenset(), joints={})


def _usual(assembly: Assembly, forms: Mapping[str, Form]) -> dict[str, tuple[PressClass, ...]]:
    """Press what lies within a `Fitted` part, where nesting does not look, each seam as it would go alone."""
    ways = {name: tuple(_alone(choice) for choice in form.choices) for name, form in forms.items()}
    return {name: (PressClass(count=assembly.make[name], ways=found),) for name, found in ways.items()}


def _alone(choice: Choice) -> int:
    return choice.usual if not choice.wish else 1 if choice.wish > 0 else -1


def _tally(net: Net, swirled: Sequence[Meeting]) -> dict[str, int]:
    tally = Counter({"nested": 0, "open": 0, "swirled": 0, "unsettled": 0})
    for place, joint in enumerate(net.found):
        fate = "open" if net.is_open(joint) else "swirled" if joint in swirled else "nested"
        tally["unsettled" if place in net.failing else fate] += net.counts[joint.across[0]]
    return dict(tally)


def _split(net: Net, unnested: Unnested) -> Net | None:
    """Let the copies of the smallest part that helps be pressed in two ways."""
    for chain in _chains(net):
        trial = Net(forms=net.forms, whole=net.whole, split=net.split | chain).solve()
        keeps = unnested is Unnested.CLASSES or trial.shown <= net.shown
        if trial.unnested < net.unnested and keeps and not _in_many_ways(trial):
            return trial
    return None


def _chains(net: Net) -> list[frozenset[str]]:
    """Give what could be split for a joint that fails: a part, with the parts that hold just one of it."""
    found: set[frozenset[str]] = set()
    for place in net.failing:
        joint = net.found[place]
        for key in joint.keys:
            for path in _paths(net.forms, joint.across[0][0], key[0][0]):
                found |= {frozenset(path[first:]) - net.split for first in range(len(path))}
    return sorted(found - {frozenset()}, key=lambda chain: (_area(net.forms, chain), sorted(chain)))


def _area(forms: Mapping[str, Form], chain: frozenset[str]) -> Number:
    return max(forms[part].part.width * forms[part].part.height for part in chain)


def _paths(forms: Mapping[str, Form], above: str, part: str) -> Iterator[tuple[str, ...]]:
    """Give the ways down from a part to another: the parts between, and that one."""
    for child in dict.fromkeys(placed.part for placed in forms[above].children):
        if child == part:
            yield (part,)
        for path in _paths(forms, child, part):
            yield (child, *path)


def _opened(net: Net) -> Net | None:
    """Press one more choice open: the one that helps most, and loses least."""
    if not net.failing:
        return None
    tried = [_trial_open(net, choice) for choice in _flat_choices(net)]
    return min(tried, key=lambda trial: (len(_in_many_ways(trial)), trial.unnested))


def _in_many_ways(net: Net) -> list[str]:
    """Give the parts whose copies are pressed in more ways than a step can tell apart."""
    return [part for part, found in net.classes().items() if len(found) > MOST_CLASSES]


def _fewer_ways(net: Net) -> Net | None:
    """Press one more choice open where opened seams let copies of a part fall into many ways."""
    for part in _in_many_ways(net):
        ways = zip(*(each.ways for each in net.classes()[part]), strict=True)
        apart = [(part, number) for number, found in enumerate(ways) if len(set(found)) > 1]
        tried = [_trial_open(net, choice) for choice in apart]
        return min(tried, key=lambda trial: len(trial.classes()[part]))
    return None


def _trial_open(net: Net, choice: tuple[str, int]) -> Net:
    return Net(forms=net.forms, whole=net.whole, split=net.split, opened=net.opened | {choice}).solve()


def _flat_choices(net: Net) -> list[tuple[str, int]]:
    """Give the choices of failing joints, the least wished first; the seam across where all are fixed."""
    found: set[tuple[str, int]] = set()
    for place in net.failing:
        joint = net.found[place]
        free = {plain_choice(key) for key in joint.keys if not net.forms[key[0][0]].choices[key[1]].is_fixed}
        found |= free or {plain_choice(joint.across)}
    return sorted(found, key=lambda choice: (abs(net.forms[choice[0]].choices[choice[1]].wish), choice))
