"""Completed lines with what the menu of their day says, their tax, and their share of the chair's time."""

import polars as pl

from analytics.methods.intervals import hours
from analytics.money import digits_of, with_tax
from analytics.periods import month_of
from analytics.records.chairs.stays import STAY, VISIT, chair_stays
from analytics.records.chairs.validity import valid_that_day
from analytics.records.memo import memoised
from analytics.settings import Settings

MENU = ["service_id", "service", "kind", "tax_rate", "hands_on_min", "processing_min", "resets_roots"]


@memoised
def on_the_menu(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Booking lines of any status with kind, tax_rate, minutes and resets_roots of the menu valid that day."""
    menu = services.select("site", *MENU, "valid_from")
    return valid_that_day(bookings.drop("service"), menu, "service_id", pl.col("starts_at"))


@memoised
def completed_lines(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Completed booking lines, priced and timed.

    Added: month (of starts_at), the menu's columns, charged (price − discount), gross, net and tax (rounded per visit
    and rate, or per line, shared by largest remainder), hands_on_hours (menu) and chair_hours. A stay's time is shared
    over the visit's lines on that chair in proportion to hands_on_min + processing_min, equally where the menu gives
    none.
    """
    stays = chair_stays(bookings, settings.salon.timezone).select(
        *STAY, stay_hours=hours(pl.col("starts"), pl.col("ends"))
    )
    return (
        _priced(bookings, services, settings, "completed")
        .with_columns(hands_on_hours=pl.col("hands_on_min") / 60)
        .join(stays, on=STAY, how="left")
        .with_columns(chair_hours=pl.col("stay_hours") * _share())
        .drop("stay_hours")
    )


@memoised
def missed_lines(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Booking lines of no-shows, priced as completed ones are: what they would have brought, never revenue."""
    return _priced(bookings, services, settings, "no_show")


def _priced(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings, status: str) -> pl.DataFrame:
    """Lines of this status with month, the menu's columns, charged, gross, net and tax."""
    of_status = bookings.filter(pl.col("status") == status).sort(*VISIT, "line")
    lines = on_the_menu(of_status, services).with_columns(
        month=month_of(pl.col("starts_at")),
        charged=pl.col("price") - pl.col("discount"),
        tax_rate=pl.col("tax_rate").fill_null(settings.tax.default_rate),
    )
    return with_tax(
        lines,
        prices=settings.tax.prices,
        digits=digits_of(settings.salon.currency),
        group=VISIT if settings.tax.round_per == "booking" else [*VISIT, "line"],
    )


def _share() -> pl.Expr:
    minutes = (pl.col("hands_on_min") + pl.col("processing_min")).cast(pl.Float64).fill_null(0.0)
    total = minutes.sum().over(STAY)
    return pl.when(total > 0).then(minutes / total).otherwise(1 / pl.len().over(STAY))
