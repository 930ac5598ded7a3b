"""Everything the tax is worked out on, one row each: services, retail, and by setting tips, vouchers and deposits."""

import polars as pl

from analytics.money import digits_of, with_tax
from analytics.records.chairs.stays import VISIT
from analytics.records.money.owed_taxed import COLUMNS, deposit_rows, discount_rows, voucher_rows
from analytics.settings import Settings


def sold_rows(lines: pl.DataFrame, retail: pl.DataFrame) -> pl.DataFrame:
    """services and retail: one row per completed line and per item sold, as completed_lines and retail_rows have them.

    Columns supply, kind, item, day, tax_rate, discount, gross, net and tax; site, visit, file and row.
    """
    return pl.concat([_services(lines), _retail(retail)])


def taxed_rows(
    lines: pl.DataFrame, sold: pl.DataFrame, deposits: pl.DataFrame, moves: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """Rows as sold_rows has them, of everything that is inside the tax.

    sold: sold_rows. deposits, moves: deposit_parts and voucher_moves, from which the supplies of owed_taxed are made.
    tips: where they are inside the tax (a compulsory charge), at the rate of their line, the tax in them.
    """
    parts = [sold, *deposit_rows(deposits, settings), voucher_rows(moves, settings)]
    parts.append(discount_rows(moves, sold, settings))
    if settings.accounting.tips == "inside":
        parts.append(_tips(lines, settings))
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
