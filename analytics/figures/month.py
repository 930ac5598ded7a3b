"""The month in figures, each with the month before, the same month a year ago, and its usual range.

Net revenue is what was charged for completed lines (price less discount) and retail items, without tax; gross with tax.
Visits are those that happened, a refund being none; a new client is one whose first visit lies in the month. Average
visit is net service revenue ÷ visits. Chair hours are the time chairs were taken, developing included, overlaps on one
chair counted per visit; the occupied share is the part of opening hours in which chairs were taken. Product cost is all
grams mixed at their pack cost. The no-show share is missed visits ÷ (missed + completed). Per open day divides by the
days the salon was open. The usual range is the individuals chart of the 12 months before (mean ± 2.66 × mean moving
range): within it, a change is ordinary wobble; it stays empty until there are 12 months. A month that is not over, or
that was cut, is said to be a part-month and nothing in it is scaled.
"""

from datetime import date

import polars as pl
from polars import selectors

from analytics.methods.control_chart import usual_before
from analytics.methods.intervals import hours, union, within
from analytics.money import digits_of, rounded
from analytics.periods import Period, month_of, month_spans, open_days, opening_spans
from analytics.records.bowls import priced_log
from analytics.records.lines import completed_lines
from analytics.records.retail import retail_rows
from analytics.records.stays import VISIT, chair_name, chair_stays, named_chairs
from analytics.results import RESULTS, VALUE
from analytics.settings import Settings

USUAL_MONTHS = 12
CURRENCY, PER_HOUR = "currency", "currency/h"  # written as the salon's own currency
UNITS = {
    "net_revenue": CURRENCY,
    "gross_revenue": CURRENCY,
    "net_per_open_day": CURRENCY,
    "visits": "visits",
    "clients": "clients",
    "new_clients": "clients",
    "average_visit": CURRENCY,
    "chair_hours": "h",
    "occupied_share": "share",
    "net_per_chair_hour": PER_HOUR,
    "product_cost": CURRENCY,
    "product_share": "share",
    "retail_net": CURRENCY,
    "retail_share": "share",
    "discounts": CURRENCY,
    "tips": CURRENCY,
    "no_show_share": "share",
    "open_days": "days",
}


def month(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
    cover: Period,
    as_of: date,
) -> pl.DataFrame:
    """One row per month of the period and figure of UNITS, in that order; `cover` is what there is to compare with."""
    inputs = (bookings, services, product_log, products, sales)
    whole = _by_figure(_measures(*inputs, settings=settings, period=cover))
    asked = _by_figure(_measures(*inputs, settings=settings, period=period)).select("month", "figure", "value")
    parts = [name for name in period.months() if period.is_part(name, as_of)]
    currency = settings.salon.currency
    return RESULTS["month"].shape(
        asked.join(whole.drop("value"), on=["month", "figure"], how="left")
        .with_columns(
            unit=pl.col("figure").replace_strict(UNITS, return_dtype=pl.String).str.replace("currency", currency),
            part_month=pl.col("month").is_in(parts),
            _order=pl.col("figure").replace_strict(dict(zip(UNITS, range(len(UNITS)), strict=True))),
        )
        .sort("month", "_order")
    )


def month_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines of the period, priced and timed."""
    return completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


def _by_figure(measures: pl.DataFrame) -> pl.DataFrame:
    """Long form, with the same figure a month and a year before and the limits of the months before."""
    low, high = usual_before(pl.col("value").cast(pl.Float64), USUAL_MONTHS)
    return (
        measures.unpivot(index="month", variable_name="figure", value_name="value")
        .sort("figure", "month")
        .with_columns(
            previous=pl.col("value").shift(1).over("figure"),
            year_ago=pl.col("value").shift(12).over("figure"),
            usual_low=low.over("figure").round(4).cast(VALUE),
            usual_high=high.over("figure").round(4).cast(VALUE),
        )
    )


def _measures(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per month of the period, one column per figure, all as VALUE: money stays exact."""
    lines = completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))
    retail = retail_rows(sales, products, settings).filter(period.holds(pl.col("sold_at")))
    log = priced_log(product_log, products).filter(period.holds(pl.col("logged_at")))
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    for part in (
        _of_lines(lines),
        retail.group_by("month").agg(retail_gross=pl.col("gross").sum(), retail_net=pl.col("net").sum()),
        log.group_by("month").agg(product_cost=rounded(pl.col("mixed_cost").sum(), digits_of(settings.salon.currency))),
        _visits(bookings, period),
        _chair_time(bookings, settings, period),
        _open_days(settings, period),
    ):
        months = months.join(part, on="month", how="left")
    worked_out = _ratios(months.with_columns(pl.exclude("month").fill_null(0))).select("month", *UNITS)
    return worked_out.with_columns(selectors.float().round(4)).with_columns(pl.exclude("month").cast(VALUE))


