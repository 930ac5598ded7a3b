"""The month in figures, each with the month before, the same month a year ago, and its usual range.

Net revenue is what was charged for completed lines (price less discount) and retail items, without tax; gross with tax.
Visits are those that happened, a refund being none; a new client is one whose first visit lies in the month. Average
visit is net service revenue ÷ visits. Chair hours are the time chairs were taken, developing included, overlaps on one
chair counted per visit; the occupied share is the part of opening hours in which chairs were taken. Product cost is all
grams mixed at their pack cost; product left is the grams weighed as left over, at that cost. The no-show share is
missed visits ÷ (missed + completed); the cancelled share is cancelled visits ÷ (cancelled + missed + completed), all of
them, because exports do not say when a visit was cancelled: how late it was shows in the chair hours left empty, the
opening hours a missed or cancelled visit had on its chair in which no other visit took that chair. Rebooked before
leaving is the share of visits after which the client's next visit (on a later day, of any status) had been made no
later than that day; visits whose next one does not say when it was made are left out. Roots ready are clients whose
regrowth, on the last day, lay between the two lengths of the settings by growth alone, with no root visit ahead in the
book of that day. Per open day divides by the days the salon was open. The usual range is the individuals chart of the
12 months before (mean ± 2.66 × mean moving range): within it, a change is ordinary wobble, and a value beyond it is
flagged above or below; it stays empty until there are 12 months. A month that is not over, or that was cut, is said to
be a part-month; it has the open days and hours gone by, stands beside the same days of the months before, and nothing
in it is scaled.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

import polars as pl
from polars import selectors

from analytics.definitions.results import MONTH_KEY, TEXT, VALUE, YES_NO, Column, Figure, Result
from analytics.methods.control_chart import usual_before
from analytics.money import digits_of, rounded
from analytics.periods import Period, add_months, in_spans, month_name, open_days
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.missed import hours_left_empty
from analytics.records.chairs.open_hours import chair_hours
from analytics.records.clients.ready import roots_ready
from analytics.records.clients.visits import told_visits
from analytics.records.product.bowls import priced_log
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

RESULT = Result(
    "one row per month and figure",
    key=("month", "figure"),
    columns={
        **MONTH_KEY,
        "figure": Column(TEXT, "name of the figure"),
        "value": Column(VALUE, "its value; empty where there is nothing to divide"),
        "unit": Column(TEXT, "the currency, share, h, currency/h, or what is counted"),
        "previous": Column(VALUE, "the month before"),
        "year_ago": Column(VALUE, "the same month a year before"),
        "usual_low": Column(VALUE, "lower limit of the 12 months before"),
        "usual_high": Column(VALUE, "upper limit of the 12 months before"),
        "part_month": Column(YES_NO, "the month is not over, or was cut by --from or --to"),
        "flag": Column(TEXT, "above or below, where the value lies beyond the limits of the months before"),
    },
)

USUAL_MONTHS = 12
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
    "retail_net": CURRENCY,
    "retail_share": "share",
    "discounts": CURRENCY,
    "tips": CURRENCY,
    "no_show_share": "share",
    "no_show_empty_hours": "h",
    "cancelled_share": "share",
    "cancelled_empty_hours": "h",
    "rebooked_share": "share",
    "roots_ready": "clients",
    "open_days": "days",
}
MAY_BE_UNKNOWN = ("left_cost", "rebooked_share", "roots_ready")  # nothing known is not nothing


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
    sources = _Sources(
        bookings,
        services,
        lines=completed_lines(bookings, services, settings),
        retail=retail_rows(sales, products, settings),
        log=priced_log(product_log, products),
        visits=told_visits(bookings),
        settings=settings,
        as_of=as_of,
    )
    parts = [name for name in period.months() if period.is_part(name, as_of)]
    value, low, high = (pl.col(name) for name in ("value", "usual_low", "usual_high"))
    return RESULT.shape(
        _compared(sources, period, cover)
        .with_columns(
            unit=pl.col("figure")
            .replace_strict(UNITS, return_dtype=pl.String)
            .str.replace("currency", settings.salon.currency),
            flag=pl.when(value < low).then(pl.lit("below")).when(value > high).then(pl.lit("above")),
            part_month=pl.col("month").is_in(parts),
            _order=pl.col("figure").replace_strict(dict(zip(UNITS, range(len(UNITS)), strict=True))),
        )
        .sort("month", "_order")
    )


def month_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines of the period, priced and timed."""
    return completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


@dataclass(frozen=True)
class _Sources:
    """What the measures add up, worked out once."""

    bookings: pl.DataFrame
    services: pl.DataFrame
    lines: pl.DataFrame
    retail: pl.DataFrame
    log: pl.DataFrame
    visits: pl.DataFrame
    settings: Settings
    as_of: date


def _compared(sources: _Sources, period: Period, cover: Period) -> pl.DataFrame:
    """Whole months stand beside whole months, each part-month beside the same days of the months before it."""
    asked = period.parts()
    part = [name for name in asked if period.elapsed(name, sources.as_of) != Period.month(name)]
    back = Period(add_months(period.start, -USUAL_MONTHS), period.end).cut(cover).months() if asked else []
    whole = _by_figure(sources, {name: Period.month(name) for name in back}).filter(
        pl.col("month").is_in([name for name in asked if name not in part])
    )
    cut = [
        _by_figure(sources, _days_before(name, period, cover, sources.as_of) | {name: asked[name]}).filter(month=name)
        for name in part
    ]
    return pl.concat([whole, *cut])


