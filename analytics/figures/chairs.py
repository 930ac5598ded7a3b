"""What a chair hour of each service earns.

Lines are completed booking lines of the month in which they start. Chair hours are the time a visit takes its chair,
developing included, shared over the visit's lines in proportion to the menu's hands-on and developing minutes (equally
where the menu gives none). Hands-on hours are the menu's. Net is what was charged (price less discount) without tax.
Product cost is all grams mixed for the service that month, used and left, at the pack cost valid that day; a bowl
logged without a service belongs to the visit's first colour line, and one without a visit stands in a row without a
service. Net per chair hour is net ÷ chair hours; after product the product cost is taken off first. An open hour costs
costs.per_month ÷ open chair hours of the whole month, however the period is cut; a taken hour must carry what being
open costs on the days gone by ÷ the chair hours taken then, so that all of them together pay for the empty ones too.
What brings at least the first, product paid, covers its own open time; what brings at least the second carries its
taken hours. Refunds are negative lines; tips and missed visits earn nothing here.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import (
    HOURS,
    LINES,
    MONEY,
    MONEY_PER_HOUR,
    MONTH_KEY,
    TEXT,
    YES_NO,
    Column,
    Figure,
    Result,
)
from analytics.methods.intervals import total_hours
from analytics.methods.quotient import per
from analytics.money import digits_of, rounded
from analytics.periods import Period
from analytics.records.chairs.hour_costs import costs_of_hours, held_against_costs
from analytics.records.chairs.lines import MENU, on_the_menu
from analytics.records.chairs.validity import valid_that_day
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.bowls import with_service

RESULT = Result(
    "one row per month and service",
    key=("month", "service_id"),
    columns={
        **MONTH_KEY,
        "service_id": Column(TEXT, "line of the menu"),
        "service": Column(TEXT, "its name in that month"),
        "kind": Column(TEXT, "kind of work"),
        "lines": Column(LINES, "completed lines"),
        "chair_hours": Column(HOURS, "chair hours of those lines, developing included"),
        "hands_on_hours": Column(HOURS, "the stylist's hands-on hours by the menu"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "product_cost": Column(MONEY, "all grams mixed for the service at their pack cost"),
        "net_per_chair_hour": Column(MONEY_PER_HOUR, "net ÷ chair hours"),
        "net_per_hands_on_hour": Column(MONEY_PER_HOUR, "net ÷ hands-on hours"),
        "after_product_per_chair_hour": Column(MONEY_PER_HOUR, "(net − product cost) ÷ chair hours"),
        "cost_per_open_hour": Column(MONEY_PER_HOUR, "what an open chair hour of the month costs; empty without costs"),
        "cost_per_taken_hour": Column(MONEY_PER_HOUR, "what a taken chair hour of the month must carry"),
        "covers_open_hour": Column(YES_NO, "a chair hour brings at least what an open one costs, product paid"),
        "carries_taken_hour": Column(YES_NO, "a chair hour brings at least what a taken one must carry, product paid"),
    },
)


def chairs(mixed: BowlRows, *, period: Period, as_of: date) -> pl.DataFrame:
    """One row per month and service with completed lines or product cost; hours, money in the currency."""
    bookings, services = mixed.tables["bookings"], mixed.tables["services"]
    digits = digits_of(mixed.settings.salon.currency)
    gone_by = {month: part.gone_by(as_of) for month, part in period.parts().items()}
    earned = (
        chairs_rows(mixed, period=period)
        .sort("starts_at", "booking_id", "line")
        .group_by("month", "service_id")
        .agg(
            pl.col("service", "kind").last(),
            pl.len().alias("lines"),
            total_hours(pl.col("chair_hours", "hands_on_hours")),
            pl.col("gross", "net").sum(),
        )
    )
    spent = (
        with_service(mixed.priced, on_the_menu(bookings, services))
        .filter(period.holds(pl.col("logged_at")))
        .group_by("month", "service_id")
        .agg(pl.col("mixed_cost").sum(), _day=pl.col("logged_at").max())
    )
    names = valid_that_day(spent, services.select(*MENU, "valid_from"), "service_id", pl.col("_day"))
    both = earned.join(
        names.select("month", "service_id", "mixed_cost", listed="service", listed_kind="kind"),
        on=["month", "service_id"],
        how="full",
        coalesce=True,
        nulls_equal=True,
    ).with_columns(
        pl.col("lines", "chair_hours", "hands_on_hours", "gross", "net", "mixed_cost").fill_null(0),
        service=pl.coalesce("service", "listed"),
        kind=pl.coalesce("kind", "listed_kind"),
    )
    return RESULT.shape(
        both.with_columns(
            product_cost=rounded(pl.col("mixed_cost"), digits),
            net_per_chair_hour=per("net", "chair_hours"),
            net_per_hands_on_hour=per("net", "hands_on_hours"),
            after_product_per_chair_hour=per(pl.col("net").cast(pl.Float64) - pl.col("mixed_cost"), "chair_hours"),
        )
        .join(costs_of_hours(bookings, mixed.settings, gone_by, earned), on="month", how="left")
        .with_columns(**held_against_costs())
        .sort("month", "service_id")
    )


def chairs_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """The completed lines the figure adds up, with charged, gross, net, tax, chair_hours and hands_on_hours."""
    return mixed.lines.filter(period.holds(pl.col("starts_at")))


FIGURE = Figure(chairs, chairs_rows, RESULT)
