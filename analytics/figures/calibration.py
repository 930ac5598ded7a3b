"""Whether what was said of clients came true: of like ranges and like chances, how many did.

What would have been said at the last 12 month ends, replayed as for `backtest`, is put in order and cut into up to six
groups of about equal size, of twenty or more each; equal values stay together, and where there are too few for two
groups there is no row. range: of the clients who came back, by how many days their 80 % range was wide (its first and
last day both count), the share who came within it, which should be 0.8 of each group. chance: by the chance said of
coming within 90 days, the share of clients who did, which should be the mean chance of each group.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import COUNT, NUMBER, SHARE, TEXT, Column, Figure, Result
from analytics.methods.calibration import reliability
from analytics.records.clients.replayed_past import replayed
from analytics.settings import Settings

RESULT = Result(
    "one row per range or chance and group of like values",
    key=("of", "group"),
    columns={
        "of": Column(TEXT, "range or chance"),
        "group": Column(COUNT, "1 is the narrowest, or the least likely", "group"),
        "predicted": Column(NUMBER, "mean width of the range, or mean chance of coming, 0–1", "days or chance"),
        "seen": Column(SHARE, "share who came within the range, or within 90 days"),
        "n": Column(COUNT, "in the group", "clients at month ends"),
    },
)


def calibration(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per group, ranges first; days, shares and clients at month ends."""
    rows = replayed(bookings, services, settings, f"{as_of}")
    came = rows.drop_nulls(["came_on", "expected_low_on", "expected_high_on"])
    width = (came["expected_high_on"] - came["expected_low_on"]).dt.total_days() + 1
    inside = came.select(pl.col("came_on").is_between("expected_low_on", "expected_high_on")).to_series()
    parts = {
        "range": reliability(width, inside),
        "chance": reliability(rows["chance_within_90_days"], rows["came_within_90_days"]),
    }
    named = [part.with_row_index("group", 1).with_columns(of=pl.lit(of)) for of, part in parts.items()]
    return RESULT.shape(pl.concat(named))


def calibration_rows(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date
) -> pl.DataFrame:
    """What was said of each client at each month end, and what came."""
    return replayed(bookings, services, settings, f"{as_of}")


FIGURE = Figure(calibration, calibration_rows, RESULT)
