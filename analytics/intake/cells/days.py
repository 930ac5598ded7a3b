"""Days and moments as exports write them -> ISO text, or None where they cannot be read.

What one text leaves open is the order of three numbers, 03/04/2026 or 26-03-14; a year of four digits that comes first
settles it. Years of two digits are 2000 to 2069 for 00 to 69 and 1970 to 1999 for 70 to 99; where a month is named and
two numbers of two digits stand beside it, the year is the last. Other years than 1900 to 2199 are not read: 0026 is a
slip and 0001 an empty cell. Weekdays are passed over, not checked.
"""

import re
from collections.abc import Iterable
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from typing import Literal, NamedTuple, get_args
from zoneinfo import ZoneInfo

from analytics.intake.cells.numbers import fold, without_empty_day

DayOrder = Literal["dmy", "mdy", "ymd"]
ORDERS: tuple[DayOrder, ...] = get_args(DayOrder)

# Without accents, in English, Dutch, German, French, Spanish and Italian; words that several share stand once.
_MONTH_WORDS = (
    "january jan januari januar janner janvier janv enero ene gennaio gen",
    "february feb februari februar feber fevrier fevr fev febrero febbraio",
    "march mar maart mrt marz maerz mrz mars marzo",
    "april apr avril avr abril abr aprile",
    "may mei mai mayo maggio mag",
    "june jun juni juin junio giugno giu",
    "july jul juli juillet juill juil julio luglio lug",
    "august aug augustus aout agosto ago",
    "september sep sept septembre septiembre setiembre set settembre",
    "october oct oktober okt octobre octubre ottobre ott",
    "november nov novembre noviembre",
    "december dec dezember dez decembre diciembre dic dicembre",
)
_WEEKDAY_WORDS = """
    monday mon tuesday tues tue wednesday wed thursday thurs thur thu friday fri saturday sat sunday sun
    maandag ma dinsdag di woensdag wo donderdag do vrijdag vr zaterdag za zondag zo
    montag mo dienstag mittwoch mi donnerstag freitag fr samstag sa sonnabend sonntag so
    lundi lun mardi mar mercredi mer jeudi jeu vendredi ven samedi sam dimanche dim
    lunes martes miercoles mie jueves jue viernes vie sabado sab domingo dom
    lunedi martedi mercoledi giovedi gio venerdi sabato domenica
"""
MONTHS = {word: str(number) for number, words in enumerate(_MONTH_WORDS, 1) for word in words.split()}


def _any_of(words: Iterable[str]) -> str:
    return rf"(?:{'|'.join(sorted(words, key=len, reverse=True))})(?![a-z])"


_MONTH = rf"(?P<m>{_any_of(MONTHS)})"
_YEAR = r"'?(?P<y>\d{4}|\d\d)(?!\d)"
_GAP = r"[ .,/\-]*"

_ISO = re.compile(r"(\d{4}-\d\d-\d\d)(?:[ T]((?:[01]\d|2[0-3]):[0-5]\d(?::[0-5]\d)?))?", re.ASCII)
_WEEKDAY = re.compile(rf"(?P<word>{_any_of(_WEEKDAY_WORDS.split())})[ .,]*")
_NUMBERS = re.compile(
    r"(?P<first>\d{4}|\d\d?) ?(?P<mark>[/.\- ]) ?(?P<middle>\d\d?) ?(?P=mark) ?(?P<last>\d{4}|\d\d?)(?!\d)", re.ASCII
)
_NAMED = (
    re.compile(
        rf"(?P<d>\d\d?)(?:st|nd|rd|th|er|ste|de|e|o|a|°)?{_GAP}(?:(?:of|de) )?{_MONTH}{_GAP}(?:(?:of|del?) )?{_YEAR}",
        re.ASCII,
    ),
    re.compile(rf"{_MONTH}{_GAP}(?P<d>\d\d?)(?:st|nd|rd|th|er)?[ .,/\-]+(?:(?:of|del?) )?{_YEAR}", re.ASCII),
    re.compile(rf"(?P<y>\d{{4}}){_GAP}{_MONTH}{_GAP}(?P<d>\d\d?)(?!\d)", re.ASCII),
    re.compile(r"(?P<y>(?:19|2[01])\d\d)(?P<m>\d\d)(?P<d>\d\d)(?=(?:\d{4}|\d{6})?(?!\d))", re.ASCII),
)
_SERIAL = re.compile(r"(?P<days>\d{5})(?:(?: 0?)?[.,](?P<part>\d+))?(?P<rest>[^\d.,].*)?", re.ASCII)
_FIRST_SERIAL, _LAST_SERIAL, _DAY_ZERO = 20000, 80000, date(1899, 12, 30)

