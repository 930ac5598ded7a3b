"""What each service contributes to an hour, and the price at which it would carry its hours, or reach a target.

All over the last 12 months of the period (or all of it, where it is shorter), up to today. Lines a month are lines ÷
days × (365.25 ÷ 12), so that a short month weighs no more than a long one. Minutes and hours are those the chair was
taken, developing included, a visit's time shared over its lines by the menu's minutes; minutes per line are the
average, typical minutes the median. Refunds take their net off and are no lines.

Product cost per line as logged is all grams mixed for the service, used and left, ÷ its lines; it is too low where
bowls were not logged. In all it is, for colour work, what the lines with a bowl took on average, as if the others took
as much, and never less than as logged; the logged share is the part of the lines it is known of. Contribution is net −
product in all: of a line, of a chair hour, and of a usual month. Services are ranked by what a chair hour contributes,
the most first: an hour that is taken by one can not be sold to another, so this, and no share of the costs, is what
prices are weighed by.

An open hour costs the months' costs ÷ their open chair hours. A taken hour must carry what being open cost on those
days ÷ the chair hours taken on them. The price to clear the cost is the one at which a service carries its taken hours:
charged for every service, it pays product and costs to the cent, empty hours included. That price, or the one that
reaches the target of salon.toml, is rate × chair hours per line + product cost per line in all, with tax added where
prices include it, rounded to the currency's minor unit; it is what has to be charged after any discount. It assumes
that the chair is taken as long as now, that the same product is mixed, and that the same clients come. A rate that
salon.toml does not name has no price.
"""

from datetime import date, timedelta

import polars as pl

from analytics.definitions.results import (
    COUNT,
    LINES,
    MINUTES,
    MONEY,
    MONEY_PER_HOUR,
    MONEY_WORKED_OUT,
    NUMBER,
    SHARE,
    TAX_RATE,
    TEXT,
    YES_NO,
    Column,
    Figure,
    Result,
)
from analytics.definitions.tables import COLOUR_KINDS
from analytics.methods.intervals import total_hours
from analytics.methods.quotient import per
from analytics.money import digits_of, rounded
from analytics.periods import Period, per_usual_month
from analytics.records.chairs.clearing_price import clearing_price
from analytics.records.chairs.hour_costs import cost_of_a_taken_hour, cost_of_an_open_hour, held_against_costs
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
        "product_cost_per_line": Column(MONEY_WORKED_OUT, "product mixed for the service, as logged, ÷ lines"),
        "logged_share": Column(SHARE, "lines with a bowl in the log ÷ lines; of colour work alone"),
        "product_cost_per_line_in_all": Column(MONEY_WORKED_OUT, "the same as if every line had been logged"),
        "net_per_chair_hour": Column(MONEY_PER_HOUR, "net ÷ chair hours"),
        "after_product_per_chair_hour": Column(MONEY_PER_HOUR, "(net − product cost as logged) ÷ chair hours"),
        "contribution_per_line": Column(MONEY_WORKED_OUT, "net of a line − its product in all"),
        "contribution_per_chair_hour": Column(MONEY_PER_HOUR, "the same of a chair hour"),
        "contribution_per_month": Column(MONEY_WORKED_OUT, "the same of all lines of a usual month"),
        "rank": Column(COUNT, "by contribution per chair hour, the most first", "rank"),
        "cost_per_open_hour": Column(MONEY_PER_HOUR, "what an open chair hour costs; empty without costs"),
        "cost_per_taken_hour": Column(MONEY_PER_HOUR, "what a taken chair hour must carry; empty without costs"),
        "covers_open_hour": Column(YES_NO, "a chair hour contributes at least what an open one costs"),
        "carries_taken_hour": Column(YES_NO, "a chair hour contributes at least what a taken one must carry"),
        "price_to_clear_cost": Column(MONEY, "price at which its chair hours carry what taken hours must"),
        "target_per_chair_hour": Column(MONEY_PER_HOUR, "the target of salon.toml; empty where it names none"),
        "price_to_clear_target": Column(MONEY, "price at which it would just reach the target"),
        "reaches_target": Column(YES_NO, "a chair hour contributes at least the target"),
    },
)

