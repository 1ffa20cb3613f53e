"""One attempt at pressing all seams of a block: which parts are pressed alike, what is tied, what fails."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from patterns.engine.nesting_forms import SHOWS_THROUGH, Choice, Form
from patterns.engine.nesting_joints import ClassId, End, Key, Meeting, joints, laid, on_border, own_ends
from patterns.engine.nesting_parity import Parity
from patterns.engine.pressing import OPEN

GROUND: Key = (("",), 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PressClass:
    """So many copies of a part are pressed these ways: 1, -1, or open, for each choice of its form.

    `places` are where they lie: parent and number of the place in it; empty where all copies are alike.
    """

    count: int
    ways: tuple[int, ...]
    places: tuple[tuple[str, int], ...] = ()


@dataclass(slots=True, kw_only=True)
class Net:
    """All classes of all parts, once `split` names the parts that are not pressed alike."""

    forms: Mapping[str, Form]
    whole: str
    split: frozenset[str] = frozenset()
    opened: frozenset[tuple[str, int]] = frozenset()
    counts: Counter[ClassId] = field(default_factory=Counter)
    below: dict[ClassId, list[End]] = field(default_factory=dict)
    found: list[Meeting] = field(default_factory=list)
    values: dict[Key, int] = field(default_factory=dict)
    failing: set[int] = field(default_factory=set)  # places in `found`

    def solve(self) -> Net:
        """Lay out the classes, tie what must nest, settle the rest."""
        self._ends((self.whole,))
        self._count()
        self._settle()
        return self

    def _ends(self, name: ClassId) -> list[End]:
        """Give the ends of seams on the outer edge of a class, and note the joints inside it."""
        if name not in self.below:
            form = self.forms[name[0]]
            inner = [
                laid(end, placed, self.forms[placed.part].part)
                for place, placed in enumerate(form.children)
                for end in self._ends(self._class(placed.part, name, place))
            ]
            self.found += joints(form, name, below=inner)
            ends = [*inner, *(end for _, end in own_ends(form, name))]
            self.below[name] = [end for end in ends if on_border(end, form.part)]
        return self.below[name]

    def _class(self, part: str, parent: ClassId, place: int) -> ClassId:
        return (part, parent, place) if part in self.split else (part,)

    def _count(self) -> None:
        """Count the copies of each class, larger parts first."""
        self.counts[(self.whole,)] = 1
        for part in reversed(list(self.forms)):
            for name in [name for name in self.below if name[0] == part]:
                for place, placed in enumerate(self.forms[part].children):
                    self.counts[self._class(placed.part, name, place)] += self.counts[name]

    def _key(self, key: Key) -> Key:
        return GROUND if self._choice(key).is_fixed else key

    def _choice(self, key: Key) -> Choice:
        return self.forms[key[0][0]].choices[key[1]]

    def _settle(self) -> None:
        parity: Parity[Key] = Parity()
        pairs = [(pair, place) for place, joint in enumerate(self.found) for pair in joint.pairs]
        for pair, place in sorted(pairs, key=lambda found: not found[0].is_straight):
            one, other = (self._key(key) for key in pair.keys)
            stands = one == other == GROUND and not pair.is_straight  # nobody presses a goose the other way
            if not (stands or self.is_open(self.found[place]) or parity.tie(one, other, pair.product)):
                self.failing.add(place)
        self._swirl(parity)
        self.values = parity.settled(self._wishes(), fixed=[GROUND])
        self.values |= {key: OPEN for key in self.values if plain_choice(key) in self.opened}
        self.values |= {(name, number): 1 for name in self.below for number in self._fixed(name)}

    def _swirl(self, parity: Parity[Key]) -> None:
        """Where many seams meet, let the free ones go round the point with the others."""
        for joint in self.found:
            if joint.is_busy:
                first = joint.ends[0]
                for end in joint.ends[1:]:
                    parity.tie(self._key(first.key), self._key(end.key), first.round * end.round)

    def _wishes(self) -> dict[Key, tuple[int, int]]:
        """Give what speaks for the ways of all free choices; larger parts first."""
        found = {GROUND: (0, 1)}
        for name in self.below:
            for number, choice in enumerate(self.forms[name[0]].choices):
                if not choice.is_fixed:
                    found[name, number] = (choice.wish * self.counts[name], choice.usual)
        return found

    def _fixed(self, name: ClassId) -> list[int]:
        choices = self.forms[name[0]].choices
        return [number for number, choice in enumerate(choices) if choice.is_fixed]

    def is_open(self, joint: Meeting) -> bool:
        """Whether a joint lies flat since one of its seams is pressed open."""
        return any(plain_choice(key) in self.opened for key in (*joint.keys, joint.across))

    @property
    def unnested(self) -> int:
        """Count joints that do not nest, in all copies."""
        return sum(self.counts[self.found[place].across[0]] for place in self.failing)

    @property
    def shown(self) -> int:
        """Count seams that are pressed to the light side of a light patch, in all copies."""
        free = self._wishes()
        against = [k for k, (wish, _) in free.items() if k != GROUND and wish * self.values[k] < 0]
        strong = [k for k in against if abs(self._choice(k).wish) >= SHOWS_THROUGH]
        return sum(self.counts[name] for name, _ in strong)

    def classes(self) -> dict[str, tuple[PressClass, ...]]:
        """Gather the classes of each part that are pressed alike, the largest first."""
        alike: dict[str, dict[tuple[int, ...], list[ClassId]]] = {}
        for name in self.below:
            numbers = range(len(self.forms[name[0]].choices))
            ways = tuple(self.values[name, number] for number in numbers)
            alike.setdefault(name[0], {}).setdefault(ways, []).append(name)
        return {part: self._ordered(groups) for part, groups in alike.items()}

    def _ordered(self, groups: Mapping[tuple[int, ...], list[ClassId]]) -> tuple[PressClass, ...]:
        found = [
            PressClass(
                count=sum(self.counts[name] for name in names),
                ways=ways,
                places=_places(names) if len(groups) > 1 else (),
            )
            for ways, names in groups.items()
        ]
        return tuple(sorted(found, key=lambda each: (-each.count, [-way for way in each.ways])))


def plain_choice(key: Key) -> tuple[str, int]:
    """Give a choice without saying where its part lies."""
    return (key[0][0], key[1])


def _places(names: Sequence[ClassId]) -> tuple[tuple[str, int], ...]:
    places = [(name[1][0], name[2]) for name in names if len(name) == 3]  # noqa: PLR2004 -- part, parent, place
    return tuple(sorted(set(places)))
