"""The days on which a salon had visits, and between which of them its calendar can be judged."""

from datetime import date

import polars as pl

from analytics.checks.cross_checks.cross_check import with_lineage
from analytics.settings import Hours

CHRISTMAS = "12-22", "01-06"  # from this day to that one salons shut as they please
EDGE_DAYS = 5  # so many days with visits at either end hold no gap: a slip in the year is not an end of the calendar
HAPPENED = ("completed", "no_show")


def visited_days(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per salon and day with a visit of any status, in order: how many lines, whether one happened, and the
    day's last line."""
    days = (
        bookings.select("site", day=pl.col("starts_at").dt.date(), happened=pl.col("status").is_in(HAPPENED))
        .with_row_index("place")
        .group_by("site", "day")
        .agg(pl.col("happened").any(), pl.col("place").max(), lines=pl.len())
    )
    return with_lineage(days, bookings).sort("site", "day")


def is_shut(hours: Hours) -> pl.Expr:
    """Whether a day is listed as closed, or one of those around Christmas on which many shut without listing it."""
    month_day = pl.col("day").dt.strftime("%m-%d")
    festive = (month_day >= CHRISTMAS[0]) | (month_day <= CHRISTMAS[1])
    return festive | pl.col("day").is_in(pl.Series(hours.closed, dtype=pl.Date).implode())


def ends(days: pl.DataFrame) -> tuple[date, date] | None:
    """The days between which a salon's calendar can be judged, from its visited days; None where there are too few."""
    happened = days.filter("happened")["day"]
    return (happened[EDGE_DAYS - 1], happened[-EDGE_DAYS]) if len(happened) >= 2 * EDGE_DAYS else None
