"""The journal as people read it: balanced entries per day and site, and one for each earlier period that was corrected.

What stands in them is the figure `journal`; debits are positive and credits negative until they are shown.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY
from analytics.handover.accountant.sheets.totals import totals_by
from analytics.records.money.postings import OF_THE_DAY
from analytics.settings import Accounts

STOCK_WORDS = {
    "stock:purchases": "Product bought",
    "stock:returned": "Product sent back",
    "stock:found": "Stock there before its records begin",
    "stock:mixed": "Product used",
    "stock:rounding": "Rounding of stock",
    "stock:sold": "Retail sold, at cost",
    "stock:discarded": "Product thrown away",
    "stock:missing": "Stock missing at counts",
    "stock:written_down": "Stock written down",
    "stock:reversed": "Write-down reversed",
    "stock:released": "Write-down of stock that has left",
}
DAY_TEXT, BOUGHT_TEXT, STOCK_TEXT = (
    "Sales and payments of the day",
    "Product bought and sent back",
    "Stock of the month",
)
REFERENCES = {DAY_TEXT: "day", BOUGHT_TEXT: "bought", STOCK_TEXT: "stock"}
WORDS = {
    "taken": "Received, {}",
    "fees": "Fees",
    "fees_of": "Fees taken off, {}",
    "revenue": "{} at {} %",
    "tax": "Tax at {} %",
    "tips": "Tips to pass on",
    "vouchers_sold": "Vouchers sold",
    "vouchers_used": "Vouchers used",
    "vouchers_beyond": "Vouchers used beyond those owed",
    "vouchers_unused": "Vouchers never used",
    "deposits_received": "Deposits received",
    "deposits_returned": "Deposits returned",
    "deposits_used": "Deposits used",
    "deposits_kept": "Deposits kept",
    "untaxed": "{}, outside the tax",
    "open_items": "Difference to clear",
}
SUPPLY_WORDS = {
    **{"services": "Services", "retail": "Retail", "tips": "Service charges"},
    **{"voucher_discounts": "Vouchers below their face", "deposits_kept": "Deposits kept"},
    "vouchers_unused": "Vouchers never used",
}


def item_words(item: str) -> str:
    """'revenue:services:9' -> 'Services at 9 %'."""
    if item in STOCK_WORDS:
        return STOCK_WORDS[item]
    name, *parts = item.split(":")
    shown = [SUPPLY_WORDS.get(part, {"bank": "bank transfer"}.get(part, part)) for part in parts]
    return WORDS[name].format(*shown)


def entries(rows: pl.DataFrame, corrections: pl.DataFrame, first: date, accounts: Accounts) -> pl.DataFrame:
    """The journal as it is shown: entry, transaction_id, day, site, text, account, item, debit, credit.

    corrections: period, site, item, account, difference: each period and site becomes an entry of the day `first`.
    """
    corrected = (
        totals_by(corrections.rename({"difference": "amount"}), ["period", "site", "item", "account"], ["amount"])
        .filter(pl.col("amount") != 0)
        .with_columns(day=pl.lit(first), text="Correction of " + pl.col("period"))
    )
    columns = ["day", "site", "text", "item", "account", "amount"]
    lines = [corrected.select(columns), rows.with_columns(text=entry_text()).select(columns)]
    shown = pl.concat([part.cast({"amount": MONEY.dtype, "text": pl.String}) for part in lines])
    side = pl.col("amount")
    return (
        shown.sort("day", pl.col("text").is_in(list(REFERENCES)), "text", "site", side < 0, "item", "account")
        .with_columns(
            entry=pl.struct("day", "text", "site").rle_id().cast(pl.Int64) + 1,
            transaction_id=reference(),
            debit=pl.when(side > 0).then(side).cast(MONEY.dtype),
            credit=pl.when(side < 0).then(-side).cast(MONEY.dtype),
        )
        .with_columns(
            account_name=pl.col("account").replace_strict(accounts.model_dump(), return_dtype=pl.String),
            item=pl.col("item").map_elements(item_words, return_dtype=pl.String),
        )
        .select("entry", "transaction_id", "day", "site", "text", "account", "account_name", "item", "debit", "credit")
    )


def entry_text() -> pl.Expr:
    """What the entry of a posting is."""
    bought = pl.col("item").is_in([f"stock:{part}" for part in OF_THE_DAY])
    of_stock = pl.col("item").str.starts_with("stock:")
    return pl.when(bought).then(pl.lit(BOUGHT_TEXT)).when(of_stock).then(pl.lit(STOCK_TEXT)).otherwise(pl.lit(DAY_TEXT))


def reference() -> pl.Expr:
    """2026-03-03 day, 2026-03-31 stock, 2026-04-01 correction of 2026-03; in a group with the salon's name."""
    which = pl.col("text").replace(REFERENCES).str.replace("Correction", "correction", literal=True)
    site = pl.when(pl.col("site") == "").then(pl.lit("")).otherwise(" " + pl.col("site"))
    return pl.col("day").cast(pl.String) + " " + which + site
