"""Addresses of the shops' own pages."""

from __future__ import annotations

from django.urls import URLPattern, path

from shops.web import (
    corrections,
    program_shops,
    shop_buying_less,
    shop_check_in,
    shop_costs,
    shop_cutting,
    shop_cutting_sheet,
    shop_labels,
    shop_order,
    shop_pick_up,
    shop_preview,
    shop_prices,
    shop_promotion,
    shop_sign_ups,
    shop_start,
    shop_swaps,
)

PART = "program/<slug:slug>/<int:number>/"
AT = "shop/<slug:shop>/<slug:program>/"

sign_up_urls: list[URLPattern] = [
    path(f"{AT}sign-ups/", shop_sign_ups.sign_ups, name="shop-sign-ups"),
    path(f"{AT}sign-ups.csv", shop_sign_ups.sign_ups_file, name="shop-sign-ups-file"),
    path(f"{AT}sign-ups/<int:number>/", shop_sign_ups.sign_up, name="shop-sign-up"),
    path(f"{AT}sign-ups/<int:number>/leave/", shop_sign_ups.leaves, name="shop-sign-up-leave"),
    path(f"{AT}sign-ups/<int:number>/seat/", shop_sign_ups.give_seat, name="shop-sign-up-seat"),
]
order_urls: list[URLPattern] = [
    path(f"{AT}order/", shop_order.order, name="shop-order"),
    path(f"{AT}order/send/", shop_order.order_confirm, name="shop-order-confirm"),
    path(f"{AT}order/prices/", shop_prices.prices, name="shop-prices"),
    path(f"{AT}order/costs/", shop_costs.costs, name="shop-costs"),
    path(f"{AT}order/less/", shop_buying_less.buying_less, name="shop-buying-less"),
    path(f"{AT}order/less/take-back/", shop_buying_less.take_back, name="shop-buying-less-take-back"),
    path(f"{AT}order.csv", shop_order.order_file, name="shop-order-file"),
    path(f"{AT}order.<slug:kind>", shop_order.order_file, name="shop-order-file"),
]
check_in_urls: list[URLPattern] = [
    path(f"{AT}order/bolts/", shop_check_in.bolts_that_came, name="shop-check-in"),
    path(f"{AT}order/bolts/<int:fabric>/", shop_check_in.bolts_of_fabric, name="shop-check-in-fabric"),
    path(f"{AT}order/bolts/<int:fabric>/take-back/", shop_check_in.take_back, name="shop-check-in-take-back"),
]
swap_urls: list[URLPattern] = [
    path(f"{AT}order/substitutes/", shop_swaps.substitutes, name="shop-swaps"),
    path(f"{AT}order/substitutes/order/", shop_swaps.order, name="shop-swaps-order"),
    path(f"{AT}order/substitutes/<int:swap>/take-back/", shop_swaps.give_back, name="shop-swap-take-back"),
]
packet_urls: list[URLPattern] = [
    path(f"{AT}cutting/", shop_cutting.cutting_next, name="shop-cutting-next"),
    path(f"{AT}cutting/<int:number>/", shop_cutting.cutting, name="shop-cutting"),
    path(f"{AT}cutting/<int:number>/sheet.pdf", shop_cutting_sheet.cutting_sheet, name="shop-cutting-sheet"),
    path(f"{AT}cutting/<int:number>/preview.pdf", shop_preview.preview, name="shop-preview"),
    path(f"{AT}cutting/<int:number>/labels.pdf", shop_labels.labels, name="shop-labels"),
    path(f"{AT}cutting/<int:number>/<int:fabric>/", shop_cutting.count, name="shop-cutting-count"),
    path(f"{AT}pick-up/", shop_pick_up.pick_up_now, name="shop-pick-up-now"),
    path(f"{AT}pick-up/<int:number>/", shop_pick_up.pick_up, name="shop-pick-up"),
    path(f"{AT}pick-up/<int:number>/<int:person>/", shop_pick_up.give, name="shop-pick-up-give"),
]
shop_urls: list[URLPattern] = [
    path("program/<slug:slug>/shops/", program_shops.program_shops, name="program-shops"),
    path("program/<slug:slug>/shops/order/", program_shops.program_orders, name="program-orders"),
    path(
        "program/<slug:slug>/shops/order.<slug:kind>",
        program_shops.program_orders_file,
        name="program-orders-file",
    ),
    path(
        "program/<slug:slug>/<int:number>/correction/", corrections.correction, name="installment-correction"
    ),
    path(
        "program/<slug:slug>/<int:number>/editions/<int:edition>/",
        corrections.edition,
        name="installment-edition",
    ),
    path(AT, shop_start.shop_start, name="shop-start"),
    path(f"{AT}poster.pdf", shop_promotion.promotion, {"kind": "poster"}, name="shop-poster"),
    path(f"{AT}card.pdf", shop_promotion.promotion, {"kind": "card"}, name="shop-card"),
    *sign_up_urls,
    *order_urls,
    *check_in_urls,
    *swap_urls,
    *packet_urls,
]
