"""Why the money of a day does not agree, down to the visit."""

from decimal import Decimal

import polars as pl

from analytics.records.chairs.stays import VISIT
from analytics.records.money.settling import DUE, naming_sites

SETTLED_ELSEWHERE = ("other_day",)  # nothing is wrong: the money came on another day
CAUSES = {
    "not_paid": "not paid",
    "paid_twice": "paid twice",
    "other_day": "paid on another day",
    "other_amount": "paid another amount",
    "not_completed": "paid for a visit that is not completed",
    "unknown_visit": "paid for a visit that is not in the bookings",
    "counter": "bought or given back over the counter, not paid alike",
    "whole_day": "no payment names its visit: the day as a whole",
}


def unsettled(settlements: pl.DataFrame, bookings: pl.DataFrame, payments: pl.DataFrame) -> pl.DataFrame:
    """Rows of `reconciled` that have a difference: day, site, booking_id, due, paid, difference, cause, left, visit_on,
    paid_on.

    due: with vouchers sold and deposits received that day, less the deposit that was used. left: what the visit's
    differences come to over the whole book (nothing where it was paid on another day; what belongs to no visit is
    settled by the day). visit_on: day of the visit; paid_on: day of its first payment.
    """
    due = pl.sum_horizontal(*DUE, "vouchers_sold", "deposits_received") - pl.col("deposits_used")
    joined = settlements.filter(pl.col("difference") != 0).with_columns(due=due)
    whole = (
        settlements.filter(pl.col("booking_id").is_not_null())
        .group_by(VISIT)
        .agg(left=pl.col("difference").sum(), _due=pl.sum_horizontal(*DUE).sum())
    )
    for more in (whole, _visits(bookings), _paid(payments), _repeated(payments)):
        joined = joined.join(more, on=VISIT, how="left", maintain_order="left")
    joined = joined.with_columns(pl.coalesce("left", "difference").cast(pl.Decimal(38, 4)).alias("left"))
    columns = ["day", "site", "booking_id", "due", "paid", "difference", "left", "cause", "visit_on", "paid_on"]
    return joined.with_columns(cause=_cause(naming_sites(payments))).select(columns)


def with_tolerance(differences: pl.DataFrame, tolerance: Decimal) -> pl.DataFrame:
    """Rows of `unsettled` with tolerated, where so little is left that it decides nothing, and open, where more is left
    and nothing explains it."""
    little = pl.col("left").abs() <= tolerance
    return differences.with_columns(tolerated=little, open=~little & ~pl.col("cause").is_in(SETTLED_ELSEWHERE))


def left_open(differences: pl.DataFrame) -> pl.DataFrame:
    """Of rows as with_tolerance has them those that are open, each visit once, and what belongs to none once a day."""
    by_day = pl.when(pl.col("booking_id").is_null()).then("day").alias("one_day")
    once = ["site", "booking_id", "one_day"]
    return differences.filter("open").with_columns(by_day).unique(once, keep="first", maintain_order=True)


def _visits(bookings: pl.DataFrame) -> pl.DataFrame:
    return bookings.group_by(VISIT).agg(
        visit_on=pl.col("starts_at").min().dt.date(),
        _completed=(pl.col("status") == "completed").any(),
    )


def _paid(payments: pl.DataFrame) -> pl.DataFrame:
    return payments.group_by(VISIT).agg(paid_on=pl.col("paid_at").min().dt.date())


def _repeated(payments: pl.DataFrame) -> pl.DataFrame:
    """The amounts that stand more than once among a visit's payments."""
    more = payments.group_by(*VISIT, "amount").len().filter(pl.col("len") > 1)
    return more.group_by(VISIT).agg(_amounts=pl.col("amount").cast(pl.Decimal(38, 4)))


def _cause(naming: list[str]) -> pl.Expr:
    nothing_due = pl.col("_due") == 0
    repeated = pl.col("_amounts").list.contains(pl.col("left")).fill_null(False)
    return (
        pl.when(pl.col("booking_id").is_null())
        .then(pl.when(pl.col("site").is_in(naming)).then(pl.lit("counter")).otherwise(pl.lit("whole_day")))
        .when(pl.col("left") == 0)
        .then(pl.lit("other_day"))
        .when(nothing_due & pl.col("visit_on").is_null())
        .then(pl.lit("unknown_visit"))
        .when(nothing_due & ~pl.col("_completed"))
        .then(pl.lit("not_completed"))
        .when(pl.col("paid_on").is_null())
        .then(pl.lit("not_paid"))
        .when(repeated)
        .then(pl.lit("paid_twice"))
        .otherwise(pl.lit("other_amount"))
    )
