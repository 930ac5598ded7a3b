"""How long each service takes the chair, against the minutes of the menu, so that the menu can be corrected.

Completed lines of the period that took time, refunds left out. Where a visit has one line, its time is that line's;
where it has several, its time is shared over them in proportion to the menu's hands-on and developing minutes, which
says how much longer such visits take, not which of their lines does. So a service with at least 8 lines that were all
of their visit is judged by those alone (basis single), else by all of its lines (basis shared). The median and the
80 % range are of the minutes taken; the share over the menu and the median beyond it hold each line against the menu
of its own day. Menu minutes are those of the last line's day; where the menu gives none there is nothing to hold
against. Median beyond the menu is what the menu's minutes would have to grow by for half the lines to keep to them;
from 5 minutes on, either way and with 10 lines or more, the service wants other minutes on the menu.
"""

import polars as pl

from analytics.definitions.results import LINES, MINUTES, SHARE, TEXT, YES_NO, Column, Figure, Result
from analytics.periods import Period
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings

RESULT = Result(
    "one row per service, over the period",
    key=("service_id",),
    columns={
        "service_id": Column(TEXT, "line of the menu"),
        "service": Column(TEXT, "its name"),
        "kind": Column(TEXT, "kind of work"),
        "lines": Column(LINES, "completed lines that took time, refunds left out"),
        "single_lines": Column(LINES, "of them, lines that were all of their visit"),
        "basis": Column(TEXT, "single: those lines alone; shared: all lines, a visit's time shared by the menu"),
        "menu_minutes": Column(MINUTES, "hands-on and developing by the menu of the last line; empty for none"),
        "low_minutes": Column(MINUTES, "a tenth of the lines took less"),
        "median_minutes": Column(MINUTES, "half of the lines took less"),
        "high_minutes": Column(MINUTES, "a tenth of the lines took more"),
        "median_over_menu": Column(MINUTES, "median of the minutes beyond the menu of the day"),
        "over_menu_share": Column(SHARE, "lines that took longer than the menu of their day"),
        "menu_off": Column(YES_NO, "wants other minutes on the menu; empty where fewer than 10 lines say so"),
    },
)

ENOUGH_SINGLE = 8
FEWEST_LINES = 10  # of a service, before its menu minutes are called wrong
OFF_MINUTES = 5.0  # the median beyond the menu from which the menu wants a look
A_SECOND = 1 / 60  # minutes; hours that became minutes are not exact


def durations(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per service with completed lines that took time; minutes."""
    lines = durations_rows(bookings, services, settings=settings, period=period).with_columns(
        by_single=pl.col("single").sum().over("service_id") >= ENOUGH_SINGLE
    )
    judged = pl.col("single") | ~pl.col("by_single")
    minutes, over = pl.col("minutes_taken").filter(judged), pl.col("over_menu").filter(judged)
    return RESULT.shape(
        lines.group_by("service_id")
        .agg(
            pl.col("service", "kind", "menu_minutes").last(),
            lines=pl.len(),
            single_lines=pl.col("single").sum(),
            basis=pl.when(pl.col("by_single").first()).then(pl.lit("single")).otherwise(pl.lit("shared")),
            low_minutes=minutes.quantile(0.1, "linear"),
            median_minutes=minutes.median(),
            high_minutes=minutes.quantile(0.9, "linear"),
            median_over_menu=over.median(),
            over_menu_share=(over > A_SECOND).mean(),
        )
        .with_columns(
            menu_off=pl.when(pl.col("lines") >= FEWEST_LINES).then(pl.col("median_over_menu").abs() >= OFF_MINUTES)
        )
        .sort("service_id")
    )


def durations_rows(
    bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period
) -> pl.DataFrame:
    """The lines the figure rests on: minutes_taken, menu_minutes of the day, over_menu, and single."""
    menu = (pl.col("hands_on_min").fill_null(0) + pl.col("processing_min").fill_null(0)).cast(pl.Float64)
    return (
        completed_lines(bookings, services, settings)
        .with_columns(
            single=pl.len().over(VISIT) == 1,
            minutes_taken=pl.col("chair_hours") * 60,
            menu_minutes=pl.when(menu > 0).then(menu),
        )
        .filter(period.holds(pl.col("starts_at")) & (pl.col("price") >= 0) & (pl.col("chair_hours") > 0))
        .with_columns(over_menu=pl.col("minutes_taken") - pl.col("menu_minutes"))
        .sort("starts_at", "booking_id", "line")
    )


FIGURE = Figure(durations, durations_rows, RESULT)
