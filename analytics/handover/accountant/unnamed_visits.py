"""Visits whose number was put together of day and client: in the folder they are called after their export row."""

import polars as pl

from analytics.definitions.columns import MADE_OF


def unnamed(frame: pl.DataFrame, column: str, bookings: pl.DataFrame) -> pl.DataFrame:
    """The frame with every visit in `column` that holds a client's name called after the row of its first line, such as
    "diary.csv row 17"; a visit that is not in the bookings has no name but "not in the bookings".
    """
    made = pl.col(column).str.contains(MADE_OF, literal=True)
    if not frame.select(made.any()).item():
        return frame
    first = bookings.sort("file", "row").unique("booking_id", keep="first", maintain_order=True)
    named = first.select(pl.col("booking_id").alias(column), _row=pl.format("{} row {}", "file", "row"))
    shown = frame.join(named, on=column, how="left", maintain_order="left")
    name = pl.when(made).then(pl.col("_row").fill_null("not in the bookings")).otherwise(column)
    return shown.with_columns(name.alias(column)).drop("_row")
