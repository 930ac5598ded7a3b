"""The sheets of stock: by month, what stands on the shelves by product, and what is written down of it."""

import polars as pl

from analytics.definitions.vocabulary import KINDS
from analytics.handover.accountant.period_rows import Gathered
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.periods import Period

VALUATIONS = {"average": "moving average", "fifo": "first in, first out"}
REASONS = {"expired": "expired", "no_movement": "not moved for {} days", "price": "sells below its cost"}
FLOWS = ["opening", "written_down", "reversed", "released", "closing"]
RECORDED = (
    "Recorded stock: what deliveries, counts, bowls and sales leave. What is probably there, with the bowls nobody "
    "logged, is another amount: an estimate on the page Stock, in no account."
)


def stock_sheets(gathered: Gathered, period: Period) -> list[AccountSheet]:
    """By month of the period, by product at its end, and write-downs; without deliveries or counts all are empty."""
    return [make(gathered, period) for make in (_months, _products, _written_down)]


def _months(gathered: Gathered, period: Period) -> AccountSheet:
    shown = gathered.figure("stock_months", period)
    note = (
        "No deliveries or counts are in the exports."
        if gathered.stocked.nothing
        else f"At cost without tax, by {VALUATIONS[gathered.settings.stock.valuation]}, less what is written down "
        f"(IAS 2); whole months. {RECORDED}"
    )
    sums = ("found", "purchases", "used", "unexplained", "written_down", "reversed", "released")
    checks = (("closing", "{opening}+{found}+{purchases}-{used}"), ("carrying", "{closing}-{allowance}"))
    return AccountSheet("stock", "Purchases and stock", shown, note, sums, checks=checks)


def _products(gathered: Gathered, period: Period) -> AccountSheet:
    """What was bought in the months of the period and what stands there at their end; parts add up to the months'."""
    columns = ["site", "product", "kind", "purchases", "quantity", "unit", "closing", "allowance", "carrying"]
    shelves = gathered.figure("closing_stock", period).rename({"salon": "site"})
    frame = (
        shelves.sort("site", "kind", "product", "product_id")
        .with_columns(pl.col("kind").replace(KINDS))
        .select(*columns, "counted_on", "short", "short_since")
    )
    note = (
        "A product whose cost is not known has no value. Short: more was used or sold than delivered or counted; a "
        "delivery or count from before that day is missing, or a row of that day is a slip. It has no value."
    )
    sums = ("purchases", "closing", "allowance", "carrying")
    checks = (("carrying", "{closing}-{allowance}"),)
    return AccountSheet("closing_stock", "Closing stock", one_site(frame), note, sums, checks=checks)


def _written_down(gathered: Gathered, period: Period) -> AccountSheet:
    days = gathered.settings.stock.unsaleable_after_days
    rows = gathered.figure("write_downs", period).rename({"salon": "site"})
    frame = (
        rows.sort("site", "product_id", "month", "reason")
        .with_columns(
            pl.col("reason").replace({reason: words.format(days) for reason, words in REASONS.items()}),
            pl.col("kind").replace(KINDS),
        )
        .select("month", "site", "product", "kind", "reason", *FLOWS)
    )
    note = (
        "What it can still bring, where that is less than its cost (IAS 2.9): nothing once expired or unmoved, retail "
        "its typical price. Released is of stock that has left since; reversed what can bring more again (IAS 2.33)."
    )
    checks = (("closing", "{opening}+{written_down}-{reversed}-{released}"),)
    sums = ("written_down", "reversed", "released")
    return AccountSheet("write_downs", "Write-downs", one_site(frame), note, sums, checks=checks)
