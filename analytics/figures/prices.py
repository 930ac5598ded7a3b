"""What each service brings an hour now, and the price at which it would cover its own open time, or reach a target.

All over the last 12 months of the period (or all of it, where it is shorter), up to today. Lines a month are lines ÷
days × (365.25 ÷ 12), so that a short month weighs no more than a long one. Minutes and hours are those the chair was
taken, developing included, a visit's time shared over its lines by the menu's minutes; minutes per line are the
average, typical minutes the median. Product cost per line is all grams mixed for the service, used and left, ÷ its
lines, so it is too low where bowls were not logged: lines logged says how many were. Refunds take their net off and are
no lines. The cost of an open chair hour is costs.per_month ÷ open chair hours of those months. The price at which a
service covers its own open time, or reaches the target of salon.toml, is rate × chair hours per line + product cost per
line, with tax added where prices include it, rounded to the currency's minor unit; it is what has to be charged after
any discount. It assumes that the chair is taken as long as now, that the same product is mixed, and that the same
clients come. A rate that salon.toml does not name has no price.
"""

from datetime import date, timedelta

import polars as pl

from analytics.definitions.results import (
    LINES,
    MINUTES,
    MONEY,
    MONEY_PER_HOUR,
    MONEY_WORKED_OUT,
    NUMBER,
    TAX_RATE,
    TEXT,
    YES_NO,
    Column,
    Figure,
    Result,
)
from analytics.methods.intervals import total_hours
from analytics.methods.quotient import per
from analytics.money import digits_of, rounded
from analytics.periods import Period, per_usual_month
from analytics.records.chairs.open_hours import cost_of_an_open_hour
from analytics.records.chairs.stays import VISIT
from analytics.records.chairs.validity import valid_that_day
from analytics.records.product.bowl_rows import BowlRows
from analytics.settings import Settings

RESULT = Result(
    "one row per service, over the last 12 months of the period",
    key=("service_id",),
    columns={
        "service_id": Column(TEXT, "line of the menu"),
        "service": Column(TEXT, "its name"),
        "kind": Column(TEXT, "kind of work"),
        "lines": Column(LINES, "completed lines, refunds left out"),
        "lines_per_month": Column(NUMBER, "lines in a month of usual length", "lines a month"),
        "lines_logged": Column(LINES, "of the lines, those with a bowl in the log"),
        "typical_minutes": Column(MINUTES, "chair minutes of a line, median"),
        "minutes_per_line": Column(MINUTES, "chair minutes of a line, average"),
        "price": Column(MONEY, "list price now; the average charged where the menu has none"),
        "tax_rate": Column(TAX_RATE, "tax rate now"),
        "net_per_line": Column(MONEY_WORKED_OUT, "charged for a line after discounts, without tax"),
        "product_cost_per_line": Column(MONEY_WORKED_OUT, "product mixed for the service ÷ lines"),
        "net_per_chair_hour": Column(MONEY_PER_HOUR, "net ÷ chair hours"),
        "after_product_per_chair_hour": Column(MONEY_PER_HOUR, "(net − product cost) ÷ chair hours"),
        "cost_per_open_hour": Column(MONEY_PER_HOUR, "what an open chair hour costs; empty without costs"),
        "clears_cost": Column(YES_NO, "a chair hour brings at least that, product paid"),
        "price_to_clear_cost": Column(MONEY, "price at which it would just cover its own open time"),
        "target_per_chair_hour": Column(MONEY_PER_HOUR, "the target of salon.toml; empty where it names none"),
        "price_to_clear_target": Column(MONEY, "price at which it would just reach the target"),
        "reaches_target": Column(YES_NO, "a chair hour brings at least the target, product paid"),
    },
)

MONTHS = 12


