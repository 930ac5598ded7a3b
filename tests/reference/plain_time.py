"""Local wall times as real time: opening hours, months and unions of stays, all in whole seconds since 1970 (UTC)."""

from datetime import date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

Span = tuple[int, int]

WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


def real_seconds(moment: datetime, zone: ZoneInfo) -> int:
    """A local wall time as seconds since 1970; of a wall time that comes twice in autumn, the first."""
    return round(moment.replace(tzinfo=zone, fold=0).timestamp())


def month_of(moment: datetime) -> str:
    return f"{moment.year:04d}-{moment.month:02d}"


def first_day(month: str) -> date:
    return date(int(month[:4]), int(month[5:]), 1)


def next_month(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{year + 1:04d}-01" if number == 12 else f"{year:04d}-{number + 1:02d}"


def months_between(first: str, last: str) -> list[str]:
    months = [first]
    while months[-1] < last:
        months.append(next_month(months[-1]))
    return months


def month_span(month: str, zone: ZoneInfo) -> Span:
    begin = datetime.combine(first_day(month), time())
    end = datetime.combine(first_day(next_month(month)), time())
    return real_seconds(begin, zone), real_seconds(end, zone)


def gone_by(month: str, today: date, zone: ZoneInfo) -> Span:
    """The month up to and with today; all of it where it is over or has not begun."""
    begin, end = month_span(month, zone)
    tonight = real_seconds(datetime.combine(today + timedelta(days=1), time()), zone)
    return begin, min(end, tonight) if tonight > begin else end


def union(spans: list[Span]) -> list[Span]:
    """The same time without overlaps, in order."""
    joined: list[Span] = []
    for begin, end in sorted(spans):
        if joined and begin <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((begin, end))
    return joined


def common(first: list[Span], second: list[Span]) -> list[Span]:
    """The time inside both; each side must be free of overlaps already."""
    shared = []
    for begin, end in first:
        for other_begin, other_end in second:
            if max(begin, other_begin) < min(end, other_end):
                shared.append((max(begin, other_begin), min(end, other_end)))
    return shared


def hours(spans: list[Span]) -> Fraction:
    return Fraction(sum(end - begin for begin, end in spans), 3600)


def minutes_of_day(text: str) -> int:
    hour, minute = text.strip().split(":")
    return int(hour) * 60 + int(minute)


def opening_spans(day: date, text: str, zone: ZoneInfo) -> list[Span]:
    """The spans that begin on this day; one that ends at or before its beginning runs past midnight."""
    spans = []
    midnight = datetime.combine(day, time())
    for part in text.split(","):
        opens_minute, closes_minute = (minutes_of_day(clock) for clock in part.split("-"))
        if closes_minute <= opens_minute:
            closes_minute += 24 * 60
        opens = midnight + timedelta(minutes=opens_minute)
        closes = midnight + timedelta(minutes=closes_minute)
        spans.append((real_seconds(opens, zone), real_seconds(closes, zone)))
    return spans


def open_in_month(month: str, opening: dict[str, str], closed: set[date], zone: ZoneInfo) -> list[Span]:
    """Opening time inside the month, with the night that began on the day before its first."""
    spans: list[Span] = []
    day = first_day(month) - timedelta(days=1)
    while day < first_day(next_month(month)):
        text = opening.get(WEEKDAYS[day.weekday()], "")
        if text and day not in closed:
            spans.extend(opening_spans(day, text, zone))
        day += timedelta(days=1)
    return common(union(spans), [month_span(month, zone)])
