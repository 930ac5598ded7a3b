"""Double entry: balanced entries per day and site, and one for each earlier period that was corrected.

Debits are positive and credits negative until they are shown. What was taken, fees, and vouchers and deposits used
stand against revenue without tax, the tax, tips to pass on, and vouchers and deposits sold; a day's difference goes to
an account of its own, where the difference of another day may clear it.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.tables import METHODS
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.periods import Period
from analytics.records.money.revenue import EARNED, OUTSIDE, treated
from analytics.settings import Accounts

POSTING = {"day": pl.Date(), "site": pl.String(), "item": pl.String(), "account": pl.String(), "amount": MONEY.dtype}
KEY = ["day", "site", "item"]
SOURCE: dict[str, pl.DataType] = {  # what a line of the journal rests on, as far as it has it
    "value_date": pl.Date(),
    "source_document_id": pl.String(),
    "description": pl.String(),
    "supply": pl.String(),
    "kind": pl.String(),
    "treatment": pl.String(),
    "tax_percentage": pl.Decimal(9, 4),
    **dict.fromkeys(("gross_amount", "tax_base", "tax_amount"), MONEY.dtype),
    "payment_method": pl.String(),
    "payment_amount": MONEY.dtype,
    "file": pl.String(),
    "row": pl.Int64(),
}
TAXED = {"gross_amount": "gross", "tax_base": "net", "tax_amount": "tax"}
STOCK = {  # what happened to stock -> the account that gains (pays, where it is negative) and the one that gives
    "purchases": ("stock", "suppliers"),
    "returned": ("suppliers", "stock"),
    "found": ("stock", "stock_before"),
    **dict.fromkeys(("mixed", "rounding"), ("product_used", "stock")),
    "sold": ("retail_cost", "stock"),
    **dict.fromkeys(("discarded", "missing"), ("stock_lost", "stock")),
    "written_down": ("write_downs", "stock"),
    **dict.fromkeys(("reversed", "released"), ("stock", "write_downs")),
}
OF_THE_DAY = ("purchases", "returned")  # the rest of the month's stock is one entry at its end
REVENUE = {
    **{"services": "services", "retail": "retail", "tips": "charges", "voucher_discounts": "services"},
    **{"deposits_kept": "kept", "vouchers_unused": "breakage"},
}
ROOTS = {  # the part of the books that an account belongs to
    **dict.fromkeys(("cash", "card", "bank", "other", "open_items"), "Assets"),
    **dict.fromkeys(("tips", "vouchers", "deposits", "tax"), "Liabilities"),
    **dict.fromkeys(("services", "retail", "charges", "kept", "breakage"), "Income"),
    "fees": "Expenses",
    **dict.fromkeys(("product_used", "retail_cost", "stock_lost", "write_downs"), "Expenses"),
    **{"stock": "Assets", "suppliers": "Liabilities", "stock_before": "Equity"},
}
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


def postings(gathered: Gathered, period: Period) -> pl.DataFrame:
    """day, site, item, account (its key in [accounts]) and amount; of each day and site they come to nothing."""
    return summed(posting_lines(gathered, period))


def summed(lines: pl.DataFrame) -> pl.DataFrame:
    """posting_lines by day, site, item and account."""
    rows = (
        lines.drop_nulls("account").group_by(*KEY, "account").agg(pl.col("amount").sum()).filter(pl.col("amount") != 0)
    )
    _must_balance(rows)
    return rows.cast(POSTING).sort(KEY)  # type: ignore[arg-type]


def posting_lines(gathered: Gathered, period: Period) -> pl.DataFrame:
    """The rows that postings adds up, with what each rests on: columns of POSTING and SOURCE.

    gross_amount, tax_base and tax_amount stand on one of the rows of what is taxed, so that they can be added up over
    all of them; a payment with a voucher, which no account takes in, is a row without account or amount.
    """
    parts = [*_takings(gathered), *_revenue(gathered), *_owed(gathered), *_stock(gathered, period)]
    rows = within(pl.concat([_with_source(part) for part in parts]), period)
    says = (pl.col("amount") != 0) | pl.col("gross_amount").is_not_null() | pl.col("payment_amount").is_not_null()
    return rows.filter(says).with_columns(pl.coalesce("value_date", "day"))


def _with_source(part: pl.DataFrame) -> pl.DataFrame:
    if "source_document_id" not in part.columns and "booking_id" in part.columns:
        part = part.with_columns(source_document_id="booking_id")
    known = set(part.columns)
    source = [
        (pl.col(name) if name in known else pl.lit(None, kind)).cast(kind).alias(name) for name, kind in SOURCE.items()
    ]
    return part.select(*(pl.col(name).cast(kind) for name, kind in POSTING.items()), *source)


def _must_balance(summed: pl.DataFrame) -> None:
    """Every cent that stands on one side stands on the other."""
    left = summed.group_by("day", "site").agg(pl.col("amount").sum()).filter(pl.col("amount") != 0)
    if not left.is_empty():
        raise AssertionError(f"the entry of {left['day'][0]} does not balance")


def _takings(gathered: Gathered) -> list[pl.DataFrame]:
    account = pl.when(pl.col("method") == "voucher").then(pl.lit("other")).otherwise("method")
    paid = gathered.payments.with_columns(fee=pl.col("fee") + pl.col("assumed_fee"), account=account)
    taken = paid.with_columns(item="taken:" + pl.col("method"), payment_method="method", payment_amount="amount")
    by_voucher = pl.col("method") == "voucher"
    fees_of = paid.with_columns(item="fees_of:" + pl.col("method"), amount=-pl.col("fee"))
    return [
        taken.filter(~by_voucher),
        taken.filter(by_voucher).with_columns(account=pl.lit(None, pl.String), amount=pl.lit(0)),
        paid.with_columns(item=pl.lit("fees"), account=pl.lit("fees"), amount="fee"),
        fees_of,
    ]


def _revenue(gathered: Gathered) -> list[pl.DataFrame]:
    """Net to revenue, by what was sold and rate, and the tax to the tax owed, that of vouchers and deposits too."""
    rate, untaxed = _rate(), pl.col("treatment") == OUTSIDE
    item = pl.when(untaxed).then("untaxed:" + pl.col("supply")).otherwise("revenue:" + pl.col("supply") + ":" + rate)
    earned = _told(gathered.money.earned, pl.when(~untaxed).then("tax_rate"))
    revenue = earned.with_columns(item=item, account=pl.col("supply").replace(REVENUE), amount=-pl.col("net"))
    rows = _told(treated(gathered.taxed, gathered.settings.accounting.exempt), pl.col("tax_rate"))
    due = rows.with_columns(item="tax:" + rate, account=pl.lit("tax"), amount=-pl.col("tax"))
    with_revenue = pl.col("supply").is_in(EARNED)  # their amounts stand with the revenue
    return [revenue, due.with_columns(pl.when(~with_revenue).then(pl.col(*TAXED)))]


def _told(rows: pl.DataFrame, percentage: pl.Expr) -> pl.DataFrame:
    taxed = [pl.col(column).alias(name) for name, column in TAXED.items()]
    return rows.with_columns(*taxed, percentage.alias("tax_percentage"), description="item")


def _rate() -> pl.Expr:
    """21.0000 -> '21', 5.5000 -> '5.5'."""
    return pl.col("tax_rate").cast(pl.String).str.strip_chars_end("0").str.strip_chars_end(".")


def _owed(gathered: Gathered) -> list[pl.DataFrame]:
    """Tips to pass on, vouchers and deposits without the tax that was accounted for with them, and what does not agree.

    What is used of vouchers beyond those that are owed is a difference to clear, so that no debt goes below nothing.
    """
    settlements, moves, deposits = gathered.settlements, gathered.money.voucher_moves, gathered.money.deposits
    liability = pl.col("tax") - pl.col("amount")
    beyond = moves.filter(pl.col("move") == "beyond")
    parts = [
        settlements.with_columns(item=pl.lit("open_items"), account=pl.lit("open_items"), amount=-pl.col("difference")),
        moves.with_columns(item="vouchers_" + pl.col("move"), account=pl.lit("vouchers"), amount=liability),
        beyond.with_columns(item=pl.lit("vouchers_beyond"), account=pl.lit("open_items"), amount="face"),
        deposits.with_columns(item="deposits_" + pl.col("move"), account=pl.lit("deposits"), amount=liability),
    ]
    if gathered.settings.accounting.tips == "outside":
        given = gathered.lines.with_columns(item=pl.lit("tips"), account=pl.lit("tips"), amount=-pl.col("tip"))
        parts.append(given.select("day", "site", "booking_id", "item", "account", "amount", "file", "row"))
    return parts


def _stock(gathered: Gathered, period: Period) -> list[pl.DataFrame]:
    """What was bought and sent back by day, and what else happened to stock on the last day of its month."""
    rows = gathered.stock_lines(period)
    own_day = pl.when(pl.col("part").is_in(OF_THE_DAY)).then("day").otherwise(pl.col("day").dt.month_end())
    told = rows.with_columns(
        item="stock:" + pl.col("part"), value_date="day", day=own_day, description="product", supply=pl.lit("stock")
    )
    sides = {0: 1, 1: -1}  # the account that gains, the one that gives
    accounts = [{part: names[side] for part, names in STOCK.items()} for side in sides]
    return [
        told.with_columns(
            account=pl.col("part").replace_strict(names, return_dtype=pl.String), amount=pl.col("amount") * sign
        )
        for names, sign in zip(accounts, sides.values(), strict=True)
    ]


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
        corrections.group_by("period", "site", "item", "account")
        .agg(amount=pl.col("difference").sum())
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


assert set(METHODS) - {"voucher"} <= set(ROOTS)
