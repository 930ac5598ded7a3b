"""Which services seem to be one under two names: one stops when the other begins, or one name is written in two ways.

A service goes on as another of the same kind where no more than one in twenty of its lines stands on or after the day
on which the other begins, at most 60 days lie between them, the other's first usual price lies within a quarter of its
last and the menu's minutes within a quarter, and either at least four in ten (and three) of its clients who came again
had the other, or their names are the same words, or the prices lie within a twentieth, no more than a fortnight is
between them and one of its clients had the other. Two names are one service written in two ways where they are the same
words but for signs, order, general words such as "and" and a slip in a long word, at usual prices within a tenth of
each other. Only services with five lines and more, completed or booked, are looked at. It is a proposal: a service that
is one for the salon but two for the menu has two prices, two typical times and two histories.
"""

import polars as pl

from analytics.definitions.results import CLIENTS, DAY, LINES, MINUTES, MONEY, TEXT, Column, Figure, Result
from analytics.records.chairs.renamed_services import renamed_pairs

RESULT = Result(
    "one row per pair of services",
    key=("service_id",),
    columns={
        "service_id": Column(TEXT, "the service that stops, or the name that stands less often"),
        "service": Column(TEXT, "its name"),
        "goes_on_as_id": Column(TEXT, "the service it seems to go on as"),
        "goes_on_as": Column(TEXT, "its name"),
        "how": Column(TEXT, "renamed, or written in two ways"),
        "kind": Column(TEXT, "the kind of both"),
        "last_on": Column(DAY, "the last day of the one"),
        "first_on": Column(DAY, "the first day of the other"),
        "lines": Column(LINES, "lines of the one"),
        "goes_on_lines": Column(LINES, "lines of the other"),
        "price": Column(MONEY, "the one's last usual price"),
        "goes_on_price": Column(MONEY, "the other's first usual price"),
        "minutes": Column(MINUTES, "the one's minutes on the menu"),
        "goes_on_minutes": Column(MINUTES, "the other's minutes on the menu"),
        "clients_after": Column(CLIENTS, "clients of the one who came on or after the other's first day"),
        "clients_went_on": Column(CLIENTS, "those of them who had the other"),
    },
    for_people=("service", "goes_on_as", "how", "last_on", "first_on", "price", "goes_on_price", "clients_after",
                "clients_went_on"),
)  # fmt: skip


def renamed_services(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """One row per pair; prices in the currency, as charged before discount."""
    pairs = [{name: pair[name] for name in RESULT.columns} for pair in renamed_pairs(bookings, services)]
    schema = RESULT.schema | {"price": pl.Decimal(18, 4), "goes_on_price": pl.Decimal(18, 4)}
    return RESULT.shape(pl.DataFrame(pairs, schema=schema)).sort("service_id")


def renamed_services_rows(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """The booking lines of both services of each pair."""
    pairs = renamed_services(bookings, services)
    ids = pl.concat([pairs["service_id"], pairs["goes_on_as_id"]]).unique()
    lines = bookings.filter(pl.col("status").is_in(["completed", "booked"]) & pl.col("service_id").is_in(ids.implode()))
    return lines.sort("starts_at", "booking_id", "line")


FIGURE = Figure(renamed_services, renamed_services_rows, RESULT)
