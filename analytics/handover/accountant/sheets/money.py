"""The sheets of what was earned: revenue, tax, tips, discounts and refunds. Frames in, a sheet out."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import KINDS
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.periods import Period
from analytics.records.money.deposits import taxed_on_receipt

SUPPLIES = {
    "services": "services",
    "retail": "retail",
    "tips": "service charges",
    "vouchers_sold": "vouchers sold",
    "vouchers_used": "vouchers used",
    "voucher_discounts": "vouchers below their face",
    "vouchers_unused": "vouchers never used",
    "deposits_kept": "deposits kept",
}


def revenue_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By what was sold, kind and tax rate."""
    frame = gathered.figure("revenue_of_period", period).with_columns(
        pl.col("supply").replace(SUPPLIES), pl.col("kind").replace(KINDS)
    )
    columns = ["site", "supply", "kind", "tax_rate", "treatment", "lines", "gross", "net", "tax"]
    sums = ("lines", "gross", "net", "tax")
    return AccountSheet("revenue", "Revenue", one_site(frame.select(columns)), "Earned in the period.", sums)


def tax_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By rate, with the days on which each rate was charged."""
    frame = gathered.figure("tax_of_period", period)
    owed = []
    if gathered.settings.accounting.vouchers == "single_purpose":
        owed.append("single-purpose vouchers when they are sold")
    if taxed_on_receipt(gathered.settings):
        owed.append("deposits when they are received")
    note = f"With {' and '.join(owed)}, less what was taxed then when they are used." if owed else ""
    checks = (("gross", "{net}+{tax}"),)
    return AccountSheet("tax", "Tax", one_site(frame), note, ("gross", "net", "tax"), checks=checks)


def tips_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day; where tips are inside the tax, with the tax in them."""
    frame = gathered.figure("tips", period)
    if gathered.settings.accounting.tips == "inside":
        shown = one_site(frame.rename({"tips": "gross"}))
        return AccountSheet("tips", "Tips", shown, "A compulsory charge, inside the tax.", ("gross", "net", "tax"))
    shown = one_site(frame.select("day", "site", "tips").filter(pl.col("tips") != 0))
    return AccountSheet("tips", "Tips", shown, "Freely given: outside the tax, and passed on.", ("tips",))


def discounts_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By what was sold and kind, as they were taken off the prices."""
    frame = gathered.figure("discounts", period).with_columns(
        pl.col("supply").replace(SUPPLIES), pl.col("kind").replace(KINDS)
    )
    regime = "with the tax in them" if gathered.settings.tax.prices == "included" else "without tax"
    return AccountSheet(
        "discounts", "Discounts", one_site(frame), f"As prices are: {regime}.", ("discounts", "discount")
    )


def refunds_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """Lines and items below nothing, in the period in which they were given back."""
    columns = ["day", "site", "booking_id", "supply", "item", "tax_rate", "gross", "net", "tax"]
    sold = pl.col("supply").is_in(["services", "retail", "tips"])
    rows = within(gathered.money.taxed, period).filter(sold & (pl.col("gross") < 0))
    frame = rows.select(columns).with_columns(
        pl.col("supply").replace(SUPPLIES), pl.col("gross", "net", "tax").cast(MONEY.dtype)
    )
    return AccountSheet("refunds", "Refunds", one_site(frame), "", ("gross", "net", "tax"))
