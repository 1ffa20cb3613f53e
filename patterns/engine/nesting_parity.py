"""Choices of one or the other that depend on each other: kept in groups, each one choice in the end."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)


@dataclass(slots=True)
class Parity(Generic[K]):
    """Groups of keys whose values 1 or -1 are known up to one common sign (union-find with parity)."""

    links: dict[K, tuple[K, int]] = field(default_factory=dict)

    def find(self, key: K) -> tuple[K, int]:
        """Give the head of a key's group, and 1 where the key equals it, -1 where it is opposite."""
        path: list[tuple[K, int]] = []
        while key in self.links:
            path.append((key, self.links[key][1]))
            key = self.links[key][0]
        product = 1
        for each, link in reversed(path):
            product *= link
            self.links[each] = (key, product)
        return key, product

    def tie(self, first: K, second: K, product: int) -> bool:
        """Ask that first x second be `product`; False, and nothing done, where that cannot be any more."""
        (head, one), (other, two) = self.find(first), self.find(second)
        if head == other:
            return one * two == product
        self.links[other] = (head, one * two * product)
        return True

    def settled(self, wishes: Mapping[K, tuple[int, int]], *, fixed: Iterable[K]) -> dict[K, int]:
        """Give every key its value: fixed ones are 1; a group goes as most of its wishes ask.

        `wishes` gives for each key how much speaks for 1 (below 0: for -1), and its usual value, which
        decides, of the first key of a group, where wishes are even.
        """
        scores: dict[K, int] = {}
        usual: dict[K, int] = {}
        for key, (wish, way) in wishes.items():
            head, product = self.find(key)
            scores[head] = scores.get(head, 0) + wish * product
            usual.setdefault(head, way * product)
        heads = {head: (1 if score > 0 else -1) if score else usual[head] for head, score in scores.items()}
        for key in fixed:
            head, product = self.find(key)
            heads[head] = product
        return {key: heads[self.find(key)[0]] * self.find(key)[1] for key in wishes}
