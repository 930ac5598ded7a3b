"""Prices: what an hour of each service contributes, which price wants changing, and what another would do."""

from analytics import sentences
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import bars, layout, price_trial

PAGE = Page(
    title="Prices",
    order=40,
    readers=("owner",),
    filters=("site", "month", "chair"),
    picture=(1280, 860),
)

read = reading(PAGE)
settings, month = read.settings, read.month or ""
found = read.year("prices")
layout.answer(sentences.prices_sentence(found, settings, month))
if not found.is_empty():
    prices = price_trial.aimed_at(found, settings)
    rows = prices.sort("rank", "service_id", descending=[True, False], nulls_last=True).to_dicts()  # least first
    price_trial.proposals(prices, settings)
    lines = (rows[0]["cost_per_taken_hour"], rows[0]["target_per_chair_hour"])
    with layout.fold("What a chair hour of each service leaves, product paid", "services"):
        layout.html(bars.drawn(bars.price_bars(rows, settings), lines=lines))
        layout.table(
            prices,
            {
                "service": "Service",
                "price": layout.money_column("Price now", settings),
                "price_to_clear_cost": layout.money_column("to carry its hours", settings),
                "price_to_clear_target": layout.money_column("to reach the target", settings),
                "contribution_per_chair_hour": layout.money_column("Left of an hour", settings),
                "rank": layout.number_column("Rank"),
                "contribution_per_month": layout.money_column("Left a month", settings),
                "net_per_chair_hour": layout.money_column("Net per chair hour", settings),
                "typical_minutes": layout.number_column("Typical minutes"),
                "lines_per_month": layout.number_column("Times a month", 1),
                "product_cost_per_line": layout.money_column("Product as logged", settings),
                "product_cost_per_line_in_all": layout.money_column("in all", settings),
                "lines": layout.number_column("Times in all"),
                "lines_logged": layout.number_column("with a bowl logged"),
            },
            f"Prices by service, twelve months up to {month}",
            "prices",
        )
    layout.note(sentences.lines_say(rows[0], settings))
    layout.note(sentences.product_says(prices, settings))
    with layout.fold("Try another price", "trial"):
        price_trial.another_price(prices, rows, settings)
layout.worked_out("prices")
layout.show_rows(lambda: read.year("prices", rows=True), "prices_rows")