def prices(mixed: BowlRows, *, period: Period, as_of: date) -> pl.DataFrame:
    """One row per service with completed lines; money in the currency, minutes, hours."""
    now = recent(period, as_of)
    lines = mixed.lines.filter(now.holds(pl.col("starts_at")))
    log = mixed.placed.filter(now.holds(pl.col("logged_at")))
    settings = mixed.settings
    cost = cost_of_an_open_hour(mixed.tables["bookings"], settings, now)
    target = float(settings.costs.target_per_chair_hour) or None
    digits = digits_of(settings.salon.currency)
    return RESULT.shape(
        _per_service(lines, log, (now.end - now.start).days)
        .pipe(_with_the_menu, mixed.tables["services"], now, settings)
        .with_columns(
            cost_per_open_hour=pl.lit(cost, pl.Float64),
            target_per_chair_hour=pl.lit(target, pl.Float64),
            clears_cost=pl.col("after_product_per_chair_hour") >= pl.lit(cost, pl.Float64),
            reaches_target=pl.col("after_product_per_chair_hour") >= pl.lit(target, pl.Float64),
            price=rounded(pl.col("price"), digits),
            price_to_clear_cost=_clearing(cost, settings),
            price_to_clear_target=_clearing(target, settings),
        )
        .sort("service_id")
    )


def prices_rows(mixed: BowlRows, *, period: Period, as_of: date) -> pl.DataFrame:
    """The completed lines the figure rests on."""
    now = recent(period, as_of)
    return mixed.lines.filter(now.holds(pl.col("starts_at")))


def recent(period: Period, as_of: date) -> Period:
    """The last months of the period that count as now, up to today where it reaches beyond."""
    return period.last_months(MONTHS).gone_by(as_of)


def _per_service(lines: pl.DataFrame, log: pl.DataFrame, days: int) -> pl.DataFrame:
    sold = pl.col("price") >= 0
    logged = lines.join(log.select(*VISIT, "service_id").unique(), on=[*VISIT, "service_id"], how="semi")
    return (
        lines.sort("starts_at", "booking_id", "line")
        .group_by("service_id")
        .agg(
            pl.col("service", "kind", "tax_rate").last(),
            pl.col("net").sum(),
            total_hours(pl.col("chair_hours")),
            lines=sold.sum(),
            charged_price=pl.col("price").filter(sold).cast(pl.Float64).mean(),
            typical_minutes=pl.col("chair_hours").filter(sold).median() * 60,
        )
        .join(log.group_by("service_id").agg(product=pl.col("mixed_cost").sum()), on="service_id", how="left")
        .join(logged.filter(sold).group_by("service_id").agg(lines_logged=pl.len()), on="service_id", how="left")
        .with_columns(pl.col("product").fill_null(0).cast(pl.Float64), pl.col("lines_logged").fill_null(0))
        .with_columns(
            lines_per_month=per_usual_month(pl.col("lines"), days),
            hours_per_line=per("chair_hours", "lines"),
            net_per_line=per("net", "lines"),
            product_cost_per_line=per("product", "lines"),
            net_per_chair_hour=per("net", "chair_hours"),
            after_product_per_chair_hour=per(pl.col("net").cast(pl.Float64) - pl.col("product"), "chair_hours"),
        )
        .with_columns(minutes_per_line=pl.col("hours_per_line") * 60)
    )


def _with_the_menu(rows: pl.DataFrame, services: pl.DataFrame, now: Period, settings: Settings) -> pl.DataFrame:
    """With the list price and tax rate of the last day; where the menu has no price, the average charged."""
    menu = (
        services.sort("site")
        .unique(["service_id", "valid_from"], keep="first", maintain_order=True)
        .select("service_id", "valid_from", list_price="price", list_rate="tax_rate")
    )
    last_day = pl.lit(now.end - timedelta(days=1)).cast(pl.Datetime("us"))
    return valid_that_day(rows, menu, "service_id", last_day).with_columns(
        price=pl.coalesce(
            pl.col("list_price").cast(pl.Decimal(38, 9)), pl.col("charged_price").cast(pl.Decimal(38, 9))
        ),
        tax_rate=pl.coalesce("list_rate", "tax_rate").fill_null(settings.tax.default_rate),
    )


def _clearing(rate: float | None, settings: Settings) -> pl.Expr:
    """The price at which a line brings the rate for each of its chair hours, its product paid."""
    net = pl.lit(rate, pl.Float64) * pl.col("hours_per_line") + pl.col("product_cost_per_line")
    tax = pl.col("tax_rate").cast(pl.Float64) / 100 if settings.tax.prices == "included" else pl.lit(0.0)
    return rounded((net * (1 + tax)).cast(pl.Decimal(38, 12)), digits_of(settings.salon.currency))


FIGURE = Figure(prices, prices_rows, RESULT)
