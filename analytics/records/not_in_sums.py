"""What keeps rows of a period out of its sums, in words, and how much money of the period that is."""

from datetime import date

import polars as pl

from analytics.periods import Period

MONEY = pl.Decimal(38, 4)
SUMMED = ("bookings", "sales", "payments")


def not_in_sums(
    set_aside: pl.DataFrame, findings: pl.DataFrame, period: Period, as_of: date, tables: tuple[str, ...] = SUMMED
) -> pl.DataFrame:
    """By cause, most money first: message, what_to_do, table, rows, amount (what they would have added), and other_rows
    and other_amount, those of all other causes.

    set_aside, findings: those of the book. Rows that do not say their day are in no period; visits from as_of on are
    only booked.
    """
    key = ["code", "file", "column", "value"]
    day = pl.col("day")
    here = set_aside.filter(
        period.holds(day) & pl.col("table").is_in(list(tables)) & ((day < as_of) | (pl.col("table") != "bookings"))
    )
    said = findings.select(*key, "message", "what_to_do")
    exact = here.join(said.unique(key, keep="first"), on=key, how="left", nulls_equal=True)
    rest = said.unique(key[:3], keep="first").drop("value")
    causes = exact.join(rest, on=key[:3], how="left", nulls_equal=True, suffix="_rest").with_columns(
        pl.coalesce("message", "message_rest").alias("message"),
        pl.coalesce("what_to_do", "what_to_do_rest").alias("what_to_do"),
    )
    summed = causes.group_by("message", "what_to_do", "table").agg(
        rows=pl.len().cast(pl.Int64), amount=pl.col("amount").cast(MONEY).sum()
    )
    others = [(pl.col(name).sum() - pl.col(name)).alias(f"other_{name}") for name in ("rows", "amount")]
    return summed.with_columns(others).sort(pl.col("amount").abs(), "rows", "message", descending=[True, True, False])


def received(payments: pl.DataFrame, period: Period) -> pl.DataFrame:
    """One row: amount, the money received in the period."""
    return payments.filter(period.holds(pl.col("paid_at").dt.date())).select(pl.col("amount").cast(MONEY).sum())
