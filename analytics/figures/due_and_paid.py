"""What was due, part by part, and what was paid, by way of payment, over the period.

Due is what completed lines charged with tax, retail items with tax, tips, vouchers sold and deposits received, less
deposits used, each as in `reconciliation`. Paid is every payment, those with vouchers among them, refunds taken off.
What was paid in all less what was due in all is the difference of `reconciliation`, added up over the period. A part of
what was due that comes to nothing is left out.
"""

import polars as pl

from analytics.definitions.results import MONEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per side and part of it, over the period",
    key=("side", "part"),
    columns={
        "side": Column(TEXT, "due or paid"),
        "part": Column(TEXT, "as in reconciliation, deposits_used below 0; of what was paid, the method"),
        "amount": Column(MONEY, "what of it was due or paid, tax included"),
        "side_amount": Column(MONEY, "what was due, or paid, in all"),
    },
)
PARTS = ["charged_gross", "retail_gross", "tips", "vouchers_sold", "deposits_received", "deposits_used"]


def due_and_paid(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """What was due in the order of its parts, then what was paid, most first; money in the currency."""
    rows = due_and_paid_rows(money, period=period)
    place = pl.col("part").replace_strict({part: at for at, part in enumerate(PARTS)}, default=len(PARTS))
    return RESULT.shape(
        rows.group_by("side", "part")
        .agg(pl.col("amount").sum())
        .filter((pl.col("side") == "paid") | (pl.col("amount") != 0))
        .with_columns(side_amount=pl.col("amount").sum().over("side"))
        .sort("side", place, pl.col("amount"), "part", descending=[False, False, True, False])
    )


def due_and_paid_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """What was due by day, site and visit, part by part, and each payment: side, part, day, site, amount."""
    due = money.settlements.with_columns(deposits_used=-pl.col("deposits_used")).unpivot(
        PARTS, index=["day", "site", "booking_id"], variable_name="part", value_name="amount"
    )
    paid = money.paid.select("site", "booking_id", "amount", "day", part="method")
    columns = ["side", "part", "day", "site", "booking_id", "amount"]
    both = [
        due.filter(pl.col("amount") != 0).with_columns(side=pl.lit("due")).select(columns),
        paid.with_columns(side=pl.lit("paid")).select(columns),
    ]
    kinds = pl.col("part").cast(pl.String), pl.col("amount").cast(MONEY.dtype)
    rows = pl.concat([side.with_columns(*kinds) for side in both])
    return rows.filter(period.holds(pl.col("day"))).sort(columns)


FIGURE = Figure(due_and_paid, due_and_paid_rows, RESULT)