_JOINER = r"(?:t|[, ]+(?:- )?(?:(?:om|at|um|a las?|a|alle ore|alle|ore) )?)"
_ZONE = r"(?: ?(?P<zone>z|utc|gmt|(?:utc|gmt)?[+-](?:0\d|1[0-4])(?::?[0-5]\d)?))?"
_HALF = r"(?P<half>[ap])\.? ?m\.?"
_AFTER = rf"(?: ?(?:{_HALF}|(?:h|u|uhr|uur)\b\.?))?"
_PART = r"(?:[.,](?P<part>\d{1,9}))?"
_CLOCKS = tuple(
    re.compile(_JOINER + pattern, re.ASCII)
    for pattern in (
        rf"(?!0\.\d\d$)(?P<h>\d\d?)(?P<mark>[:.])(?P<m>\d\d)(?:(?P=mark)(?P<s>\d\d){_PART})?{_AFTER}{_ZONE}",
        rf"(?P<h>\d\d?) ?{_HALF}",
        r"(?P<h>\d\d?) ?(?:h|u|uhr|uur)(?: ?(?P<m>\d\d))?",
        rf"(?P<h>\d\d)(?P<m>\d\d)(?:(?P<s>\d\d){_PART})?{_ZONE}",
    )
)
_DAY_PART = re.compile(r" 0?[.,](?P<part>\d|\d{3,})", re.ASCII)
_MIDNIGHT = re.compile(r"(?:[\sT](?:0?0:00(?::00(?:\.0+)?)?|12:00(?::00)?\s?AM)|(?<=^\d{5})\.0+)$", re.IGNORECASE)


class Fits(NamedTuple):
    """The orders that fit a text.

    all: by every number. month: by the places of the month and of a year of four digits alone.
    """

    all: frozenset[DayOrder]
    month: frozenset[DayOrder]


class Clock(NamedTuple):
    """seconds: since midnight. exact: whether seconds were written. offset: minutes ahead of UTC, None if not said."""

    seconds: int
    exact: bool
    offset: int | None


def orders_that_fit(text: str) -> Fits | None:
    """None where the text is no date of three numbers, begins with a year of four digits, or fits no order."""
    folded = _without_weekday(fold(text))
    match = _NUMBERS.match(folded)
    if match is None or len(match["first"]) == 4 or not _ends_well(folded[match.end() :]):
        return None
    numbers = match["first"], match["middle"], match["last"]
    places = {order: dict(zip(order, numbers, strict=True)) for order in ORDERS}
    month = frozenset(order for order, place in places.items() if 1 <= int(place["m"]) <= 12 and len(place["d"]) <= 2)
    fitting = frozenset(
        order for order in month if 1 <= int(places[order]["d"]) <= 31 and len(places[order]["y"]) in (2, 4)
    )
    return Fits(fitting, month) if fitting else None


def _ends_well(rest: str) -> bool:
    return not rest or _clock(rest) is not None


def read_day(text: str, order: DayOrder | None, timezone: str) -> str | None:
    """'14/03/2026' -> '2026-03-14'; of a moment its local day."""
    moment = read_moment(text, order, timezone)
    return moment and moment[:10]


def read_moment(text: str, order: DayOrder | None, timezone: str) -> str | None:
    """'14/03/26 2:30 PM' -> '2026-03-14 14:30'; a day alone gives the day alone.

    Seconds are kept where they are written, parts of them rounded. What says its distance from UTC becomes local time.
    """
    if iso := _ISO.fullmatch(text):
        return text.replace("T", " ") if _is_day(iso[1]) else None
    found = _read(_without_weekday(fold(text)), order)
    if found is None:
        return None
    day, clock = found
    return _local(day, clock, timezone) if clock else day.isoformat()


def joined_moment(day_text: str, time_text: str) -> str:
    """A date column and a time column apart -> one text for read_moment.

    Spreadsheets put midnight after the one and an empty day (1899-12-30) before the other: both are dropped. Where the
    time repeats the day, it stands for both.
    """
    clock = without_empty_day(time_text).strip()
    if not clock:
        return day_text.strip()
    day = _MIDNIGHT.sub("", day_text.strip())
    repeated = day and clock.startswith((f"{day} ", f"{day}T"))
    return clock if repeated else f"{day} {clock}".strip()


def _without_weekday(folded: str) -> str:
    """'mar' is both a weekday and a month: a weekday only where a whole day follows."""
    match = _WEEKDAY.match(folded)
    rest = folded[match.end() :] if match else folded
    month = match and match["word"] == "mar" and not (_NUMBERS.match(rest) or _NAMED[0].match(rest))
    return folded if month else rest


