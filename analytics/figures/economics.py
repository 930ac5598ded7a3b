"""What a chair hour and a hands-on hour bring, what an open one costs, and what stood empty.

Each month is split by kind, service, stylist and chair, and once not at all; lines, hours, net and product cost of a
split add up to those of the salon, and services to their kinds. Lines are completed lines of the month they start in;
chair hours are the time a visit took its chair, developing included, shared over its lines by the menu's minutes;
hands-on hours are the menu's. Product cost is all grams mixed that month, used and left; a bowl belongs to the line of
its visit and service, with that line's stylist and chair, one without a known visit to whoever mixed it. The shares of
a split are rounded so that they add up. After product, its cost is taken off first. There are two costs of an hour. An
open hour, at capacity, costs costs.per_month ÷ open chair hours of the whole month; what brings at least that, product
paid, covers its own open time. What stood empty is an amount of its own: opening hours gone by in which a chair was not
taken, visits that overlap counted once, at the cost of an open hour. A taken hour must carry what being open costs on
the days gone by ÷ the chair hours of all lines, so that the taken ones pay for the empty ones too; what brings at least
that carries its taken hours. Where salon.toml names no costs nothing is said of either, or of what empty hours cost.
"""

from collections.abc import Mapping
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
from analytics.money import digits_of, rounded, rounded_together
from analytics.periods import Period
from analytics.records.chairs.hour_costs import costs_of_hours, held_against_costs
from analytics.records.chairs.lines import MENU
from analytics.records.chairs.open_hours import hours_by_chair
from analytics.records.chairs.stays import chair_name
from analytics.records.chairs.validity import valid_that_day
from analytics.records.product.bowl_rows import BowlRows
from analytics.settings import Settings

RESULT = Result(
    "one row per month, split and item of the split",
    key=("month", "split", "item_id"),
    columns={
        **MONTH_KEY,
        "split": Column(TEXT, "salon (all of it), kind, service, stylist or chair"),
        "item_id": Column(TEXT, "the kind, line of the menu, stylist or chair; empty for the salon, or unknown"),
        "item": Column(TEXT, "its name"),
        "lines": Column(LINES, "completed lines"),
        "chair_hours": Column(HOURS, "chair hours of those lines, developing included"),
        "hands_on_hours": Column(HOURS, "the stylist's hands-on hours by the menu"),
        "net": Column(MONEY, "charged, without tax"),
        "product_cost": Column(MONEY, "all grams mixed at their pack cost"),
        "net_per_chair_hour": Column(MONEY_PER_HOUR, "net ÷ chair hours"),
        "net_per_hands_on_hour": Column(MONEY_PER_HOUR, "net ÷ hands-on hours"),
        "after_product_per_chair_hour": Column(MONEY_PER_HOUR, "(net − product cost) ÷ chair hours"),
        "after_product_per_hands_on_hour": Column(MONEY_PER_HOUR, "(net − product cost) ÷ hands-on hours"),
        "cost_per_open_hour": Column(MONEY_PER_HOUR, "what an open chair hour costs; empty without costs"),
        "cost_per_taken_hour": Column(MONEY_PER_HOUR, "what a taken chair hour of the salon must carry"),
        "covers_open_hour": Column(YES_NO, "a chair hour brings at least what an open one costs, product paid"),
        "carries_taken_hour": Column(YES_NO, "a chair hour brings at least what a taken one must carry, product paid"),
        "open_hours": Column(HOURS, "opening hours of the chair, or of all chairs; for chairs and the salon"),
        "empty_hours": Column(HOURS, "of them, hours in which no visit took the chair"),
        "empty_cost": Column(MONEY, "empty hours at the cost of an open hour"),
        "open_cost": Column(MONEY, "what being open cost on the days gone by; for the salon"),
    },
)

SPLITS = ("salon", "kind", "service", "stylist", "chair")
SUMS = ("lines", "chair_hours", "hands_on_hours", "net", "product_cost")
KEY = ["month", "split", "item_id"]


