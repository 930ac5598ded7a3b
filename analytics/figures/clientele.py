"""Who came, and what that did to net revenue: the volume of `changes`, by open days, clients due and new clients.

Held against what was to be expected of the month, the month before, and the year before. A client is due her usual gap
after her last visit: the median of her last five gaps once she has two, until then the median gap of all. Of a month
counts what was known when it began. Each group stands with its number now and then, and with what its difference
brought or took, at what a visit brought then:

* open_days: more or fewer open days, each weekday counted by what it usually brings; not against expected, which knows
  them already. What follows is beyond that.
* due: clients due in the month, at the share of them who came then; number is how many were due.
* came: of those due, more or fewer came than that share; number is how many came.
* later: visits by clients who had been due before the month; early: by those due only after it; new: by clients new to
  the book.
* everybody: all visits, where nothing can be told of these, as in the first half year of a book, in which everybody
  looks new.

Up to here the effects add up to the volume effects of `changes` over all services, to the cent. Then stands what it has
by service, in one sum each: prices (and discounts), mix (what was done), refunds, and retail; with these they add up to
net_change, what net revenue changed by in all. A part-month stands against the same days, and against no expectation.
"""

from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from fractions import Fraction

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.definitions.results import COMPARED, MONEY, MONTH_KEY, QUANTITY, TEXT, Column, Figure, Result
from analytics.definitions.rows import Row
from analytics.money import digits_of, round_parts
from analytics.periods import Period, add_months
from analytics.records.chairs.lines import completed_lines
from analytics.records.chairs.stays import VISIT
from analytics.records.clients.due import STANDINGS, standings
from analytics.records.clients.root_visits import CLIENT
from analytics.records.memo import memoised
from analytics.records.months.comparisons import Pair, pairs, whole_months
from analytics.records.months.earnings import Rows, rows_of
from analytics.records.months.effects import of_services
from analytics.records.months.expected import expected
from analytics.records.months.usual_days import usual_days
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

RESULT = Result(
    "one row per month, comparison and group",
    key=("month", "compared_with", "group"),
    columns={
        **MONTH_KEY,
        **COMPARED,
        "group": Column(TEXT, "open_days, due, came, later, early, new, everybody, prices, mix, refunds, or retail"),
        "number": Column(QUANTITY, "days, clients due, those of them who came, or visits"),
        "number_before": Column(QUANTITY, "the same of what it is compared with"),
        "effect": Column(MONEY, "what the difference brought, without tax"),
        "net_change": Column(MONEY, "net revenue − that of what it is compared with"),
    },
)

LOOKS_NEW = 6  # months at the start of a book
COUNTED = ("clients_due", "clients_came", *STANDINGS)
Floats = NDArray[np.float64]


