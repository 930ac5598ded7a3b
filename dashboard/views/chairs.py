"""Chair hours: what an hour in the chair brings, service by service, and what it costs to keep the chair open."""

from analytics import sentences
from dashboard import bars, charts, parts
from dashboard.data import reading

read = reading()
settings, month = read.settings, read.month or ""
chairs, cost = read.figure("chairs", month), read.cost_per_open_hour()
sentence = sentences.chairs_sentence(chairs, read.figure("month"), cost, settings, month)

parts.answer(sentence)
parts.said(sentences.under_sentence(chairs, cost, settings))
parts.picture(charts.chair_blocks(chairs, cost, settings, parts.paper()), sentence, "blocks")
parts.note(
    "A block is a service: as wide as the hours it took the chairs, as high as the net an hour of it brought, so its "
    "area is money. The hatched top is product; the plain part should reach over the line. Narrow blocks are named in "
    "the table."
)
parts.head("Service by service")
parts.note(sentences.coverage_sentence(read.bowl_months(), settings, month))
parts.table(
    read.compared("chairs", "service_id", "net_per_chair_hour").sort("chair_hours", descending=True),
    {
        "service": "Service",
        "net_per_chair_hour": parts.money_column("Net per chair hour", settings),
        "previous": parts.money_column("month before", settings),
        "year_ago": parts.money_column("a year before", settings),
        "after_product_per_chair_hour": parts.money_column("After product", settings),
        "net_per_hands_on_hour": parts.money_column("Net per hands-on hour", settings),
        "chair_hours": parts.number_column("Chair hours", 1),
        "hands_on_hours": parts.number_column("Hands-on hours", 1),
        "lines": parts.number_column("Times done"),
        "net": parts.money_column("Net", settings),
        "product_cost": parts.money_column("Product", settings),
    },
    f"Chair hours by service, {month}",
    "chairs",
)
parts.head("How much of the opening hours each chair was taken")
parts.html(
    bars.drawn(
        bars.occupancy_bars(read.compared("occupancy", "chair", "occupied_share").to_dicts(), settings), whole=1.0
    )
)
parts.worked_out("chairs", "occupancy")
parts.show_rows(lambda: read.rows("chairs", month), "chairs_rows")
