"""Everything the tax is worked out on, one row each: services and retail, and by setting tips and vouchers."""

import polars as pl

from analytics.money import digits_of, with_tax
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings

COLUMNS = [
    "supply",
    "kind",
    "item_id",
    "item",
    "day",
    "site",
    "booking_id",
    "tax_rate",
    "discount",
    "gross",
    "net",
    "tax",
    "file",
    "row",
]
SUPPLIES = ("services", "retail", "tips", "vouchers_sold", "vouchers_used")
NO_ROW = {"file": pl.lit("").alias("file"), "row": pl.lit(None, pl.Int64).alias("row")}


def taxed_rows(
    lines: pl.DataFrame, retail: pl.DataFrame, settlements: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """Rows with supply (services, retail, tips, vouchers_sold, vouchers_used), day, tax_rate, gross, net and tax.

    lines, retail, settlements: as completed_lines, retail_rows and settled answer them. Tips are rows of their own
    where they are inside the tax (a compulsory charge), at the rate of their line, the tax in them. A single-purpose
    voucher is taxed when it is sold; when it is used it takes off what was taxed then, so that nothing is taxed twice.
    """
    parts = [_services(lines), _retail(retail)]
    if settings.accounting.tips == "inside":
        parts.append(_tips(lines, settings))
    if settings.accounting.vouchers == "single_purpose":
        parts.append(_vouchers(settlements, settings))
    return pl.concat(parts).sort("day", "site", "booking_id", "file", "row", nulls_last=True, maintain_order=True)


def _services(lines: pl.DataFrame) -> pl.DataFrame:
    return lines.with_columns(
        supply=pl.lit("services"),
        item_id=pl.col("service_id"),
        item=pl.coalesce("service", "service_id"),
        day=pl.col("starts_at").dt.date(),
    ).select(COLUMNS)


def _retail(retail: pl.DataFrame) -> pl.DataFrame:
    return retail.with_columns(
        supply=pl.lit("retail"),
        kind=pl.lit("retail"),
        item_id=pl.col("product_id"),
        item=pl.col("product"),
        day=pl.col("sold_at").dt.date(),
    ).select(COLUMNS)


def _tips(lines: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    given = lines.filter(pl.col("tip") != 0).with_columns(
        charged=pl.col("tip"),
        discount=pl.lit(0, pl.Decimal(18, 4)),
        supply=pl.lit("tips"),
        kind=pl.lit("tips"),
        item_id=pl.col("service_id"),
        item=pl.lit("tip"),
        day=pl.col("starts_at").dt.date(),
    )
    group = VISIT if settings.tax.round_per == "booking" else [*VISIT, "line"]
    digits = digits_of(settings.salon.currency)
    return with_tax(given, prices="included", digits=digits, group=group).select(COLUMNS)


def _vouchers(settlements: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Sold and used, one row each per day, site and visit."""
    rate = settings.accounting.voucher_tax_rate
    rate = settings.tax.default_rate if rate is None else rate
    sides = [
        settlements.filter(pl.col(column) != 0).with_columns(
            supply=pl.lit(column), kind=pl.lit("vouchers"), charged=pl.col(column) * sign
        )
        for column, sign in (("vouchers_sold", 1), ("vouchers_used", -1))
    ]
    rows = (
        pl.concat(sides)
        .with_columns(
            item_id=pl.lit(None, pl.String),
            item=pl.lit("voucher"),
            tax_rate=pl.lit(rate, pl.Decimal(9, 4)),
            discount=pl.lit(0, pl.Decimal(18, 4)),
            **NO_ROW,
        )
        .with_row_index("_voucher")
    )
    digits = digits_of(settings.salon.currency)
    return with_tax(rows, prices="included", digits=digits, group=["_voucher"]).select(COLUMNS)
