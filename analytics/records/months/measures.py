"""What a month, or some days of it, brought: every figure by which a month is told, and how many things made it up."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

import polars as pl
from polars import selectors

from analytics.definitions.results import AMOUNT
from analytics.methods.intervals import total_hours
from analytics.money import digits_of, rounded
from analytics.periods import Period, closed_days, in_spans, open_days
from analytics.records.chairs.hour_costs import open_costs
from analytics.records.chairs.lines import completed_lines, missed_lines
from analytics.records.chairs.missed import hours_left_empty
from analytics.records.chairs.open_hours import chair_hours
from analytics.records.clients.ready import roots_ready
from analytics.records.clients.visits import told_visits
from analytics.records.product.bowls import priced_log
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

CURRENCY, PER_HOUR = "currency", "currency/h"  # written as the salon's own currency
UNITS = {
    "net_revenue": CURRENCY,
    "gross_revenue": CURRENCY,
    "net_per_open_day": CURRENCY,
    "gross_per_open_day": CURRENCY,
    "service_net": CURRENCY,
    "visits": "visits",
    "clients": "clients",
    "new_clients": "clients",
    "average_visit": CURRENCY,
    "chair_hours": "h",
    "occupied_share": "share",
    "net_per_chair_hour": PER_HOUR,
    "product_cost": CURRENCY,
    "product_share": "share",
    "left_cost": CURRENCY,
    "open_cost": CURRENCY,
    "left_after_costs": CURRENCY,
    "retail_net": CURRENCY,
    "retail_share": "share",
    "discounts": CURRENCY,
    "tips": CURRENCY,
    "no_show_share": "share",
    "no_show_empty_hours": "h",
    "no_show_net": CURRENCY,
    "cancelled_share": "share",
    "cancelled_empty_hours": "h",
    "rebooked_share": "share",
    "roots_ready": "clients",
    "open_days": "days",
    "closed_days": "days",
}
COUNTS = ("retail_items", "discounted", "tipped", "bowls", "weighed", "missed", "cancelled", "due", "called")
MAY_BE_UNKNOWN = ("left_cost", "open_cost", "rebooked_share", "roots_ready")  # nothing known is not nothing


@dataclass(frozen=True)
class Sources:
    """What the measures add up, worked out once."""

    bookings: pl.DataFrame
    services: pl.DataFrame
    lines: pl.DataFrame
    missed: pl.DataFrame
    retail: pl.DataFrame
    log: pl.DataFrame
    visits: pl.DataFrame
    settings: Settings
    as_of: date


def sources(
    *,
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    product_log: pl.DataFrame,
    products: pl.DataFrame,
    sales: pl.DataFrame,
    settings: Settings,
    as_of: date,
) -> Sources:
    """The rows behind the measures of these tables."""
    return Sources(
        bookings,
        services,
        lines=completed_lines(bookings, services, settings),
        missed=missed_lines(bookings, services, settings),
        retail=retail_rows(sales, products, settings),
        log=priced_log(product_log, products),
        visits=told_visits(bookings),
        settings=settings,
        as_of=as_of,
    )


def measures(given: Sources, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span: month (its name), the figures of UNITS (exact), and the COUNTS.

    COUNTS are how many things a figure is made of: retail pieces, lines with a discount or a tip, bowls, bowls weighed,
    visits missed, visits cancelled, visits due (missed or made), visits called for (due or cancelled). An empty span
    has nothing.
    """
    held = {name: span for name, span in spans.items() if not span.empty}
    gone_by = {name: span.elapsed(name, given.as_of) for name, span in held.items()}
    months = pl.DataFrame({"month": list(held)}, schema={"month": pl.String()})
    for part in (
        _of_lines(in_spans(given.lines, "starts_at", held)),
        _of_retail(in_spans(given.retail, "sold_at", held)),
        _of_bowls(in_spans(given.log, "logged_at", held), digits_of(given.settings.salon.currency)),
        _of_visits(in_spans(given.visits, "starts_at", held)),
        chair_hours(given.bookings, given.settings, gone_by),
        hours_left_empty(given.bookings, given.settings, held),
        in_spans(given.missed, "starts_at", held).group_by("month").agg(no_show_net=pl.col("net").sum()),
        open_costs(given.bookings, given.settings, gone_by).select("month", "open_cost"),
        roots_ready(given.bookings, given.services, given.settings, _last_days(gone_by)),
        _open_days(given.settings, gone_by),
    ):
        months = months.join(part, on="month", how="left")
    known = months.with_columns(pl.exclude("month", *MAY_BE_UNKNOWN).fill_null(0))
    worked_out = _ratios(known).select("month", *UNITS, *COUNTS).with_columns(selectors.float().round(4))
    every = pl.DataFrame({"month": list(spans)}, schema={"month": pl.String()})
    return every.join(worked_out, on="month", how="left").with_columns(pl.col(*UNITS).cast(AMOUNT))


