"""What each visit was due and what was paid for it, day by day, and what was sold over the counter."""

import polars as pl

KEY = ["day", "site", "booking_id"]
DUE = ["charged_gross", "tips", "retail_gross"]
PAID = ["paid", "vouchers_used"]


def settled(lines: pl.DataFrame, retail: pl.DataFrame, payments: pl.DataFrame) -> pl.DataFrame:
    """One row per day, site and visit: charged_gross, tips, retail_gross, paid, vouchers_used (part of paid),
    vouchers_sold, received (paid without vouchers), and difference = paid − due − vouchers_sold.

    lines: completed lines. retail: retail rows. booking_id is empty for what was bought and paid over the counter;
    what comes in there beyond the items of that day and site is a voucher or deposit sold (what was given back and not
    paid back comes in from nobody). Where no payment of a site names its visit, visits and payments of a day are
    compared as a whole and no voucher can be told.
    """
    named = pl.col("site").is_in(naming_sites(payments))
    visit = pl.when(named).then("booking_id").alias("booking_id")
    rows = pl.concat(
        [
            lines.select(pl.col("starts_at").dt.date().alias("day"), "site", visit, *_amounts("gross", "tip")),
            retail.select(pl.col("sold_at").dt.date().alias("day"), "site", visit, *_amounts(retail="gross")),
            payments.select(pl.col("paid_at").dt.date().alias("day"), "site", visit, *_amounts(paid="amount")),
        ]
    )
    beyond = pl.min_horizontal(pl.col("paid") - _due(), "_came_in")
    counter = pl.col("booking_id").is_null() & (beyond > 0) & named
    return (
        rows.group_by(KEY)
        .agg(pl.col(*DUE, *PAID).sum(), _came_in=pl.col("paid").clip(lower_bound=0).sum())
        .with_columns(
            vouchers_sold=pl.when(counter).then(beyond).otherwise(0), received=pl.col("paid") - pl.col(PAID[1])
        )
        .with_columns(difference=pl.col("paid") - _due() - pl.col("vouchers_sold"))
        .drop("_came_in")
        .sort(*KEY, nulls_last=True)
    )


def naming_sites(payments: pl.DataFrame) -> list[str]:
    """The sites whose payments name visits."""
    return payments.filter(pl.col("booking_id").is_not_null())["site"].unique().sort().to_list()


def _due() -> pl.Expr:
    return pl.col("charged_gross") + pl.col("tips") + pl.col("retail_gross")


def _amounts(gross: str = "", tip: str = "", *, retail: str = "", paid: str = "") -> list[pl.Expr]:
    """The columns of money that a row brings in, nothing in the others."""
    voucher = pl.when(pl.col("method") == "voucher").then("amount").otherwise(0) if paid else pl.lit(0)
    brought = {
        "charged_gross": pl.col(gross) if gross else pl.lit(0),
        "tips": pl.col(tip) if tip else pl.lit(0),
        "retail_gross": pl.col(retail) if retail else pl.lit(0),
        "paid": pl.col(paid) if paid else pl.lit(0),
        "vouchers_used": voucher,
    }
    return [amount.cast(pl.Decimal(38, 4)).alias(name) for name, amount in brought.items()]
