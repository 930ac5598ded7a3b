"""How numbers, days and the trade's words are written, in the salon's own locale.

A value that is not there is written as a dash; nothing here works anything out beyond rounding for the eye.
"""

import re
from copy import copy
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from babel import Locale, dates, numbers

from analytics.definitions.vocabulary import ANSWERS, FIGURES, KINDS, METHODS, STATES
from analytics.money import digits_of, round_half_up
from analytics.periods import Period
from analytics.settings import Settings

NOTHING = "–"
Number = Decimal | float | int | None


def word(value: str | None) -> str:
    """A kind, state, method or figure as people say it; a word we do not know stays as it is."""
    text = value or ""
    known = KINDS | STATES | METHODS | FIGURES | ANSWERS
    return known.get(text, text.replace("_", " ")) or NOTHING


def number(value: Number, settings: Settings, digits: int = 0) -> str:
    """1234.5 -> '1,234.5' with so many digits after the sign."""
    if value is None:
        return NOTHING
    rounded = round_half_up(Decimal(str(value)), digits)
    pattern = "#,##0" + ("." + "0" * digits if digits else "")
    return str(numbers.format_decimal(rounded + 0, format=pattern, locale=settings.salon.locale))


def money(value: Number, settings: Settings, whole: bool = False) -> str:
    """The amount with the currency's own digits, or in whole units where cents decide nothing."""
    if value is None:
        return NOTHING
    currency, locale = settings.salon.currency, Locale.parse(settings.salon.locale)
    digits = 0 if whole else digits_of(currency)
    amount = round_half_up(Decimal(str(value)), digits) + 0  # + 0 turns minus zero into zero
    pattern = _with_digits(locale.currency_formats["standard"], digits)
    return str(pattern.apply(amount, locale, currency=currency, currency_digits=False))


def signed(value: Number, settings: Settings) -> str:
    """'+€120', '−€900': a difference in whole units of the currency."""
    if value is None:
        return NOTHING
    rounded = round_half_up(Decimal(str(value)), 0)
    sign = "+" if rounded > 0 else "−" if rounded < 0 else "±"
    return sign + money(abs(rounded), settings, whole=True)


def _with_digits(pattern: Any, digits: int) -> Any:
    """The locale's pattern, with so many digits after the sign (its own count is not always the currency's)."""
    changed = copy(pattern)
    changed.frac_prec = (digits, digits)
    return changed


def share(value: Number, settings: Settings) -> str:
    """0.614 -> '61%'; below ten percent with one digit, because there it decides something."""
    if value is None:
        return NOTHING
    part = Decimal(str(value))
    digits = 1 if 0 < abs(part) < Decimal("0.0995") else 0
    percent = round_half_up(part, digits + 2) + 0
    pattern = _with_digits(Locale.parse(settings.salon.locale).percent_formats[None], digits)
    return str(pattern.apply(percent, settings.salon.locale))


def band(low: Number, high: Number, settings: Settings) -> str:
    """' (40%–50%)' after a share, or nothing where there is no band."""
    return "" if low is None or high is None else f" ({share(low, settings)}–{share(high, settings)})"


def hours(value: Number, settings: Settings) -> str:
    """31.25 -> '31.3 h'."""
    return NOTHING if value is None else f"{number(value, settings, 0 if abs(float(value)) >= 100 else 1)} h"


def grams(value: Number, settings: Settings) -> str:
    """1240 -> '1,240 g'."""
    return NOTHING if value is None else f"{number(value, settings)} g"


def mm(value: Number, settings: Settings) -> str:
    """14.2 -> '14 mm'."""
    return NOTHING if value is None else f"{number(value, settings)} mm"


def minutes(value: Number, settings: Settings) -> str:
    """140 -> '140 min'."""
    return NOTHING if value is None else f"{number(value, settings)} min"


def weeks(days: int, settings: Settings) -> str:
    """77 -> '11 weeks'."""
    return counted(round(days / 7), "week", "weeks", settings)


def moment(value: datetime | None, settings: Settings, today: date) -> str:
    """'12 November, 10:00'; with the year where it is not today's."""
    if value is None:
        return NOTHING
    clock = dates.format_time(value, "short", locale=settings.salon.locale)
    return f"{day(value.date(), settings, value.year != today.year)}, {clock}"


def points(share: Decimal, settings: Settings) -> str:
    """0.014 -> '1.4 points': by how much one share differs from another."""
    text = number(share * 100, settings, 1)
    return f"{text} point" if text == number(1, settings, 1) else f"{text} points"


