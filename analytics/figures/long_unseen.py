"""Which clients had no visit for as long as the salon keeps records of them: a proposal of whom to erase.

Counted from a client's last visit that was completed or booked, or last purchase; refunds, cancelled and missed visits
are none, a visit that is still to come is one. Nobody stands here before settings.keeping.months_without_visit is set,
who is on a list of clients alone, since nothing says since when, or who was erased. How long records must be kept for
tax is a local rule and comes first: erasing keeps every sum, but no longer whose it was.
"""

from datetime import date

import polars as pl

from analytics.definitions.columns import LINEAGE, NOBODY
from analytics.definitions.results import COUNT, DAY, TEXT, Column, Figure, Result
from analytics.records.clients.root_visits import CLIENT
from analytics.settings import Settings

KEEPS = ("completed", "booked")
RESULT = Result(
    "one row per client, the longest unseen first",
    key=("site", "client_id"),
    columns={
        "site": Column(TEXT, "the salon of a group"),
        "client_id": Column(TEXT, "the client"),
        "client": Column(TEXT, "their name, where an export has it"),
        "last_on": Column(DAY, "the day of the last visit or purchase"),
        "months": Column(COUNT, "whole months since then", "months"),
    },
)


def long_unseen(
    bookings: pl.DataFrame, sales: pl.DataFrame, clients: pl.DataFrame, *, settings: Settings, as_of: date
) -> pl.DataFrame:
    """One row per client; days."""
    most = settings.keeping.months_without_visit
    last = _last_days(bookings, sales)
    if most is None:
        last = last.clear()
    gone = last.filter(pl.col("last_on").dt.offset_by(f"{most or 0}mo") <= as_of)
    key = CLIENT if (clients["site"] != "").any() else ["client_id"]
    named = gone.join(clients.select(*key, "client"), on=key, how="left")
    return RESULT.shape(named.with_columns(months=_whole_months(as_of)).sort("last_on", *CLIENT))


def long_unseen_rows(bookings: pl.DataFrame, sales: pl.DataFrame) -> pl.DataFrame:
    """The lines and purchases that count: site, client_id, day, file, row."""
    visits = bookings.filter(pl.col("status").is_in(KEEPS) & (pl.col("price") >= 0))
    came = visits.select(*CLIENT, pl.col("starts_at").alias("day"), *LINEAGE)
    bought = sales.filter(pl.col("client_id").is_not_null()).select(*CLIENT, pl.col("sold_at").alias("day"), *LINEAGE)
    named = pl.concat([came, bought]).filter(~pl.col("client_id").str.contains(NOBODY))
    return named.with_columns(pl.col("day").dt.date()).sort("day", *CLIENT, *LINEAGE)


def _last_days(bookings: pl.DataFrame, sales: pl.DataFrame) -> pl.DataFrame:
    return long_unseen_rows(bookings, sales).group_by(CLIENT).agg(last_on=pl.col("day").max())


def _whole_months(as_of: date) -> pl.Expr:
    last = pl.col("last_on")
    begun = 12 * (as_of.year - last.dt.year()) + as_of.month - last.dt.month()
    return begun - (last.dt.offset_by(pl.format("{}mo", begun)) > as_of).cast(pl.Int32)


FIGURE = Figure(long_unseen, long_unseen_rows, RESULT)
