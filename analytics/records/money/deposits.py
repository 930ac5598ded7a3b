"""Deposits: what was paid for a visit before its day, until it is used, kept or given back.

A payment is a deposit where it is dated before its visit's day, where its visit is still only booked, or where the
export calls it one. It is owed until its visit is completed; then it is used, up to what the visit was due. What is
paid back before the visit, or of a visit that was missed or cancelled, takes off what is owed. After a no-show it is
owed until it is paid back, or kept, by [accounting] missed_deposits.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import AMOUNT
from analytics.money import EXACT, digits_of, rounded_together, with_tax
from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import VISIT
from analytics.records.money.settling import DUE, KEY, NOTHING
from analytics.settings import Settings

MOVES = ("received", "returned", "used", "kept")
PART = {
    **{"day": pl.Date(), "site": pl.String(), "booking_id": pl.String(), "move": pl.String()},
    **{"tax_rate": pl.Decimal(9, 4), "amount": AMOUNT, "tax_in": AMOUNT, "tax": AMOUNT},
    **{"file": pl.String(), "row": pl.Int64()},
}


def taxed_on_receipt(settings: Settings) -> bool:
    """Whether a deposit is taxed when it is received: by the settings, else where prices include tax."""
    said = settings.accounting.deposits
    return settings.tax.prices == "included" if said is None else said == "on_receipt"


def deposit_parts(
    days: pl.DataFrame, bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """One row per day, site, visit, move (of MOVES) and tax rate: what it adds to what is owed, tax_in and tax of it.

    days: visit_days. What is owed for a visit is split over the rates of its lines as they are priced; the tax in each
    part is that of what is owed after the move less that before it, so that none is left when nothing is owed. tax:
    what is accounted for at once, nothing where deposits are taxed with their visit. A deposit that names no visit of
    the bookings has no rate yet (null), and no tax. file, row: of the first payment of that day.
    """
    moves = _moves(_balances(days, _visits(bookings)), settings).with_row_index("_move")
    weights = _rates(bookings, services, settings)
    digits = digits_of(settings.salon.currency)
    split = moves.join(weights, on=VISIT, how="left", maintain_order="left", nulls_equal=True).with_columns(
        pl.col("tax_rate").fill_null(0), weight=pl.col("weight").fill_null(1)
    )
    share = pl.col("weight").cast(EXACT) / pl.col("weight").sum().over("_move")
    parts = with_tax(
        split.with_columns(charged=rounded_together(pl.col("owed").cast(EXACT) * share, digits, ["_move"])),
        prices="included",
        digits=digits,
        group=["_move"],
    )
    before = [*VISIT, "tax_rate"]
    amount, tax = (pl.col(name) - pl.col(name).shift(1, fill_value=0).over(before) for name in ("charged", "tax"))
    at_once = tax if taxed_on_receipt(settings) else NOTHING
    rate = pl.when(pl.col("known")).then("tax_rate").alias("tax_rate")
    told = parts.with_columns(rate, amount=amount, tax_in=tax, tax=at_once).sort("_move", "tax_rate")
    moved = pl.col("move").is_in(["received", "returned"])
    told = told.with_columns(file=pl.when(moved).then("file"), row=pl.when(moved).then("row"))
    return told.select(pl.col(name).cast(kind) for name, kind in PART.items())


def _visits(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per visit: visit_on, and state: completed where any line is, else booked, no_show or cancelled."""
    states = ["completed", "booked", "no_show", "cancelled"]
    place = pl.col("status").replace_strict({state: at for at, state in enumerate(states)}, return_dtype=pl.Int64).min()
    return bookings.group_by(VISIT).agg(
        visit_on=pl.col("starts_at").min().dt.date(),
        state=place.replace_strict(dict(enumerate(states)), return_dtype=pl.String),
    )


def _balances(days: pl.DataFrame, visits: pl.DataFrame) -> pl.DataFrame:
    """Per visit and day on which anything may move: into, what came in (negative: went back), balance by then if none
    of it were used, due, and visit_on and state of the visit."""
    paid = days.join(visits, on=VISIT, how="left", maintain_order="left").with_columns(_into=_into())
    visits_with = paid.filter(pl.col("_into") != 0)
    own_day = visits_with.drop_nulls("visit_on").select("site", "booking_id", "state", "visit_on", day="visit_on")
    due = days.select(*KEY, "file", "row", due=pl.sum_horizontal(*DUE))
    columns = [*KEY, "visit_on", "state", "_into"]
    rows = pl.concat([visits_with.select(columns), own_day.unique().with_columns(_into=NOTHING).select(columns)])
    return (
        rows.group_by(*KEY, "visit_on", "state")
        .agg(pl.col("_into").sum())
        .sort(*VISIT, "day")
        .with_columns(balance=pl.col("_into").cum_sum().over(VISIT))
        .with_columns(balance=pl.col("balance") - pl.min_horizontal(pl.col("balance").cum_min().over(VISIT), NOTHING))
        .with_columns(into=pl.col("balance") - pl.col("balance").shift(1, fill_value=0).over(VISIT))
        .join(due, on=KEY, how="left", nulls_equal=True, maintain_order="left")
        .with_columns(pl.col("due").fill_null(0))
    )


