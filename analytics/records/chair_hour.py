"""What an hour of a chair is worth, for whatever takes chair time that it need not take."""

import polars as pl

from analytics.methods.intervals import hours
from analytics.periods import Period, opening_spans
from analytics.records.lines import completed_lines
from analytics.records.stays import named_chairs
from analytics.settings import Settings


def chair_hour_cost(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, period: Period) -> float:
    """Currency per chair hour in the months of the period.

    What an open chair hour costs (costs.per_month ÷ open chair hours); where salon.toml names no costs, what a chair
    hour brought net; 0 where neither is known.
    """
    months = period.months()
    if not months:
        return 0.0
    if settings.costs.per_month:
        opened = _open_chair_hours(bookings, settings, _whole(months))
        if opened:
            return float(settings.costs.per_month) * len(months) / opened
    lines = completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))
    net, taken = float(lines["net"].sum()), float(lines["chair_hours"].sum())
    return max(net, 0.0) / taken if taken > 0 else 0.0


def _whole(months: list[str]) -> Period:
    """Whole months, since costs are stated by the month."""
    return Period(Period.month(months[0]).start, Period.month(months[-1]).end)


def _open_chair_hours(bookings: pl.DataFrame, settings: Settings, period: Period) -> float:
    spans = opening_spans(settings.hours, period, settings.salon.timezone)
    open_hours = float(spans.select(hours(pl.col("opens"), pl.col("closes")).sum()).item() or 0)
    return open_hours * len(named_chairs(bookings, settings.salon.chairs))
