"""Retail rows with their charge and tax."""

import polars as pl

from analytics.money import EXACT, digits_of, rounded, with_tax
from analytics.periods import month_of
from analytics.records.chairs.validity import valid_that_day
from analytics.records.memo import memoised
from analytics.settings import Settings


@memoised
def retail_rows(sales: pl.DataFrame, products: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Sales rows with month, product, units, charged (quantity × price − discount), tax_rate, gross, net, tax and cost.

    units: pieces sold, less than nothing where they were brought back. cost: units × pack cost of that day, exact; null
    where the products export does not know the product. The rate is the row's own, else the product's of that day, else
    the default of salon.toml. Tax is rounded per row.
    """
    digits = digits_of(settings.salon.currency)
    listed = products.select("site", "product_id", "product", "tax_rate", "pack_cost", "valid_from").rename(
        {"product": "listed_product", "tax_rate": "listed_rate"}
    )
    rows = valid_that_day(sales, listed, "product_id", pl.col("sold_at")).with_columns(
        month=month_of(pl.col("sold_at")),
        product=pl.coalesce("listed_product", "product", "product_id"),
        units=pieces(),
        cost=pieces().cast(EXACT) * pl.col("pack_cost"),
        charged=rounded(pl.col("quantity").cast(pl.Decimal(38, 8)) * pl.col("price"), digits) - pl.col("discount"),
        tax_rate=pl.coalesce("tax_rate", "listed_rate").fill_null(settings.tax.default_rate),
    )
    return with_tax(rows.with_row_index("_sale"), prices=settings.tax.prices, digits=digits, group=["_sale"]).drop(
        "_sale", "listed_product", "listed_rate", "pack_cost"
    )


def pieces() -> pl.Expr:
    """Pieces of a sales row that leave the shop; a refund, by its quantity or by its price, brings them back."""
    return pl.when(pl.col("price") < 0).then(-pl.col("quantity")).otherwise("quantity")
