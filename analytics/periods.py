"""Days, months, weeks and opening hours: the only place that knows a calendar.

Ranges are half-open: they hold their start and not their end. Local wall times become instants (UTC) before they are
subtracted, so that a visit over the night of a clock change has its real length.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Self

import polars as pl

from analytics.settings import Hours
from analytics.stops import WorkStopped

USUAL_MONTH_DAYS = 365.25 / 12
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

    @classmethod
    def nothing(cls) -> Self:
        """A period without a day."""
        return cls(date(1970, 1, 1), date(1970, 1, 1))

    @property
    def last(self) -> date:
        """The last day of it."""
        return self.end - timedelta(days=1)

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

    def parts(self) -> dict[str, "Period"]:
        """The months it touches, each cut to it."""
        return {name: Period.month(name).cut(self) for name in self.months()}

    def elapsed(self, month: str, as_of: date) -> "Period":
        """The days of the month that lie in this period, up to and with `as_of` where the month is not over then."""
        return Period.month(month).cut(self).gone_by(as_of)

    def gone_by(self, as_of: date) -> "Period":
        """Its days up to and with `as_of`; all of them where it lies after that day."""
        so_far = self.cut(Period(self.start, as_of + timedelta(days=1)))
        return self if so_far.empty else so_far

    def last_months(self, months: int) -> "Period":
        """Its last months, from the first of the month so long before its end; all of it where it is shorter."""
        return self if self.empty else Period(max(self.start, add_months(self.end, -months)), self.end)

    def months_before(self, months: int) -> "Period":
        """The same days so many months before, as far as that month has them; a whole month is the whole month.

        For a period that lies within one month.
        """
        other = Period.month(month_name(add_months(self.start, -months)))
        if self == Period.month(month_name(self.start)):
            return other
        start = other.start + timedelta(days=self.start.day - 1)
        return Period(start, start + (self.end - self.start)).cut(other)

    def same_days(self, months: int, cover: "Period", as_of: date) -> dict[str, "Period"]:
        """Per month it touches: the same days so many months before, where the cover has them."""
        before = {name: self.elapsed(name, as_of).months_before(months).cut(cover) for name in self.months()}
        return {name: days for name, days in before.items() if not days.empty}

    def is_part(self, month: str, as_of: date | None = None) -> bool:
        """True where the month is cut by this period or is not over on `as_of`."""
        whole = Period.month(month)
        return whole.cut(self) != whole or (as_of is not None and as_of < whole.end)

    def holds(self, day: pl.Expr) -> pl.Expr:
        """True for days (or moments) within the period."""
        return (day.dt.date() >= self.start) & (day.dt.date() < self.end)


def per_usual_month(amount: pl.Expr, days: int) -> pl.Expr:
    """So much in so many days, as it would be in a month of usual length (365.25 ÷ 12 days)."""
    return amount / days * USUAL_MONTH_DAYS


def month_of(moment: pl.Expr) -> pl.Expr:
    """The month 'YYYY-MM' of a day or local moment."""
    return moment.dt.strftime("%Y-%m")


def enveloping(spans: Mapping[str, Period]) -> Period:
    """From the first day of any span to the last; empty where there is none."""
    if not spans:
        return Period.nothing()
    return Period(min(span.start for span in spans.values()), max(span.end for span in spans.values()))


def in_spans(rows: pl.DataFrame, moment: str, spans: Mapping[str, Period]) -> pl.DataFrame:
    """Rows whose day lies in a span, with the span's name as `month`; each span lies within one month of its own."""
    days = pl.DataFrame(
        [(name, month_name(span.start), span.start, span.end) for name, span in spans.items()],
        schema={"month": pl.String(), "_month": pl.String(), "_first": pl.Date(), "_end": pl.Date()},
        orient="row",
    )
    day = pl.col(moment).dt.date()
    return (
        rows.filter(enveloping(spans).holds(pl.col(moment)))
        .drop("month", strict=False)
        .with_columns(_month=month_of(pl.col(moment)))
        .join(days, on="_month", maintain_order="left")
        .filter((day >= pl.col("_first")) & (day < pl.col("_end")))
        .drop("_month", "_first", "_end")
    )


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
    return span_instants(period.parts(), timezone)


def span_instants(spans: Mapping[str, Period], timezone: str) -> pl.DataFrame:
    """Spans of days, one row each: month (its name), opens, closes (UTC)."""
    wall = pl.DataFrame(
        [(month, at_minute(part.start, 0), at_minute(part.end, 0)) for month, part in spans.items()],
        schema={"month": pl.String(), "opens": pl.Datetime("us"), "closes": pl.Datetime("us")},
        orient="row",
    )
    return wall.with_columns(to_instant(pl.col("opens", "closes"), timezone))


def by_clock_hour(intervals: pl.DataFrame, timezone: str) -> pl.DataFrame:
    """Intervals (starts, ends in UTC) cut at full local hours, with weekday (1 Monday to 7 Sunday) and hour (0–23).

    An interval that takes no time has no piece.
    """
    local = pl.col("starts").dt.convert_time_zone(timezone)
    since = pl.duration(minutes=local.dt.minute(), seconds=local.dt.second(), microseconds=local.dt.microsecond())
    hour = pl.duration(hours=1)
    count = ((pl.col("ends") - pl.col("_full")).dt.total_microseconds() / 3_600_000_000).ceil().cast(pl.Int64)
    return (
        intervals.filter(pl.col("ends") > pl.col("starts"))
        .with_columns(_full=pl.col("starts") - since)
        .with_columns(_step=pl.int_ranges(0, count))
        .explode("_step")
        .with_columns(_full=pl.col("_full") + hour * pl.col("_step"))
        .with_columns(
            starts=pl.max_horizontal("starts", "_full"), ends=pl.min_horizontal("ends", pl.col("_full") + hour)
        )
        .with_columns(*clock(pl.col("starts").dt.convert_time_zone(timezone)))
        .drop("_full", "_step")
    )


def clock(local: pl.Expr) -> tuple[pl.Expr, pl.Expr]:
    """weekday (1 Monday to 7 Sunday) and hour (0–23) of a local moment."""
    return local.dt.weekday().cast(pl.Int64).alias("weekday"), local.dt.hour().cast(pl.Int64).alias("hour")


def at_minute(day: date, minute: int) -> datetime:
    """The wall time so many minutes after the day's midnight; past 1440 it lies on the next day."""
    return datetime(day.year, day.month, day.day) + timedelta(minutes=minute)


def closed_days(hours: Hours, period: Period) -> int:
    """How many days of the period are closed on which the salon opens in other weeks."""
    weekly = hours.model_copy(update={"closed": ()})
    return open_days(weekly, period) - open_days(hours, period)


def open_days(hours: Hours, period: Period) -> int:
    """How many days of the period the salon opens."""
    days = (period.start + timedelta(days=step) for step in range((period.end - period.start).days))
    return sum(bool(hours.of(day)) for day in days)
