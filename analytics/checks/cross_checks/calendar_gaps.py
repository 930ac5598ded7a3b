"""Open days in a row without a visit, which look like a missing export; those around Christmas do not count."""

from datetime import date

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number, with_site
from analytics.checks.cross_checks.visited_days import ends, is_shut, visited_days
from analytics.definitions.columns import LINEAGE
from analytics.settings import WEEKDAYS, Hours, Settings

OPEN_DAYS = 7
TIMES_USUAL = 3

_RUNS = pl.DataFrame(
    schema=LINEAGE
    | {
        "site": pl.String(),
        "first_day": pl.Date(),
        "last_day": pl.Date(),
        "empty_days": pl.Int64(),
        "days_beyond": pl.Float64(),
    }
)


def calendar_runs(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per run of open days without any visit: first_day, last_day, empty_days, and days_beyond what is usual there.

    What is usual is three times the empty days before nine in ten visited days: a salon that works one day a week is
    no gap. file and row are those of the last visit before the run.
    """
    parts = visited_days(tables["bookings"]).partition_by("site")
    return pl.concat([_RUNS.clone(), *(_runs(days, settings.hours) for days in parts)])


def is_gap() -> pl.Expr:
    """Whether a run is a finding."""
    return pl.col("days_beyond") > OPEN_DAYS - 1


def _runs(days: pl.DataFrame, hours: Hours) -> pl.DataFrame:
    """The runs of one salon."""
    reach = ends(days)
    if reach is None:
        return _RUNS
    calendar = _open_or_visited(days, hours, *reach)
    runs = (
        calendar.with_columns(pl.col("site", *LINEAGE).forward_fill(), run=pl.col("visited").rle_id())
        .filter(~pl.col("visited"))
        .group_by("run", maintain_order=True)
        .agg(
            pl.col("site", *LINEAGE).first(),
            first_day=pl.col("day").first(),
            last_day=pl.col("day").last(),
            empty_days=pl.len().cast(pl.Int64),
        )
    )
    return runs.with_columns(days_beyond=pl.col("empty_days") - TIMES_USUAL * _usual_run(calendar)).select(
        _RUNS.columns
    )


def _open_or_visited(days: pl.DataFrame, hours: Hours, first: date, last: date) -> pl.DataFrame:
    """The days from first to last that are open by salon.toml, those around Christmas left out, or have a visit."""
    weekdays = [place for place, name in enumerate(WEEKDAYS, start=1) if getattr(hours, name)]
    calendar = pl.DataFrame({"day": pl.date_range(first, last, eager=True)})
    is_open = pl.col("day").dt.weekday().is_in(weekdays) & ~is_shut(hours)
    return (
        calendar.join(days, on="day", how="left", maintain_order="left")
        .with_columns(visited=pl.col("happened").is_not_null())
        .filter(is_open | pl.col("visited"))
    )


def _usual_run(calendar: pl.DataFrame) -> float:
    """Empty days before a visited day: nine in ten have no more."""
    before = calendar["visited"].arg_true().cast(pl.Int64).diff().drop_nulls() - 1
    return float(before.quantile(0.9) or 0.0)


CROSS_CHECKS = (
    CrossCheck(
        "calendar_gap",
        "bookings",
        "starts_at",
        number("days_beyond", "open days without a visit, beyond what is usual", high=OPEN_DAYS - 1),
        calendar_runs,
        value=with_site(pl.format("{} to {}", "first_day", "last_day")),
        expected=pl.col("empty_days").cast(pl.String),
    ),
)
