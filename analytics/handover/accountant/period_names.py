"""How a handover's period is written: 2026, 2026-Q3, 2026-09, or its first and last day."""

import re
from datetime import date, timedelta

from analytics import wording
from analytics.periods import Period, add_months, month_name
from analytics.settings import Settings
from analytics.stops import WorkStopped


def named_period(text: str) -> Period:
    """'2026-Q3', '2026-09' or '2026' -> its days. Raises WorkStopped where it is none of them."""
    quarter = re.fullmatch(r"((?:19|2[01])[0-9]{2})-[Qq]([1-4])", text)
    if quarter:
        first = date(int(quarter[1]), 3 * int(quarter[2]) - 2, 1)
        return Period(first, add_months(first, 3))
    if re.fullmatch(r"(19|2[01])[0-9]{2}", text):
        return Period(date(int(text), 1, 1), date(int(text) + 1, 1, 1))
    if re.fullmatch(r"(19|2[01])[0-9]{2}-(0[1-9]|1[0-2])", text):
        return Period.month(text)
    raise WorkStopped(f"{text!r} is not a period; write a quarter, month or year such as 2026-Q3, 2026-09 or 2026.")


def period_name(period: Period) -> str:
    """The shortest of those names, or '2026-07-01_to_2026-09-15', the last day included."""
    first = period.start
    for months, name in ((12, f"{first:%Y}"), (3, f"{first:%Y}-Q{(first.month + 2) // 3}"), (1, month_name(first))):
        whole = first.day == 1 and (first.month - 1) % months == 0
        if whole and period.end == add_months(first, months):
            return name
    return f"{first}_to_{last_day(period)}"


def last_day(period: Period) -> date:
    """The last day that the period holds."""
    return period.end - timedelta(days=1)


def period_words(period: Period, settings: Settings) -> str:
    """'October 2026', '2026', 'July 2026 to September 2026', or its first and last day."""
    name = period_name(period)
    if re.fullmatch(r"[0-9]{4}", name):
        return name
    if "_to_" in name:
        return f"{wording.day(period.start, settings)} to {wording.day(last_day(period), settings)}"
    return wording.month_range(period.months(), settings)


def periods_of(cover: Period) -> dict[str, list[str]]:
    """The months, quarters and years that the book touches, newest first, by what people call them."""
    months = cover.months()[::-1]
    quarters = dict.fromkeys(f"{month[:4]}-Q{(int(month[5:]) + 2) // 3}" for month in months)
    return {"Month": months, "Quarter": list(quarters), "Year": list(dict.fromkeys(month[:4] for month in months))}
