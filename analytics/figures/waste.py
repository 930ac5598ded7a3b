"""What leaves in the bowl, split by product, kind, service, stylist and in all, month by month, with what it costs.

Grams and bowls are those of the mixing log. Left over is known only of bowls weighed after the service: left_share is
grams left ÷ grams mixed of those, left_cost those grams at the pack cost of their day. left_cost_likely carries the
share of cost left in weighed bowls over to all logged bowls; nothing is said of work that is not in the log, and colour
lines logged ÷ colour lines says how much that is. The ranges hold the true value 8 times in 10 if bowls are weighed and
logged as it happens: those of the share are for all colour work, so that a thinly covered month has a wide one; those
of the cost are for the bowls logged (ratio estimator over bowls, Student's t). The usual range is the individuals chart
of the 12 months before (mean ± 2.66 × mean moving range), of months so far back that all have a value, cut at nothing
and at all. It is not the expectation of the figure month: a product, service or stylist has few bowls a month and no
season that twelve months would show, and the same rule for each lets them be compared.

Against plan, above 0 being dearer: price_variance is what all grams mixed cost beyond what they would have at the pack
costs of a year before; quantity_variance is the grams weighed as left at the pack costs of a year before, as a plan in
which all that is mixed goes on hair has none. A bowl logged without a service or a stylist takes those of its visit.

The saving at the salon's share is what a stylist's bowls cost × (share left − the share left in all), where the low end
of that stylist's range lies above the share in all: what fewer bowls show by chance is no saving. In all it is their
sum.
"""

from datetime import date

import polars as pl

from analytics.definitions import results
from analytics.definitions.results import MONTH_KEY, Column, Figure, Result
from analytics.methods.control_chart import usual_before
from analytics.money import EXACT, digits_of, rounded
from analytics.periods import Period
from analytics.records.chairs.stays import VISIT
from analytics.records.chairs.validity import latest_names
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.bowls import priced_log
from analytics.records.product.left_over import ALL, BY, SPLITS, lines_covered, sums_of_bowls, with_ranges
from analytics.records.product.mixes import log_by_bowl

RESULT = Result(
    "one row per month, split and item of it, and one per month for all bowls",
    key=("month", "split", "item_id"),
    columns={
        **MONTH_KEY,
        "split": Column(results.TEXT, "all, product, kind, service or stylist"),
        "item_id": Column(results.TEXT, "which of them; empty for all, and where the log does not say"),
        "item": Column(results.TEXT, "its name"),
        "bowls": Column(results.BOWLS, "bowls it was in"),
        "weighed_bowls": Column(results.BOWLS, "of these, weighed after the service"),
        "mixed_g": Column(results.GRAMS, "grams mixed"),
        "weighed_mixed_g": Column(results.GRAMS, "of it in bowls that were weighed"),
        "left_g": Column(results.GRAMS, "grams left in those"),
        "left_share": Column(results.SHARE, "left ÷ mixed of the weighed bowls"),
        "left_share_low": Column(results.SHARE, "low end of its 80 % range for all colour work"),
        "left_share_high": Column(results.SHARE, "high end of its 80 % range"),
        "mixed_cost": Column(results.MONEY, "what the grams mixed cost"),
        "left_cost": Column(results.MONEY, "what the grams weighed as left cost"),
        "left_cost_likely": Column(results.MONEY, "what was likely left in all logged bowls"),
        "left_cost_low": Column(results.MONEY, "low end of its 80 % range"),
        "left_cost_high": Column(results.MONEY, "high end of its 80 % range"),
        "price_variance": Column(results.MONEY, "dearer (above 0) than at the pack costs of a year before"),
        "quantity_variance": Column(results.MONEY, "grams left, at the pack costs of a year before"),
        "colour_lines": Column(results.LINES, "completed colour lines, of all for a product or kind"),
        "colour_lines_logged": Column(results.LINES, "of these, lines with a bowl in the log"),
        "previous_share": Column(results.SHARE, "share left the month before"),
        "year_ago_share": Column(results.SHARE, "share left the same month a year before"),
        "usual_share_low": Column(results.SHARE, "lower limit of the 12 months before"),
        "usual_share_high": Column(results.SHARE, "upper limit of the 12 months before"),
        "previous_cost": Column(results.MONEY, "likely cost the month before"),
        "year_ago_cost": Column(results.MONEY, "likely cost the same month a year before"),
        "usual_cost_low": Column(results.MONEY_WORKED_OUT, "lower limit of the 12 months before"),
        "usual_cost_high": Column(results.MONEY_WORKED_OUT, "upper limit of the 12 months before"),
        "part_month": Column(results.YES_NO, "the month is not over, or was cut by --from or --to"),
        "weighed_share": Column(results.SHARE, "weighed bowls ÷ bowls"),
        "logged_share": Column(results.SHARE, "colour lines logged ÷ colour lines"),
        "saving_at_salon_share": Column(results.MONEY, "what leaving no more than is left in all would save"),
        "flag": Column(results.TEXT, "above or below, where the likely cost of a whole month lies beyond these limits"),
    },
)

USUAL_MONTHS = 12
TRENDS = {"share": "left_share", "cost": "left_cost_likely"}


