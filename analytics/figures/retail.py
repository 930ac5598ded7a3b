"""What is sold over the counter, what it leaves, and in how many visits.

Units are pieces sold less those brought back. Net is what was charged (quantity × price less discount) without tax;
cost is units × the pack cost valid on the day of the sale; margin is net − cost and its share margin ÷ net. A visit has
a sale where a retail row names it, or names its client on that day without a visit; a visit in which all was brought
back has none. Visits and visits with a sale are those of the whole month, the same in every row of it, and so are the
share of the one in the other, and units, net and margin of all products together; the month's margin is that of the
products whose cost is known, its share margin ÷ net of these. Visits with a sale stay empty where no retail row names a
visit or a client. What is sold to somebody who was not in for a visit counts in units and money, not in that share.
"""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, PIECES, SHARE, TEXT, VISITS, Column, Figure, Result
from analytics.methods.quotient import per
from analytics.money import digits_of, rounded
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.retail_visits import with_sale

RESULT = Result(
    "one row per month and product",
    key=("month", "product_id"),
    columns={
        **MONTH_KEY,
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "units": Column(PIECES, "pieces sold, those brought back taken off"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "cost": Column(MONEY, "what the pieces cost, at the pack cost of their day"),
        "margin": Column(MONEY, "net − cost"),
        "margin_share": Column(SHARE, "margin ÷ net"),
        "visits": Column(VISITS, "completed visits of the month, all products"),
        "visits_with_sale": Column(VISITS, "of these, visits in which something was sold"),
        "month_units": Column(PIECES, "pieces of the month, all products"),
        "month_net": Column(MONEY, "net of the month, all products"),
        "month_margin": Column(MONEY, "margin of the month, all products whose cost is known"),
        "month_margin_share": Column(SHARE, "that ÷ net of those products"),
        "sale_share": Column(SHARE, "visits with a sale ÷ visits, all products"),
    },
)


def retail(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month and product sold; money in the currency."""
    visits = money.visits.filter(period.holds(pl.col("starts_at")))
    of_month = visits.group_by("month").agg(visits=pl.len(), visits_with_sale=with_sale())
    cost = pl.when(pl.col("cost").is_not_null().all()).then(pl.col("cost").sum())
    earned = pl.col("net").cast(pl.Float64) != 0
    return RESULT.shape(
        retail_rows(money, period=period)
        .sort("sold_at", "file", "row")
        .group_by("month", "product_id", maintain_order=True)
        .agg(
            pl.col("product").last(),
            pl.col("units", "gross", "net").sum(),
            cost=rounded(cost, digits_of(money.settings.salon.currency)),
        )
        .with_columns(margin=pl.col("net") - pl.col("cost"))
        .with_columns(
            margin_share=pl.when(earned).then(pl.col("margin").cast(pl.Float64) / pl.col("net").cast(pl.Float64))
        )
        .join(of_month, on="month", how="left")
        .with_columns(pl.col("visits").fill_null(0))
        .with_columns(_of_the_month())
        .sort("month", "product_id")
    )


def _of_the_month() -> list[pl.Expr]:
    """What all products of a month come to, the same in every row of it."""
    known = pl.col("margin").is_not_null()
    margin, net = (pl.col(name).filter(known).sum() for name in ("margin", "net"))
    of_all = {
        "month_units": pl.col("units").sum(),
        "month_net": pl.col("net").sum(),
        "month_margin": pl.when(known.any()).then(margin),
        "month_margin_share": pl.when(net != 0).then(margin.cast(pl.Float64) / net.cast(pl.Float64)),
    }
    share = per("visits_with_sale", "visits")
    return [*(value.over("month").alias(name) for name, value in of_all.items()), share.alias("sale_share")]


def retail_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The sales rows the figure adds up, with units, gross, net, tax and cost."""
    return money.retail.filter(period.holds(pl.col("sold_at")))


FIGURE = Figure(retail, retail_rows, RESULT)
