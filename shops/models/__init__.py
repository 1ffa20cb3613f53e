"""Records of the shops app."""

from shops.models.orders import Bolt, BuyingLess, CutCount, FabricOrder, OrderLine
from shops.models.people import (
    Notice,
    Participant,
    PickUp,
    SewnBlock,
    SheetCopy,
    SignUp,
)
from shops.models.prices import PricePlan
from shops.models.shops import ColorwayOffer, FabricOffer, Shop, ShopMember, Swap, Terms

__all__ = (
    "Bolt",
    "BuyingLess",
    "ColorwayOffer",
    "CutCount",
    "FabricOffer",
    "FabricOrder",
    "Notice",
    "OrderLine",
    "Participant",
    "PickUp",
    "PricePlan",
    "SewnBlock",
    "SheetCopy",
    "Shop",
    "ShopMember",
    "SignUp",
    "Swap",
    "Terms",
)