def economics(mixed: BowlRows, *, period: Period, as_of: date) -> pl.DataFrame:
    """One row per month, split and item with completed lines, product cost or open hours; hours, money."""
    bookings, settings = mixed.tables["bookings"], mixed.settings
    digits = digits_of(settings.salon.currency)
    lines = economics_rows(mixed, period=period).with_columns(chair_name())
    spent = _spent(mixed, period)
    by_service = _split("service", "service_id", lines, spent, digits)
    by_kind = by_service.group_by("month", item_id="kind", maintain_order=True).agg(pl.col(SUMS).sum())
    splits = [
        by_service.drop("kind"),
        by_kind.with_columns(split=pl.lit("kind"), item=pl.col("item_id")),
        by_service.group_by("month", maintain_order=True).agg(pl.col(SUMS).sum()).with_columns(split=pl.lit("salon")),
        _split("stylist", "stylist", lines, spent, digits).drop("kind"),
        _split("chair", "chair", lines, spent, digits).drop("kind"),
    ]
    gone_by = {month: part.gone_by(as_of) for month, part in period.parts().items()}
    costs = costs_of_hours(bookings, settings, gone_by, by_service)
    open_hours = _open_hours(bookings, settings, gone_by, costs, digits)
    together = pl.concat(splits, how="diagonal").join(open_hours, on=KEY, how="full", coalesce=True, nulls_equal=True)
    return RESULT.shape(
        together.join(costs, on="month", how="left")
        .with_columns(pl.col(SUMS).fill_null(0), item=pl.coalesce("item", "item_id"))
        .with_columns(open_cost=pl.when(split="salon").then("open_cost"))
        .with_columns(
            net_per_chair_hour=per("net", "chair_hours"),
            net_per_hands_on_hour=per("net", "hands_on_hours"),
            after_product_per_chair_hour=per(pl.col("net") - pl.col("product_cost"), "chair_hours"),
            after_product_per_hands_on_hour=per(pl.col("net") - pl.col("product_cost"), "hands_on_hours"),
        )
        .with_columns(**held_against_costs())
        .sort("month", pl.col("split").cast(pl.Enum(SPLITS)), "item_id", nulls_last=True)
    )


def economics_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """The completed lines the figure adds up."""
    return mixed.lines.filter(period.holds(pl.col("starts_at")))


def _spent(mixed: BowlRows, period: Period) -> pl.DataFrame:
    """Bowls of the period with month, mixed_cost, and the service, stylist and chair of the line they were for."""
    log = mixed.placed.filter(period.holds(pl.col("logged_at")))
    menu = mixed.tables["services"].select("site", *MENU, "valid_from").rename({"kind": "service_kind"})
    return valid_that_day(log.drop("product", "kind"), menu, "service_id", pl.col("logged_at")).with_columns(
        kind="service_kind"
    )


def _split(split: str, by: str, lines: pl.DataFrame, spent: pl.DataFrame, digits: int) -> pl.DataFrame:
    """Per month and item of the split: SUMS, and the item's name and kind where it is a service."""
    named = {"item": "service", "kind": "kind"} if split == "service" else {"item": by, "kind": by}
    earned = (
        lines.sort("starts_at", "booking_id", "line")
        .group_by("month", item_id=by)
        .agg(
            **{name: pl.col(column).last() for name, column in named.items()},
            lines=pl.len(),
            chair_hours=total_hours(pl.col("chair_hours")),
            hands_on_hours=total_hours(pl.col("hands_on_hours")),
            net=pl.col("net").sum(),
        )
    )
    cost = (
        spent.sort("logged_at")
        .group_by("month", item_id=by)
        .agg(
            pl.col("mixed_cost").sum(),
            **{f"spent_{name}": pl.col(column).last() for name, column in named.items()},
        )
    )
    return (
        earned.join(cost, on=["month", "item_id"], how="full", coalesce=True, nulls_equal=True)
        .sort("month", "item_id", nulls_last=True)
        .with_columns(
            pl.col("lines", "chair_hours", "hands_on_hours", "net", "mixed_cost").fill_null(0),
            item=pl.coalesce("item", "spent_item"),
            kind=pl.coalesce("kind", "spent_kind"),
            split=pl.lit(split),
        )
        .with_columns(product_cost=rounded_together(pl.col("mixed_cost"), digits, ["month"]))
        .select("month", "split", "item_id", "item", "kind", *SUMS)
    )


def _open_hours(
    bookings: pl.DataFrame, settings: Settings, spans: Mapping[str, Period], costs: pl.DataFrame, digits: int
) -> pl.DataFrame:
    """Per month, for each chair and for all of them: open_hours, empty_hours and what these cost."""
    by_chair = (
        hours_by_chair(bookings, settings, spans)
        .join(costs.select("month", "cost_per_open_hour"), on="month", how="left")
        .with_columns(empty_hours=pl.col("open_hours") - pl.col("inside_hours"))
        .with_columns(
            empty_cost=rounded((pl.col("empty_hours") * pl.col("cost_per_open_hour")).cast(pl.Decimal(38, 12)), digits)
        )
        .select("month", "open_hours", "empty_hours", "empty_cost", item_id="chair", split=pl.lit("chair"))
    )
    known = pl.col("empty_cost").is_not_null().any()
    salon = by_chair.group_by("month").agg(
        total_hours(pl.col("open_hours", "empty_hours")),
        empty_cost=pl.when(known).then(pl.col("empty_cost").sum()).cast(MONEY.dtype),
        item_id=pl.lit(None, pl.String()),
        split=pl.lit("salon"),
    )
    return pl.concat([by_chair, salon], how="diagonal")


FIGURE = Figure(economics, economics_rows, RESULT)
