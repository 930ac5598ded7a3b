"""A sheet of the handover: a table for people, from which the workbook, the CSV file and the preview are made."""

from dataclasses import dataclass
from decimal import Decimal

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.handover.accountant.sheets.totals import total

HEADINGS = {
    "allowance": "Written down below cost",
    "carrying": "At the lower",
    "transaction_id": "Reference",
    "over_lines": "Over the lines",
    "short": "Short",
    "counted_on": "Last counted",
    "short_since": "Short since",
    "amount": "Amount",
    "assumed_fees": "Fees assumed",
    "booking_id": "Visit",
    "cause": "Why",
    "charged_gross": "Services, with tax",
    "pseudonym": "Client (pseudonym)",
    "closing": "At the end, at cost",
    "face": "Face",
    "state": "Visit is",
    "number": "Voucher",
    "tax_in_owed": "Tax in it",
    "used_value": "Used, of what was paid",
    "vouchers_unused": "Vouchers never used",
    "vouchers_beyond": "Used beyond those owed",
    "voucher_discounts": "Of it below face",
    "unused": "Never used",
    "deposits_used": "Deposits used",
    "discount": "Discount",
    "discounts": "Lines with discount",
    "due": "Due",
    "fees": "Fees",
    "first_on": "From",
    "grams": "Grams",
    "gross": "With tax",
    "found": "Found at counts",
    "hands_on_hours": "Hands-on hours",
    "item": "Item",
    "last_on": "To",
    "left": "Left open",
    "net": "Net",
    "opening": "At the start",
    "paid_on": "First paid on",
    "per_hour": "Per hour",
    "retail_gross": "Retail, with tax",
    "share_percent": "Share (%)",
    "supply": "What",
    "tax_rate": "Rate (%)",
    "treatment": "How taxed",
    "account_name": "Account",
    "visit_on": "Visit on",
    "which": "Row numbers",
    "unexplained": "Of it unexplained",
    "used": "Used",
    "wages_base": "Wages base",
}
RATES = ("tax_rate", "share_percent", "tax_percentage")


@dataclass(frozen=True)
class AccountSheet:
    """One table.

    name: of its CSV file. title: of the sheet. frame: what it shows. sums: columns whose total stands below.
    links: rows of this sheet (from 0) whose `amount` is the total of a column of another sheet: row, sheet, column.
    checks: formulas for a column, with {names} of other columns, which must give what the column holds.
    wide: a column of sentences that are wrapped.
    """

    name: str
    title: str
    frame: pl.DataFrame
    note: str = ""
    sums: tuple[str, ...] = ()
    links: tuple[tuple[int, str, str], ...] = ()
    checks: tuple[tuple[str, str], ...] = ()
    wide: str = ""

    def total(self, column: str) -> Decimal:
        """The sum of a column; nothing where there are no rows."""
        return total(self.frame, column)

    def is_money(self, column: str) -> bool:
        """True for amounts, false for rates, grams, hours and counts."""
        kind = self.frame.schema[column]
        return isinstance(kind, pl.Decimal) and kind.scale == AMOUNT.scale and column not in RATES


def heading(column: str) -> str:
    """What people call a column."""
    return HEADINGS.get(column, column.replace("_", " ").capitalize())


def one_site(frame: pl.DataFrame) -> pl.DataFrame:
    """The frame without its column `site` where the salon is one."""
    several = "site" in frame.columns and (frame["site"] != "").any()
    return frame if several else frame.drop("site", strict=False)