def clientele(
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
    """One row per month, comparison there is, and group; money in the currency."""
    given = rows_of(bookings, services, sales, products, settings)
    compared = pairs(given, period, cover, as_of)
    whole = whole_months(cover, as_of)
    told = _Told(given, compared, whole, add_months(cover.start, LOOKS_NEW))
    digits = digits_of(settings.salon.currency)
    rows = [row for pair in compared for row in _of_pair(pair, told, digits)]
    return RESULT.shape(pl.DataFrame(rows, schema=RESULT.schema))


def clientele_rows(
    bookings: pl.DataFrame,
    services: pl.DataFrame,
    sales: pl.DataFrame,
    products: pl.DataFrame,
    *,
    settings: Settings,
    period: Period,
) -> pl.DataFrame:
    """What each client bought in the period: day, client_id, item, net."""
    bought = _bought(bookings, services, sales, products, settings)
    return bought.filter(period.holds(pl.col("day"))).sort("day", "client_id", "file", "row")


@memoised
def _bought(
    bookings: pl.DataFrame, services: pl.DataFrame, sales: pl.DataFrame, products: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """Completed lines and retail rows with the client they belong to."""
    columns = [*CLIENT, "day", "item", "net", "file", "row"]
    whose = bookings.group_by(VISIT).agg(visitor=pl.col("client_id").min())
    lines = completed_lines(bookings, services, settings).with_columns(day="starts_at", item="service")
    retail = retail_rows(sales, products, settings).join(whose, on=VISIT, how="left")
    named = retail.with_columns(client_id=pl.coalesce("client_id", "visitor"), day="sold_at", item="product")
    return pl.concat([lines.select(columns), named.select(columns)])


class _Told:
    """How many of each standing came on the days compared, how many usual days these had, and what was expected."""

    def __init__(self, given: Rows, compared: list[Pair], whole: Mapping[str, Period], known_from: date) -> None:
        self.given, self.whole, self.known_from = given, whole, known_from
        sides = {span for pair in compared for span in (pair.days, pair.then) if span is not None}
        spans = {_name(span): span for span in sorted({*sides, *whole.values()}, key=_name)}
        counted = standings(given.visits, spans)
        self.counts = {row["month"]: {name: Fraction(row[name]) for name in COUNTED} for row in counted.to_dicts()}
        of_months = usual_days(given.visits, given.settings.hours, whole)
        self.usual_days = {_name(span): float(days) for span, days in zip(whole.values(), of_months, strict=True)}
        self.expected = self._expected(counted, of_months) if any(pair.then is None for pair in compared) else {}

    def knows(self, span: Period) -> bool:
        return span.start >= self.known_from

    def days(self, span: Period) -> Fraction:
        """Usual days of these, each weekday by the months before it alone."""
        name = _name(span)
        if name not in self.usual_days:
            before = {month: days for month, days in self.whole.items() if days.end <= span.start}
            found = usual_days(self.given.visits, self.given.settings.hours, before | {name: span})
            self.usual_days[name] = float(found[-1])
        return Fraction(round(self.usual_days[name] * 100), 100)

    def before(self, pair: Pair) -> Mapping[str, Fraction] | None:
        """Counts of what the month is held against; None where they are not known."""
        if pair.then is not None:
            return self.counts[_name(pair.then)] if self.knows(pair.then) else None
        counts = self.expected.get(pair.month)
        visits = sum((counts[name] for name in STANDINGS), Fraction(0)) if counts else Fraction(0)
        if counts is None or not visits:
            return None
        return {name: number * Fraction(pair.before.visits) / visits for name, number in counts.items()}

    def _expected(self, counted: pl.DataFrame, days: Floats) -> dict[str, dict[str, Fraction]]:
        """Per month: what was to be expected of each count; none where everybody looked new lately."""
        names = {_name(span): month for month, span in self.whole.items()}
        measured = (
            counted.filter(pl.col("month").is_in(list(names)))
            .with_columns(pl.col("month").replace_strict(names), visits=pl.sum_horizontal(STANDINGS))
            .sort("month")
        )
        looks_new = np.array([not self.knows(span) for span in self.whole.values()], dtype=bool)
        found = expected(measured, days, {}, looks_new).filter(pl.col("figure").is_in(COUNTED)).drop_nulls("expected")
        told: dict[str, dict[str, Fraction]] = {}
        for month, figure, number in found.select("month", "figure", "expected").iter_rows():
            told.setdefault(month, {})[figure] = Fraction(number)
        return {month: counts for month, counts in told.items() if len(counts) == len(COUNTED)}


def _name(span: Period) -> str:
    return f"{span.start}/{span.end}"


def _of_pair(pair: Pair, told: _Told, digits: int) -> Iterator[Row]:
    steps, then = list(_steps(pair, told)), dict(_by_service(pair, digits))
    effects = round_parts([effect for *_, effect in steps], digits)
    change = sum(effects, Decimal(0)) + sum(then.values(), Decimal(0))
    about = {"month": pair.month, "compared_with": pair.compared_with, "net_change": change}
    for (group, now, before, _), effect in zip(steps, effects, strict=True):
        yield about | {"group": group, "number": _number(now), "number_before": _number(before), "effect": effect}
    for group, effect in then.items():
        yield about | {"group": group, "number": None, "number_before": None, "effect": effect}


def _by_service(pair: Pair, digits: int) -> Iterator[tuple[str, Decimal]]:
    """The other parts of the change, in one sum each; refunds and retail only where there are any."""
    rows = [row for _, row in of_services(pair, digits)]
    for group, column in (("prices", "price_effect"), ("mix", "mix_effect"), ("refunds", "refund_effect")):
        effect = sum((row[column] for row in rows), Decimal(0))
        if effect or group != "refunds":
            yield group, effect
    if pair.now.retail or pair.before.retail:
        yield "retail", pair.now.retail_net - pair.before.retail_net


def _number(number: Fraction) -> Decimal:
    return Decimal(round(number * 1000)).scaleb(-3)


def _steps(pair: Pair, told: _Told) -> Iterator[tuple[str, Fraction, Fraction, Fraction]]:
    """Group, its number now and then, and what the difference brought."""
    each, more_days = _per_visit(pair), Fraction(1)
    visits, visits_before = Fraction(pair.now.visits), Fraction(pair.before.visits)
    if pair.then is not None:
        now, then = told.days(pair.days), told.days(pair.then)
        more_days = now / then if now and then else Fraction(1)
        yield "open_days", now, then, visits_before * (more_days - 1) * each
    before = told.before(pair) if told.knows(pair.days) else None
    if before is None:
        yield "everybody", visits, visits_before, (visits - visits_before * more_days) * each
        return
    counts = told.counts[_name(pair.days)]
    due, due_before = counts["clients_due"], before["clients_due"]
    as_then = due * before["came_due"] / due_before if due_before else Fraction(0)
    yield "due", due, due_before, (as_then - before["came_due"] * more_days) * each
    yield "came", counts["clients_came"], before["clients_came"], (counts["came_due"] - as_then) * each
    for name in STANDINGS[1:]:
        group = name.removeprefix("came_")
        yield group, counts[name], before[name], (counts[name] - before[name] * more_days) * each


def _per_visit(pair: Pair) -> Fraction:
    """What a visit brought then, refunds apart; where there was none, what it brings now."""
    side = pair.before if pair.before.visits else pair.now
    sold = sum((Fraction(item.net) for item in side.services.values()), Fraction(0))
    return sold / Fraction(side.visits) if side.visits else Fraction(0)


FIGURE = Figure(clientele, clientele_rows, RESULT)
