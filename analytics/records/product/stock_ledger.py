"""The shelf after every movement: grams and value, by moving average or first in, first out."""

from decimal import Decimal
from typing import Any

import polars as pl

from analytics.methods.stock_value import Shelf, part
from analytics.money import EXACT, rounded
from analytics.periods import Period, month_of
from analytics.records.memo import memoised
from analytics.records.product.stock_moves import GRAMS, SHELF

WALKED = {"change_g": GRAMS, "level_g": GRAMS, "received": EXACT, "issued": EXACT, "value": EXACT}
READ = ["movement", "grams", "cost", "pack_cost", "pack_g"]


@memoised
def ledger(moves: pl.DataFrame, valuation: str) -> pl.DataFrame:
    """The movements (records.stock_moves.movements) with what they did to the shelf of their product and site.

    Added: change_g and level_g (grams after it), received and issued (value that came in and went out, exact, not
    rounded) and value (after it): level_g is the sum of change_g, value that of received − issued. stretch numbers the
    time from one count to the next; a count closes its stretch. short_g is how far the level lies below nothing.

    A count sets the level: what is missing is issued, what is too much received at the average cost of the shelf (at
    the pack cost of that day where it is empty). Stock below nothing has no value; what was taken beyond the stock is
    issued when a delivery or count makes it good. valuation: "average" or "fifo". The values of a product are null
    where the cost of anything that came in is not known.
    """
    count = pl.col("movement") == "count"
    walked = [
        step
        for _, shelf_rows in moves.group_by(SHELF, maintain_order=True)
        for step in _walk(shelf_rows.select(READ).rows(), Shelf(valuation))
    ]
    unknown = (pl.col("received").is_null()).any().over(SHELF)
    return pl.concat([moves, pl.DataFrame(walked, schema=WALKED, orient="row")], how="horizontal").with_columns(
        *[pl.when(~unknown).then(name).alias(name) for name in ("received", "issued", "value")],
        short_g=(-pl.col("level_g")).clip(0),
        stretch=(count.cast(pl.Int64).cum_sum() - count.cast(pl.Int64)).over(SHELF),
    )


def _walk(rows: list[Any], shelf: Shelf) -> list[tuple[Any, ...]]:
    """change_g, level_g, received, issued and value after each row of one product."""
    steps = []
    for movement, stated, cost, pack_cost, pack_g in rows:
        change = _change(movement, stated, shelf)
        if change > 0:
            listed = part(pack_cost, change, pack_g) if pack_cost is not None and pack_g else None
            worth = cost if movement in ("delivery", "opening") else shelf.cost_of(change) or listed
            received, issued = worth, shelf.put(change, worth or Decimal(0))
        else:
            received, issued = Decimal(0), shelf.take(-change)
        steps.append((change, shelf.quantity, received, issued, shelf.value))
    return steps


def _change(movement: str, stated: Decimal, shelf: Shelf) -> Decimal:
    """How the level changes, grams."""
    if movement == "count":
        return stated - shelf.quantity
    return stated if movement in ("delivery", "opening") else -stated


def stock_by_month(book: pl.DataFrame, period: Period, digits: int) -> pl.DataFrame:
    """Of a ledger, one row per month of the period, all products together: opening, found, purchases, used, closing.

    opening and closing: value on the shelves. purchases: deliveries at their cost. found: stock that was there before
    its first delivery or count was written down. used: all that left the shelves, mixed, sold, sent back, thrown away
    or, at a count, missing (unexplained: that part of it, what was found too much taken off). Each product is rounded
    to `digits`, so that the sums are those of its list, and opening + found + purchases − used = closing to the last of
    them. A product that was delivered or counted and whose cost is not known is in none of them; without_cost says how
    many there are.
    """
    first_count = (pl.col("movement") == "count") & (pl.col("stretch") == 0)
    money = ["found", "purchases", "unexplained", "closing"]
    moved = book.group_by(*SHELF, month=month_of(pl.col("at"))).agg(
        found=pl.col("received").filter(first_count | (pl.col("movement") == "opening")).sum(),
        purchases=pl.col("received").filter(pl.col("movement") == "delivery").sum(),
        unexplained=unexplained().sum(),
        closing=(pl.col("received") - pl.col("issued")).sum(),
    )
    wanted = pl.DataFrame({"month": period.months()}, schema={"month": pl.String()})
    months = pl.concat([wanted, moved.select("month")]).unique()
    return (
        months.join(moved.select(SHELF).unique(), how="cross")
        .join(moved, on=["month", *SHELF], how="left")
        .with_columns(pl.col(money).fill_null(0))
        .sort("month")
        .with_columns(pl.col("closing").cum_sum().over(SHELF))
        .group_by("month", maintain_order=True)
        .agg(rounded(pl.col(money), digits).sum())
        .join(months, on="month", how="right")
        .sort("month")
        .with_columns(pl.col(money).fill_null(0))
        .with_columns(opening=pl.col("closing").shift(1, fill_value=0))
        .with_columns(used=pl.col("opening") + pl.col("found") + pl.col("purchases") - pl.col("closing"))
        .join(wanted, on="month", how="semi")
        .select(
            "month", "opening", "found", "purchases", "used", "unexplained", "closing", without_cost=_without_cost(book)
        )
    )


def unexplained() -> pl.Expr:
    """Of a ledger's row, the value that a count found missing, negative where it found too much; null elsewhere."""
    between = (pl.col("movement") == "count") & (pl.col("stretch") > 0)
    return pl.when(between).then(pl.col("issued") - pl.col("received"))


def _without_cost(book: pl.DataFrame) -> pl.Expr:
    kept = pl.col("movement").is_in(["delivery", "count"])
    return pl.lit(book.filter(kept & pl.col("value").is_null()).select(SHELF).n_unique(), pl.Int64)
