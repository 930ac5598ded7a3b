"""The journal as a plain-text ledger in the open syntax that general double-entry programs read (Beancount's)."""

import re
import unicodedata
from decimal import Decimal
from typing import Any

import polars as pl

from analytics.records.money.postings import ROOTS
from analytics.settings import Accounts, Settings


def ledger(journal: pl.DataFrame, settings: Settings, digits: int, title: str) -> str:
    """Options, accounts opened on the first day, and one transaction per entry."""
    currency, names = settings.salon.currency, account_names(settings.accounts)
    head = [
        f"option {quoted('title')} {quoted(title)}",
        f"option {quoted('operating_currency')} {quoted(currency)}",
        "",
    ]
    used = sorted({names[key] for key in journal["account"].unique()})
    first = str(journal["day"].min())
    opened = [f"{first} open {name} {currency}" for name in used]
    return "\n".join([*head, *opened, "", *_transactions(journal, names, currency, digits)])


def _transactions(journal: pl.DataFrame, names: dict[str, str], currency: str, digits: int) -> list[str]:
    lines, entry = [], 0
    for row in journal.iter_rows(named=True):
        if row["entry"] != entry:
            entry = row["entry"]
            payee = f"{quoted(row['site'])} " if row["site"] else ""
            link = re.sub(r"[^A-Za-z0-9]+", "-", row["transaction_id"]).strip("-")
            lines += ["", f"{row['day']} * {payee}{quoted(row['text'])} ^{link}"]
        lines.append(f"  {names[row['account']]}  {_signed(row):.{digits}f} {currency}")
    return [*lines[1:], ""]


def _signed(row: dict[str, Any]) -> Decimal:
    amount: Decimal = row["debit"] if row["debit"] is not None else -row["credit"]
    return amount


def quoted(text: str) -> str:
    """Text between quotation marks: on one line, with its own marks and backslashes escaped."""
    line = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return '"' + line.replace("\\", "\\\\").replace('"', '\\"') + '"'


def account_names(accounts: Accounts) -> dict[str, str]:
    """Key of [accounts] -> a name such as Assets:Card-payments; what is called alike in [accounts] is one account."""
    names: dict[str, str] = {}
    taken: dict[str, str] = {}  # name -> what it is called in [accounts]
    for key, called in accounts.model_dump().items():
        plain = name = f"{ROOTS[key]}:{_component(called)}"
        number = 1
        while taken.setdefault(name, called) != called:
            number += 1
            name = f"{plain}-{number}"
        names[key] = name
    return names


def _component(called: str) -> str:
    """Letters, digits and dashes, a capital or a digit first."""
    ascii_only = unicodedata.normalize("NFKD", called).encode("ascii", "ignore").decode()
    parts = re.findall(r"[A-Za-z0-9]+", ascii_only)
    text = "-".join(parts) or "Account"
    return text[0].upper() + text[1:]
