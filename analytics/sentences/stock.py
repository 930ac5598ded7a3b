"""Unexplained use, what the shelf holds, what to order and what will not be used in time."""

from collections.abc import Callable
from datetime import date

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

NEARLY_ALL = 0.95  # of recorded value: the log misses next to nothing
MOSTLY = 0.91  # of what is missing
UNEXPLAINED_SAYS = (
    "A bar is what was missing at the last count since the count before, at cost. Its end in colour is what bowls that "
    "nobody logged would not account for, were they like the others."
)
NAMED = 3  # how many products a sentence names


def between_counts(stock: pl.DataFrame) -> pl.DataFrame:
    """Of the figure `stock`, the last stretch of each product that was counted at both ends."""
    return stock.filter("last_counted")


def _only(shelf: pl.DataFrame) -> Row | None:
    """The row of the figure `shelf`; None where there is neither stock nor a product in use."""
    return shelf.row(0, named=True) if shelf.height else None


def stock_sentence(shelf: pl.DataFrame, settings: Settings) -> str:
    """What was gone at the last counts that nothing explains, in money, with how far the log covers that time.

    shelf: the figure `shelf`, as in every sentence here that takes one.
    """
    row = _only(shelf)
    if row is None or row["closing_value"] is None:
        return "No delivery and no count is on record, so nothing can be said about stock; export them with the rest."
    if not row["counted_products"]:
        return (
            "No product has been counted twice, so unexplained use is not known; count the shelves at closing time, "
            "and again in a few months."
        )
    gone = row["unexplained_cost"] or 0
    first, last = (wording.day(row[name], settings) for name in ("counted_from_on", "counted_to_on"))
    start = f"From count to count ({first} to {last})"
    if gone <= 0:
        more = f" ({wording.money(abs(gone), settings)} more than on record)" if gone else ""
        return f"{start} nothing was missing{more}{_coverage(row, settings)}."
    return (
        f"{start} {wording.money(gone, settings)} of product went that neither log nor till "
        f"explains{_coverage(row, settings)}{_because(row, settings)}."
    )


def _coverage(row: Row, settings: Settings) -> str:
    if row["logged_share"] is None:
        return ""
    return f"; {wording.share(row['logged_share'], settings)} of that time's colour services have a bowl logged"


def _because(row: Row, settings: Settings) -> str:
    """Whether bowls that nobody logged would account for it."""
    if not row["unlogged_cost"]:
        return ""
    if row["unlogged_share"] > MOSTLY:
        return ", and the bowls of the others would be nearly all of it"
    unlogged = wording.money(row["unlogged_cost"], settings, whole=True)
    return f", and the bowls of the others would be about {unlogged} of it"


