"""What each account of the balance stood at, what moved in the period, and where it stands.

Opening + debits − credits = closing, debits positive and credits negative, of the lines of `journal` since the records
begin: what was there before them is not in it, but for stock and what was owed for vouchers. Accounts of income and
expenses have no balance; those that [accounting] calls alike are one.
"""

import polars as pl

from analytics.definitions.results import MONEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.postings import ROOTS, posting_lines, summed
from analytics.records.money.vouchers import BEFORE
from analytics.records.product.stock_rows import StockRows
from analytics.settings import Settings

RESULT = Result(
    "one row per account of the balance, over the period",
    key=("account",),
    columns={
        "account": Column(TEXT, "what [accounts] calls it"),
        "opening": Column(MONEY, "before the period, since the records begin"),
        "debit": Column(MONEY, "debits of the period"),
        "credit": Column(MONEY, "credits of the period"),
        "closing": Column(MONEY, "at its end"),
    },
)
OF_THE_BALANCE = [key for key, root in ROOTS.items() if root in ("Assets", "Liabilities", "Equity")]


def balances(money: MoneyRows, stocked: StockRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per account with anything on it; money in the currency."""
    amount, first = pl.col("amount"), pl.col("day") < period.start
    lines = balances_rows(money, stocked, settings=settings, period=period)
    sides = [
        lines.filter(first).select("account", opening=amount),
        summed(lines.filter(~first)).select(
            "account", debit=amount.clip(lower_bound=0), credit=-amount.clip(upper_bound=0)
        ),
    ]
    names = settings.accounts.model_dump()
    return RESULT.shape(
        pl.concat(sides, how="diagonal_relaxed")
        .filter(pl.col("account").is_in(OF_THE_BALANCE))
        .with_columns(account=pl.col("account").replace_strict(names, return_dtype=pl.String))
        .group_by("account")
        .agg(pl.col("opening", "debit", "credit").fill_null(0).sum())
        .with_columns(closing=pl.col("opening") + pl.col("debit") - pl.col("credit"))
        .sort("account")
    )


def balances_rows(money: MoneyRows, stocked: StockRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The lines of the journal since the records begin, up to the end of the period."""
    return posting_lines(money, stocked, settings, Period(BEFORE, period.end)).drop_nulls("account")


FIGURE = Figure(balances, balances_rows, RESULT)
