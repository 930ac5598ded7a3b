"""Stock at the lower of cost and what it can still bring (IAS 2.9), by month: written down, reversed, released."""

from datetime import timedelta

import polars as pl

from analytics.definitions.results import MONEY
from analytics.money import EXACT, rounded
from analytics.periods import Period, at_minute, month_of
from analytics.records.memo import memoised
from analytics.records.product.expired import expired_stock
from analytics.records.product.stock_moves import SHELF
from analytics.settings import Stock

REASONS = ("expired", "no_movement", "price")  # in the order in which written-down stock is taken to leave
FLOWS = ["opening", "written_down", "reversed", "released", "closing"]
YEAR = timedelta(days=365)


@memoised
def write_downs(book: pl.DataFrame, sold: pl.DataFrame, stock: Stock, until: str, digits: int) -> pl.DataFrame:
    """One row per shelf, month up to `until` and reason, where anything is or was written down: FLOWS and grams.

    book: a ledger. sold: retail_rows. Of each shelf at a month's end at cost: what has `expired` brings nothing; nor
    does the rest where there was `no_movement` but counts for [stock] unsaleable_after_days; else retail brings at most
    its typical net `price` of the last year (median), and so much of its cost as lies above that is written down.
    Colour and all else used up at work keeps its cost (IAS 2.32). Each is rounded to `digits` for itself.

    released: written down before, of stock that has left since; it goes with the cost of that stock. What else changes
    is written down, or reversed (IAS 2.33-34): opening + written_down − reversed − released = closing. grams: how much
    the closing amount is of.
    """
    states = _with_price(_states(book, until, stock.valuation), sold)
    return _flows(_reasons(states, stock.unsaleable_after_days, digits), digits).sort(*SHELF, "month", "reason")


def _states(book: pl.DataFrame, until: str, valuation: str) -> pl.DataFrame:
    """Each shelf at the end of each month from its first movement on, with what left it in the month, at cost."""
    months = Period.of_days(book["at"].min().date(), Period.month(until).start).months() if book.height else []  # type: ignore[union-attr]
    ends = {"month": months, "end": [at_minute(Period.month(month).end, 0) for month in months]}
    grid = pl.DataFrame(ends, schema={"month": pl.String(), "end": pl.Datetime("us")})
    kept = ["level_g", "value", "product", "kind", "pack_g"]
    moved = book.group_by(*SHELF, month=month_of(pl.col("at"))).agg(
        pl.col(kept).last(),
        moved_at=pl.col("at").filter(pl.col("movement") != "count").max(),
        issued=pl.col("issued").sum(),
    )
    filled = (
        grid.join(book.select(SHELF).unique(), how="cross")
        .join(moved, on=["month", *SHELF], how="left")
        .sort(*SHELF, "month")
        .with_columns(
            pl.col(*kept, "moved_at").forward_fill().over(SHELF, order_by="month"), issued=pl.col("issued").fill_null(0)
        )
        .drop_nulls("level_g")
    )
    expired = expired_stock(book, filled.select(*SHELF, "month", "end", "level_g", "value"), valuation)
    return filled.join(expired, on=[*SHELF, "month"], how="left", maintain_order="left").with_columns(
        pl.col("expired_g", "expired_cost").fill_null(0)
    )


def _with_price(states: pl.DataFrame, sold: pl.DataFrame) -> pl.DataFrame:
    """`price`: what a piece of retail typically brought, without tax, in the year up to the month's end."""
    pieces = sold.filter((pl.col("units") > 0) & (pl.col("net") > 0)).select(
        *SHELF, "sold_at", each=pl.col("net").cast(pl.Float64) / pl.col("units").cast(pl.Float64)
    )
    if states.filter(pl.col("site") != "").is_empty():
        pieces = pieces.with_columns(site=pl.lit(""))
    shelves = states.filter(pl.col("kind") == "retail").select(*SHELF, "month", "end")
    typical = (
        shelves.join(pieces, on=SHELF)
        .filter((pl.col("sold_at") < pl.col("end")) & (pl.col("sold_at") >= pl.col("end") - YEAR))
        .group_by(*SHELF, "month")
        .agg(price=pl.col("each").median())
    )
    return states.join(typical, on=[*SHELF, "month"], how="left", maintain_order="left")


