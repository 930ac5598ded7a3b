"""Tips, by day, and the tax in them.

Freely given, tips are outside the tax and passed on: net is the tip, and there is no tax in it. A compulsory charge, by
[accounting] tips, is inside the tax, at the rate of its line and rounded with its visit: tip = net + tax.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.settings import Settings

RESULT = Result(
    "one row per day and site with a tip",
    key=("day", "site"),
    columns={
        "day": Column(DAY, "day of the visits"),
        **SITE_KEY,
        "tips": Column(MONEY, "tips of completed visits"),
        "net": Column(MONEY, "of it, without the tax in them"),
        "tax": Column(MONEY, "the tax in them; nothing where they are outside the tax"),
    },
)


def tips(money: MoneyRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per day and site with a tip; money in the currency."""
    rows = tips_rows(money, settings=settings, period=period)
    return RESULT.shape(rows.group_by("day", "site").agg(pl.col("tips", "net", "tax").sum()).sort("day", "site"))


def tips_rows(money: MoneyRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """Every line with a tip: day, site, booking_id, tips, net, tax, file and row."""
    if settings.accounting.tips == "inside":
        given = money.taxed.filter(pl.col("supply") == "tips").with_columns(tips="gross")
    else:
        given = money.lines.filter(pl.col("tip") != 0).with_columns(tips="tip", net="tip", tax=pl.lit(0))
    columns = ["day", "site", "booking_id", "tips", "net", "tax", "file", "row"]
    return given.filter(period.holds(pl.col("day"))).select(columns).sort("day", "site", "booking_id", "file", "row")


FIGURE = Figure(tips, tips_rows, RESULT)
