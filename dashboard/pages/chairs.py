"""Chair hours: what an hour in the chair brings, service by service, and what it costs to keep the chair open."""

from analytics import sentences
from analytics.definitions.rows import Row
from analytics.definitions.vocabulary import KINDS
from analytics.periods import Period, add_months, month_name
from dashboard import charts
from dashboard.data import reading
from dashboard.frames import Frame, in_words
from dashboard.page import Page
from dashboard.parts import bars, layout, week_hours

PAGE = Page(
    title="Chair hours",
    order=20,
    readers=("owner",),
    filters=("site", "month", "chair"),
    picture=(1280, 740),
)

SPLITS = {"service": "By service", "kind": "By kind of work", "chair": "By chair"}
WEEK = {week_hours.TAKEN: "How full", week_hours.BROUGHT: "Net per open hour"}


def compared(name: str, key: list[str], column: str) -> Frame:
    """The figure of the month, with one column as it was the month before and a year before."""
    first = Period.month(month).start
    frame = read.figure(name, month)
    for label, back in (("previous", -1), ("year_ago", -12)):
        then = read.figure(name, month_name(add_months(first, back))).select(*key, column)
        frame = frame.join(then.rename({column: label}), on=key, how="left", nulls_equal=True)
    return frame


def split_by(split: str) -> Frame:
    """The figure `economics` of the month by service, kind or chair, as it was before, most chair hours first."""
    rows = compared("economics", ["split", "item_id"], "net_per_chair_hour").filter(split=split)
    named = in_words(rows, "item", KINDS) if split == "kind" else rows
    return named.sort("chair_hours", "item_id", descending=[True, False])


def chairs_taken() -> list[Row]:
    """The figure `occupancy` of the month as it was before, with what the empty hours of each chair cost."""
    empty = read.figure("economics", month).filter(split="chair")
    costs = empty.select("empty_hours", "empty_cost", chair="item_id")
    return compared("occupancy", ["chair"], "occupied_share").join(costs, on="chair", how="left").to_dicts()


read = reading(PAGE)
settings, month = read.settings, read.month or ""
chairs = read.figure("chairs", month)
sentence = sentences.chairs_sentence(chairs, read.figure("month"), settings, month)
costs = sentences.costs_of(chairs, month)

layout.answer(sentence)
layout.said(sentences.under_sentence(chairs, settings, month))
layout.picture(charts.chair_blocks(chairs, costs, settings, layout.paper()), sentence, "blocks")
layout.note(
    "A block is a service: as wide as the hours it took the chairs, as high as the net an hour of it brought, so its "
    "area is money. The hatched top is product; the plain part should reach over the upper line, what a taken hour "
    "must carry. Under the lower one it does not even cover its own open time. Narrow blocks are named in the table."
)
split = layout.choice("Split by", SPLITS, "split")
layout.note(sentences.coverage_sentence(read.figure("bowls"), settings, month))
layout.table(
    split_by(split),
    {
        "item": SPLITS[split].removeprefix("By ").capitalize(),
        "net_per_chair_hour": layout.money_column("Net per chair hour", settings),
        "previous": layout.money_column("month before", settings),
        "year_ago": layout.money_column("a year before", settings),
        "after_product_per_chair_hour": layout.money_column("After product", settings),
        "net_per_hands_on_hour": layout.money_column("Net per hands-on hour", settings),
        "after_product_per_hands_on_hour": layout.money_column("After product, hands-on", settings),
        "chair_hours": layout.number_column("Chair hours", 1),
        "hands_on_hours": layout.number_column("Hands-on hours", 1),
        "lines": layout.number_column("Times done"),
        "net": layout.money_column("Net", settings),
        "product_cost": layout.money_column("Product", settings),
    },
    f"Chair hours by {split}, {month}",
    "chairs",
)
layout.head("Empty chair hours and what they cost")
layout.said(sentences.empty_sentence(read.figure("economics", month), settings, month))
layout.note(sentences.open_says(settings))
layout.html(bars.drawn(bars.occupancy_bars(chairs_taken(), settings), whole=1.0))

layout.head("The hours of the week")
layout.said(sentences.week_sentence(read.year("hours_of_week"), settings))
shown = layout.choice("Shown", WEEK, "week")
layout.html(week_hours.drawn(read.year("hours_of_week").to_dicts(), shown, settings))
layout.note(
    "The twelve months up to and with this one. The stronger the shade, the fuller the chairs, or the more an open "
    "chair hour brings; visits are spread evenly over the time they took."
)
layout.worked_out("chairs", "economics", "occupancy", "hours_of_week")
layout.show_rows(lambda: read.rows("chairs", month), "chairs_rows")