def quantity(value: Number, unit: str, settings: Settings, whole: bool = False) -> str:
    """A value of the figure `month` with its unit: the currency, currency/h, share, h, or what is counted."""
    currency = settings.salon.currency
    if value is None:
        return NOTHING
    if unit in (currency, f"{currency}/h"):
        return money(value, settings, whole or abs(float(value)) >= 1000) + (" an hour" if unit != currency else "")
    if unit == "share":
        return share(value, settings)
    if unit == "h":
        return hours(value, settings)
    return f"{number(value, settings)} {unit.removesuffix('s') if value == 1 else unit}"


def quantities(low: Number, high: Number, unit: str, settings: Settings) -> str:
    """'€38.20–€44.10 an hour', '300–344 visits'; what cannot be negative starts at zero."""
    if low is None or high is None:
        return NOTHING
    whole = high >= 10 and not unit.endswith("/h")  # cents decide something about an hour
    ends = [quantity(value, unit, settings, whole) for value in (max(low, type(low)(0)), high)]
    tail = " an hour" if unit.endswith("/h") else f" {unit}" if unit not in ("share", settings.salon.currency) else ""
    return "–".join([ends[0].removesuffix(tail), ends[1]])


def day(value: date | None, settings: Settings, year: bool = True) -> str:
    """'9 October 2026', or without the year."""
    if value is None:
        return NOTHING
    if year:
        return str(dates.format_date(value, "long", locale=settings.salon.locale))
    return str(dates.format_skeleton("MMMMd", value, locale=settings.salon.locale))


def short_day(value: date | None, settings: Settings) -> str:
    """'9 Oct'."""
    return NOTHING if value is None else str(dates.format_skeleton("MMMd", value, locale=settings.salon.locale))


def weekday(value: date, settings: Settings, short: bool = False) -> str:
    """'Tuesday', or 'Tue'."""
    return str(dates.format_date(value, "EEE" if short else "EEEE", locale=settings.salon.locale))


def days(low: date | None, high: date | None, settings: Settings, today: date) -> str:
    """'3–17 October', '28 September – 4 October'; with the year where it is not today's."""
    if low is None or high is None:
        return NOTHING
    year = not low.year == high.year == today.year
    last = day(high, settings, year)
    if low == high:
        return last
    pattern = Locale.parse(settings.salon.locale).datetime_skeletons.get("MMMMd")
    if (low.year, low.month) == (high.year, high.month) and str(pattern) in ("d MMMM", "MMMM d"):
        return re.sub(rf"\b{high.day}\b", f"{low.day}–{high.day}", last, count=1)
    return f"{day(low, settings, low.year != high.year)} – {last}"


def likely(low: date | None, middle: date | None, high: date | None, settings: Settings, today: date) -> str:
    """'3–17 October, likely the 9th'."""
    if low is None or middle is None or high is None:
        return NOTHING
    english = Locale.parse(settings.salon.locale).language == "en"
    same_month = (low.year, low.month) == (middle.year, middle.month) == (high.year, high.month)
    best = f"the {_ordinal(middle.day)}" if english and same_month else day(middle, settings, middle.year != today.year)
    return days(low, high, settings, today) + (f", likely {best}" if low != high else "")


def _ordinal(value: int) -> str:
    tail = "th" if 10 < value % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(value % 10, "th")
    return f"{value}{tail}"


def month_title(month: str, settings: Settings, year: bool = True) -> str:
    """'2026-10' -> 'October 2026'."""
    return _month(month, "MMMM y" if year else "MMMM", settings)


def month_range(months: list[str], settings: Settings) -> str:
    """'December 2023 to October 2026', from the months in order."""
    ends = [month_title(months[0], settings), month_title(months[-1], settings)]
    return " to ".join(dict.fromkeys(ends))


def short_month(month: str, settings: Settings) -> str:
    """'2026-10' -> 'Oct 26', for the foot of a picture."""
    return _month(month, "MMM yy", settings)


def _month(month: str, pattern: str, settings: Settings) -> str:
    return str(dates.format_date(Period.month(month).start, pattern, locale=settings.salon.locale))


def counted(count: int, one: str, many: str, settings: Settings) -> str:
    """'1 client', '1,240 clients'."""
    return f"{number(count, settings)} {one if count == 1 else many}"


def of_ten(share: float) -> str:
    """0.83 -> '8 of 10'."""
    return f"{round(10 * share)} of 10"


def counted_whole(value: float, one: str, many: str, settings: Settings) -> str:
    """12.4 -> '12 days': what was worked out, to the next whole one."""
    return counted(round(value), one, many, settings)


def listed(items: list[str]) -> str:
    """'a', 'a and b', 'a, b and c'."""
    return " and ".join([", ".join(items[:-1]), items[-1]] if len(items) > 1 else items)


def plain_cell(value: Any) -> str:
    """One line of text from a cell, with a dash for nothing."""
    return NOTHING if value is None else " ".join(str(value).split()) or NOTHING
