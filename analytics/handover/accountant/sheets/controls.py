"""Control totals: what the sheets say, added up again over the lines of the trail."""

from decimal import Decimal

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import METHODS
from analytics.handover.accountant.journal import ROOTS, WORDS
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.periods import Period
from analytics.settings import Accounts

Row = tuple[str, str, str, Decimal, Decimal]  # what, file, column, amount, over_lines
NOTE = (
    "What stands in the other files, and the same added up over lines.csv, where every line names the file and row of "
    "the export it comes from. Filter lines.csv by rate, account, reference or way of payment to walk a total down."
)
NET = pl.col("debit_amount").fill_null(0) - pl.col("credit_amount").fill_null(0)


def controls_sheet(
    lines: pl.DataFrame, journal: pl.DataFrame, others: list[AccountSheet], accounts: Accounts, period: Period
) -> AccountSheet:
    """Rows of what, file, column, amount (there), over_lines (in the trail) and their difference: nothing."""
    known = {sheet.name: sheet for sheet in others}
    rows: list[Row] = []
    links = []
    for what, name, column, over_lines in _totals(accounts, period):
        links.append((len(rows), name, column))
        there, added = known[name].total(column), Decimal(lines.select(over_lines).item() or 0)
        rows.append((what, f"{name}.csv", column, there, added))
    rows += _balances(lines, journal)
    schema = {
        "what": pl.String(),
        "file": pl.String(),
        "column": pl.String(),
        "amount": MONEY.dtype,
        "over_lines": MONEY.dtype,
    }
    frame = pl.DataFrame(rows, schema=schema, orient="row").with_columns(
        difference=pl.col("amount") - pl.col("over_lines")
    )
    shown = frame.with_columns(pl.col("difference").cast(MONEY.dtype))
    checks = (("difference", "{amount}-{over_lines}"),)
    return AccountSheet("controls", "Control totals", shown, NOTE, ("difference",), tuple(links), checks)


def _totals(accounts: Accounts, period: Period) -> list[tuple[str, str, str, pl.Expr]]:
    """What it is called, the sheet and column whose total it is, and the same over the lines."""
    names = accounts.model_dump()
    income = pl.col("account_id").is_in([names[key] for key, root in ROOTS.items() if root == "Income"])
    taxed = pl.col("tax_percentage").is_not_null()
    by_voucher = pl.col("payment_method") == METHODS["voucher"]
    parts = {"gross": "gross_amount", "net": "tax_base", "tax": "tax_amount"}
    return [
        *(
            (f"Revenue, {column}", "revenue", column, pl.col(line).filter(income).sum())
            for column, line in parts.items()
        ),
        *((f"Tax, {column}", "tax", column, pl.col(line).filter(taxed).sum()) for column, line in parts.items()),
        ("Payments by method", "payments_by_method", "amount", pl.col("payment_amount").sum()),
        ("Money received", "reconciliation", "received", pl.col("payment_amount").filter(~by_voucher).sum()),
        ("Unreconciled differences", "reconciliation", "difference", -_of_item(WORDS["open_items"])),
        ("Vouchers used beyond those owed", "vouchers", "vouchers_beyond", _of_item(WORDS["vouchers_beyond"])),
        *(_of_stock(names["stock"]) if _whole_months(period) else []),
    ]


def _of_item(item: str) -> pl.Expr:
    """Of lines of this period's own days, not of corrections."""
    return NET.filter((pl.col("item") == item) & ~pl.col("transaction_id").str.contains("correction")).sum()


def _of_stock(stock: str) -> list[tuple[str, str, str, pl.Expr]]:
    parts = {
        "purchases": "Product bought",
        "unexplained": "Stock missing at counts",
        "written_down": "Stock written down",
    }
    sign = {"purchases": 1, "unexplained": -1, "written_down": -1}
    on_stock = pl.col("account_id") == stock
    return [
        (item, "stock", column, (NET.filter(on_stock & (pl.col("item") == item)).sum() * sign[column]))
        for column, item in parts.items()
    ]


def _whole_months(period: Period) -> bool:
    """Stock is told of whole months alone."""
    return period.start.day == period.end.day == 1


def _balances(lines: pl.DataFrame, journal: pl.DataFrame) -> list[Row]:
    """Each account, debits less credits."""
    shown = journal.group_by("account_name").agg(
        amount=(pl.col("debit").fill_null(0) - pl.col("credit").fill_null(0)).sum()
    )
    added = lines.drop_nulls("account_id").group_by(account_name="account_id").agg(over_lines=NET.sum())
    both = shown.join(added, on="account_name", how="full", coalesce=True).sort("account_name")
    return [
        (f"{name}, debit less credit", "journal.csv", "debit", amount, line)
        for name, amount, line in both.with_columns(pl.col("amount", "over_lines").fill_null(0)).iter_rows()
    ]
