"""The month in figures, each with the month before, the same month a year ago, and what was to be expected of it.

Net revenue is what was charged for completed lines (price less discount) and retail items, without tax; gross with tax.
Visits are those that happened, a refund being none; a new client is one whose first visit lies in the month. Average
visit is net service revenue ÷ visits. Chair hours are the time chairs were taken, developing included, overlaps on one
chair counted per visit; the occupied share is the part of opening hours in which chairs were taken. Product cost is all
grams mixed at their pack cost; product left is the grams weighed as left over, at that cost. Being open costs
costs.per_month, of days cut out of a month as much as of its open hours lies in them; what is left is net revenue −
product mixed − that, and goods sold over the counter are not taken off. Where salon.toml names no costs both are empty.
No-shows at their price are what the lines of missed visits would have brought, without tax. The no-show share is
missed visits ÷ (missed + completed); the cancelled share is cancelled visits ÷ (cancelled + missed + completed), all of
them, because exports do not say when a visit was cancelled: how late it was shows in the chair hours left empty, the
opening hours a missed or cancelled visit had on its chair in which no other visit took that chair. Rebooked before
leaving is the share of visits after which the client's next visit (on a later day, of any status) had been made no
later than that day; visits whose next one does not say when it was made are left out. Roots ready are clients whose
regrowth, on the last day, lay between the two lengths of the settings by growth alone, with no root visit ahead in the
book of that day. Per open day divides by the days the salon was open; days closed are those of [hours] closed on
which it opens in other weeks.

Expected is worked out from the months before alone: the level they ran at by the usual open day, which may drift, and
the season, as far as years before have shown one. Money is expected at the month's own prices, so that a price rise
is no news here. The usual range is expected ± as far as such expectations have missed so far, for shares by how many
visits they are of; it is never below nothing, and a share's never above all. What is left is expected from what was
to come in, product as expected and costs as they are, with the range of net revenue; it may lie below nothing. About
one value in twenty lies outside by chance alone, or one figure a month. With few months before it the range is wide,
the more so before the season was seen once, and before three months there is none; new clients have none in the half
year before everybody has stopped looking new. Two further things are news: eight months in a row on one side of
expected, and a steady drift, which is a slope over the last twelve months of more than three standard errors; neither
is said of new clients, of whom an ageing book has fewer and fewer. Open days are the calendar's and are not judged. A
month that is not over, or that was cut, is said to be a part-month; it has the open days and hours gone by, stands
beside the same days of the twelve months before, nothing in it is scaled, and it is not judged.
"""

from collections.abc import Mapping
from datetime import date

import polars as pl

from analytics.definitions.results import COUNT, MONTH_KEY, TEXT, VALUE, YES_NO, Column, Figure, Result
from analytics.periods import Period, add_months, month_name
from analytics.records.chairs.lines import completed_lines
from analytics.records.months.expected import expected
from analytics.records.months.left import with_left
from analytics.records.months.measures import UNITS, Sources, measures, sources
from analytics.records.months.price_levels import price_levels
from analytics.records.months.usual_days import usual_days
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
        "expected": Column(VALUE, "what was to be expected, from the months before alone"),
        "usual_low": Column(VALUE, "low end of the usual range around it"),
        "usual_high": Column(VALUE, "high end of the usual range around it"),
        "part_month": Column(YES_NO, "the month is not over, or was cut by --from or --to"),
        "judged": Column(YES_NO, "a whole month with a value and a usual range"),
        "flag": Column(TEXT, "above or below, where a judged value lies outside its usual range"),
        "one_side": Column(TEXT, "above or below, where eight or more months in a row lay there of expected"),
        "months_one_side": Column(COUNT, "in a row, up to this one, on the same side of expected", "months"),
        "drift": Column(VALUE, "what a month adds, where the last twelve drift steadily"),
        "months_before": Column(COUNT, "known months that the usual range rests on", "months"),
        "from_expected": Column(VALUE, "value − expected"),
        "from_previous": Column(VALUE, "value − previous"),
        "from_year_ago": Column(VALUE, "value − year_ago"),
    },
)

