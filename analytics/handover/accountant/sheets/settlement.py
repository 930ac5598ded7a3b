"""The sheets of what came in: payments, reconciliation, differences, vouchers and deposits. Frames in, a sheet out."""

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import METHODS
from analytics.handover.accountant.period_rows import Gathered, within
from analytics.handover.accountant.sheets.sheet import AccountSheet, one_site, sums_of
from analytics.periods import Period
from analytics.records.money.owed import MOVED, owed_by_day
from analytics.records.money.settling import naming_sites
from analytics.records.money.unsettled import CAUSES, with_tolerance

RECONCILED = "{received}-({charged_gross}+{retail_gross}+{tips}+{vouchers_sold}-{vouchers_used})"


def takings_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day and method, refunds and fees beside them."""
    amount = pl.col("amount")
    frame = (
        within(gathered.payments, period)
        .group_by("day", "site", "method")
        .agg(
            payments=pl.len().cast(pl.Int64),
            amount=amount.sum().cast(MONEY.dtype),
            refunds=amount.filter(amount < 0).sum().cast(MONEY.dtype),
            fees=pl.col("fee").sum().cast(MONEY.dtype),
            assumed_fees=pl.col("assumed_fee").sum().cast(MONEY.dtype),
        )
        .sort("day", "site", "method")
        .with_columns(pl.col("method").replace(METHODS))
    )
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
    names = ("charged_gross", "retail_gross", "tips", "vouchers_sold", "vouchers_used", "received", "difference")
    rows = within(gathered.settlements, period)
    frame = rows.group_by("day", "site").agg(*sums_of(*names)).sort("day", "site")
    note = "Received less services, retail, tips and vouchers sold, vouchers used added back, is the difference."
    return AccountSheet(
        "reconciliation", "Reconciliation", one_site(frame), note, names, checks=(("difference", RECONCILED),)
    )


def methods_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """By day and method: a visit's difference stands with the method of its last payment that day."""
    frame = within(reconciled_by_method(gathered.payments, gathered.settlements), period)
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


def reconciled_by_method(payments: pl.DataFrame, settlements: pl.DataFrame) -> pl.DataFrame:
    """day, site, method ("" where nothing was paid), due, received, difference: due is received less difference.

    Vouchers stand among the methods, so that due and received hold what was paid with them.
    """
    key = ["day", "site", "booking_id"]
    visit = pl.when(pl.col("site").is_in(naming_sites(payments))).then("booking_id").alias("booking_id")
    paid = payments.with_columns(visit).sort("paid_at", "file", "row")
    last = paid.group_by(key, maintain_order=True).agg(pl.col("method").last())
    carried = settlements.join(last, on=key, how="left", nulls_equal=True).with_columns(
        pl.col("method").fill_null(""), received=pl.lit(0, MONEY.dtype)
    )
    columns = ["day", "site", "method", "received", "difference"]
    came_in = paid.with_columns(received=pl.col("amount").cast(MONEY.dtype), difference=pl.lit(0, MONEY.dtype))
    return (
        pl.concat([came_in.select(columns), carried.select(columns).cast({"difference": MONEY.dtype})])
        .group_by("day", "site", "method")
        .agg(*sums_of("received", "difference"))
        .filter((pl.col("received") != 0) | (pl.col("difference") != 0))
        .with_columns(due=(pl.col("received") - pl.col("difference")).cast(MONEY.dtype))
        .select("day", "site", "method", "due", "received", "difference")
        .sort("day", "site", "method")
    )


def differences_sheet(gathered: Gathered, period: Period, clients: pl.DataFrame | None = None) -> AccountSheet:
    """Every difference down to the visit, with its cause. clients: site, booking_id, pseudonym."""
    rows = with_tolerance(within(gathered.differences, period), gathered.settings.accounting.tolerance)
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


def open_differences(gathered: Gathered, period: Period) -> pl.DataFrame:
    """The differences that nothing explains: beyond the tolerance, and not settled on another day."""
    rows = within(gathered.differences, period)
    return with_tolerance(rows, gathered.settings.accounting.tolerance).filter("open")


def vouchers_sheet(gathered: Gathered, period: Period) -> AccountSheet:
    """Vouchers sold and used by day with what is owed, and deposits: visits paid for before they happened."""
    running = owed_by_day(gathered.settlements, gathered.differences)
    note = "Owed is what was sold and not used since the records begin; what was owed before them is not in it."
    frame = one_site(within(running, period).select("day", "site", *MOVED, "owed"))
    return AccountSheet("vouchers", "Vouchers and deposits", frame, note, MOVED)
