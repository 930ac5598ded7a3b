"""Weeks with far fewer booking lines than the weeks around them, as when part of an export is missing.

Lines of any status count: a cancelled visit was exported too. The first and last days with visits, days listed as
closed, the days around Christmas and open days that `calendar_gaps` names are left out on both sides.
"""

import polars as pl

from analytics.checks.cross_checks import calendar_gaps
from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_site
from analytics.checks.cross_checks.visited_days import ends, is_shut, visited_days
from analytics.definitions.columns import LINEAGE
from analytics.methods.short_weeks import short_weeks
from analytics.settings import Hours, Settings

_WEEKS = pl.DataFrame(
    schema=LINEAGE
    | {"site": pl.String(), "first_day": pl.Date(), "last_day": pl.Date()}
    | {"lines": pl.Int64(), "usual": pl.Float64(), "short": pl.Int64()}
)


def booking_weeks(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per site and run of weeks: lines, how many are usual, and short, 1 where they are far fewer in each of them.

    Weeks that cannot be judged are left out. file and row are those of the last line, or of the last one before.
    """
    runs = calendar_gaps.calendar_runs(tables, settings).filter(calendar_gaps.is_gap())
    parts = visited_days(tables["bookings"]).partition_by("site")
    each = (_weeks(days, settings.hours, runs.filter(site=days["site"][0])) for days in parts)
    return pl.concat([_WEEKS.clone(), *each])


def _weeks(days: pl.DataFrame, hours: Hours, runs: pl.DataFrame) -> pl.DataFrame:
    """The weeks of one site."""
    reach = ends(days)
    if reach is None:
        return _WEEKS
    calendar = pl.DataFrame({"day": pl.date_range(*reach, eager=True)})
    weekday, lines = pl.col("day").dt.weekday(), pl.when("judged").then(pl.col("lines").fill_null(0))
    weeks = (
        calendar.join(days, on="day", how="left", maintain_order="left")
        .with_columns(pl.col("site", *LINEAGE).forward_fill(), judged=_judged(hours, runs))
        .with_columns(lines=lines)
        .with_columns(weight=pl.when("judged").then(pl.col("lines").mean().over(weekday)))
        .group_by(week=pl.col("day").dt.truncate("1w"), maintain_order=True)
        .agg(pl.col("site", *LINEAGE).last(), pl.col("lines", "weight").sum())
    )
    usual, short = short_weeks(*(weeks[name].cast(pl.Float64).to_numpy() for name in ("lines", "weight")))
    judged = weeks.with_columns(usual=pl.Series(usual, nan_to_null=True), short=pl.Series(short)).drop_nulls("usual")
    runs = judged.group_by(pl.col("short").rle_id().alias("run"), maintain_order=True).agg(
        pl.col("site", "short", *LINEAGE).last(),
        pl.col("lines", "usual").sum(),
        first_day=pl.col("week").first(),
        last_day=pl.col("week").last() + pl.duration(days=6),
    )
    return runs.select(pl.col(name).cast(kind) for name, kind in _WEEKS.schema.items())


def _judged(hours: Hours, runs: pl.DataFrame) -> pl.Expr:
    gaps = [pl.col("day").is_between(*span) for span in runs.select("first_day", "last_day").iter_rows()]
    return ~pl.any_horizontal(is_shut(hours), *gaps)


CROSS_CHECKS = (
    CrossCheck(
        "short_week",
        "bookings",
        "starts_at",
        number("short", "1 where the weeks have far fewer lines than usual", high=0),
        booking_weeks,
        value=with_site(pl.format("{} to {}", "first_day", "last_day")),
        expected=pl.format(
            "{} booking lines where about {} are usual", "lines", pl.col("usual").round(0).cast(pl.Int64)
        ),
    ),
)
