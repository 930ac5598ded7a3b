"""The past replayed: what would have been said of each client at the last month ends, and what came."""

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np
import polars as pl

from analytics.methods import scores
from analytics.periods import add_months
from analytics.records.clients.habits import Habits
from analytics.records.clients.rhythm import habits
from analytics.records.clients.root_visits import CLIENT, root_lines, root_visits
from analytics.records.clock import Clock, clock
from analytics.records.memo import memoised
from analytics.settings import Settings

MONTH_ENDS = 12
WITHIN_DAYS = 90
SIX_WEEKS = 42
ROWS = {
    "origin": pl.Date(),
    "site": pl.String(),
    "client_id": pl.String(),
    "kind": pl.String(),
    "gaps": pl.Int64(),
    "days_since": pl.Int64(),
    "expected_on": pl.Date(),
    "expected_low_on": pl.Date(),
    "expected_high_on": pl.Date(),
    "chance_of_return": pl.Float64(),
    "chance_within_90_days": pl.Float64(),
    "came_on": pl.Date(),
    "came_within_90_days": pl.Boolean(),
    "six_weeks_on": pl.Date(),
    "kind_average_on": pl.Date(),
    "own_median_on": pl.Date(),
    "crps_days": pl.Float64(),
    "visits_expected_90_days": pl.Float64(),
    "visits_90_days": pl.Int64(),
}


@memoised
def replayed(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, as_of: str) -> pl.DataFrame:
    """One row per month end and client: what was said of her, by us and by each rule, and when she came.

    At each of the last MONTH_ENDS that WITHIN_DAYS known days follow, from the root visits up to that day alone. as_of:
    the day as text, YYYY-MM-DD.
    """
    visits = root_visits(root_lines(bookings, services), date.fromisoformat(as_of))
    parts = [_replayed(visits, clock(bookings, settings, origin), origin) for origin in _month_ends(visits)]
    return pl.concat([pl.DataFrame(schema=ROWS), *parts]).sort("origin", *CLIENT)


def _month_ends(visits: pl.DataFrame) -> Iterator[date]:
    """The last 12 with a root visit up to them and 90 days known after them."""
    if visits.is_empty():
        return
    first, last = visits.select(first=pl.col("day").min(), last=pl.col("day").max()).row(0)
    latest = last - timedelta(days=WITHIN_DAYS - 1)
    for months in range(MONTH_ENDS):
        origin = add_months(latest, -months) - timedelta(days=1)
        if origin >= first:
            yield origin


def _replayed(visits: pl.DataFrame, clock: Clock, origin: date) -> pl.DataFrame:
    known = visits.filter(pl.col("day") <= origin)
    habit = habits(known, origin, clock)
    day = pl.col("day")
    soon = (day <= origin + timedelta(days=WITHIN_DAYS)).sum().cast(pl.Int64)
    later = visits.filter(day > origin).group_by(CLIENT).agg(came_on=day.min(), visits_90_days=soon)
    rows = (
        habit.clients.join(habit.expected(), on=CLIENT, how="left", maintain_order="left")
        .join(later, on=CLIENT, how="left", maintain_order="left")
        .with_columns(
            origin=pl.lit(origin),
            after=(pl.col("came_on") - pl.lit(origin)).dt.total_days(),
            visits_90_days=pl.col("visits_90_days").fill_null(0),
            chance_within_90_days=pl.Series(habit.within(WITHIN_DAYS), dtype=pl.Float64),
            visits_expected_90_days=pl.Series(habit.visits_within(WITHIN_DAYS), dtype=pl.Float64),
        )
        .with_columns(came_within_90_days=(pl.col("after") <= WITHIN_DAYS).fill_null(False))
    )
    said = _with_rules(rows, known, origin).with_columns(crps_days=_crps(habit, rows["after"]))
    return said.select(pl.col(name).cast(dtype) for name, dtype in ROWS.items())


def _crps(habit: Habits, after: pl.Series) -> pl.Series:
    """Empty where she has not come."""
    step = np.clip(after.fill_null(1).to_numpy() - 1, 0, habit.reach - 1)
    score = pl.Series(scores.crps(habit.soon(), step), dtype=pl.Float64)
    return (
        pl.DataFrame({"after": after, "score": score})
        .select(pl.when(pl.col("after").is_not_null()).then("score"))
        .to_series()
    )


def _with_rules(rows: pl.DataFrame, known: pl.DataFrame, origin: date) -> pl.DataFrame:
    """The rows with the day that each of the rules people use would name."""
    gap = pl.col("gap_days")
    kinds = known.group_by("kind").agg(kind_mean=gap.mean(), kind_median=gap.median())
    own = known.group_by(CLIENT).agg(own_gap=gap.median())
    everyone = known.select(all_mean=gap.mean(), all_median=gap.median())
    tomorrow = pl.lit(origin + timedelta(days=1))

    def day(*gaps: str) -> pl.Expr:
        days = pl.coalesce(*gaps).fill_null(SIX_WEEKS).round().cast(pl.Int64)
        return pl.max_horizontal(pl.col("last_on") + pl.duration(days=days), tomorrow)

    return (
        rows.join(kinds, on="kind", how="left", maintain_order="left")
        .join(own, on=CLIENT, how="left", maintain_order="left")
        .join(everyone, how="cross", maintain_order="left")
        .with_columns(pl.lit(SIX_WEEKS).alias("six"))
        .with_columns(
            six_weeks_on=day("six"),
            kind_average_on=day("kind_mean", "all_mean"),
            own_median_on=day("own_gap", "kind_median", "all_median"),
        )
    )
