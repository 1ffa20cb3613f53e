"""The shops of the demo: who works there, what they agreed, what fabric costs them."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from patterns.models import Fabric, User
from shops.enums import ShopRole
from shops.models import ColorwayOffer, FabricOffer, PricePlan, Shop, ShopMember, Terms

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from bom.models import Program

    Data = Mapping[str, Any]

SHOP_WORDS = ("name", "place", "country", "zone", "currency", "tax_included", "language", "email")
FEES = ("sign_up_fee", "monthly_fee", "finishing_fee")
COSTS = ("sheet_licence", "bag", "label", "margin_percent")
TERMS = ("cap", "quota", "spares", "first_packets", "samples", "hold_hours", "pick_up", "missed_months")


def add_shop(data: Data, program: Program, *, days: Mapping[str, date]) -> Terms:
    """Make one shop with its staff, its terms for the program, its colorways and its prices."""
    shop = Shop.objects.create(
        slug=data["slug"],
        tax_percent=Decimal(data["tax_percent"]),
        **{name: data[name] for name in SHOP_WORDS},
    )
    for each in data["staff"]:
        user = User.objects.create_user(each["email"], each["name"], zone=shop.zone)
        ShopMember.objects.create(shop=shop, user=user, role=ShopRole(each["role"]))
    terms = Terms.objects.create(
        shop=shop,
        program=program,
        **days,
        **{name: Decimal(data["terms"][name]) for name in FEES},
        **{name: data["terms"][name] for name in TERMS},
    )
    colorways = {each.slug: each for each in program.quilt.colorways.all()}
    ColorwayOffer.objects.bulk_create(
        ColorwayOffer(terms=terms, colorway=colorways[slug], cap=cap)
        for slug, cap in data["colorways"].items()
    )
    _add_prices(shop, data)
    _add_costs(terms, data["costs"])
    return terms


def _add_costs(terms: Terms, costs: Data) -> None:
    """Say what a packet costs beside its fabric, and what posting takes by weight: all invented."""
    PricePlan.objects.create(
        terms=terms,
        packing_grams=costs["packing_grams"],
        posting=costs["posting"],
        **{name: Decimal(costs[name]) for name in COSTS},
    )


def _add_prices(shop: Shop, data: Data) -> None:
    """Price every fabric of the colorways that the shop sells; a basic costs less than a print."""
    sold = Fabric.objects.filter(colorway_fabrics__colorway__offers__terms__shop=shop).distinct()
    FabricOffer.objects.bulk_create(
        FabricOffer(
            shop=shop,
            fabric=fabric,
            price_per_bolt=Decimal(data["bolts"]["basic" if fabric.basic else "print"]),
            bolt_length="540",
            end_loss="1",
        )
        for fabric in sold
    )