def waste(mixed: BowlRows, *, period: Period, cover: Period, as_of: date) -> pl.DataFrame:
    """One row per month, split and item of it with bowls, and one per month for all; grams, money in the currency."""
    rows = waste_rows(mixed, period=cover)
    lines, digits = mixed.colour_lines, digits_of(mixed.settings.salon.currency)
    whole = _measured(rows, lines, cover, digits)
    inside = rows.filter(period.holds(pl.col("logged_at")))
    asked = _with_saving(whole if period == cover else _measured(inside, lines, period, digits), digits)
    trends = _trends(whole, cover)
    names = rows.select("product_id", "product").unique("product_id", keep="last", maintain_order=True)
    return RESULT.shape(
        asked.join(trends, on=BY, how="left")
        .join(names, left_on="item_id", right_on="product_id", how="left")
        .join(latest_names(mixed.tables["services"]), left_on="item_id", right_on="service_id", how="left")
        .with_columns(
            item=pl.when(pl.col("split") == "product")
            .then("product")
            .when(pl.col("split") == "service")
            .then(pl.coalesce("service", "item_id"))
            .when(pl.col("split") != ALL)
            .then("item_id"),
            item_id=pl.when(pl.col("split") != ALL).then("item_id"),
            part_month=pl.col("month").is_in([month for month in period.months() if period.is_part(month, as_of)]),
            _order=pl.col("split").replace_strict({split: place for place, split in enumerate(SPLITS)}),
        )
        .with_columns(flag=pl.when(~pl.col("part_month")).then(_beyond()))
        .sort("month", "_order", "item_id")
    )


def _beyond() -> pl.Expr:
    cost = pl.col("left_cost_likely").cast(pl.Float64)
    return (
        pl.when(cost < pl.col("usual_cost_low"))
        .then(pl.lit("below"))
        .when(cost > pl.col("usual_cost_high"))
        .then(pl.lit("above"))
    )


def waste_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """The log rows the figure adds up, each with its bowl, service and stylist, and its cost then and a year before."""
    product_log, products, bookings, services = (
        mixed.tables[name] for name in ("product_log", "products", "bookings", "services")
    )
    year_before = product_log.with_columns(pl.col("logged_at").dt.offset_by("-1y"))
    then = priced_log(year_before, products).select(mixed_cost_before="mixed_cost", left_cost_before="left_cost")
    who = (
        bookings.sort("line").group_by(VISIT, maintain_order=True).agg(_stylist=pl.col("stylist").drop_nulls().first())
    )
    return (
        log_by_bowl(product_log.hstack(then), products, bookings, services)
        .filter(period.holds(pl.col("logged_at")))
        .join(who, on=VISIT, how="left", maintain_order="left")
        .with_columns(pl.coalesce("stylist", "_stylist").alias("stylist"))
        .drop("_stylist")
    )


def _measured(rows: pl.DataFrame, lines: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """One row per month and item: sums, shares, their ranges and what the log covers."""
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    whole = months.with_columns(split=pl.lit(ALL), item_id=pl.lit(""))
    sums = pl.concat([sums_of_bowls(rows, split) for split in SPLITS])
    inside = lines.filter(period.holds(pl.col("starts_at")))
    measured = (
        pl.concat([whole.join(sums.select(BY), on=BY, how="anti"), sums], how="diagonal")
        .join(lines_covered(inside), on=BY, how="left")
        .join(lines_covered(inside).filter(split=ALL).drop("split", "item_id"), on="month", how="left", suffix="_all")
    )
    counts = ["bowls", "weighed_bowls", "colour_lines", "colour_lines_logged"]
    of_all = pl.col("split").is_in([ALL, "product", "kind"])
    return with_ranges(
        measured.with_columns(
            pl.when(of_all).then(f"{name}_all").otherwise(name).alias(name) for name in counts[2:]
        ).with_columns(pl.col(*counts, "mixed_g", "weighed_mixed_g").fill_null(0)),
        digits,
    )


def _with_saving(measured: pl.DataFrame, digits: int) -> pl.DataFrame:
    """Of stylists who leave more than is left in all, by more than chance does, what the salon's share would save."""
    in_all = measured.filter(split=ALL).select("month", _share="left_share")
    more = (pl.col("split") == "stylist") & (pl.col("left_share_low") > pl.col("_share"))
    saved = pl.col("mixed_cost").cast(pl.Float64).fill_null(0.0) * (pl.col("left_share") - pl.col("_share"))
    saving = rounded(pl.when(more).then(saved).round(9).cast(EXACT), digits)
    return (
        measured.join(in_all, on="month", how="left", maintain_order="left")
        .with_columns(saving_at_salon_share=saving)
        .with_columns(
            saving_at_salon_share=pl.when((pl.col("split") == ALL) & pl.col("left_share").is_not_null())
            .then(pl.col("saving_at_salon_share").sum().over("month"))
            .otherwise("saving_at_salon_share")
        )
        .drop("_share")
    )


def _trends(measured: pl.DataFrame, cover: Period) -> pl.DataFrame:
    """Per month and item: share and cost of the month and the year before, and what is usual."""
    months = pl.DataFrame({"month": cover.months()}, schema={"month": pl.String()})
    item = ["split", "item_id"]
    over = (
        months.join(measured.select(item).unique(), how="cross")
        .join(measured.select(*BY, *TRENDS.values()), on=BY, how="left", nulls_equal=True)
        .sort(*item, "month")
    )
    for name, column in TRENDS.items():
        low, high = usual_before(pl.col(column).cast(pl.Float64), USUAL_MONTHS)
        most = 1.0 if name == "share" else None
        over = over.with_columns(
            pl.col(column).shift(1).over(item).alias(f"previous_{name}"),
            pl.col(column).shift(12).over(item).alias(f"year_ago_{name}"),
            low.over(item).round(9).clip(0.0).alias(f"usual_{name}_low"),
            high.over(item).round(9).clip(upper_bound=most).alias(f"usual_{name}_high"),
        )
    return over.drop(TRENDS.values())


FIGURE = Figure(waste, waste_rows, RESULT)