@lru_cache(maxsize=8192)
def _is_day(iso: str) -> bool:
    return _day(iso[:4], iso[5:7], iso[8:]) is not None


def _day(year: str, month: str, day: str) -> date | None:
    if len(year) not in (2, 4) or len(month) > 2 or len(day) > 2:
        return None
    century = "" if len(year) == 4 else "20" if year < "70" else "19"
    try:
        found = date(int(century + year), int(month), int(day))
    except ValueError:
        return None
    return found if 1900 <= found.year < 2200 else None


def _read(folded: str, order: DayOrder | None) -> tuple[date, Clock | None] | None:
    """The day and the time after it, None where there is none."""
    if match := _SERIAL.fullmatch(folded):
        return _from_serial(match)
    day, rest = _begin(folded, order)
    clock = _clock(rest) if rest else None
    return None if day is None or (rest and clock is None) else (day, clock)


def _begin(folded: str, order: DayOrder | None) -> tuple[date | None, str]:
    """The day that the text begins with, and what follows it."""
    if match := _NUMBERS.match(folded):
        letters = "ymd" if len(match["first"]) == 4 else order
        place = dict(zip(letters or "", (match["first"], match["middle"], match["last"]), strict=False))
        return (_day(place["y"], place["m"], place["d"]) if place else None), folded[match.end() :]
    for pattern in _NAMED:
        if match := pattern.match(folded):
            rest = folded[match.end() :]
            day = _day(match["y"], MONTHS.get(match["m"], match["m"]), match["d"])
            return day, f"t{rest}" if rest[:1].isdigit() else rest
    return None, folded


def _from_serial(match: re.Match[str]) -> tuple[date, Clock | None] | None:
    """45730.3958: days since the end of 1899 and the part of the day that is over (the 1900 system of spreadsheets)."""
    if not _FIRST_SERIAL <= int(match["days"]) <= _LAST_SERIAL:
        return None
    day = _DAY_ZERO + timedelta(days=int(match["days"]))
    part, rest = (match["part"] or "").rstrip("0"), match["rest"]
    if part:
        return None if rest else (day, Clock(_seconds(part), True, None))
    clock = _clock(rest) if rest else None
    return None if rest and clock is None else (day, clock)


def _seconds(part: str) -> int:
    """'3958' (of a day) -> 34197."""
    scale: int = 10 ** len(part)
    return (int(part) * 86400 * 2 + scale) // (scale * 2)


@lru_cache(maxsize=8192)
def _clock(rest: str) -> Clock | None:
    """What follows a day: ' om 9h30', 't09:30:00z', ', 2:30 p.m.', ' 0.3958' (the part of the day that is over).

    ' 0.25' can be 00:25 and a quarter of the day: None.
    """
    if match := _DAY_PART.fullmatch(rest):
        return Clock(_seconds(match["part"]), True, None)
    match = next((found for pattern in _CLOCKS if (found := pattern.fullmatch(rest))), None)
    return _clock_of(match.groupdict(), iso=rest.startswith("t")) if match else None


def _clock_of(parts: dict[str, str | None], *, iso: bool) -> Clock | None:
    """None for hours that do not exist, and for 09:30-10:30 after a blank, which may be a span."""
    hour, minute, second = (int(parts.get(name) or 0) for name in "hms")
    if half := parts.get("half"):
        hour = hour % 12 + 12 * (half == "p") if 1 <= hour <= 12 else 24
    zone, seconds = parts.get("zone"), parts.get("s")
    span = zone is not None and "-" in zone and not iso and seconds is None
    midnight = hour == 24 and not (minute or second or half)  # of the day that ends
    if (hour > 23 and not midnight) or minute > 59 or second > 59 or span:
        return None
    rounded = (parts.get("part") or "0") >= "5"
    return Clock(hour * 3600 + minute * 60 + second + rounded, seconds is not None, _offset(zone))


def _offset(zone: str | None) -> int | None:
    """'z' -> 0, '+01:30' and 'utc+0130' -> 90."""
    if zone is None:
        return None
    digits = "".join(character for character in zone if character.isdigit()).ljust(4, "0")
    minutes = int(digits[:2]) * 60 + int(digits[2:])
    return -minutes if "-" in zone else minutes


def _local(day: date, clock: Clock, timezone: str) -> str:
    moment = datetime.combine(day, time()) + timedelta(seconds=clock.seconds)
    if clock.offset is not None:
        instant = (moment - timedelta(minutes=clock.offset)).replace(tzinfo=UTC)
        moment = instant.astimezone(ZoneInfo(timezone)).replace(tzinfo=None)
    return moment.isoformat(" ", "seconds" if clock.exact else "minutes")
