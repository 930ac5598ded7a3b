"""Why net revenue is what it is, service by service: price, volume, mix and what was paid back.

Held against what was to be expected of the month, the month before, and the year before. Volume is what the service
would have changed by had everything grown as the number of visits did; mix is what its lines grew or shrank beyond
that, at its average price before; price is the rest of its change, which is what the average net charged for a line
(discounts taken off) changed by, times the lines now. A service that was not sold before has no price before: it is
mix. A refund is no line sold, and what refunds changed by stands by itself. Retail is one row, split within itself by
product and pieces. The four add up to the change of their row to the cent, and the changes to the difference of net
revenue. A part-month stands against the same days, and against no expectation. Against what was to be expected, the
services of the twelve months before stand in the numbers that come to the expected visits and money, at the month's own
prices, so that price there is what discounts and single prices did.
"""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

import polars as pl

from analytics.definitions import results
from analytics.definitions.results import COMPARED, MONTH_KEY, Column, Figure, Result
from analytics.definitions.rows import Row
from analytics.money import digits_of
from analytics.periods import Period, in_spans
from analytics.records.chairs.lines import completed_lines
from analytics.records.months.comparisons import Pair, pairs
from analytics.records.months.earnings import rows_of
from analytics.records.months.effects import of_retail, of_services
from analytics.settings import Settings

RESULT = Result(
    "one row per month, comparison and service, and one for retail",
    key=("month", "compared_with", "service_id"),
    columns={
        **MONTH_KEY,
        **COMPARED,
        "service_id": Column(results.TEXT, "line of the menu; empty for retail"),
        "service": Column(results.TEXT, "its name"),
        "kind": Column(results.TEXT, "kind of work, or retail"),
        "quantity": Column(results.QUANTITY, "completed lines; pieces for retail"),
        "quantity_before": Column(results.QUANTITY, "the same of what it is compared with"),
        "net": Column(results.MONEY, "charged, without tax"),
        "net_before": Column(results.MONEY, "the same of what it is compared with"),
        "change": Column(results.MONEY, "net − net before"),
        "price_effect": Column(results.MONEY, "of the change, from what a line brought"),
        "volume_effect": Column(results.MONEY, "of the change, from how many visits there were"),
        "mix_effect": Column(results.MONEY, "of the change, from more of this and less of that"),
        "refund_effect": Column(results.MONEY, "of the change, from what was paid back"),
        "net_each": Column(results.MONEY_WORKED_OUT, "net of a line or piece"),
        "net_each_before": Column(results.MONEY_WORKED_OUT, "the same of what it is compared with"),
    },
)

NAMES = ("service", "kind")


def changes(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
    cover: Period,
    as_of: date,
) -> pl.DataFrame:
    """One row per month, comparison there is, and service sold on either side; in the currency."""
    given = rows_of(bookings, services, sales, products, settings)
    digits = digits_of(settings.salon.currency)
    rows = [row for pair in pairs(given, period, cover, as_of) for row in _of_pair(pair, digits)]
    return RESULT.shape(pl.DataFrame(rows, schema=RESULT.schema))


def changes_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, period: Period) -> pl.DataFrame:
    """The completed lines of the later side."""
    return in_spans(completed_lines(bookings, services, settings), "starts_at", period.parts())


def _of_pair(pair: Pair, digits: int) -> Iterator[Row]:
    """The services in order of their id, then retail."""
    about = {"month": pair.month, "compared_with": pair.compared_with}
    for item, row in of_services(pair, digits):
        yield about | {"service_id": item or None} | row | _each(row)
    pieces = [row for _, row in of_retail(pair, digits)]
    if pieces:
        total = {name: sum((row[name] for row in pieces), Decimal(0)) for name in pieces[0] if name not in NAMES}
        yield about | {name: pieces[0][name] for name in NAMES} | total | _each(total)


def _each(row: Row) -> Row:
    """What one brought, on either side; none where none was sold."""
    sides = (("net_each", row["net"], row["quantity"]), ("net_each_before", row["net_before"], row["quantity_before"]))
    return {name: float(net / quantity) if quantity > 0 else None for name, net, quantity in sides}


FIGURE = Figure(changes, changes_rows, RESULT)
