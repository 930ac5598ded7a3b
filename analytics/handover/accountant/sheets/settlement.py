"""The sheets of what came in: payments, reconciliation, differences, vouchers and deposits. Frames in, a sheet out."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import METHODS
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site
from analytics.periods import Period
from analytics.records.money.owed import MOVED, OWED
from analytics.records.money.unsettled import CAUSES

RECONCILED = (
    "{received}-({charged_gross}+{retail_gross}+{tips}+{vouchers_sold}-{vouchers_used}"
    "+{deposits_received}-{deposits_used})"
)


def takings_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day and method, refunds and fees beside them."""
    frame = gathered.figure("takings_by_day", period).with_columns(pl.col("method").replace(METHODS))
    note = (
        "Every payment, those with vouchers too, after refunds; money received is that without vouchers. Fees are "
        "assumed only where no payment on record states one."
    )
    return AccountSheet(
        "payments_by_method",
        "Payments by method",
        one_site(frame),
        note,
        ("payments", "amount", "refunds", "fees", "assumed_fees"),
    )


def reconciliation_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day: what should have been received and what was."""
    names = (
        *("charged_gross", "retail_gross", "tips", "vouchers_sold", "vouchers_used", "deposits_received"),
        *("deposits_used", "received", "difference"),
    )
    frame = gathered.rows("reconciliation", period).select("day", "site", *names)
    note = (
        "Received less services, retail, tips, vouchers sold and deposits received, with vouchers and deposits used "
        "added back, is the difference."
    )
    return AccountSheet(
        "reconciliation", "Reconciliation", one_site(frame), note, names, checks=(("difference", RECONCILED),)
    )


def methods_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day and method: a visit's difference stands with the method of its last payment that day."""
    frame = gathered.figure("reconciliation_by_method", period)
    shown = frame.with_columns(pl.col("method").replace(METHODS | {"": "none"}))
    note = "What a visit was due stands with the ways it was paid; its difference with the last of them, or with none."
    checks = (("difference", "{received}-{due}"),)
    return AccountSheet(
        "reconciliation_methods",
        "Reconciliation by method",
        one_site(shown),
        note,
        ("due", "received", "difference"),
        (),
        checks,
    )


def differences_sheet(gathered: Gathered, period: Period, clients: pl.DataFrame | None = None) -> AccountSheet:
    """Every difference down to the visit, with its cause. clients: site, booking_id, pseudonym."""
    rows = within(gathered.money.differences, period)
    more = [] if clients is None else ["pseudonym"]
    if clients is not None:
        rows = rows.join(clients, on=["site", "booking_id"], how="left", maintain_order="left")
    frame = rows.with_columns(
        pl.col("due", "paid", "difference").cast(MONEY.dtype),
        pl.col("cause").replace(CAUSES),
        tolerated=pl.when("tolerated").then(pl.lit("yes")),
    )
    columns = ["day", "site", "booking_id", *more, "cause", "due", "paid", "difference", "left", "tolerated"]
    shown = one_site(frame.select(*columns, "visit_on", "paid_on"))
    note = (
        "Left open is what the visit's differences come to over all records; nothing, where the money came another day."
    )
    return AccountSheet("differences", "Unreconciled differences", shown, note, ("due", "paid", "difference"))


def vouchers_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """Vouchers and deposits by day: what came in, what became of it, and what is owed by then."""
    money = within(gathered.money.owed, period)
    note = (
        "Owed is what clients may still use or ask back. A liability is that less the tax accounted for when it came "
        "in: it is what the journal's account comes to, with what was owed before the period."
    )
    frame = one_site(money.select("day", "site", *MOVED, *OWED))
    return AccountSheet("vouchers", "Vouchers and deposits", frame, note, MOVED)


def deposits_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """Every deposit, by visit: the figure `deposits` of the period."""
    frame = gathered.salon.figure("deposits", period).with_columns(pl.col("state").replace({"no_show": "no-show"}))
    sums = ("received", "returned", "used", "kept", "owed", "tax_in_owed", "liability")
    note = "Received and not returned, used or kept is owed; amounts are of all days up to the end of the period."
    checks = (("owed", "{received}-{returned}-{used}-{kept}"), ("liability", "{owed}-{tax_in_owed}"))
    return AccountSheet("deposits", "Deposits", one_site(frame), note, sums, checks=checks)


def register_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """Every voucher: the figure `voucher_register` of the period."""
    frame = gathered.salon.figure("voucher_register", period)
    sums = ("face", "paid", "used", "used_value", "unused", "left", "owed", "tax_in_owed", "liability")
    note = "Paid less what was used of it and what is never used is owed; amounts are up to the end of the period."
    checks = (
        ("owed", "{paid}-{used_value}-{unused}"),
        ("liability", "{owed}-{tax_in_owed}"),
    )
    return AccountSheet("voucher_register", "Register of vouchers", one_site(frame), note, sums, checks=checks)
