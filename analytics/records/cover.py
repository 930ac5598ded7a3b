"""The months the book covers."""

import polars as pl

from analytics.periods import Period


def covered(
    bookings: pl.DataFrame, payments: pl.DataFrame, sales: pl.DataFrame, product_log: pl.DataFrame
) -> Period | None:
    """Whole months from the first to the last in which something happened; None for an empty book.

    Completed and missed visits, payments, sales and bowls count; what is only booked lies ahead, and a cancelled
    visit did not happen.
    """
    happened = bookings.filter(pl.col("status").is_in(["completed", "no_show"]))
    days = pl.concat(
        [
            happened["starts_at"].dt.date(),
            payments["paid_at"].dt.date(),
            sales["sold_at"].dt.date(),
            product_log["logged_at"].dt.date(),
        ]
    )
    if days.is_empty():
        return None
    return Period.of_days(days.min(), days.max())  # type: ignore[arg-type]
