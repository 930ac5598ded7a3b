"""What an open chair hour costs, what a taken one must carry, and what being open costs.

Two costs, never one: costs ÷ open hours is what an hour costs that the salon can sell, whether it is sold or not; costs
÷ taken hours is what those that were sold had to bring, product paid, for the costs to be met. Between them lies what
stood empty (time-driven activity-based costing keeps unused capacity apart: Kaplan and Anderson 2004, from memory).
"""

from collections.abc import Mapping
from fractions import Fraction

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.methods.intervals import hours, total_hours
from analytics.money import digits_of, round_parts
from analytics.periods import Period
from analytics.records.chairs.open_hours import open_chair_hours, opened
from analytics.settings import Settings


def open_costs(bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Per span: cost_per_open_hour (costs.per_month ÷ open chair hours of the whole month) and open_cost.

    spans: days by month, up to today. open_cost is what being open costs on these days: costs.per_month, of days cut
    out of a month as much as of its open hours (or days, in a month that is closed) lies in them, in whole minor units.
    Both are null where salon.toml names no costs; an hour costs nothing that can be said where none is open.
    """
    whole = {month: Period.month(month) for month in spans}
    of_chairs = open_chair_hours(bookings, settings, whole)
    open_hours = {name: _open_hours(settings, some) for name, some in (("whole", whole), ("spans", spans))}
    costs, digits = settings.costs.per_month, digits_of(settings.salon.currency)
    rows = []
    for month, span in spans.items():
        of_all, of_span = (open_hours[name].get(month, 0.0) for name in ("whole", "spans"))
        part = _part(span, whole[month], of_span, of_all)
        rows.append(
            (
                month,
                float(costs) / of_chairs[month] if costs > 0 and of_chairs.get(month, 0) > 0 else None,
                round_parts([Fraction(costs) * part], digits)[0] if costs > 0 else None,
            )
        )
    schema = {"month": pl.String(), "cost_per_open_hour": pl.Float64(), "open_cost": AMOUNT}
    return pl.DataFrame(rows, schema=schema, orient="row")


def _open_hours(settings: Settings, spans: Mapping[str, Period]) -> dict[str, float]:
    length = total_hours(hours(pl.col("starts"), pl.col("ends")))
    return dict(opened(settings, spans).group_by("month").agg(open_hours=length).iter_rows())


def _part(span: Period, month: Period, of_span: float, of_all: float) -> Fraction:
    """How much of the month's costs the days of the span bear."""
    if span == month:
        return Fraction(1)
    if of_all > 0:
        return Fraction(of_span) / Fraction(of_all)
    return Fraction((span.end - span.start).days, (month.end - month.start).days)


def costs_of_hours(
    bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period], taken: pl.DataFrame
) -> pl.DataFrame:
    """As open_costs, with cost_per_taken_hour: open_cost ÷ the chair hours of `taken` (month, chair_hours)."""
    sums = taken.group_by("month").agg(total_hours(pl.col("chair_hours")))
    hour = pl.col("chair_hours")
    return (
        open_costs(bookings, settings, spans)
        .join(sums, on="month", how="left", maintain_order="left")
        .with_columns(cost_per_taken_hour=pl.when(hour > 0).then(pl.col("open_cost").cast(pl.Float64) / hour))
        .drop("chair_hours")
    )


def held_against_costs(after_product: str = "after_product_per_chair_hour") -> dict[str, pl.Expr]:
    """covers_open_hour and carries_taken_hour: what an hour brings, product paid, against either cost of an hour."""
    brings = pl.col(after_product)
    return {
        "covers_open_hour": brings >= pl.col("cost_per_open_hour"),
        "carries_taken_hour": brings >= pl.col("cost_per_taken_hour"),
    }


def cost_of_an_open_hour(bookings: pl.DataFrame, settings: Settings, period: Period) -> float | None:
    """Costs of the period's months ÷ their open chair hours; None where no costs are named or nothing is open."""
    months = {month: Period.month(month) for month in period.months()}
    open_hours = sum(open_chair_hours(bookings, settings, months).values())
    costs = float(settings.costs.per_month) * len(months)
    return costs / open_hours if costs > 0 and open_hours > 0 else None


def cost_of_a_taken_hour(
    bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period], chair_hours: float
) -> float | None:
    """What being open costs on the days of the spans ÷ the chair hours taken then; None without costs or hours."""
    costs = open_costs(bookings, settings, spans)["open_cost"].drop_nulls()
    return float(costs.sum()) / chair_hours if costs.len() and chair_hours > 0 else None
