"""What can go wrong in a shop, as facts; forms and commands word it."""

from __future__ import annotations

from datetime import date
from fractions import Fraction


class ShopError(ValueError):
    """A verb of a shop that cannot be carried out."""


class SignUpClosed(ShopError):
    """The shop takes no sign-ups any more; the last day was `until`."""

    def __init__(self, until: date) -> None:
        """Keep the last day."""
        super().__init__(f"sign-up closed after {until}")
        self.until = until


class NotOffered(ShopError):
    """The shop does not sell this colorway."""

    def __init__(self, colorway: str) -> None:
        """Keep the colorway's name."""
        super().__init__(f"colorway not offered: {colorway}")
        self.colorway = colorway


class WrongPlace(ShopError):
    """A waiting person cannot be given a seat: none is free, or the person has left."""

    def __init__(self, number: int) -> None:
        """Keep the number on the shop's list."""
        super().__init__(f"no seat for number {number}")
        self.number = number


class LongerThanBolt(ShopError):
    """A cut of a fabric is longer than any bolt of it gives; inches."""

    def __init__(self, fabric: str, *, length: Fraction, longest: Fraction) -> None:
        """Keep the fabric's name, the cut and what a bolt gives."""
        super().__init__(f"{fabric}: a cut of {length} in is longer than a bolt gives, {longest} in")
        self.fabric = fabric
        self.length = length
        self.longest = longest
