"""How a week stands: whether it overflows, may fill up or has room, by what is open.

It overflows where even the low end of what is wanted, or what is booked already, is more than is open; it may fill up
where the high end of the range takes nearly all that is open; it has room where even then a quarter stays free.
"""

import polars as pl

ROOM, NEARLY_ALL = 0.25, 0.95  # of the open hours
OVERFLOWS, MAY_FILL, HAS_ROOM, ORDINARY, CLOSED = "overflows", "may_fill", "room", "ordinary", "closed"


def with_standing(weeks: pl.DataFrame) -> pl.DataFrame:
    """weeks: of `ahead`. Adds standing, free_share (of the open hours, at the high end; below nothing where more is
    booked than is open), chair_hours_over (what even at the low end is too much) and clients_until_then."""
    opened, booked = pl.col("chair_hours_open"), pl.col("chair_hours_booked")
    high, wanted = (
        pl.max_horizontal(pl.col(name).fill_null(0.0), booked)
        for name in ("chair_hours_high", "chair_hours_wanted_low")
    )
    too_much = (opened > 0) & (wanted > opened)
    free = pl.when(opened > 0).then(1 - high / opened)
    standing = (
        pl.when(opened <= 0)
        .then(pl.lit(CLOSED))
        .when(too_much)
        .then(pl.lit(OVERFLOWS))
        .when(free < 1 - NEARLY_ALL)
        .then(pl.lit(MAY_FILL))
        .when(free >= ROOM)
        .then(pl.lit(HAS_ROOM))
        .otherwise(pl.lit(ORDINARY))
    )
    return weeks.with_columns(
        standing=standing,
        free_share=free,
        chair_hours_over=pl.when(too_much).then(wanted - opened).otherwise(0.0),
        clients_until_then=pl.col("clients_expected").cum_sum(),
    )