SAME_DAYS_OF = 12  # months before a part-month
LOOKS_NEW = 6  # months at the start of a book
ONE_SIDE = 8  # months in a row; by chance alone one month in a hundred
AGEING = "new_clients"  # the older a book, the fewer look new to it, for years on end


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
    given = sources(
        bookings=bookings,
        services=services,
        product_log=product_log,
        products=products,
        sales=sales,
        settings=settings,
        as_of=as_of,
    )
    parts = [name for name in period.months() if period.is_part(name, as_of)]
    return RESULT.shape(
        _judged(_compared(given, period, cover), parts)
        .with_columns(
            unit=pl.col("figure")
            .replace_strict(UNITS, return_dtype=pl.String)
            .str.replace("currency", settings.salon.currency),
            part_month=pl.col("month").is_in(parts),
            _order=pl.col("figure").replace_strict(dict(zip(UNITS, range(len(UNITS)), strict=True))),
        )
        .sort("month", "_order")
    )


def month_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines of the period, priced and timed."""
    return completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))


def _compared(given: Sources, period: Period, cover: Period) -> pl.DataFrame:
    """Whole months stand beside whole months, each part-month beside the same days of the months before it."""
    asked = period.parts()
    part = [name for name in asked if period.elapsed(name, given.as_of) != Period.month(name)]
    back = Period(cover.start, period.end).cut(cover).months() if asked else []
    whole = _by_figure(given, {name: Period.month(name) for name in back}, cover).filter(
        pl.col("month").is_in([name for name in asked if name not in part])
    )
    cut = [
        _by_figure(given, _days_before(name, period, cover, given.as_of) | {name: asked[name]}, cover).filter(
            month=name
        )
        for name in part
    ]
    return pl.concat([whole, *cut])


def _days_before(month: str, period: Period, cover: Period, as_of: date) -> dict[str, Period]:
    """The same days of each of the months before, in order, those that lack them empty."""
    days = period.elapsed(month, as_of)
    before = (days.months_before(back) for back in range(SAME_DAYS_OF, 0, -1))
    months = (add_months(days.start, -back) for back in range(SAME_DAYS_OF, 0, -1))
    pairs = zip(months, before, strict=True)
    return {month_name(first): span for first, span in pairs if not Period.month(month_name(first)).cut(cover).empty}


def _by_figure(given: Sources, spans: Mapping[str, Period], cover: Period) -> pl.DataFrame:
    """Long form, with the same figure a month and a year before, and what was to be expected.

    spans: days by month, in order and without a gap.
    """
    measured = measures(given, spans)
    gone_by = {name: span.elapsed(name, given.as_of) for name, span in spans.items()}
    days = usual_days(given.visits, given.settings.hours, gone_by)
    from_start = add_months(cover.start, LOOKS_NEW)
    looks_new = pl.Series([span.start < from_start for span in spans.values()], dtype=pl.Boolean()).to_numpy()
    levels = price_levels(given.lines, given.retail, given.log, spans)
    told = with_left(expected(measured, days, levels, looks_new), measured)
    return (
        measured.select("month", *UNITS)
        .unpivot(index="month", variable_name="figure", value_name="value")
        .join(told, on=["month", "figure"], how="left")
        .sort("figure", "month")
        .with_columns(
            previous=pl.col("value").shift(1).over("figure"), year_ago=pl.col("value").shift(12).over("figure")
        )
        .with_columns(from_expected=pl.col("value") - pl.col("expected"))
        .with_columns(_side=pl.col("from_expected").cast(pl.Float64).sign().fill_null(0.0).cast(pl.Int64))
        .with_columns(_run=pl.struct("figure", "_side").rle_id())
        .with_columns(months_one_side=pl.col("_side") * pl.col("_side").cum_count().over("_run").cast(pl.Int64))
        .drop("_side", "_run")
    )


def _judged(rows: pl.DataFrame, parts: list[str]) -> pl.DataFrame:
    """With how far each value is from the others, and whether that is news; part-months are not judged."""
    value, row = pl.col("value"), pl.col("months_one_side")
    judged = pl.col("usual_low").is_not_null() & value.is_not_null() & ~pl.col("month").is_in(parts)
    lasts = judged & (pl.col("figure") != AGEING)
    long = lasts & (row.abs() >= ONE_SIDE)
    return rows.with_columns(
        judged=judged,
        flag=pl.when(judged & (value < pl.col("usual_low")))
        .then(pl.lit("below"))
        .when(judged & (value > pl.col("usual_high")))
        .then(pl.lit("above")),
        one_side=pl.when(long & (row < 0)).then(pl.lit("below")).when(long).then(pl.lit("above")),
        months_one_side=pl.when(judged).then(row.abs()),
        drift=pl.when(lasts).then("slope"),
        from_previous=value - pl.col("previous"),
        from_year_ago=value - pl.col("year_ago"),
    )


FIGURE = Figure(month, month_rows, RESULT)
