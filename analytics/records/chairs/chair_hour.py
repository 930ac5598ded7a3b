"""What an hour of a chair is worth, for whatever takes chair time that it need not take."""

import polars as pl

from analytics.methods.intervals import total_hours
from analytics.periods import Period
from analytics.records.chairs.hour_costs import cost_of_an_open_hour
from analytics.records.chairs.lines import completed_lines
from analytics.settings import Settings


def chair_hour_cost(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, period: Period) -> float:
    """Currency per chair hour in the months of the period.

    What an open chair hour costs; where salon.toml names no costs, what a chair hour brought net; 0 where neither is
    known.
    """
    cost = cost_of_an_open_hour(bookings, settings, period)
    if cost is not None:
        return cost
    lines = completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))
    net, taken = float(lines["net"].sum()), lines.select(total_hours(pl.col("chair_hours"))).item()
    return max(net, 0.0) / taken if taken > 0 else 0.0
