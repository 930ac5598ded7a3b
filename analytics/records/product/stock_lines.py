"""What every movement of stock is worth, to the cent: the rows that the months of stock add up, with their export rows.

Amounts of a shelf, month and part are rounded as they run up, so that they end at the rounded sum that stock_by_month
shows. What of a month's use is left over by rounding stands as a line of its own, without a row.
"""

import polars as pl

from analytics.definitions.results import GRAMS, MONEY
from analytics.money import rounded
from analytics.periods import month_of
from analytics.records.product.stock_moves import SHELF

MONTH = [*SHELF, "month"]
LEAVES = ("mixed", "sold", "returned", "discarded", "missing", "rounding")
LINE = {
    "day": pl.Date(),
    "site": pl.String(),
    "product_id": pl.String(),
    "product": pl.String(),
    "part": pl.String(),
    "reason": pl.String(),
    "grams": GRAMS.dtype,
    "amount": MONEY.dtype,
    "file": pl.String(),
    "row": pl.Int64(),
}


def stock_lines(book: pl.DataFrame, written: pl.DataFrame, digits: int) -> pl.DataFrame:
    """One row per movement and part with an amount, columns of LINE, in order of time.

    part: purchases, found (there before its first delivery or count was written down), mixed, sold, returned,
    discarded, missing (at a count; found too much is less than nothing), rounding; and on the last day of a month
    written_down, reversed and released, which have a reason and no row (written: records.write_downs). amount: what
    came in of purchases and found, what left of the others. What was used before it was there leaves with the delivery
    or count that makes it good.
    """
    moved = pl.concat([_of_part(book, part, worth, digits) for part, worth in _parts().items()])
    parts = [moved, _rounding(book, moved, digits), _of_month_ends(written)]
    rows = pl.concat([part.select(pl.col(name).cast(kind) for name, kind in LINE.items()) for part in parts])
    return rows.filter(pl.col("amount") != 0).sort(
        "day", "site", "product_id", "part", "file", "row", maintain_order=True
    )


def _parts() -> dict[str, pl.Expr]:
    """Part -> what a row of the ledger is worth of it, exact."""
    movement, later = pl.col("movement"), pl.col("stretch") > 0
    came, left = pl.col("received"), pl.col("issued")
    first = (movement == "opening") | ((movement == "count") & ~later)
    made_good = pl.when((movement == "delivery") | first).then(left).otherwise(0)
    sold = pl.col("kind") == "retail"
    by_movement = {
        part: pl.when(movement == part).then(left - came).otherwise(0)
        for part in ("sold", "mixed", "returned", "discarded")
    }
    return {
        "purchases": pl.when(movement == "delivery").then(came).otherwise(0),
        "found": pl.when(first).then(came).otherwise(0),
        "missing": pl.when((movement == "count") & later).then(left - came).otherwise(0),
        **by_movement,
        "sold": by_movement["sold"] + pl.when(sold.fill_null(False)).then(made_good).otherwise(0),
        "mixed": by_movement["mixed"] + pl.when(~sold.fill_null(False)).then(made_good).otherwise(0),
    }


def _of_part(book: pl.DataFrame, part: str, worth: pl.Expr, digits: int) -> pl.DataFrame:
    """The ledger's rows with what they are worth of a part, rounded as it runs up in the month."""
    until = rounded(pl.col("_worth").cum_sum().over(MONTH), digits)
    written = pl.col("movement") != "opening"  # what was there before stands in no row
    return (
        book.with_columns(month=month_of(pl.col("at")), _worth=worth.fill_null(0))
        .filter(pl.col("_worth") != 0)
        .with_columns(_until=until)
        .with_columns(amount=pl.col("_until") - pl.col("_until").shift(1, fill_value=0).over(MONTH))
        .select(
            *MONTH,
            "product",
            "amount",
            file=pl.when(written).then("file").otherwise(pl.lit("")),
            row=pl.when(written).then("row"),
            day=pl.col("at").dt.date(),
            part=pl.lit(part),
            reason=pl.lit(None, pl.String),
            grams=pl.col("change_g").abs(),
        )
    )


def _rounding(book: pl.DataFrame, moved: pl.DataFrame, digits: int) -> pl.DataFrame:
    """What of a month's use is left over once every part of it is rounded."""
    came = pl.when(pl.col("part").is_in(LEAVES)).then(-pl.col("amount")).otherwise("amount")
    shown = moved.group_by(MONTH).agg(_shown=came.sum())
    value = (pl.col("received") - pl.col("issued")).fill_null(0)
    return (
        book.with_columns(month=month_of(pl.col("at")), _value=value.cum_sum().over(SHELF))
        .group_by(MONTH)
        .agg(pl.col("_value", "product").last())
        .sort(MONTH)
        .with_columns(_value=rounded(pl.col("_value"), digits))
        .with_columns(_change=pl.col("_value") - pl.col("_value").shift(1, fill_value=0).over(SHELF))
        .join(shown, on=MONTH, how="left")
        .select(
            *MONTH,
            "product",
            amount=pl.col("_shown").fill_null(0) - pl.col("_change"),
            day=_last_day(),
            part=pl.lit("rounding"),
            reason=pl.lit(None, pl.String),
            grams=pl.lit(0),
            file=pl.lit(""),
            row=pl.lit(None, pl.Int64),
        )
    )


def _of_month_ends(written: pl.DataFrame) -> pl.DataFrame:
    return (
        written.unpivot(
            ["written_down", "reversed", "released"],
            index=[*MONTH, "product", "reason", "grams"],
            variable_name="part",
            value_name="amount",
        )
        .with_columns(day=_last_day(), file=pl.lit(""), row=pl.lit(None, pl.Int64))
        .select(*MONTH, "product", "amount", "file", "row", "day", "part", "reason", "grams")
    )


def _last_day() -> pl.Expr:
    """The last day of the row's month."""
    return (pl.col("month") + "-01").str.to_date("%Y-%m-%d").dt.month_end()
