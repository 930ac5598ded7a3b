"""What was earned, by what was sold, kind and tax rate."""

import polars as pl

EARNED = ("services", "retail", "tips", "voucher_discounts", "deposits_kept", "vouchers_unused")
OUTSIDE = "outside the tax"
SERVICES_FIRST = pl.col("supply") != "services"


def treated(rows: pl.DataFrame, exempt: tuple[str, ...]) -> pl.DataFrame:
    """Rows with `treatment`: taxed, or at 0 % zero-rated or exempt."""
    free = pl.when(pl.col("item_id").is_in(exempt)).then(pl.lit("exempt")).otherwise(pl.lit("zero-rated"))
    return rows.with_columns(treatment=pl.when(pl.col("tax_rate") == 0).then(free).otherwise(pl.lit("taxed")))


def earned_rows(taxed: pl.DataFrame, untaxed: pl.DataFrame, exempt: tuple[str, ...]) -> pl.DataFrame:
    """The rows of what was earned, of taxed_rows and of untaxed_rows, with `treatment`."""
    inside = treated(taxed.filter(pl.col("supply").is_in(EARNED)), exempt)
    return pl.concat([inside, untaxed.with_columns(treatment=pl.lit(OUTSIDE))])


def revenue_by(rows: pl.DataFrame, *by: str) -> pl.DataFrame:
    """Of earned_rows, per by…, supply, kind, tax_rate and treatment: lines, gross, net, tax, discounts and discount.

    discounts: lines of which something was taken off; discount: how much, as prices are. rows: as `treated` has them.
    """
    off = pl.col("discount") != 0
    return (
        rows.group_by(*by, "supply", "kind", "tax_rate", "treatment")
        .agg(
            pl.col("gross", "net", "tax", "discount").sum(),
            lines=pl.len().cast(pl.Int64),
            discounts=off.sum().cast(pl.Int64),
        )
        .sort(*by, SERVICES_FIRST, "supply", "kind", "tax_rate", "treatment")
    )
