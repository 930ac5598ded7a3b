"""Whether what was paid agrees with what was due, visit by visit and day by day."""

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.records.money.settling import DUE, KEY

SIDES = [
    "charged_gross",
    "tips",
    "retail_gross",
    "vouchers_sold",
    "vouchers_used",
    "deposits_received",
    "deposits_used",
]


def reconciled(days: pl.DataFrame, deposits: pl.DataFrame) -> pl.DataFrame:
    """days (visit_days) with deposits_received (what was given back taken off), deposits_used, received (what was paid
    without vouchers) and difference = paid + deposits_used − due − vouchers_sold − deposits_received.

    What is kept of deposits moves no money and is in none of them.
    """
    move, amount = pl.col("move"), pl.col("amount")
    moved = deposits.group_by(KEY).agg(
        deposits_received=amount.filter(move.is_in(["received", "returned"])).sum(),
        deposits_used=-amount.filter(move == "used").sum(),
    )
    due = pl.sum_horizontal(*DUE, "vouchers_sold", "deposits_received")
    return (
        days.drop("file", "row")
        .join(moved, on=KEY, how="left", nulls_equal=True, maintain_order="left")
        .with_columns(pl.col("deposits_received", "deposits_used").fill_null(0).cast(AMOUNT))
        .with_columns(
            received=pl.col("paid") - pl.col("vouchers_used"), difference=pl.col("paid") + pl.col("deposits_used") - due
        )
    )