def stock_value_sentence(shelf: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """What the shelf is worth on record, and what is probably there; empty where nothing was ever delivered."""
    row = _only(shelf)
    if row is None or row["closing_value"] is None:
        return ""
    how = {"average": "moving average", "fifo": "first in, first out"}[settings.stock.valuation]
    today, recorded = wording.day(as_of, settings), wording.money(row["closing_value"], settings)
    start = f"On {today} the shelf holds {recorded} on record, at cost ({how})"
    if row["last_counted_on"] is None:
        return f"{start}; it was never counted, so how much is really there is not known."
    since = f"{start}; it was last counted on {wording.day(row['last_counted_on'], settings)}"
    if row["likely_share"] is None or row["likely_share"] > NEARLY_ALL:
        return f"{since}."
    there = wording.money(row["likely_value"], settings, whole=True)
    return f"{since}. An estimate, in no account: with the bowls nobody logged about {there} of it is probably there."


def below_zero_sentence(stock: pl.DataFrame, settings: Settings) -> str:
    """Products of which less than nothing is on record; empty where there are none."""
    short = stock.filter(pl.col("counted_g").is_null() & (pl.col("closing_g") < 0)).sort("closing_g", "product_id")
    if short.is_empty():
        return ""
    names = _named(short.to_dicts(), lambda row: f"{row['product']} ({wording.grams(row['closing_g'], settings)})")
    return f"On record below zero, so a delivery or count is missing: {names}."


def order_sentence(reorder: pl.DataFrame, shelf: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """How much to order for the coming weeks, at what cost, and what runs out first."""
    row = _only(shelf)
    if row is None or not row["products"]:
        return "There is no product in use, so there is nothing to order."
    if row["unknown_products"] == row["products"]:
        return "What is on the shelf is not known, so there is nothing to advise; count it, or export deliveries."
    weeks, unknown = _weeks(settings), row["unknown_products"]
    tail = f"; of {wording.counted(unknown, 'product', 'products', settings)} too little is known" if unknown else ""
    wanted = orders(reorder)
    if wanted.is_empty():
        return f"What is there lasts for {weeks} weeks and a delivery: nothing needs ordering now{tail}."
    return (
        f"To last {weeks} weeks, order {wording.counted(row['packs'], 'pack', 'packs', settings)} of "
        f"{wording.counted(row['ordered_products'], 'product', 'products', settings)}, "
        f"{wording.money(row['order_cost'], settings)}{_runs_out(wanted.row(0, named=True), settings, as_of)}{tail}."
    )


def opening_sentence(
    reorder: pl.DataFrame, shelf: pl.DataFrame, stock: pl.DataFrame, settings: Settings, as_of: date
) -> str:
    """What to order; where too little is known for that, what is known of the shelf."""
    row = _only(shelf)
    if stock.is_empty() or row is None or not row["products"] or row["unknown_products"] == row["products"]:
        return stock_sentence(shelf, settings)
    return order_sentence(reorder, shelf, settings, as_of)


def more_to_order(count: int, settings: Settings) -> str:
    """'6 more products to order'."""
    return wording.counted(count, "more product to order", "more products to order", settings)


def _weeks(settings: Settings) -> str:
    weeks = settings.stock.cover_weeks
    return wording.number(weeks, settings, 0 if weeks == int(weeks) else 1)


def orders(reorder: pl.DataFrame) -> pl.DataFrame:
    """What to order, what runs out first on top."""
    return reorder.filter(pl.col("packs") > 0).sort("runs_out_on", "product_id", nulls_last=True)


def _runs_out(row: Row, settings: Settings, as_of: date) -> str:
    day = row["runs_out_on"]
    if day is None:
        return ""
    when = (
        "may be used up already"
        if day <= as_of
        else f"runs out first, about {wording.day(day, settings, day.year != as_of.year)}"
    )
    return f"; {row['product']} {when}"


def expiry_sentence(reorder: pl.DataFrame, shelf: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """What expires before it is used; empty where nothing does, or no delivery says when it expires."""
    lost, row = reorder.filter(pl.col("expiring_g") > 0).sort("expires_on", "product_id"), _only(shelf)
    if row is None or lost.is_empty():
        return ""
    names = _named(
        lost.to_dicts(),
        lambda row: (
            f"{row['product']} ({wording.grams(row['expiring_g'], settings)}, "
            f"{'expired on' if row['expires_on'] < as_of else 'from'} {wording.day(row['expires_on'], settings)})"
        ),
    )
    cost = wording.money(row["expiring_cost"], settings)
    return f"At this use {cost} of product expires before it is used: {names}."


def slow_lines(reorder: pl.DataFrame) -> pl.DataFrame:
    """Retail that lies longer than half a year at its present use, what ties up most on top."""
    return reorder.filter("slow").sort("closing_value", "product_id", descending=[True, False])


def slow_sentence(reorder: pl.DataFrame, shelf: pl.DataFrame, settings: Settings) -> str:
    """Retail lines that hardly sell, and what they tie up; empty where no retail is on the shelf."""
    row = _only(shelf)
    if row is None or not row["retail_products"]:
        return ""
    count = row["slow_products"]
    if not count:
        return "No retail line on the shelf lies longer than half a year as it sells now."
    tied = wording.money(row["slow_value"], settings)
    names = _named(
        slow_lines(reorder).to_dicts(),
        lambda row: f"{row['product']} ({wording.money(row['closing_value'], settings)})",
    )
    lines = wording.counted(count, "retail line lies", "retail lines lie", settings)
    return f"{lines} longer than half a year as sold now and {'ties' if count == 1 else 'tie'} up {tied}: {names}."


def _named(rows: list[Row], named: Callable[[Row], str]) -> str:
    """The first few by name, the others by number."""
    names, more = [named(row) for row in rows[:NAMED]], len(rows[NAMED:])
    return wording.listed([*names, f"{more} more"] if more else names)