def _of_lines(lines: pl.DataFrame) -> pl.DataFrame:
    return lines.group_by("month").agg(
        service_gross=pl.col("gross").sum(),
        service_net=pl.col("net").sum(),
        discounts=pl.col("discount").sum(),
        tips=pl.col("tip").sum(),
        chair_hours=pl.col("chair_hours").sum(),
    )


def _visits(bookings: pl.DataFrame, period: Period) -> pl.DataFrame:
    """Per month: visits, clients, new clients (first visit ever in the book), missed visits."""
    visits = (
        bookings.filter(pl.col("status").is_in(["completed", "no_show"]))
        .group_by(*VISIT, "client_id")
        .agg(pl.col("starts_at").min(), completed=(pl.col("status") == "completed").any(), paid_back=_refund().all())
        .filter(~pl.col("paid_back"))
        .with_columns(month=month_of(pl.col("starts_at")))
    )
    came = visits.filter("completed")
    first = came.group_by("site", "client_id").agg(pl.col("starts_at").min())
    return (
        visits.filter(period.holds(pl.col("starts_at")))
        .group_by("month")
        .agg(
            visits=pl.col("completed").sum(),
            missed=(~pl.col("completed")).sum(),
            clients=pl.struct("site", "client_id").filter("completed").n_unique(),
        )
        .join(
            first.filter(period.holds(pl.col("starts_at")))
            .group_by(month=month_of(pl.col("starts_at")))
            .agg(new_clients=pl.len()),
            on="month",
            how="left",
        )
    )


def _refund() -> pl.Expr:
    return pl.col("price") < 0


def _chair_time(bookings: pl.DataFrame, settings: Settings, period: Period) -> pl.DataFrame:
    """Per month: open hours of all chairs, and the part of them in which a chair was taken."""
    zone = settings.salon.timezone
    chairs = len(named_chairs(bookings, settings.salon.chairs))
    spans, months = opening_spans(settings.hours, period, zone), month_spans(period, zone)
    stays = chair_stays(bookings, zone).select(chair_name(), "starts", "ends")
    taken = within(union(stays, ["chair"]), spans.drop("day"))
    length = hours(pl.col("starts"), pl.col("ends")).sum()
    inside = within(taken, months).group_by("month").agg(inside_hours=length)
    opened = within(spans.select(starts="opens", ends="closes"), months).group_by("month")
    return opened.agg(open_hours=length * chairs).join(inside, on="month", how="left")


def _open_days(settings: Settings, period: Period) -> pl.DataFrame:
    parts = {name: Period.month(name).cut(period) for name in period.months()}
    return pl.DataFrame(
        {"month": list(parts), "open_days": [open_days(settings.hours, part) for part in parts.values()]},
        schema={"month": pl.String(), "open_days": pl.Int64()},
    )


def _ratios(sums: pl.DataFrame) -> pl.DataFrame:
    def per(top: pl.Expr, bottom: pl.Expr) -> pl.Expr:
        return pl.when(bottom > 0).then(top.cast(pl.Float64) / bottom.cast(pl.Float64))

    net = pl.col("service_net") + pl.col("retail_net")
    return sums.with_columns(
        net_revenue=net,
        gross_revenue=pl.col("service_gross") + pl.col("retail_gross"),
        net_per_open_day=per(net, pl.col("open_days")),
        average_visit=per(pl.col("service_net"), pl.col("visits")),
        occupied_share=per(pl.col("inside_hours"), pl.col("open_hours")),
        net_per_chair_hour=per(pl.col("service_net"), pl.col("chair_hours")),
        product_share=per(pl.col("product_cost"), pl.col("service_net")),
        retail_share=per(pl.col("retail_net"), net),
        no_show_share=per(pl.col("missed"), pl.col("missed") + pl.col("visits")),
    )
