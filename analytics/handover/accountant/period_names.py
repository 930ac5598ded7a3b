"""How a handover's period is written: 2026, 2026-Q3, 2026-09, or its first and last day."""

import re
from bisect import bisect
from datetime import date

from analytics import wording
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings
from analytics.stops import WorkStopped

QUARTERS, EVERY = (1, 4, 7, 10), tuple(range(1, 13))  # months in which one begins
QUARTER_NAMES = "1234"


def named_period(text: str) -> Period:
    """'2026-Q3', '2026-09' or '2026' -> its days. Raises WorkStopped where it is none of them."""
    quarter = re.fullmatch(r"((?:19|2[01])[0-9]{2})-[Qq]([1-4])", text)
    if quarter:
        first = date(int(quarter[1]), QUARTERS[QUARTER_NAMES.index(quarter[2])], 1)
        return Period(first, add_months(first, 3))
    if re.fullmatch(r"(19|2[01])[0-9]{2}", text):
        return Period(date(int(text), 1, 1), date(int(text) + 1, 1, 1))
    if re.fullmatch(r"(19|2[01])[0-9]{2}-(0[1-9]|1[0-2])", text):
        return Period.month(text)
    raise WorkStopped(f"{text!r} is not a period; write a quarter, month or year such as 2026-Q3, 2026-09 or 2026.")


def period_name(period: Period) -> str:
    """The shortest of those names, or '2026-07-01_to_2026-09-15', the last day included."""
    first = period.start
    names = ((12, (1,), f"{first:%Y}"), (3, QUARTERS, _quarter(month_name(first))), (1, EVERY, month_name(first)))
    for months, begin_in, name in names:
        if first.day == 1 and first.month in begin_in and period.end == add_months(first, months):
            return name
    return f"{first}_to_{period.last}"


def _quarter(month: str) -> str:
    """'2026-08' -> '2026-Q3'."""
    return f"{month[:4]}-Q{bisect(QUARTERS, int(month[5:]))}"


def period_words(period: Period, settings: Settings) -> str:
    """'October 2026', '2026', 'July 2026 to September 2026', or its first and last day."""
    name = period_name(period)
    if re.fullmatch(r"[0-9]{4}", name):
        return name
    if "_to_" in name:
        return f"{wording.day(period.start, settings)} to {wording.day(period.last, settings)}"
    return wording.month_range(period.months(), settings)


def periods_of(cover: Period) -> dict[str, list[str]]:
    """The months, quarters and years that the book touches, newest first, by what people call them."""
    months = cover.months()[::-1]
    quarters = dict.fromkeys(map(_quarter, months))
    return {"Month": months, "Quarter": list(quarters), "Year": list(dict.fromkeys(month[:4] for month in months))}
