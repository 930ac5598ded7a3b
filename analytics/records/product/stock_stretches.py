"""The shelf from one count to the next, and from the last count up to today."""

from datetime import date, datetime

import polars as pl

from analytics.records.product.stock_moves import SHELF

MOVED = {"delivery": "delivered_g", "mixed": "mixed_g", "sold": "sold_g"}
MOVED |= {"returned": "returned_g", "discarded": "discarded_g"}
COUNT, OPENING = (pl.col("movement") == name for name in ("count", "opening"))


def stretches(book: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """Of a ledger, one row per shelf and stretch up to `as_of`: grams, and values that are not rounded yet.

    begins and ends are moments (begins: the first there is, where the product was not counted before), from_on and
    to_on their days. opening, delivered, mixed, sold, returned, discarded, expected, counted (null up to today),
    unexplained and closing, each in grams; opening_value, delivered_cost, unexplained_cost and closing_value.
    Of a stretch that begins without a count only what is missing even so is unexplained, or null. expected_g, closing_g
    and closing_value are null where the product was never delivered nor counted. A first count with nothing before it
    begins a stretch and ends none.
    """
    count_of = {name: pl.col(name).filter(COUNT).first() for name in ("grams", "change_g", "received", "issued")}
    before = [pl.col(name).shift(1).over(SHELF).alias(f"before_{name}") for name in ("level_g", "value", "at")]
    counted_before = pl.col("stretch") > 0
    known = counted_before | (pl.col("unexplained_g") > 0)
    return (
        _with_today(book.filter(pl.col("at").dt.date() <= as_of), as_of)
        .with_columns(before)
        .with_columns(kept=pl.col("movement").is_in(["count", "delivery"]).any().over(SHELF))
        .group_by(*SHELF, "stretch", maintain_order=True)
        .agg(
            pl.col("product", "kind", "pack_g", "level_g", "kept").last(),
            begins=pl.col("before_at").first(),
            ends=pl.col("at").last(),
            opening_g=pl.col("before_level_g").first().fill_null(0) + pl.col("grams").filter(OPENING).sum(),
            opening_value=pl.col("before_value").first().fill_null(0) + pl.col("received").filter(OPENING).sum(),
            delivered_cost=pl.col("received").filter(pl.col("movement") == "delivery").sum(),
            unexplained_cost=count_of["issued"] - count_of["received"],
            closing_value=pl.col("value").last(),
            counted_g=count_of["grams"],
            unexplained_g=-count_of["change_g"],
            **{name: pl.col("grams").filter(pl.col("movement") == moved).sum() for moved, name in MOVED.items()},
            rows=pl.len(),
        )
        .filter(counted_before | pl.col("counted_g").is_null() | (pl.col("rows") > 1))
        .with_columns(pl.when(known).then(pl.col("unexplained_g", "unexplained_cost")))
        .with_columns(
            from_on=pl.when(counted_before).then(pl.col("begins").dt.date()),
            to_on=pl.col("ends").dt.date(),
            begins=pl.when(counted_before).then("begins").otherwise(datetime.min),
            expected_g=pl.when("kept").then(pl.col("level_g") + pl.col("unexplained_g").fill_null(0)),
            closing_g=pl.when("kept").then("level_g"),
            closing_value=pl.when("kept").then("closing_value"),
        )
        .drop("level_g", "kept", "rows")
    )


def _with_today(book: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """A row for today on each shelf, so that the last stretch is there even if nothing has moved since the count."""
    today = book.group_by(SHELF, maintain_order=True).last()
    return pl.concat(
        [
            book,
            today.with_columns(
                pl.lit(0).cast(book.schema["grams"]).alias("grams"),
                pl.lit(0).cast(book.schema["change_g"]).alias("change_g"),
                pl.col("received", "issued") * 0,
                stretch=pl.col("stretch") + COUNT.cast(pl.Int64),
                at=pl.lit(datetime.combine(as_of, datetime.max.time()), pl.Datetime("us")),
                movement=pl.lit("today"),
            ).select(book.columns),
        ]
    )