def _last_days(spans: Mapping[str, Period]) -> dict[str, date]:
    return {name: span.end - timedelta(days=1) for name, span in spans.items()}


def _of_lines(lines: pl.DataFrame) -> pl.DataFrame:
    return lines.group_by("month").agg(
        service_gross=pl.col("gross").sum(),
        service_net=pl.col("net").sum(),
        discounts=pl.col("discount").sum(),
        discounted=(pl.col("discount") != 0).sum(),
        tips=pl.col("tip").sum(),
        tipped=(pl.col("tip") != 0).sum(),
        chair_hours=total_hours(pl.col("chair_hours")),
    )


def _of_retail(retail: pl.DataFrame) -> pl.DataFrame:
    return retail.group_by("month").agg(
        retail_gross=pl.col("gross").sum(), retail_net=pl.col("net").sum(), retail_items=pl.col("quantity").sum()
    )


def _of_bowls(log: pl.DataFrame, digits: int) -> pl.DataFrame:
    """left_cost is null where no bowl with a known cost was weighed."""
    left = pl.col("left_cost")
    return log.group_by("month").agg(
        product_cost=rounded(pl.col("mixed_cost").sum(), digits),
        left_cost=pl.when(left.is_not_null().any()).then(rounded(left.sum(), digits)),
        bowls=pl.len(),
        weighed=left.is_not_null().sum(),
    )


def _of_visits(made: pl.DataFrame) -> pl.DataFrame:
    came = pl.col("came")
    return made.group_by("month").agg(
        visits=came.sum(),
        missed=pl.col("missed").sum(),
        cancelled=pl.col("cancelled").sum(),
        clients=pl.struct("site", "client_id").filter(came).n_unique(),
        new_clients=pl.col("first").sum(),
        rebooked_share=pl.col("rebooked").filter(came).mean(),
    )


def _open_days(settings: Settings, spans: Mapping[str, Period]) -> pl.DataFrame:
    counted = {"open_days": open_days, "closed_days": closed_days}
    days = {name: [count(settings.hours, span) for span in spans.values()] for name, count in counted.items()}
    return pl.DataFrame(
        {"month": list(spans), **days}, schema={"month": pl.String(), **dict.fromkeys(counted, pl.Int64())}
    )


def _ratios(sums: pl.DataFrame) -> pl.DataFrame:
    def per(top: pl.Expr, bottom: pl.Expr) -> pl.Expr:
        return pl.when(bottom > 0).then(top.cast(pl.Float64) / bottom.cast(pl.Float64))

    net = pl.col("service_net") + pl.col("retail_net")
    gross = pl.col("service_gross") + pl.col("retail_gross")
    due = pl.col("missed").cast(pl.Int64) + pl.col("visits").cast(pl.Int64)
    called = pl.col("cancelled") + due
    return sums.with_columns(
        due=due,
        called=called,
        net_revenue=net,
        left_after_costs=net - pl.col("product_cost") - pl.col("open_cost"),
        gross_revenue=gross,
        net_per_open_day=per(net, pl.col("open_days")),
        gross_per_open_day=per(gross, pl.col("open_days")),
        average_visit=per(pl.col("service_net"), pl.col("visits")),
        occupied_share=per(pl.col("inside_hours"), pl.col("open_hours")),
        net_per_chair_hour=per(pl.col("service_net"), pl.col("chair_hours")),
        product_share=per(pl.col("product_cost"), pl.col("service_net")),
        retail_share=per(pl.col("retail_net"), net),
        no_show_share=per(pl.col("missed"), due),
        cancelled_share=per(pl.col("cancelled"), called),
    )
