"""Lines and prices of which a figure would only say what they were made of."""

import polars as pl


def without_made_minutes(bookings: pl.DataFrame, services: pl.DataFrame, made: pl.DataFrame) -> pl.DataFrame:
    """The booking lines whose visit's end stands in an export, of services whose minutes stand in one.

    made: as storage.book.MADE.
    """
    ends = _files(made, "bookings", "ends_at")
    lengths = services.filter(pl.col("file").is_in(_files(made, "services", "hands_on_min")))["service_id"].unique()
    circular = pl.col("file").is_in(ends) | pl.col("service_id").is_in(lengths.to_list())
    visit = ["site", "booking_id"]
    return bookings.filter(~circular.any().over(visit)) if bookings.height else bookings


def without_made_charges(prices: pl.DataFrame, bookings: pl.DataFrame, made: pl.DataFrame) -> pl.DataFrame:
    """The figure `prices`, what a line was charged left empty of services with lines that have the menu's price.

    made: as storage.book.MADE.
    """
    unsaid = bookings.filter(pl.col("file").is_in(_files(made, "bookings", "price")))["service_id"].unique()
    said = ~pl.col("service_id").is_in(unsaid.to_list())
    return prices.with_columns(net_per_line=pl.when(said).then("net_per_line"))


def _files(made: pl.DataFrame, table: str, column: str) -> list[str]:
    return made.filter(table=table, column=column)["file"].to_list()