def _reasons(states: pl.DataFrame, days: int, digits: int) -> pl.DataFrame:
    """One row per shelf, month and reason: closing, grams, and what left at cost, `gone`; months without any, too."""
    still = pl.lit(days > 0) & (pl.col("moved_at") < pl.col("end") - pl.duration(days=days))
    rest = pl.col("_value") - pl.col("expired")
    rest_g = (pl.col("level_g") - pl.col("expired_g")).clip(0)  # stock below nothing has no value
    brings = pl.col("price") * rest_g.cast(pl.Float64) / pl.col("pack_g").cast(pl.Float64)
    below = (rest - rounded(brings.round(9).cast(EXACT), digits)).clip(0)
    told = (
        states.with_columns(
            _value=rounded(pl.col("value").fill_null(0), digits), expired=rounded(pl.col("expired_cost"), digits)
        )
        .with_columns(no_movement=pl.when(still.fill_null(False)).then(rest).otherwise(0))
        .with_columns(price=pl.when(pl.col("no_movement") == 0).then(below).fill_null(0))
        .with_columns(gone=rounded(pl.col("issued").fill_null(0), digits).clip(0))
    )
    grams = {"expired": pl.col("expired_g"), "no_movement": rest_g, "price": rest_g}
    columns = [*SHELF, "month", "product", "kind", "pack_g", "_value", "gone"]
    parts = [
        told.select(*columns, reason=pl.lit(reason), closing=pl.col(reason).cast(MONEY.dtype), _grams=grams[reason])
        for reason in REASONS
    ]
    return pl.concat(parts).with_columns(grams=pl.when(pl.col("closing") != 0).then("_grams").otherwise(0))


def _flows(rows: pl.DataFrame, digits: int) -> pl.DataFrame:
    """From one month's end to the next."""
    month = [*SHELF, "month"]
    order = pl.col("reason").replace_strict({reason: at for at, reason in enumerate(REASONS)}, return_dtype=pl.Int64)
    before = rows.sort(*month, order).with_columns(
        opening=pl.col("closing").shift(1, fill_value=0).over(*SHELF, "reason", order_by="month"),
        _before=pl.col("_value").shift(1, fill_value=0).over(*SHELF, "reason", order_by="month"),
    )
    change = pl.col("closing") - pl.col("opening") + pl.col("released")
    return (
        before.with_columns(_unsaleable=pl.when(pl.col("reason") != "price").then("opening").otherwise(0))
        .with_columns(_first=_of_the_first("_unsaleable", "gone", month))
        .with_columns(released=pl.when(pl.col("reason") == "price").then(_in_part(month, digits)).otherwise("_first"))
        .with_columns(written_down=change.clip(0), reversed=(-change).clip(0))
        .filter(pl.any_horizontal(pl.col(name) != 0 for name in FLOWS))
        .select(
            *month, "product", "kind", "pack_g", "reason", *(pl.col(name).cast(MONEY.dtype) for name in FLOWS), "grams"
        )
    )


def _of_the_first(held: str, gone: str, over: list[str]) -> pl.Expr:
    """What of each row's amount is gone where the rows of a group go one after another."""
    until = pl.col(held).cum_sum().over(over)
    return pl.min_horizontal(until, gone) - pl.min_horizontal(until - pl.col(held), gone)


def _in_part(month: list[str], digits: int) -> pl.Expr:
    """What is written down for its price leaves in proportion, once what brings nothing is gone."""
    rest = (pl.col("_before") - pl.col("_unsaleable").sum().over(month)).cast(pl.Float64)
    left = (pl.col("gone") - pl.col("_first").sum().over(month)).cast(pl.Float64)
    part = pl.when(rest > 0).then(pl.col("opening").cast(pl.Float64) * left / rest).fill_null(0.0)
    return pl.min_horizontal(rounded(part.round(9).cast(EXACT), digits), "opening")
