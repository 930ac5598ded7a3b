"""What each visit was due and what was paid for it, day by day, and what was sold over the counter."""

import polars as pl

from analytics.definitions.results import AMOUNT

KEY = ["day", "site", "booking_id"]
DUE = ["charged_gross", "tips", "retail_gross"]
PAID = ["paid", "vouchers_used", "voucher_called", "deposit_called"]
NOTHING = pl.lit(0, AMOUNT)


def visit_days(
    lines: pl.DataFrame, retail: pl.DataFrame, payments: pl.DataFrame, vouchers: pl.DataFrame
) -> pl.DataFrame:
    """One row per day, site and visit: DUE (with tax), paid, vouchers_used (part of paid), and vouchers_sold.

    lines, retail: completed_lines and retail_rows. booking_id is empty for what was bought and paid over the counter,
    and for all of a site none of whose payments names its visit: there visits and payments of a day are compared as a
    whole. file, row: of the first payment. deposit_called: what payments call a deposit. vouchers_sold: what payments
    call so; what the register says was paid for vouchers sold that day, where it has any of that day; else what comes
    in over the counter beyond the items sold there (what was given back and not paid back comes in from nobody), which
    cannot be told where no payment names its visit.
    """
    named = pl.col("site").is_in(naming_sites(payments))
    visit = pl.when(named).then("booking_id").alias("booking_id")
    rows = pl.concat(
        [
            lines.select(_day("starts_at"), "site", visit, charged_gross="gross", tips="tip"),
            retail.select(_day("sold_at"), "site", visit, retail_gross="gross"),
            payments.sort("paid_at", "file", "row").select(_day("paid_at"), "site", visit, "file", "row", **_paid()),
            sold_since(vouchers, payments).select(*KEY, listed="paid"),
        ],
        how="diagonal_relaxed",
    ).with_columns(pl.col(*DUE, *PAID, "listed").cast(AMOUNT).fill_null(0))
    fresh = (pl.col("deposit_called") == 0) & (pl.col("vouchers_used") == 0)  # money that may be for a voucher
    summed = rows.group_by(KEY, maintain_order=True).agg(
        pl.col(*DUE, *PAID, "listed").sum(),
        file=pl.col("file").drop_nulls().first(),
        row=pl.col("row").drop_nulls().first(),
        _came_in=pl.when(fresh).then(pl.col("paid").clip(lower_bound=0)).otherwise(0).sum(),
    )
    return (
        summed.with_columns(vouchers_sold=_sold(named))
        .drop("_came_in", "voucher_called", "listed")
        .sort(*KEY, nulls_last=True)
    )


def _sold(named: pl.Expr) -> pl.Expr:
    counter, called = pl.col("booking_id").is_null(), pl.col("voucher_called")
    of_day = ["day", "site"]
    listed = pl.col("listed").sum().over(of_day)
    elsewhere = pl.when(counter).then(NOTHING).otherwise(called).sum().over(of_day)
    due = pl.sum_horizontal(*DUE)
    beyond = pl.min_horizontal(pl.col("paid") - pl.col("deposit_called") - called - due, pl.col("_came_in") - called)
    over_counter = pl.when(named).then(called + beyond.clip(lower_bound=0)).otherwise(called)
    by_register = pl.max_horizontal(listed - elsewhere, NOTHING)
    return pl.when(~counter).then(called).when(listed > 0).then(by_register).otherwise(over_counter)


def naming_sites(payments: pl.DataFrame) -> list[str]:
    """The sites whose payments name visits."""
    return payments.filter(pl.col("booking_id").is_not_null())["site"].unique().sort().to_list()


def sold_since(vouchers: pl.DataFrame, payments: pl.DataFrame) -> pl.DataFrame:
    """Vouchers of the register that were sold since the payments of their site begin: day, no visit, paid."""
    begin = payments.group_by("site").agg(_begins=pl.col("paid_at").min().dt.date())
    known = vouchers.join(begin, on="site").filter(pl.col("sold_on") >= pl.col("_begins"))
    none = pl.lit(None, pl.String)
    return known.with_columns(day="sold_on", booking_id=none, paid=pl.coalesce("paid", "face")).drop("_begins")


def of_visits(payments: pl.DataFrame) -> pl.DataFrame:
    """Payments with their day, without their visit where no payment of the site names one."""
    named = pl.col("site").is_in(naming_sites(payments))
    return payments.with_columns(_day("paid_at"), pl.when(named).then("booking_id").alias("booking_id"))


def _day(moment: str) -> pl.Expr:
    return pl.col(moment).dt.date().alias("day")


def _paid() -> dict[str, pl.Expr]:
    amount = pl.col("amount")
    sold = (pl.col("purpose") == "voucher") & (pl.col("method") != "voucher") & (amount > 0)
    parts = {"vouchers_used": pl.col("method") == "voucher", "voucher_called": sold}
    parts["deposit_called"] = pl.col("purpose") == "deposit"
    return {"paid": amount} | {name: pl.when(which).then(amount).otherwise(0) for name, which in parts.items()}
