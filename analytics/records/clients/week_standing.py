"""How a week stands: whether it overflows, may fill up or has room, by what is open.

It overflows where even the low end of what is wanted, after what usually falls out of the book, is more than is open;
it is overbooked where only the book holds more, so that somebody has to look at the diary; it may fill up
where the high end of the range takes nearly all that is open; it has room where even then a quarter stays free.
"""

import polars as pl

ROOM, NEARLY_ALL = 0.25, 0.95  # of the open hours
OVERFLOWS, OVERBOOKED, MAY_FILL = "overflows", "overbooked", "may_fill"
HAS_ROOM, ORDINARY, CLOSED = "room", "ordinary", "closed"


def with_standing(weeks: pl.DataFrame) -> pl.DataFrame:
    """weeks: of `ahead`. Adds standing, free_share (of the open hours, at the high end; below nothing where more is
    booked than is open), chair_hours_over (what is too much) and clients_until_then."""
    opened, booked = pl.col("chair_hours_open"), pl.col("chair_hours_booked")
    high = pl.max_horizontal(pl.col("chair_hours_high").fill_null(0.0), booked)
    wanted = pl.col("chair_hours_wanted_low").fill_null(0.0)
    too_much, overbooked = wanted > opened, booked > opened
    free = pl.when(opened > 0).then(1 - high / opened)
    standing = (
        pl.when(opened <= 0)
        .then(pl.lit(CLOSED))
        .when(too_much)
        .then(pl.lit(OVERFLOWS))
        .when(overbooked)
        .then(pl.lit(OVERBOOKED))
        .when(free < 1 - NEARLY_ALL)
        .then(pl.lit(MAY_FILL))
        .when(free >= ROOM)
        .then(pl.lit(HAS_ROOM))
        .otherwise(pl.lit(ORDINARY))
    )
    return weeks.with_columns(
        standing=standing,
        free_share=free,
        chair_hours_over=pl.when(opened <= 0)
        .then(0.0)
        .when(too_much)
        .then(wanted - opened)
        .when(overbooked)
        .then(booked - opened)
        .otherwise(0.0),
        clients_until_then=pl.col("clients_expected").cum_sum(),
    )
