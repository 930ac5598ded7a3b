"""Days, months, weeks and opening hours: the only place that knows a calendar.

Ranges are half-open: they hold their start and not their end. Local wall times become instants (UTC) before they are
subtracted, so that a visit over the night of a clock change has its real length.
"""

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Self

import polars as pl

from analytics.settings import Hours
from analytics.stops import WorkStopped

INSTANT = pl.Datetime("us", "UTC")


def next_month(day: date) -> date:
    """The first day of the month after this day's."""
    return (day.replace(day=1) + timedelta(days=32)).replace(day=1)


def add_months(day: date, months: int) -> date:
    """The first day of the month that lies so many months from this day's."""
    count = day.year * 12 + day.month - 1 + months
    return date(count // 12, count % 12 + 1, 1)


def month_name(day: date) -> str:
    """2026-03-14 -> '2026-03'."""
    return f"{day:%Y-%m}"


def iso_week(day: date) -> str:
    """2005-01-01 -> '2004-W53' (ISO 8601)."""
    year, week, _ = day.isocalendar()
    return f"{year}-W{week:02}"


def week_start(day: date) -> date:
    """The Monday of this day's ISO week."""
    return day - timedelta(days=day.weekday())


def parse_day(text: str) -> date:
    """Raises WorkStopped where the text is no ISO day."""
    if re.fullmatch(r"(19|2[01])[0-9]{2}-[0-9]{2}-[0-9]{2}", text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            pass
    raise WorkStopped(f"{text!r} is not a day; write it as year-month-day, for example 2026-03-14.")


@dataclass(frozen=True)
class Period:
    """Days from `start` up to and without `end`."""

    start: date
    end: date

    @classmethod
    def month(cls, text: str) -> Self:
        """'2026-03' -> March 2026. Raises WorkStopped where the text is no month."""
        if not re.fullmatch(r"(19|2[01])[0-9]{2}-(0[1-9]|1[0-2])", text):
            raise WorkStopped(f"{text!r} is not a month; write it as year-month, for example 2026-03.")
        first = date.fromisoformat(f"{text}-01")
        return cls(first, next_month(first))

    @classmethod
    def of_days(cls, first: date, last: date) -> Self:
        """The whole months from the month of `first` to the month of `last`."""
        return cls(first.replace(day=1), next_month(last))

    @property
    def empty(self) -> bool:
        return self.end <= self.start

    def cut(self, other: "Period") -> "Period":
        """The days that lie in both; empty where there are none."""
        start = max(self.start, other.start)
        return Period(start, max(start, min(self.end, other.end)))

    def months(self) -> list[str]:
        """The months it touches, in order."""
        if self.empty:
            return []
        first = self.start.replace(day=1)
        count = (self.end.year - first.year) * 12 + self.end.month - first.month + (self.end.day > 1)
        return [month_name(add_months(first, step)) for step in range(count)]

    def is_part(self, month: str, as_of: date | None = None) -> bool:
        """True where the month is cut by this period or is not over on `as_of`."""
        whole = Period.month(month)
        return whole.cut(self) != whole or (as_of is not None and as_of < whole.end)

    def holds(self, day: pl.Expr) -> pl.Expr:
        """True for days (or moments) within the period."""
        return (day.dt.date() >= self.start) & (day.dt.date() < self.end)


def month_of(moment: pl.Expr) -> pl.Expr:
    """The month 'YYYY-MM' of a day or local moment."""
    return moment.dt.strftime("%Y-%m")


def to_instant(moment: pl.Expr, timezone: str) -> pl.Expr:
    """Local wall time -> UTC. A time that stands twice is the first; a skipped one follows the clock before."""

    def localised(wall: pl.Expr) -> pl.Expr:
        return wall.dt.replace_time_zone(timezone, ambiguous="earliest", non_existent="null").dt.convert_time_zone(
            "UTC"
        )

    hour = pl.duration(hours=1)
    return localised(moment).fill_null(localised(moment - hour) + hour).cast(INSTANT)


def _joined(spans: list[tuple[date, datetime, datetime]]) -> list[tuple[date, datetime, datetime]]:
    """Spans in order of opening, those that overlap made one: a late night may run into the next morning."""
    joined: list[tuple[date, datetime, datetime]] = []
    for day, opens, closes in sorted(spans):
        if joined and opens < joined[-1][2]:
            joined[-1] = (*joined[-1][:2], max(closes, joined[-1][2]))
        else:
            joined.append((day, opens, closes))
    return joined


def opening_spans(hours: Hours, period: Period, timezone: str) -> pl.DataFrame:
    """Opening hours within the period, one row per span: day it opens, opens, closes (UTC).

    A span over midnight into the period's first day counts from midnight on.
    """
    begin, end = at_minute(period.start, 0), at_minute(period.end, 0)
    rows = [
        (day, max(at_minute(day, opens), begin), min(at_minute(day, closes), end))
        for day in (period.start + timedelta(days=step) for step in range(-1, (period.end - period.start).days))
        for opens, closes in hours.of(day)
        if at_minute(day, closes) > begin
    ]
    wall = pl.DataFrame(
        _joined(rows), schema={"day": pl.Date(), "opens": pl.Datetime("us"), "closes": pl.Datetime("us")}, orient="row"
    )
    return wall.with_columns(to_instant(pl.col("opens", "closes"), timezone))


def month_spans(period: Period, timezone: str) -> pl.DataFrame:
    """The months of the period, cut to it, one row each: month, opens, closes (UTC)."""
    parts = [(month, Period.month(month).cut(period)) for month in period.months()]
    wall = pl.DataFrame(
        [(month, at_minute(part.start, 0), at_minute(part.end, 0)) for month, part in parts],
        schema={"month": pl.String(), "opens": pl.Datetime("us"), "closes": pl.Datetime("us")},
        orient="row",
    )
    return wall.with_columns(to_instant(pl.col("opens", "closes"), timezone))


def at_minute(day: date, minute: int) -> datetime:
    """The wall time so many minutes after the day's midnight; past 1440 it lies on the next day."""
    return datetime(day.year, day.month, day.day) + timedelta(minutes=minute)


def open_days(hours: Hours, period: Period) -> int:
    """How many days of the period the salon opens."""
    days = (period.start + timedelta(days=step) for step in range((period.end - period.start).days))
    return sum(bool(hours.of(day)) for day in days)
