"""Control totals: what the sheets say, added up again over the lines of the trail."""

from decimal import Decimal

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import METHODS
from analytics.handover.accountant.journal import WORDS
from analytics.handover.accountant.sheets.sheet import AccountSheet
from analytics.handover.accountant.sheets.totals import balance, differing, total
from analytics.periods import Period
from analytics.records.money.postings import ROOTS
from analytics.settings import Accounts

Row = tuple[str, str, str, Decimal, Decimal]  # what, file, column, amount, over_lines
NOTE = (
    "What stands in the other files, and the same added up over lines.csv, where every line names the file and row of "
    "the export it comes from. Filter lines.csv by rate, account, reference or way of payment to walk a total down."
)
TAKES = ("debit_amount", "credit_amount")  # what an account takes in less what it gives
GIVES = ("credit_amount", "debit_amount")


def controls_sheet(
    lines: pl.DataFrame, journal: pl.DataFrame, others: list[AccountSheet], accounts: Accounts, period: Period
) -> AccountSheet:
    """Rows of what, file, column, amount (there), over_lines (in the trail) and their difference: nothing."""
    known = {sheet.name: sheet for sheet in others}
    rows: list[Row] = []
    links = []
    for what, name, column, over_lines in _totals(lines, accounts, period):
        links.append((len(rows), name, column))
        rows.append((what, f"{name}.csv", column, known[name].total(column), over_lines))
    rows += _balances(lines, journal)
    schema = {
        "what": pl.String(),
        "file": pl.String(),
        "column": pl.String(),
        "amount": MONEY.dtype,
        "over_lines": MONEY.dtype,
    }
    shown = differing(pl.DataFrame(rows, schema=schema, orient="row"), "amount", "over_lines")
    checks = (("difference", "{amount}-{over_lines}"),)
    return AccountSheet("controls", "Control totals", shown, NOTE, ("difference",), tuple(links), checks)


def _totals(lines: pl.DataFrame, accounts: Accounts, period: Period) -> list[tuple[str, str, str, Decimal]]:
    """What it is called, the sheet and column whose total it is, and the same over the lines."""
    names = accounts.model_dump()
    income = lines.filter(pl.col("account_id").is_in([names[key] for key, root in ROOTS.items() if root == "Income"]))
    taxed = lines.drop_nulls("tax_percentage")
    paid = lines.drop_nulls("payment_method")
    without_vouchers = paid.filter(pl.col("payment_method") != METHODS["voucher"])
    parts = {"gross": "gross_amount", "net": "tax_base", "tax": "tax_amount"}
    own = lines.filter(~pl.col("transaction_id").str.contains("correction"))  # of this period's own days
    open_items, beyond = (own.filter(item=WORDS[name]) for name in ("open_items", "vouchers_beyond"))
    return [
        *((f"Revenue, {column}", "revenue", column, total(income, line)) for column, line in parts.items()),
        *((f"Tax, {column}", "tax", column, total(taxed, line)) for column, line in parts.items()),
        ("Payments by method", "payments_by_method", "amount", total(paid, "payment_amount")),
        ("Money received", "reconciliation", "received", total(without_vouchers, "payment_amount")),
        ("Unreconciled differences", "reconciliation", "difference", balance(open_items, *GIVES)),
        ("Vouchers used beyond those owed", "vouchers", "vouchers_beyond", balance(beyond, *TAKES)),
        *(_of_stock(lines.filter(account_id=names["stock"])) if _whole_months(period) else []),
    ]


def _of_stock(lines: pl.DataFrame) -> list[tuple[str, str, str, Decimal]]:
    parts = {
        "purchases": ("Product bought", TAKES),
        "unexplained": ("Stock missing at counts", GIVES),
        "written_down": ("Stock written down", GIVES),
    }
    return [
        (item, "stock", column, balance(lines.filter(item=item), *sides)) for column, (item, sides) in parts.items()
    ]


def _whole_months(period: Period) -> bool:
    """Stock is told of whole months alone."""
    return period.start.day == period.end.day == 1


def _balances(lines: pl.DataFrame, journal: pl.DataFrame) -> list[Row]:
    """Each account, debits less credits."""
    accounts = sorted({*journal["account_name"], *lines["account_id"].drop_nulls()})
    return [
        (
            f"{name}, debit less credit",
            "journal.csv",
            "debit",
            balance(journal.filter(account_name=name), "debit", "credit"),
            balance(lines.filter(account_id=name), *TAKES),
        )
        for name in accounts
    ]
