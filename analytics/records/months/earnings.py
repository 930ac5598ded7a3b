"""What was earned in a month, service by service and in retail, and what such a month was expected to earn.

The expected month is made of the twelve before it: the services done then, at the prices of the month itself, in such
numbers that visits and money come to what records/months/expected says; so it can be held against the month as any
other month is.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import NamedTuple

import numpy as np
import polars as pl

from analytics.definitions.results import AMOUNT, QUANTITY
from analytics.money import digits_of, round_half_up, round_parts
from analytics.periods import Period, in_spans
from analytics.records.chairs.lines import completed_lines
from analytics.records.clients.visits import told_visits
from analytics.records.money.earned import by_retail_product, by_service
from analytics.records.months.expected import expected
from analytics.records.months.price_levels import price_levels
from analytics.records.months.usual_days import usual_days
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

YEAR = 12
PER_MILLE = 3  # digits of a quantity
OTHER = ""  # the item of what nothing before says what it is made of


class Earned(NamedTuple):
    """Of one service or product: how much was sold, for how much without tax, and what was paid back (below 0)."""

    quantity: Decimal
    net: Decimal
    refunded: Decimal = Decimal(0)
    price: float | None = None  # usual price of one, before discount
    service: str | None = "Retail"
    kind: str | None = "retail"


@dataclass(frozen=True)
class Earnings:
    """Of some days: visits, and per item what was earned."""

    visits: Decimal = Decimal(0)
    services: dict[str, Earned] = field(default_factory=dict)
    retail: dict[str, Earned] = field(default_factory=dict)

    @property
    def service_net(self) -> Decimal:
        return sum((item.net + item.refunded for item in self.services.values()), Decimal(0))

    @property
    def retail_net(self) -> Decimal:
        return sum((item.net for item in self.retail.values()), Decimal(0))

    @property
    def pieces(self) -> Decimal:
        return sum((item.quantity for item in self.retail.values()), Decimal(0))


class Amounts(NamedTuple):
    """What was to be expected of a month, as the figure `month` has it."""

    net_revenue: Decimal
    service_net: Decimal
    retail_net: Decimal
    visits: Decimal


@dataclass(frozen=True)
class Rows:
    """Completed lines, retail rows and visits of the salon."""

    lines: pl.DataFrame
    retail: pl.DataFrame
    visits: pl.DataFrame
    settings: Settings


def rows_of(
    bookings: pl.DataFrame, services: pl.DataFrame, sales: pl.DataFrame, products: pl.DataFrame, settings: Settings
) -> Rows:
    """The rows that months are compared by."""
    lines, retail = completed_lines(bookings, services, settings), retail_rows(sales, products, settings)
    return Rows(lines, retail, told_visits(bookings), settings)


def earnings(rows: Rows, spans: Mapping[str, Period]) -> dict[str, Earnings]:
    """Per span, what it brought."""
    services = _by_span(by_service(rows.lines, spans).select("month", "item", *Earned._fields), spans)
    pieces = _by_span(by_retail_product(rows.retail, spans).select("month", "item", "quantity", "net"), spans)
    came = in_spans(rows.visits.filter("came"), "starts_at", spans).group_by("month").len()
    counted = {name: Decimal(number) for name, number in came.iter_rows()}
    return {name: Earnings(counted.get(name, Decimal(0)), services[name], pieces[name]) for name in spans}


def _by_span(rows: pl.DataFrame, spans: Mapping[str, Period]) -> dict[str, dict[str, Earned]]:
    found: dict[str, dict[str, Earned]] = {name: {} for name in spans}
    for month, item, *earned in rows.sort("month", "item", nulls_last=True).iter_rows():
        found[month][item] = Earned(*earned)
    return found


def expected_earnings(whole: Mapping[str, Earnings], rows: Rows, spans: Mapping[str, Period]) -> dict[str, Earnings]:
    """Per whole month that something was to be expected of: what that was.

    whole: earnings of all months of the cover that are over, in order; spans: those months.
    """
    told, settings = _expected_amounts(whole, rows, spans), rows.settings
    names, digits = list(whole), digits_of(settings.salon.currency)
    return {
        month: _composed(whole[month], [whole[name] for name in names[max(0, at - YEAR) : at]], told[month], digits)
        for at, month in enumerate(names)
        if month in told
    }


def _expected_amounts(whole: Mapping[str, Earnings], rows: Rows, spans: Mapping[str, Period]) -> dict[str, Amounts]:
    measured = pl.DataFrame(
        [
            (name, int(one.visits), one.service_net + one.retail_net, one.service_net, one.retail_net, one.pieces)
            for name, one in whole.items()
        ],
        schema={
            "month": pl.String(),
            "visits": pl.Int64(),
            **dict.fromkeys(("net_revenue", "service_net", "retail_net"), AMOUNT),
            "retail_items": QUANTITY.dtype,
        },
        orient="row",
    )
    levels = price_levels(rows.lines, rows.retail, None, spans)
    days = usual_days(rows.visits, rows.settings.hours, spans)
    found = expected(measured, days, levels, np.zeros(len(whole), dtype=bool))
    wide = found.pivot("figure", index="month", values="expected").drop_nulls()
    if set(Amounts._fields) - set(wide.columns):
        return {}
    told = {month: Amounts(*amounts) for month, *amounts in wide.select("month", *Amounts._fields).iter_rows()}
    return {month: amounts for month, amounts in told.items() if amounts.visits > 0}


def _composed(now: Earnings, before: Sequence[Earnings], told: Amounts, digits: int) -> Earnings:
    """The months before, brought to what was expected."""
    whole, both = round_half_up(told.net_revenue, digits), told.service_net + told.retail_net
    of_services = round_half_up(whole * told.service_net / both, digits) if both else whole
    return Earnings(
        round_half_up(told.visits, PER_MILLE),
        _scaled(_together(now.services, [month.services for month in before]), of_services, digits),
        _scaled(_together(now.retail, [month.retail for month in before]), whole - of_services, digits),
    )


def _together(now: Mapping[str, Earned], before: Sequence[Mapping[str, Earned]]) -> dict[str, Earned]:
    """Item by item, the months before added up, at the prices of now where these are known."""
    items = sorted({item for month in before for item in month}, key=str)
    return {item: _added(now.get(item), [month[item] for month in before if item in month]) for item in items}


def _added(now: Earned | None, before: Sequence[Earned]) -> Earned:
    net, quantity, refunded = Decimal(0), Decimal(0), Decimal(0)
    for then in before:
        dearer = now.price / then.price if now and now.price and then.price else 1.0
        net += then.net * Decimal(str(round(dearer, 6)))
        quantity, refunded = quantity + then.quantity, refunded + then.refunded
    return before[-1]._replace(quantity=quantity, net=net, refunded=refunded, price=None)


def _scaled(items: Mapping[str, Earned], total: Decimal, digits: int) -> dict[str, Earned]:
    """The items in the same proportions, in whole minor units that add up to the total."""
    every = sum((item.net + item.refunded for item in items.values()), Decimal(0))
    if every <= 0:
        return {OTHER: Earned(Decimal(0), Decimal(0), total)} if total else {}
    factor = Fraction(total) / Fraction(every)
    parts = round_parts(
        [Fraction(part) * factor for item in items.values() for part in (item.net, item.refunded)], digits
    )
    scaled = zip(items.items(), parts[::2], parts[1::2], strict=True)
    return {
        name: item._replace(
            quantity=round_half_up(item.quantity * Decimal(float(factor)), PER_MILLE), net=net, refunded=refunded
        )
        for (name, item), net, refunded in scaled
    }