MONTHS = 12


def prices(mixed: BowlRows, *, period: Period, as_of: date) -> pl.DataFrame:
    """One row per service with completed lines; money in the currency, minutes, hours."""
    now = recent(period, as_of)
    lines = mixed.lines.filter(now.holds(pl.col("starts_at")))
    log = mixed.placed.filter(now.holds(pl.col("logged_at")))
    settings = mixed.settings
    bookings, chair_hours = mixed.tables["bookings"], lines.select(total_hours(pl.col("chair_hours"))).item()
    open_hour = cost_of_an_open_hour(bookings, settings, now)
    taken_hour = cost_of_a_taken_hour(bookings, settings, now.parts(), chair_hours)
    target = float(settings.costs.target_per_chair_hour) or None
    digits, hour = digits_of(settings.salon.currency), pl.col("contribution_per_chair_hour")
    return RESULT.shape(
        _per_service(lines, log, (now.end - now.start).days)
        .pipe(_with_the_menu, mixed.tables["services"], now, settings)
        .with_columns(
            cost_per_open_hour=pl.lit(open_hour, pl.Float64),
            cost_per_taken_hour=pl.lit(taken_hour, pl.Float64),
            target_per_chair_hour=pl.lit(target, pl.Float64),
            reaches_target=hour >= pl.lit(target, pl.Float64),
            price=rounded(pl.col("price"), digits),
            price_to_clear_cost=clearing_price(taken_hour, settings),
            price_to_clear_target=clearing_price(target, settings),
            rank=hour.rank("min", descending=True).cast(pl.Int64),
        )
        .with_columns(**held_against_costs("contribution_per_chair_hour"))
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
        .join(_product(lines.filter(sold), log), on="service_id", how="left")
        .with_columns(pl.col("product", "logged_product").fill_null(0), pl.col("lines_logged").fill_null(0))
        .with_columns(
            lines_per_month=per_usual_month(pl.col("lines"), days),
            hours_per_line=per("chair_hours", "lines"),
            net_per_line=per("net", "lines"),
            product_cost_per_line=per("product", "lines"),
            logged_share=pl.when(pl.col("kind").is_in(COLOUR_KINDS)).then(per("lines_logged", "lines")),
            net_per_chair_hour=per("net", "chair_hours"),
            after_product_per_chair_hour=per(pl.col("net").cast(pl.Float64) - pl.col("product"), "chair_hours"),
        )
        .with_columns(minutes_per_line=pl.col("hours_per_line") * 60, product_cost_per_line_in_all=_in_all())
        .with_columns(contribution_per_line=pl.col("net_per_line") - pl.col("product_cost_per_line_in_all"))
        .with_columns(
            contribution_per_chair_hour=per("contribution_per_line", "hours_per_line"),
            contribution_per_month=pl.col("contribution_per_line") * pl.col("lines_per_month"),
        )
    )


def _product(sold: pl.DataFrame, log: pl.DataFrame) -> pl.DataFrame:
    """Per service: product mixed for it, lines_logged, and logged_product, what of it was mixed for those lines."""
    key = [*VISIT, "service_id"]
    logged = sold.join(log.select(key).unique(), on=key, how="semi")
    of_lines = log.join(logged.select(key).unique(), on=key, how="semi")
    cost = pl.col("mixed_cost").sum().cast(pl.Float64)
    return (
        log.group_by("service_id")
        .agg(product=cost)
        .join(of_lines.group_by("service_id").agg(logged_product=cost), on="service_id", how="left")
        .join(logged.group_by("service_id").agg(lines_logged=pl.len()), on="service_id", how="left")
    )


def _in_all() -> pl.Expr:
    """Product per line as if every line of colour work had been logged; never less than what was logged."""
    scaled = pl.when(pl.col("logged_share") > 0).then(pl.col("logged_product") / pl.col("lines_logged"))
    return pl.max_horizontal("product_cost_per_line", scaled)


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


FIGURE = Figure(prices, prices_rows, RESULT)
