"""Every day's money and stock in double entry: what each account takes in and gives.

Debits are positive, credits negative, and a day's amounts of a salon come to nothing. What was received, fees, and
vouchers and deposits used stand against revenue without tax, the tax owed, tips to pass on, and vouchers and deposits
sold, each by what it is and, of revenue and tax, the rate; a difference (see `reconciliation`) goes to an account of
its own. Product bought and sent back stands on its day, all else that happened to stock (see `stock_months`, and
`write_downs`) on the last day of its month, at cost without tax. Wages, rent and other costs are not in it.
"""

import polars as pl

from analytics.definitions.results import DAY, MONEY, SITE_KEY, TEXT, Column, Figure, Result
from analytics.periods import Period
from analytics.records.money.money_rows import MoneyRows
from analytics.records.money.postings import posting_lines, summed
from analytics.records.product.stock_rows import StockRows
from analytics.settings import Settings

RESULT = Result(
    "one row per day, site, item and account",
    key=("day", "site", "item", "account"),
    columns={
        "day": Column(DAY, "day of the entry"),
        **SITE_KEY,
        "item": Column(TEXT, "what it is, such as taken:card, revenue:services:21 or stock:mixed"),
        "account": Column(TEXT, "the account, by its key in [accounts]"),
        "amount": Column(MONEY, "debits positive, credits negative"),
    },
)


def journal(money: MoneyRows, stocked: StockRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """One row per day, site, item and account; of each day and site they come to nothing."""
    return RESULT.shape(summed(journal_rows(money, stocked, settings=settings, period=period)))


def journal_rows(money: MoneyRows, stocked: StockRows, *, settings: Settings, period: Period) -> pl.DataFrame:
    """What every row of the exports puts to an account, with the file and row it rests on: see posting_lines."""
    return posting_lines(money, stocked, settings, period)


FIGURE = Figure(journal, journal_rows, RESULT)
