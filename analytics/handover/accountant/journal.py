"""Double entry: one balanced entry per day and site, and one for each earlier period that was corrected.

Debits are positive and credits negative until they are shown. What was taken, fees and vouchers used stand against
revenue without tax, the tax, tips to pass on and vouchers sold; a day's difference goes to the open items, where
the difference of another day may clear it.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.tables import METHODS
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.periods import Period
from analytics.settings import Accounts

POSTING = {"day": pl.Date(), "site": pl.String(), "item": pl.String(), "account": pl.String(), "amount": MONEY.dtype}
KEY = ["day", "site", "item"]
REVENUE = {"services": "services", "retail": "retail", "tips": "charges"}
ROOTS = {  # the part of the books that an account belongs to
    **dict.fromkeys(("cash", "card", "bank", "other", "open_items"), "Assets"),
    **dict.fromkeys(("tips", "vouchers", "tax"), "Liabilities"),
    **dict.fromkeys(("services", "retail", "charges"), "Income"),
    "fees": "Expenses",
}
WORDS = {
    "taken": "Taken, {}",
    "fees": "Fees",
    "fees_of": "Fees taken off, {}",
    "revenue": "{} at {} %",
    "tax": "Tax at {} %",
    "tips": "Tips to pass on",
    "vouchers_sold": "Vouchers sold",
    "vouchers_used": "Vouchers used",
    "open_items": "Difference to clear",
}
SUPPLY_WORDS = {"services": "Services", "retail": "Retail", "tips": "Service charges"}


def postings(gathered: Gathered, period: Period) -> pl.DataFrame:
    """day, site, item, account (its key in [accounts]) and amount; of each day and site they come to nothing."""
    parts = [*_takings(gathered), *_revenue(gathered), *_owed(gathered)]
    rows = within(pl.concat([part.select(*POSTING).cast(POSTING) for part in parts]), period)  # type: ignore[arg-type]
    summed = rows.group_by(*KEY, "account").agg(pl.col("amount").sum()).filter(pl.col("amount") != 0)
    _must_balance(summed)
    return summed.cast(POSTING).sort(KEY)  # type: ignore[arg-type]


def _must_balance(summed: pl.DataFrame) -> None:
    """Every cent that stands on one side stands on the other."""
    left = summed.group_by("day", "site").agg(pl.col("amount").sum()).filter(pl.col("amount") != 0)
    if not left.is_empty():
        raise AssertionError(f"the entry of {left['day'][0]} does not balance")


def _takings(gathered: Gathered) -> list[pl.DataFrame]:
    account = pl.when(pl.col("method") == "voucher").then(pl.lit("other")).otherwise("method")
    paid, fee = gathered.payments, pl.col("fee") + pl.col("assumed_fee")
    return [
        paid.filter(pl.col("method") != "voucher").with_columns(item="taken:" + pl.col("method"), account=account),
        paid.with_columns(item=pl.lit("fees"), account=pl.lit("fees"), amount=fee),
        paid.with_columns(item="fees_of:" + pl.col("method"), account=account, amount=-fee),
    ]


def _revenue(gathered: Gathered) -> list[pl.DataFrame]:
    """Net to revenue (or, for single-purpose vouchers, to what is owed) and tax to the tax owed, by rate."""
    rate, rows = _rate(), gathered.taxed
    vouchers = pl.col("supply").is_in(["vouchers_sold", "vouchers_used"])
    revenue = rows.with_columns(
        item=pl.when(vouchers).then("supply").otherwise("revenue:" + pl.col("supply") + ":" + rate),
        account=pl.when(vouchers).then(pl.lit("vouchers")).otherwise(pl.col("supply").replace(REVENUE)),
        amount=-pl.col("net"),
    )
    return [revenue, rows.with_columns(item="tax:" + rate, account=pl.lit("tax"), amount=-pl.col("tax"))]


def _rate() -> pl.Expr:
    """21.0000 -> '21', 5.5000 -> '5.5'."""
    return pl.col("tax_rate").cast(pl.String).str.strip_chars_end("0").str.strip_chars_end(".")


def _owed(gathered: Gathered) -> list[pl.DataFrame]:
    """Tips to pass on, vouchers that were not taxed when sold, and what does not tie."""
    accounting = gathered.settings.accounting
    owed = {"open_items": ("difference", -1, "open_items")}
    if accounting.tips == "outside":
        owed["tips"] = ("tips", -1, "tips")
    if accounting.vouchers == "multi_purpose":
        owed |= {"vouchers_sold": ("vouchers_sold", -1, "vouchers"), "vouchers_used": ("vouchers_used", 1, "vouchers")}
    return [
        gathered.settlements.with_columns(item=pl.lit(item), account=pl.lit(account), amount=pl.col(column) * sign)
        for item, (column, sign, account) in owed.items()
    ]


def item_words(item: str) -> str:
    """'revenue:services:9' -> 'Services at 9 %'."""
    name, *parts = item.split(":")
    shown = [SUPPLY_WORDS.get(part, {"bank": "bank transfer"}.get(part, part)) for part in parts]
    return WORDS[name].format(*shown)


def entries(rows: pl.DataFrame, corrections: pl.DataFrame, first: date, accounts: Accounts) -> pl.DataFrame:
    """The journal as it is shown: entry, day, site, text, account, item, debit, credit.

    corrections: period, site, item, account, difference: each period and site becomes an entry of the day `first`.
    """
    corrected = (
        corrections.group_by("period", "site", "item", "account")
        .agg(amount=pl.col("difference").sum())
        .filter(pl.col("amount") != 0)
        .with_columns(day=pl.lit(first), text="Correction of " + pl.col("period"))
    )
    columns = ["day", "site", "text", "item", "account", "amount"]
    lines = [corrected.select(columns), rows.with_columns(text=pl.lit("Takings of the day")).select(columns)]
    shown = pl.concat([part.cast({"amount": MONEY.dtype, "text": pl.String}) for part in lines])
    side = pl.col("amount")
    return (
        shown.sort("day", pl.col("text") == "Takings of the day", "text", "site", side < 0, "item")
        .with_columns(
            entry=pl.struct("day", "text", "site").rle_id().cast(pl.Int64) + 1,
            debit=pl.when(side > 0).then(side).cast(MONEY.dtype),
            credit=pl.when(side < 0).then(-side).cast(MONEY.dtype),
        )
        .with_columns(
            account_name=pl.col("account").replace_strict(accounts.model_dump(), return_dtype=pl.String),
            item=pl.col("item").map_elements(item_words, return_dtype=pl.String),
        )
        .select("entry", "day", "site", "text", "account", "account_name", "item", "debit", "credit")
    )


assert set(METHODS) - {"voucher"} <= set(ROOTS)
