"""The text of a cell as any spreadsheet or till wrote it -> the canonical text that casts.py reads; no guessing.

What single texts leave open (03/04/2026, 1.234) is decided once per file, from all of its values, by date_order and
decimal_sign, or said in salon.toml; the answer is the Dialect. Every canonical_ function takes one text and answers
canonical text: 2026-03-14, 2026-03-14 09:30 (or with :SS), -1234.5. It answers None where the text cannot be read, or
only by a guess: the cell as typed is then a finding. It never raises. An answer is not to be read a second time: with a
decimal comma 1,000 is 1.000, and 1.000 is 1000.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from analytics.intake.cells.days import ORDERS, DayOrder, Fits, joined_moment, orders_that_fit, read_day, read_moment
from analytics.intake.cells.numbers import DecimalSign, read_minutes, read_number, sign_shown

__all__ = [
    "DayOrder",
    "DecimalSign",
    "Dialect",
    "Order",
    "Sign",
    "canonical_day",
    "canonical_minutes",
    "canonical_moment",
    "canonical_number",
    "date_order",
    "decimal_sign",
    "joined_moment",
]


NUMBERS = re.compile(r"\d+")
MANY, FEW = 8, 4  # different numbers: more than so many are days, no more than so few may be years
SEVERAL = 3  # different numbers: days, where the other end is always the same
FAR = 10
"""How many times as many texts decide against those that contradict them."""


@dataclass(frozen=True)
class Dialect:
    """How one file writes: the order of its dates and its decimal sign, None where open; the salon's IANA time zone."""

    order: DayOrder | None
    decimal: DecimalSign | None
    timezone: str


@dataclass(frozen=True)
class Order:
    """What the dates of a file say of their order.

    decided: the order, None where it is open. example: a text that shows why it is open. needed: whether any text
    depends on it. possible: the orders that no text rules out. only: how many texts fit that order alone.
    """

    decided: DayOrder | None
    example: str | None
    needed: bool
    possible: tuple[DayOrder, ...]
    only: dict[DayOrder, int]


@dataclass(frozen=True)
class Sign:
    """What the numbers of a file say of its decimal sign.

    decided: the sign, None where it is open. example: a text that is open for it. needed: whether any text depends on
    it. only: how many texts can be read with that sign alone.
    """

    decided: DecimalSign | None
    example: str | None
    needed: bool
    only: dict[DecimalSign, int]


def date_order(texts: Iterable[str]) -> Order:
    """What the dates of one file say of their order: only three numbers without a year of four digits first count.

    A number above 12 is no month, one above 31 no day, a single digit no year. An order is decided where each other
    order is ruled out by at least one text, and by at least ten times as many as rule out this one. What rests on the
    place of a short year (41-03-26, 4/3/26) counts only where one text in ten says it: a slip decides nothing.
    """
    kept = [(text, fits) for text in texts if (fits := orders_that_fit(text))]
    against = _against([fits for _, fits in kept])
    for order in _against_by_spread([text for text, _ in kept]):
        against[order] = max(against[order], len(kept))
    decided = next((order for order in ORDERS if _prevails(order, against)), None)
    nearest = min(ORDERS, key=against.__getitem__)
    either = next((text for text, fits in kept if len(fits.all) > 1), None)
    contradicting = next((text for text, fits in kept if nearest not in fits.all), None)
    return Order(
        decided,
        None if decided else either or contradicting,
        bool(kept),
        tuple(order for order in ORDERS if not against[order]),
        {order: sum(fits.all == {order} for _, fits in kept) for order in ORDERS},
    )


def _against_by_spread(texts: list[str]) -> list[DayOrder]:
    """Orders ruled out by how many different numbers stand first and last: a few are years, many are days.

    Only where both are of two digits: 34 dates from 02/02/26 to 31/03/26 have 25 first numbers and one last. Of a few
    dates in two months or more, three that share the one end are enough, as 26 then is a year: dates that all fall on
    the 26th are none that people make, other than those on the 1st.
    """
    ends = [(numbers[0], numbers[2]) for text in texts if len(numbers := NUMBERS.findall(text)[:3]) == 3]
    short = [(first, last) for first, last in ends if len(first) <= 2 and len(last) == 2]
    firsts, lasts = ({pair[place] for pair in short} for place in (0, 1))
    if len(firsts) >= MANY and len(lasts) <= FEW:
        return ["ymd"]
    if len(lasts) >= MANY and len(firsts) <= FEW:
        return ["dmy", "mdy"]
    middles = {numbers[1] for text in texts if len(numbers := NUMBERS.findall(text)[:3]) == 3}
    if len(short) < len(texts) or len(middles) < SEVERAL - 1:
        return []
    if _are_years(lasts, firsts):
        return ["ymd"]
    return ["dmy", "mdy"] if _are_years(firsts, lasts) else []


def _are_years(numbers: set[str], days: set[str]) -> bool:
    """One or two neighbouring numbers beside several others, and no days on which months, prices or terms begin."""
    years = sorted(map(int, numbers))
    near = len(years) <= 2 and years[-1] - years[0] < 2 and years[0] > 12
    return near and len(days) >= SEVERAL and len(days) >= 2 * len(years)


def _against(fits: list[Fits]) -> dict[DayOrder, int]:
    """How many texts rule an order out."""
    counts: dict[DayOrder, int] = {}
    for order in ORDERS:
        by_all = sum(order not in fit.all for fit in fits)
        counts[order] = by_all if by_all * FAR >= len(fits) else sum(order not in fit.month for fit in fits)
    return counts


def _prevails(order: DayOrder, against: dict[DayOrder, int]) -> bool:
    return all(against[other] >= max(1, FAR * against[order]) for other in ORDERS if other != order)


def decimal_sign(texts: Iterable[str]) -> Sign:
    """What the numbers of one file say of its decimal sign.

    12,5 and 1.234.567 and 0,125 can be read in one way only, 1.234 in two. Where texts contradict each other, the sign
    with at least ten times as many texts is decided, else it is open.
    """
    shown = [(text, sign) for text in texts if (sign := sign_shown(text))]
    dots, commas = (sum(sign == wanted for _, sign in shown) for wanted in ".,")
    decided: DecimalSign | None = None
    if dots != commas and max(dots, commas) >= FAR * min(dots, commas):
        decided = "." if dots > commas else ","
    either = next((text for text, sign in shown if sign == "open"), None)
    return Sign(decided, None if decided else either, either is not None, {".": dots, ",": commas})


def canonical_day(text: str, dialect: Dialect) -> str | None:
    """'14 mrt 2026', '14/03/26', '46095' -> '2026-03-14'. Of a moment, its local day."""
    return read_day(text, dialect.order, dialect.timezone)


def canonical_moment(text: str, dialect: Dialect) -> str | None:
    """'14/03/2026 2:30 PM', '2026-03-14T13:30:00Z' -> '2026-03-14 14:30[:00]'. A day alone gives the day alone."""
    return read_moment(text, dialect.order, dialect.timezone)


def canonical_number(text: str, dialect: Dialect) -> str | None:
    """'€ 1.234,50', '(1234.50)', '60 g', '21 %' -> '1234.50', '-1234.50', '60', '21'."""
    return read_number(text, dialect.decimal)


def canonical_minutes(text: str, dialect: Dialect) -> str | None:
    """'90 min', '1:30', '1h30', '1,5 h', 'PT1H30M' -> '90'."""
    return read_minutes(text, dialect.decimal)
