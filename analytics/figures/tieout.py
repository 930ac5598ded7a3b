"""Whether the month's money ties: charged + retail + tips + vouchers sold − vouchers used = taken.

Charged and tips are those of completed lines, retail that of the sales table, all with tax. Taken is every payment but
those with vouchers, which were taken when the voucher was sold. A payment that belongs to no visit is for a retail item
sold over the counter that day; what comes in beyond those items is a voucher or deposit sold (none can be told where no
payment names its visit). The difference is taken less what should have been taken: positive where too much was paid,
negative where something was not.
"""

import polars as pl

from analytics.periods import Period, month_of
from analytics.records.lines import completed_lines
from analytics.records.retail import retail_rows
from analytics.results import RESULTS
from analytics.settings import Settings

SUMS = ["charged_gross", "retail_gross", "tips", "vouchers_sold", "vouchers_used", "taken"]


def tieout(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    payments: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """One row per month of the period; money in the currency."""
    days = tieout_rows(bookings, services, payments, sales, products, settings=settings, period=period)
    months = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    sums = days.with_columns(month=month_of(pl.col("day"))).group_by("month").agg(pl.col(*SUMS).sum())
    return RESULTS["tieout"].shape(
        months.join(sums, on="month", how="left").with_columns(pl.col(*SUMS).fill_null(0)).with_columns(_difference())
    )


def tieout_rows(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    payments: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """The same by day."""
    lines = completed_lines(bookings, services, settings).filter(period.holds(pl.col("starts_at")))
    retail = retail_rows(sales, products, settings).filter(period.holds(pl.col("sold_at")))
    paid = payments.filter(period.holds(pl.col("paid_at"))).with_columns(day=pl.col("paid_at").dt.date())
    voucher = pl.col("method") == "voucher"
    over_counter = pl.col("booking_id").is_null()
    parts = [
        lines.group_by(day=pl.col("starts_at").dt.date()).agg(
            charged_gross=pl.col("gross").sum(), tips=pl.col("tip").sum()
        ),
        retail.group_by(day=pl.col("sold_at").dt.date()).agg(
            retail_gross=pl.col("gross").sum(), _items=pl.col("gross").filter(over_counter).sum()
        ),
        paid.group_by("day").agg(
            taken=pl.col("amount").filter(~voucher).sum(),
            vouchers_used=pl.col("amount").filter(voucher).sum(),
            _counter=pl.col("amount").filter(over_counter).sum(),
        ),
    ]
    days = pl.concat([part.select(pl.col("day").cast(pl.Date)) for part in parts]).unique().sort("day")
    for part in parts:
        days = days.join(part, on="day", how="left")
    names_visits = payments["booking_id"].is_not_null().any()
    beyond = pl.col("_counter") - pl.col("_items") if names_visits else pl.lit(0)
    return (
        days.with_columns(pl.exclude("day").fill_null(0))
        .with_columns(vouchers_sold=pl.when(beyond > 0).then(beyond).otherwise(0))
        .with_columns(_difference())
        .select("day", *SUMS, "difference")
    )


def _difference() -> pl.Expr:
    due = (
        pl.col("charged_gross")
        + pl.col("retail_gross")
        + pl.col("tips")
        + pl.col("vouchers_sold")
        - pl.col("vouchers_used")
    )
    return (pl.col("taken") - due).alias("difference")
