"""Double entry: what every row of the exports puts to which account, and the same by day.

Debits are positive and credits negative. What was taken, fees, and vouchers and deposits used stand against revenue
without tax, the tax, tips to pass on, and vouchers and deposits sold; a day's difference goes to an account of its own,
where the difference of another day may clear it. Accounts are named by their keys in [accounts].
"""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.tables import METHODS
from analytics.periods import Period
from analytics.records.memo import memoised
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.revenue import EARNED, OUTSIDE, treated
from analytics.records.product.stock_rows import StockRows
from analytics.settings import Settings

POSTING = {"day": pl.Date(), "site": pl.String(), "item": pl.String(), "account": pl.String(), "amount": MONEY.dtype}
KEY = ["day", "site", "item"]
POSTING_KEY = [*KEY, "account"]
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
assert set(METHODS) - {"voucher"} <= set(ROOTS)


def summed(lines: pl.DataFrame) -> pl.DataFrame:
    """posting_lines by day, site, item and account: columns of POSTING. Of each day and site they come to nothing."""
    rows = lines.drop_nulls("account").group_by(POSTING_KEY).agg(pl.col("amount").sum()).filter(pl.col("amount") != 0)
    _must_balance(rows)
    return rows.cast(POSTING).sort(POSTING_KEY)  # type: ignore[arg-type]


def changed_postings(was: pl.DataFrame, now: pl.DataFrame) -> pl.DataFrame:
    """Where two journals say otherwise: POSTING_KEY, original, new and difference; each is of columns of POSTING."""
    nothing = pl.lit(0, MONEY.dtype)
    sides = [
        was.select(*POSTING_KEY, original="amount", new=nothing),
        now.select(*POSTING_KEY, original=nothing, new="amount"),
    ]
    summed = pl.concat(sides).group_by(POSTING_KEY).agg(pl.col("original", "new").sum())
    changed = summed.with_columns(difference=pl.col("new") - pl.col("original")).filter(pl.col("difference") != 0)
    return changed.sort(POSTING_KEY)


@memoised
def posting_lines(money: MoneyRows, stocked: StockRows, settings: Settings, period: Period) -> pl.DataFrame:
    """The rows that postings adds up, with what each rests on: columns of POSTING and SOURCE.

    gross_amount, tax_base and tax_amount stand on one of the rows of what is taxed, so that they can be added up over
    all of them; a payment with a voucher, which no account takes in, is a row without account or amount.
    """
    parts = [*_takings(money), *_revenue(money, settings), *_owed(money, settings), *_stock(stocked, period)]
    rows = pl.concat([_with_source(part) for part in parts]).filter(period.holds(pl.col("day")))
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


def _takings(money: MoneyRows) -> list[pl.DataFrame]:
    account = pl.when(pl.col("method") == "voucher").then(pl.lit("other")).otherwise("method")
    paid = money.paid.with_columns(fee=pl.col("fee") + pl.col("assumed_fee"), account=account)
    taken = paid.with_columns(item="taken:" + pl.col("method"), payment_method="method", payment_amount="amount")
    by_voucher = pl.col("method") == "voucher"
    fees_of = paid.with_columns(item="fees_of:" + pl.col("method"), amount=-pl.col("fee"))
    return [
        taken.filter(~by_voucher),
        taken.filter(by_voucher).with_columns(account=pl.lit(None, pl.String), amount=pl.lit(0)),
        paid.with_columns(item=pl.lit("fees"), account=pl.lit("fees"), amount="fee"),
        fees_of,
    ]


def _revenue(money: MoneyRows, settings: Settings) -> list[pl.DataFrame]:
    """Net to revenue, by what was sold and rate, and the tax to the tax owed, that of vouchers and deposits too."""
    rate, untaxed = _rate(), pl.col("treatment") == OUTSIDE
    item = pl.when(untaxed).then("untaxed:" + pl.col("supply")).otherwise("revenue:" + pl.col("supply") + ":" + rate)
    earned = _told(money.earned, pl.when(~untaxed).then("tax_rate"))
    revenue = earned.with_columns(item=item, account=pl.col("supply").replace(REVENUE), amount=-pl.col("net"))
    rows = _told(treated(money.taxed, settings.accounting.exempt), pl.col("tax_rate"))
    due = rows.with_columns(item="tax:" + rate, account=pl.lit("tax"), amount=-pl.col("tax"))
    with_revenue = pl.col("supply").is_in(EARNED)  # their amounts stand with the revenue
    return [revenue, due.with_columns(pl.when(~with_revenue).then(pl.col(*TAXED)))]


def _told(rows: pl.DataFrame, percentage: pl.Expr) -> pl.DataFrame:
    taxed = [pl.col(column).alias(name) for name, column in TAXED.items()]
    return rows.with_columns(*taxed, percentage.alias("tax_percentage"), description="item")


def _rate() -> pl.Expr:
    """21.0000 -> '21', 5.5000 -> '5.5'."""
    return pl.col("tax_rate").cast(pl.String).str.strip_chars_end("0").str.strip_chars_end(".")


def _owed(money: MoneyRows, settings: Settings) -> list[pl.DataFrame]:
    """Tips to pass on, vouchers and deposits without the tax that was accounted for with them, and what does not agree.

    What is used of vouchers beyond those that are owed is a difference to clear, so that no debt goes below nothing.
    """
    settlements, moves, deposits = money.settlements, money.voucher_moves, money.deposits
    liability = pl.col("tax") - pl.col("amount")
    beyond = moves.filter(pl.col("move") == "beyond")
    parts = [
        settlements.with_columns(item=pl.lit("open_items"), account=pl.lit("open_items"), amount=-pl.col("difference")),
        moves.with_columns(item="vouchers_" + pl.col("move"), account=pl.lit("vouchers"), amount=liability),
        beyond.with_columns(item=pl.lit("vouchers_beyond"), account=pl.lit("open_items"), amount="face"),
        deposits.with_columns(item="deposits_" + pl.col("move"), account=pl.lit("deposits"), amount=liability),
    ]
    if settings.accounting.tips == "outside":
        given = money.lines.with_columns(item=pl.lit("tips"), account=pl.lit("tips"), amount=-pl.col("tip"))
        parts.append(given.select("day", "site", "booking_id", "item", "account", "amount", "file", "row"))
    return parts


def _stock(stocked: StockRows, period: Period) -> list[pl.DataFrame]:
    """What was bought and sent back by day, and what else happened to stock on the last day of its month."""
    if stocked.nothing or period.empty:
        return []
    rows = stocked.lines(period.months()[-1])
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
