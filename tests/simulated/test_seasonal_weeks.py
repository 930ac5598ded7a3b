"""What `ahead` says, against what then happened, in salons with seasons, closed weeks and clients who book ahead.

Each salon is asked on four Sundays of its last year, from an export as it was that evening. The rule it is held against
is the same week a year before, times how much more the last twelve weeks brought than the same twelve a year before.
"""

from datetime import date, timedelta
from functools import cache

import polars as pl
from frames import services, work_out
from simulated.towns import KINDS, SERVICE, Story, Town, lived

SEEDS = (101, 102, 103)
ORIGINS = [date(2026, 3, 22) - timedelta(days=84 * number) for number in range(4)]
MENU = services(*({"service_id": SERVICE[kind], "kind": kind} for kind in KINDS))
YEAR, LATE = timedelta(days=364), timedelta(days=84)


def rule(came: pl.DataFrame, origin: date) -> pl.DataFrame:
    monday = origin - timedelta(days=origin.weekday())
    late, then = (
        came.filter(pl.col("week_start").is_between(start - LATE, start, closed="left"))["hours"].sum()
        for start in (monday, monday - YEAR)
    )
    return came.select(pl.col("week_start") + YEAR, rule=pl.col("hours") * (late / then))


def asked(story: Story, origin: date) -> pl.DataFrame:
    came = story.hours_by_week()
    said = work_out("ahead", bookings=story.bookings(origin), services=MENU, as_of=f"{origin}", salon=story.salon)
    return (
        said.with_row_index("ahead")
        .join(came, on="week_start", how="left")
        .join(rule(came, origin), on="week_start", how="left")
        .with_columns(pl.col("hours", "rule").fill_null(0.0))
        .filter(pl.col("ahead") >= 1)
    )


@cache
def weeks() -> pl.DataFrame:
    stories = [lived(Town.drawn(seed), seed) for seed in SEEDS]
    return pl.concat([asked(story, origin) for story in stories for origin in ORIGINS])


def error(rows: pl.DataFrame, said: str) -> float:
    return float(rows.select((pl.col(said) - pl.col("hours")).abs().mean()).item())


def test_errs_by_far_less_than_the_same_week_last_year_times_growth() -> None:
    far = weeks().filter(pl.col("ahead") >= 2)
    assert error(far, "chair_hours_expected") <= 0.49 * error(far, "rule")


def test_the_coming_week_is_told_by_what_is_booked() -> None:
    near, far = weeks().filter(pl.col("ahead") == 1), weeks().filter(pl.col("ahead") >= 5)
    assert error(near, "chair_hours_expected") <= 0.55 * error(far, "chair_hours_expected")


def test_eighty_percent_ranges_hold_eighty_percent() -> None:
    within = pl.col("hours").is_between(pl.col("chair_hours_low") - 1e-6, pl.col("chair_hours_high") + 1e-6)
    for first, last in ((1, 4), (5, 8), (9, 12)):
        some = weeks().filter(pl.col("ahead").is_between(first, last))
        assert 0.7 <= some.select(within.mean()).item() <= 0.92


def test_no_week_holds_more_than_its_chairs_and_an_overflow_is_said_of_full_weeks_alone() -> None:
    rows = weeks()
    assert (rows["chair_hours_expected"] <= rows["chair_hours_open"] + 1e-6).all()
    overflows = rows.filter(
        pl.col("chair_hours_wanted_low") > pl.col("chair_hours_open"), pl.col("chair_hours_open") > 0
    )
    assert (overflows["hours"] >= 0.9 * overflows["chair_hours_open"]).all()
