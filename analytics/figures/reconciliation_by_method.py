"""What was due and what was received, by day and method of payment.

A visit's due stands with the ways it was paid; its difference (see `reconciliation`) with the method of its last
payment that day, or with none where nothing was paid. Vouchers stand among the methods, so due and received hold what
was paid with them. Due is received less the difference, and the differences of a day are those of `reconciliation`.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.settling import KEY, of_visits

RESULT = Result(
    "one row per day, site and method of payment",
    key=("day", "site", "method"),
    columns={
        "day": Column(DAY, "day of the payments"),
        **SITE_KEY,
        "method": Column(TEXT, "cash, card, bank, voucher or other; empty for what was not paid at all"),
        "due": Column(MONEY, "what should have been received that way"),
        "received": Column(MONEY, "what was, refunds taken off"),
        "difference": Column(MONEY, "received − due"),
    },
)


def reconciliation_by_method(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per day, site and method with anything received or a difference; money in the currency."""
    return RESULT.shape(
        reconciliation_by_method_rows(money, period=period)
        .group_by("day", "site", "method")
        .agg(pl.col("received", "difference").sum())
        .filter((pl.col("received") != 0) | (pl.col("difference") != 0))
        .with_columns(due=pl.col("received") - pl.col("difference"))
        .sort("day", "site", "method")
    )


def reconciliation_by_method_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """Each payment with what was received, and each visit's day with its difference and the method it stands with."""
    paid = of_visits(money.paid).sort("paid_at", "file", "row")
    last = paid.group_by(KEY, maintain_order=True).agg(pl.col("method").last())
    carried = money.settlements.drop("received").join(last, on=KEY, how="left", nulls_equal=True, maintain_order="left")
    columns = [*KEY, "method", *(pl.col(name).cast(MONEY.dtype) for name in ("received", "difference"))]
    parts = [
        paid.with_columns(received="amount", difference=pl.lit(0)).select(columns),
        carried.with_columns(pl.col("method").fill_null(""), received=pl.lit(0)).select(columns),
    ]
    return pl.concat(parts).filter(period.holds(pl.col("day")))


FIGURE = Figure(reconciliation_by_method, reconciliation_by_method_rows, RESULT)
