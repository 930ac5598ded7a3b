"""What was charged and the tax in it, by month and tax rate: a summary for an accountant, not advice.

Completed service lines (price less discount) and retail rows of the month; refunds are negative. Where prices include
tax, tax is charged × r ÷ (100 + r), else charged × r ÷ 100, rounded half up to the currency's minor unit per visit and
rate (or per line, by setting); retail is rounded per row. Gross is net + tax. Tips are left out; by setting they are
inside the tax (a compulsory charge, at the rate of its line).

Vouchers are owed until they are used; single-purpose ones, by setting, are taxed when they are sold and taken off when
they are used. A voucher sold below its face is taxed on what was paid for it: the rest takes off what its use bought,
at the rates of what was due then. A deposit is taxed when it is received, at the rates of the visit it is for, and
taken off again with that visit (Directive 2006/112/EC art. 65), or with its visit alone, by [accounting] deposits: by
default the first where prices include tax, the second where it is added. Its tax is the tax in what was paid. What is
kept of it after a no-show is outside the tax or inside, by [accounting] kept_deposits; vouchers never used are outside.
Which of these holds is for whoever does the tax return to say. The month's gross, net and tax are those of all rates,
the same in every row of it.
"""

import polars as pl

from analytics.definitions.results import MONEY, MONTH_KEY, TAX_RATE, Column, Figure, Result
from analytics.periods import Period, month_of
from analytics.records.money.money_rows import MoneyRows

RESULT = Result(
    "one row per month and tax rate",
    key=("month", "tax_rate"),
    columns={
        **MONTH_KEY,
        "tax_rate": Column(TAX_RATE, "tax rate"),
        "gross": Column(MONEY, "charged, tax included"),
        "net": Column(MONEY, "charged, without tax"),
        "tax": Column(MONEY, "the tax"),
        "month_gross": Column(MONEY, "charged in the month at all rates, tax included"),
        "month_net": Column(MONEY, "charged in the month at all rates, without tax"),
        "month_tax": Column(MONEY, "the tax of the month at all rates"),
    },
)


def tax(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """One row per month and rate; money in the currency, net + tax = gross."""
    rows = tax_rows(money, period=period)
    return RESULT.shape(
        rows.group_by("month", "tax_rate")
        .agg(pl.col("gross", "net", "tax").sum())
        .with_columns(pl.col("gross", "net", "tax").sum().over("month").name.prefix("month_"))
        .sort("month", "tax_rate")
    )


def tax_rows(money: MoneyRows, *, period: Period) -> pl.DataFrame:
    """The lines and retail rows the figure adds up, and by setting tips, vouchers and deposits."""
    columns = ["month", "day", "supply", "booking_id", "item", "tax_rate", "gross", "net", "tax", "file", "row"]
    return (
        money.taxed.filter(period.holds(pl.col("day")))
        .with_columns(month=month_of(pl.col("day")))
        .select(columns)
        .sort("day", "booking_id", "file", "row")
    )


FIGURE = Figure(tax, tax_rows, RESULT)
