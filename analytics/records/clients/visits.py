"""Visits: what became of each, whether it was the client's first, and whether the next one was made by then."""

import polars as pl

from analytics.records.chairs.stays import VISIT
from analytics.records.clients.root_visits import CLIENT
from analytics.records.memo import memoised


@memoised
def told_visits(bookings: pl.DataFrame) -> pl.DataFrame:
    """Visits with `first` and `rebooked`."""
    return with_rebooked(with_first(visits(bookings)))


def visits(bookings: pl.DataFrame) -> pl.DataFrame:
    """One row per visit and client of any status: starts_at, day, booked_on, and whether it came, missed or cancelled.

    A visit came where any of its lines was completed, was missed where one is a no-show and none was completed, and was
    cancelled where all of its lines are. Refunds alone are no visit. booked_on is the earliest of its lines.
    """
    status = pl.col("status")
    return (
        bookings.group_by(*VISIT, "client_id")
        .agg(
            pl.col("starts_at", "booked_on").min(),
            came=(status == "completed").any(),
            missed=(status == "no_show").any() & ~(status == "completed").any(),
            cancelled=(status == "cancelled").all(),
            refund=(pl.col("price") < 0).all(),
        )
        .filter(~pl.col("refund"))
        .drop("refund")
        .with_columns(day=pl.col("starts_at").dt.date())
        .sort("starts_at", *VISIT, "client_id")
    )


def with_first(made: pl.DataFrame) -> pl.DataFrame:
    """Visits with `first`: it came, and no visit of this client that came stands before it in the book."""
    came = made.filter("came")
    first = came.group_by(CLIENT, maintain_order=True).agg(pl.col("booking_id").first(), first=pl.lit(True))
    return made.join(first, on=[*CLIENT, "booking_id"], how="left", maintain_order="left").with_columns(
        pl.col("first").fill_null(False)
    )


def with_rebooked(made: pl.DataFrame) -> pl.DataFrame:
    """Visits with `rebooked`: the client's next visit on a later day, of any status, was made no later than that day.

    False where there is no later visit; null where it has no booked_on, or none of the visits has.
    """
    if made["booked_on"].null_count() == made.height:
        return made.with_columns(rebooked=pl.lit(None, pl.Boolean()))
    days = (
        made.group_by(*CLIENT, "day", maintain_order=True)
        .agg(next_booked_on=pl.col("booked_on").first())
        .rename({"day": "next_day"})
        .sort("next_day")
    )
    later = made.sort("day").join_asof(
        days,
        left_on="day",
        right_on="next_day",
        by=CLIENT,
        strategy="forward",
        allow_exact_matches=False,
        check_sortedness=False,
    )
    alone = pl.col("next_day").is_null()
    return later.with_columns(
        rebooked=pl.when(alone).then(pl.lit(False)).otherwise(pl.col("next_booked_on") <= pl.col("day"))
    ).sort("starts_at", *VISIT, "client_id")