def _days_before(month: str, period: Period, cover: Period, as_of: date) -> dict[str, Period]:
    """The same days of each of the months before, in order, those that lack them empty."""
    days = period.elapsed(month, as_of)
    before = (days.months_before(back) for back in range(USUAL_MONTHS, 0, -1))
    months = (add_months(days.start, -back) for back in range(USUAL_MONTHS, 0, -1))
    pairs = zip(months, before, strict=True)
    return {month_name(first): span for first, span in pairs if not Period.month(month_name(first)).cut(cover).empty}


def _by_figure(sources: _Sources, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Long form, with the same figure a month and a year before and the limits of the months before.

    spans: days by month, in order and without a gap.
    """
    low, high = usual_before(pl.col("value").cast(pl.Float64), USUAL_MONTHS)
    return (
        _measures(sources, spans)
        .unpivot(index="month", variable_name="figure", value_name="value")
        .sort("figure", "month")
        .with_columns(
            previous=pl.col("value").shift(1).over("figure"),
            year_ago=pl.col("value").shift(12).over("figure"),
            usual_low=low.over("figure").round(4).cast(VALUE.dtype),
            usual_high=high.over("figure").round(4).cast(VALUE.dtype),
        )
    )


def _measures(sources: _Sources, spans: Mapping[str, Period]) -> pl.DataFrame:
    """One row per span, one column per figure, all as VALUE: money stays exact. An empty span has nothing."""
    held = {name: span for name, span in spans.items() if not span.empty}
    gone_by = {name: span.elapsed(name, sources.as_of) for name, span in held.items()}
    months = pl.DataFrame({"month": list(held)}, schema={"month": pl.String()})
    for part in (
        _of_lines(in_spans(sources.lines, "starts_at", held)),
        _of_retail(in_spans(sources.retail, "sold_at", held)),
        _of_bowls(in_spans(sources.log, "logged_at", held), digits_of(sources.settings.salon.currency)),
        _of_visits(in_spans(sources.visits, "starts_at", held)),
        chair_hours(sources.bookings, sources.settings, gone_by),
        hours_left_empty(sources.bookings, sources.settings, held),
        roots_ready(sources.bookings, sources.services, sources.settings, _last_days(gone_by)),
        _open_days(sources.settings, gone_by),
    ):
        months = months.join(part, on="month", how="left")
    known = months.with_columns(pl.exclude("month", *MAY_BE_UNKNOWN).fill_null(0))
    worked_out = _ratios(known).select("month", *UNITS).with_columns(selectors.float().round(4))
    every = pl.DataFrame({"month": list(spans)}, schema={"month": pl.String()})
    return every.join(worked_out, on="month", how="left").with_columns(pl.exclude("month").cast(VALUE.dtype))


def _last_days(spans: Mapping[str, Period]) -> dict[str, date]:
    return {name: span.end - timedelta(days=1) for name, span in spans.items()}


def _of_lines(lines: pl.DataFrame) -> pl.DataFrame:
    return lines.group_by("month").agg(
        service_gross=pl.col("gross").sum(),
        service_net=pl.col("net").sum(),
        discounts=pl.col("discount").sum(),
        tips=pl.col("tip").sum(),
        chair_hours=pl.col("chair_hours").sum(),
    )


def _of_retail(retail: pl.DataFrame) -> pl.DataFrame:
    return retail.group_by("month").agg(retail_gross=pl.col("gross").sum(), retail_net=pl.col("net").sum())


def _of_bowls(log: pl.DataFrame, digits: int) -> pl.DataFrame:
    """left_cost is null where no bowl with a known cost was weighed."""
    left = pl.col("left_cost")
    return log.group_by("month").agg(
        product_cost=rounded(pl.col("mixed_cost").sum(), digits),
        left_cost=pl.when(left.is_not_null().any()).then(rounded(left.sum(), digits)),
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
    return pl.DataFrame(
        {"month": list(spans), "open_days": [open_days(settings.hours, span) for span in spans.values()]},
        schema={"month": pl.String(), "open_days": pl.Int64()},
    )


def _ratios(sums: pl.DataFrame) -> pl.DataFrame:
    def per(top: pl.Expr, bottom: pl.Expr) -> pl.Expr:
        return pl.when(bottom > 0).then(top.cast(pl.Float64) / bottom.cast(pl.Float64))

    net = pl.col("service_net") + pl.col("retail_net")
    gross = pl.col("service_gross") + pl.col("retail_gross")
    due = pl.col("missed") + pl.col("visits")
    return sums.with_columns(
        net_revenue=net,
        gross_revenue=gross,
        net_per_open_day=per(net, pl.col("open_days")),
        gross_per_open_day=per(gross, pl.col("open_days")),
        average_visit=per(pl.col("service_net"), pl.col("visits")),
        occupied_share=per(pl.col("inside_hours"), pl.col("open_hours")),
        net_per_chair_hour=per(pl.col("service_net"), pl.col("chair_hours")),
        product_share=per(pl.col("product_cost"), pl.col("service_net")),
        retail_share=per(pl.col("retail_net"), net),
        no_show_share=per(pl.col("missed"), due),
        cancelled_share=per(pl.col("cancelled"), pl.col("cancelled") + due),
    )


FIGURE = Figure(month, month_rows, RESULT)
