"""Chair hours: what an hour in the chair brings, service by service, and what it costs to keep the chair open."""

from analytics import sentences
from dashboard import bars, charts, parts, week
from dashboard.data import reading

SPLITS = {"service": "By service", "kind": "By kind of work", "chair": "By chair"}
WEEK = {week.TAKEN: "How full", week.BROUGHT: "Net per open hour"}

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
split = parts.choice("Split by", SPLITS, "split")
parts.note(sentences.coverage_sentence(read.bowl_months(), settings, month))
parts.table(
    read.split(split),
    {
        "item": SPLITS[split].removeprefix("By ").capitalize(),
        "net_per_chair_hour": parts.money_column("Net per chair hour", settings),
        "previous": parts.money_column("month before", settings),
        "year_ago": parts.money_column("a year before", settings),
        "after_product_per_chair_hour": parts.money_column("After product", settings),
        "net_per_hands_on_hour": parts.money_column("Net per hands-on hour", settings),
        "after_product_per_hands_on_hour": parts.money_column("After product, hands-on", settings),
        "chair_hours": parts.number_column("Chair hours", 1),
        "hands_on_hours": parts.number_column("Hands-on hours", 1),
        "lines": parts.number_column("Times done"),
        "net": parts.money_column("Net", settings),
        "product_cost": parts.money_column("Product", settings),
    },
    f"Chair hours by {split}, {month}",
    "chairs",
)
parts.head("Empty chair hours and what they cost")
parts.said(sentences.empty_sentence(read.figure("economics", month), settings, month))
parts.html(bars.drawn(bars.occupancy_bars(read.chairs_taken(), settings), whole=1.0))

parts.head("The hours of the week")
parts.said(sentences.week_sentence(read.year("hours_of_week"), settings))
shown = parts.choice("Shown", WEEK, "week")
parts.html(week.drawn(read.year("hours_of_week").to_dicts(), shown, settings))
parts.note(
    "The twelve months up to and with this one. The stronger the shade, the fuller the chairs, or the more an open "
    "chair hour brings; visits are spread evenly over the time they took."
)
parts.worked_out("chairs", "economics", "occupancy", "hours_of_week")
parts.show_rows(lambda: read.rows("chairs", month), "chairs_rows")
