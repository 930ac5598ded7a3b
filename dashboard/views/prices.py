"""Prices: what an hour of each service leaves, the price that would clear a line, and what another price would do."""

from analytics import sentences
from dashboard import bars, parts, trying
from dashboard.data import reading

read = reading()
settings, month = read.settings, read.month or ""
prices, rows = read.year("prices"), read.priced()

parts.answer(sentences.prices_sentence(prices, settings, month))
if rows:
    parts.head("What a chair hour of each service leaves, product paid")
    lines = (rows[0]["cost_per_open_hour"], rows[0]["target_per_chair_hour"])
    parts.html(bars.drawn(bars.price_bars(rows, settings), lines=lines))
    parts.note(sentences.lines_say(rows[0], settings))
    trying.another_price(read, rows)
    parts.head("Service by service")
    parts.table(
        prices,
        {
            "service": "Service",
            "price": parts.money_column("Price now", settings),
            "price_to_clear_cost": parts.money_column("to clear the cost", settings),
            "price_to_clear_target": parts.money_column("to reach the target", settings),
            "net_per_chair_hour": parts.money_column("Net per chair hour", settings),
            "after_product_per_chair_hour": parts.money_column("After product", settings),
            "typical_minutes": parts.number_column("Typical minutes"),
            "lines_per_month": parts.number_column("Times a month", 1),
            "product_cost_per_line": parts.money_column("Product each time", settings),
            "lines": parts.number_column("Times in all"),
            "lines_logged": parts.number_column("with a bowl logged"),
        },
        f"Prices by service, twelve months up to {month}",
        "prices",
    )
parts.worked_out("prices")
parts.show_rows(lambda: read.year("prices", rows=True), "prices_rows")
