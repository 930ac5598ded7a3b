"""Prices: what an hour of each service leaves, the price that would clear a line, and what another price would do."""

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
prices = read.year("prices")
rows = prices.sort("after_product_per_chair_hour", "service_id", nulls_last=True).to_dicts()  # what brings least first

layout.answer(sentences.prices_sentence(prices, settings, month))
if rows:
    layout.head("What a chair hour of each service leaves, product paid")
    lines = (rows[0]["cost_per_open_hour"], rows[0]["target_per_chair_hour"])
    layout.html(bars.drawn(bars.price_bars(rows, settings), lines=lines))
    layout.note(sentences.lines_say(rows[0], settings))
    price_trial.another_price(read, rows)
    layout.head("Service by service")
    layout.table(
        prices,
        {
            "service": "Service",
            "price": layout.money_column("Price now", settings),
            "price_to_clear_cost": layout.money_column("to clear the cost", settings),
            "price_to_clear_target": layout.money_column("to reach the target", settings),
            "net_per_chair_hour": layout.money_column("Net per chair hour", settings),
            "after_product_per_chair_hour": layout.money_column("After product", settings),
            "typical_minutes": layout.number_column("Typical minutes"),
            "lines_per_month": layout.number_column("Times a month", 1),
            "product_cost_per_line": layout.money_column("Product each time", settings),
            "lines": layout.number_column("Times in all"),
            "lines_logged": layout.number_column("with a bowl logged"),
        },
        f"Prices by service, twelve months up to {month}",
        "prices",
    )
layout.worked_out("prices")
layout.show_rows(lambda: read.year("prices", rows=True), "prices_rows")
