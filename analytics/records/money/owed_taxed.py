"""The rows of what is owed that tax or revenue is worked out on: vouchers and deposits sold, used, kept and not used.

What is taxed when it comes in takes off, when it is used, exactly what was taxed then, so that nothing is taxed twice.
"""

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.money import EXACT, digits_of, rounded_together, with_tax
from analytics.records.money.deposits import taxed_on_receipt
from analytics.records.money.settling import KEY
from analytics.records.money.vouchers import BEFORE
from analytics.settings import Settings

COLUMNS = [
    *("supply", "kind", "item_id", "item", "day", "site", "booking_id", "tax_rate", "discount", "gross", "net", "tax"),
    *("file", "row"),
]
NO_ITEM = {"item_id": pl.lit(None, pl.String), "discount": pl.lit(0, pl.Decimal(18, 4))}
MONEY = pl.Decimal(18, 4)


def deposit_rows(parts: pl.DataFrame, settings: Settings) -> list[pl.DataFrame]:
    """deposits_received (less returned) and deposits_used, where they are taxed when they come in; deposits_kept, where
    what is kept is inside the tax. A deposit without a rate yet is in none of them."""
    parts = parts.drop_nulls("tax_rate")
    back = {"returned": "deposits_received", "kept": "deposits_used"}
    rows = []
    if taxed_on_receipt(settings):
        supply = pl.col("move").replace(back | {name: f"deposits_{name}" for name in ("received", "used")})
        rows.append(_owed(parts.with_columns(supply=supply), "deposits", "amount"))
    if settings.accounting.kept_deposits == "inside":
        kept = parts.filter(pl.col("move") == "kept")
        rows.append(
            _owed(
                kept.with_columns(-pl.col("amount"), tax=-pl.col("tax_in"), supply=pl.lit("deposits_kept")),
                "deposits",
                "amount",
            )
        )
    return rows


def voucher_rows(moves: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """vouchers_sold and vouchers_used of single-purpose vouchers: what is used of vouchers that nobody knows of was
    taxed nowhere here and takes nothing off."""
    single = settings.accounting.vouchers == "single_purpose"
    moved = moves.filter(pl.col("move").is_in(["sold", "used"]) & (pl.lit(single)))
    rate = settings.accounting.voucher_tax_rate
    told = moved.with_columns(
        supply="vouchers_" + pl.col("move"),
        tax_rate=pl.lit(settings.tax.default_rate if rate is None else rate, pl.Decimal(9, 4)),
    )
    return _owed(told, "vouchers", "amount")


def discount_rows(moves: pl.DataFrame, sold: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """voucher_discounts: what of the face of used vouchers was never paid takes off what was charged, and its tax.

    A multi-purpose voucher is taxed on what was paid for it (Directive 2006/112/EC art. 73a, from memory). Split over
    the rates of what was due that day for the visit, else at the default rate. sold: services and retail, as taxed.
    """
    digits = digits_of(settings.salon.currency)
    off = moves.filter(pl.col("discount") != 0).with_row_index("_use")
    of_days = off.filter(pl.col("booking_id").is_null()).select("site").unique()
    whole = sold.join(of_days, on="site").with_columns(booking_id=pl.lit(None, pl.String))
    rates = (
        pl.concat([sold.drop_nulls("booking_id"), whole]).group_by(*KEY, "tax_rate").agg(weight=pl.col("gross").sum())
    )
    split = off.drop("tax").join(
        rates.filter(pl.col("weight") > 0).sort(*KEY, "tax_rate"), on=KEY, how="left", nulls_equal=True
    )
    share = pl.col("weight").cast(EXACT).fill_null(1)
    part = pl.col("discount").cast(EXACT) * (share / share.sum().over("_use"))
    charged = split.with_columns(
        pl.col("tax_rate").fill_null(settings.tax.default_rate),
        charged=-rounded_together(part, digits, ["_use"]),
        supply=pl.lit("voucher_discounts"),
        kind=pl.lit("vouchers"),
        item=pl.lit("voucher below its face"),
    )
    taxed = with_tax(charged.drop("discount"), prices="included", digits=digits, group=["_use"])
    return taxed.with_columns(**NO_ITEM).select(COLUMNS)


def untaxed_rows(parts: pl.DataFrame, moves: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """What is earned outside the tax: deposits_kept by setting, and vouchers_unused (less a tax that was due when they
    were sold, which stays due). Columns as taxed rows, at no rate."""
    inside = settings.accounting.kept_deposits == "inside"
    kept = parts.filter((pl.col("move") == "kept") & (pl.col("tax_rate").is_null() | (not inside)))
    kinds = {
        "deposits_kept": kept,
        "vouchers_unused": moves.filter((pl.col("move") == "unused") & (pl.col("day") > BEFORE)),
    }
    columns = ["day", "site", "booking_id", "file", "row"]
    rows = [
        rows.select(*columns, amount=-(pl.col("amount") - taken), supply=pl.lit(supply))
        for (supply, rows), taken in zip(kinds.items(), (pl.lit(0, AMOUNT), pl.col("tax")), strict=True)
    ]
    told = pl.concat(rows).filter(pl.col("amount") != 0)
    free = told.with_columns(tax_rate=pl.lit(0, pl.Decimal(9, 4)), tax=pl.lit(0, AMOUNT))
    return _owed(free, pl.col("supply").str.split("_").list.first(), "amount")


def _owed(rows: pl.DataFrame, kind: str | pl.Expr, gross: str) -> pl.DataFrame:
    """Rows with supply, tax_rate, an amount with the tax in it, that tax, and the row of the export."""
    called = pl.lit(kind) if isinstance(kind, str) else kind
    return rows.with_columns(
        kind=called,
        item=called.str.strip_suffix("s"),
        gross=pl.col(gross).cast(MONEY),
        net=(pl.col(gross) - pl.col("tax")).cast(MONEY),
        tax=pl.col("tax").cast(MONEY),
        **NO_ITEM,
    ).select(COLUMNS)