def _into() -> pl.Expr:
    """What of a day's payments for a visit is a deposit, or gives one back."""
    paid, due, called = pl.col("paid") - pl.col("vouchers_sold"), pl.sum_horizontal(*DUE), pl.col("deposit_called")
    ahead = pl.when(due == 0).then(paid).otherwise(pl.max_horizontal(paid - due, NOTHING))
    on_its_day = pl.when(pl.col("day") == pl.col("visit_on")).then(called).otherwise(0)
    return (
        pl.when(pl.col("visit_on").is_null())
        .then(called)
        .when((pl.col("day") < pl.col("visit_on")) | (pl.col("state") == "booked"))
        .then(ahead)
        .when(pl.col("state") == "completed")
        .then(on_its_day)
        .otherwise(pl.min_horizontal(paid, NOTHING) + called)
        .cast(AMOUNT)
    )


def _moves(balances: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """In order, per visit, day and move: owed after it, known (whether the visit is in the bookings)."""
    on_its_day, after = pl.col("day") == pl.col("visit_on"), pl.col("day") > pl.col("visit_on")
    used = pl.when(on_its_day & (pl.col("state") == "completed")).then(pl.min_horizontal("balance", "due")).otherwise(0)
    kept = pl.when(on_its_day).then("balance").when(after).then("into").otherwise(0)
    keeps = (pl.col("state") == "no_show") & (settings.accounting.missed_deposits == "kept")
    into = pl.col("into")
    signed = balances.with_columns(
        received=into.clip(lower_bound=0),
        returned=into.clip(upper_bound=0),
        used=-used.clip(lower_bound=0),
        kept=-pl.when(keeps).then(kept).otherwise(0),
    )
    long = signed.unpivot(
        MOVES, index=[*KEY, "visit_on", "file", "row"], variable_name="move", value_name="change"
    ).filter(pl.col("change") != 0)
    order = pl.col("move").replace_strict({name: at for at, name in enumerate(MOVES)}, return_dtype=pl.Int64)
    return (
        long.sort(*VISIT, "day", order)
        .with_columns(owed=pl.col("change").cum_sum().over(VISIT), known=pl.col("visit_on").is_not_null())
        .select(*KEY, "move", "owed", "known", "file", "row")
    )


def _rates(bookings: pl.DataFrame, services: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Per visit and tax rate, how much of its price with tax: of its completed lines, of all where there are none."""
    done = pl.col("status") == "completed"
    lines = on_the_menu(bookings, services).with_columns(
        tax_rate=pl.col("tax_rate").fill_null(settings.tax.default_rate)
    )
    charged = (pl.col("price") - pl.col("discount")).cast(pl.Decimal(38, 4))
    with_rate = charged if settings.tax.prices == "included" else charged * (100 + pl.col("tax_rate")) / 100
    found = (
        lines.filter(done | ~done.any().over(VISIT))
        .group_by(*VISIT, "tax_rate")
        .agg(weight=with_rate.sum().cast(pl.Decimal(38, 4)))
        .sort(*VISIT, "tax_rate")
    )
    nothing = (pl.col("weight") > 0).sum().over(VISIT) == 0
    even = found.with_columns(weight=pl.when(nothing).then(1).otherwise("weight").cast(pl.Decimal(38, 4)))
    return even.filter(pl.col("weight") > 0)


def deposits_by_visit(parts: pl.DataFrame, bookings: pl.DataFrame, start: date, end: date) -> pl.DataFrame:
    """Of deposit_parts: one row per site and visit as they stand at the end, of those that moved since the start or are
    owed. Days and state are the visit's."""
    move, amount, tax = pl.col("move"), pl.col("amount"), pl.col("tax")
    of_moves = {name: amount.filter(move == name).sum() for name in MOVES}
    return (
        parts.filter(pl.col("day") < end)
        .group_by(VISIT)
        .agg(
            first_on=pl.col("day").min(),
            **{name: summed if name == "received" else -summed for name, summed in of_moves.items()},
            owed=amount.sum(),
            tax_in_owed=tax.sum(),
            liability=amount.sum() - tax.sum(),
            _moved=(pl.col("day") >= start).any(),
        )
        .filter(pl.col("_moved") | (pl.col("owed") != 0))
        .join(_visits(bookings), on=VISIT, how="left")
        .sort("site", "visit_on", "booking_id")
    )
