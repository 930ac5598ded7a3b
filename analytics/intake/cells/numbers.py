"""Numbers and durations as exports write them -> plain digits with a dot, or None where they cannot be read.

What one text leaves open is the decimal sign where a single dot or comma stands before exactly three digits: 1.234.
All arithmetic is on digits. A currency beside the number is passed over; of units only %, g and mm are, because kg or
ml would mean another number.
"""

import re
import unicodedata
from decimal import Decimal
from functools import lru_cache
from typing import Literal

DecimalSign = Literal[".", ","]

LONGEST = 80
"""No day, time or number is written with more characters."""

_LOOKALIKES = str.maketrans(dict.fromkeys("\u2010\u2011\u2212", "-") | dict.fromkeys("\u2012\u2014\u2015", "–"))
_LOOKALIKES |= str.maketrans(dict.fromkeys("\u2019\u02bc\u2032", "'"))

_PLAIN = re.compile(r"-?(?:\d+(?:\.(?:\d\d?|\d{4,}))?|(?:0\d*|\d{4,})\.\d{3})", re.ASCII)
_CURRENCY = (
    r"(?:us|a|au|c|ca|nz)?\$|[£¥\u20a0-\u20cf]|euros?|eur|gbp|usd|chf|s?fr\.?|dkk|sek|nok|isk|kr\.?|pln|zł|czk|kč|huf|ft"
    r"|ron|lei|bgn|try|aud|cad|nzd|jpy|inr|brl|mxn|zar"
)
_UNIT = r"%|gr?\.?|gramm?(?:e[sn]?|i|os?|s)?|mm"
_HEAD = re.compile(rf"\(? ?[+\-–]? ?(?P<currency>{_CURRENCY})? ?[+\-–]? ?\(? ?")
_TAIL = re.compile(rf"-? ?\)? ?(?P<unit>{_CURRENCY}|{_UNIT})? ?\)?")
_WRITTEN = re.compile(
    r"(?P<head>\D*?)(?=\d|(?<![a-z])[.,]\d)"
    r"(?P<whole>[1-9]\d{0,2}(?P<group>[ '.,])\d{3}(?:(?P=group)\d{3})*(?![\d.,]*e[+-]?\d)|\d*)"
    r"(?:(?P<sign>[.,])(?P<part>[-–]{1,2}|\d*))?(?:e(?P<power>[+-]?0?[0-2]?\d))?(?P<tail>\D*)",
    re.ASCII,
)

_HOUR = r"(?:h|hrs?|hours?|u|uur|uren|std|stunden?|heures?|or[ae]|horas?)\.?"
_MINUTE = r"(?:m|mn|min|mins|minutes?|minuut|minuten?|minut[io]|minutos?|')\.?"
_CLOCK = re.compile(rf"(?P<h>\d{{1,3}}):(?P<m>[0-5]\d)(?::(?P<s>[0-5]\d))?(?: ?{_HOUR})?", re.ASCII)
_APART = re.compile(
    rf"(?P<h>\d{{1,3}}) ?{_HOUR},? ?(?:(?:and|en|und|et|y|e) )?(?P<m>[0-5]?\d)(?: ?{_MINUTE})?", re.ASCII
)
_PERIOD = re.compile(
    r"p(?:0+d)?t(?=\d)(?:(?P<h>\d{1,6}(?:\.\d{1,6})?)h)?(?:(?P<m>\d{1,6}(?:\.\d{1,6})?)m)?"
    r"(?:(?P<s>\d{1,6}(?:\.\d{1,6})?)s)?",
    re.ASCII,
)
_HOURS = re.compile(rf"(?P<number>[\d.,]{{1,12}}) ?{_HOUR}", re.ASCII)
_MINUTES = re.compile(rf"(?P<number>[+-]? ?[\d., ]+?) ?(?:{_MINUTE})?", re.ASCII)
_EMPTY_DAY = re.compile(
    r"(?:1899([-/])12\1(?:30|31)|1900([-/])01\2(?:00|01)|3[01]([-/.])12\3(?:18)?99|12/3[01]/(?:18)?99"
    r"|0?[01]([-/.])0?[01]\4(?:1900|00)|1904-01-0[01])[ T]+(?=\d)",
    re.ASCII,
)


def tidy(text: str) -> str:
    """Single blanks, ASCII digits, one kind of hyphen and apostrophe, no invisible marks.

    Empty where a digit is raised, circled or a fraction (12², ½): NFKC would make it part of its neighbours.
    """
    if len(text) > LONGEST:
        return ""
    if not text.isascii():
        kinds = [unicodedata.category(character) for character in text]
        if "No" in kinds or "Nl" in kinds:
            return ""
        text = "".join(character for character, kind in zip(text, kinds, strict=True) if kind != "Cf")
        text = unicodedata.normalize("NFKC", text).translate(_LOOKALIKES)
        text = re.sub(r"[^\D0-9]", lambda digit: str(unicodedata.decimal(digit[0])), text)
    return " ".join(text.split())


def fold(text: str) -> str:
    """The text tidied, in small letters and without accents."""
    text = tidy(text).lower()
    if text.isascii():
        return text
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))


def without_empty_day(text: str) -> str:
    """'1899-12-30 01:30:00' -> '01:30:00': the day that spreadsheets put before a time or duration without one."""
    return _EMPTY_DAY.sub("", text.strip(), count=1) if _EMPTY_DAY.match(text.strip()) else text


def sign_shown(text: str) -> Literal[".", ",", "open"] | None:
    """The decimal sign that a text shows, 'open' where it can be either, None where it has none or is no number."""
    match = _written(text)
    return _shown_sign(match) if match and _marks(match["head"], match["tail"]) is not None else None


def read_number(text: str, decimal: DecimalSign | None) -> str | None:
    """'€ 1.234,50-' -> '-1234.50'. None where unreadable, or where it depends on a sign that is open."""
    if _PLAIN.fullmatch(text):
        return _signed("-", text[1:]) if text[0] == "-" else text
    match = _written(text)
    marks = _marks(match["head"], match["tail"]) if match else None
    if match is None or marks is None:
        return None
    shown = _shown_sign(match)
    sign = decimal if shown == "open" else shown
    if shown == "open" and sign is None:
        return None
    whole, _, part = (match["whole"] + (match["sign"] or "") + (match["part"] or "")).partition(sign or "none")
    number = (_digits(whole) or "0") + ("." + digits if (digits := _digits(part)) else "")
    power = match["power"]
    return _signed(marks, f"{Decimal(f'{number}e{power}'):f}" if power else number)


def read_minutes(text: str, decimal: DecimalSign | None) -> str | None:
    """'1 h 30', '1:30', 'PT1H30M', '1,5 h', '90 min' -> '90'. Two numbers with a colon are hours and minutes."""
    folded = fold(without_empty_day(text))
    for pattern in (_CLOCK, _APART, _PERIOD):
        if match := pattern.fullmatch(folded):
            parts = match.groupdict()
            return _minutes(parts["h"], parts["m"], parts.get("s"))
    if match := _HOURS.fullmatch(folded):
        hours = read_number(match["number"], decimal)
        return hours and _minutes(hours)
    match = _MINUTES.fullmatch(folded)
    return read_number(match["number"], decimal) if match else None


def _minutes(hours: str | None, minutes: str | None = None, seconds: str | None = None) -> str:
    """Exact to the millionth of a minute, without needless zeros."""
    total = Decimal(hours or 0) * 60 + Decimal(minutes or 0) + Decimal(seconds or 0) / 60
    written = f"{total:.6f}"
    return written.rstrip("0").rstrip(".")


def _written(text: str) -> re.Match[str] | None:
    """The parts of a number; None where they make none, as in 12.34.5 or 1,23,4.5.

    A dash before a bare dot is minus only in '-.5': with a currency it can also stand for no whole francs.
    """
    match = _WRITTEN.fullmatch(tidy(text).lower())
    if match is None or (match["sign"] and match["sign"] == match["group"]):
        return None
    head = match["head"]
    return None if not match["whole"] and head != "-" and ("-" in head or "–" in head) else match


def _shown_sign(match: re.Match[str]) -> Literal[".", ",", "open"] | None:
    """The decimal sign a number shows, 'open' where it can be either, None where it needs none."""
    group = match["group"]
    if match["sign"]:
        return "." if match["sign"] == "." else ","
    if group not in (".", ","):
        return None
    if match["whole"].count(group) > 1:
        return "," if group == "." else "."
    return "open"


@lru_cache(maxsize=1024)
def _marks(head: str, tail: str) -> Literal["", "-"] | None:
    """What stands before and after the digits: '-' or '' for the sign, None where it is no number.

    One sign at most: -12, 12-, (12); one currency or unit at most.
    """
    before, after = _HEAD.fullmatch(head), _TAIL.fullmatch(tail)
    if before is None or after is None or (before["currency"] and after["unit"]):
        return None
    signs = [mark for mark in head + tail if mark in "+-–("]
    if len(signs) > 1 or head.count("(") != tail.count(")"):
        return None
    return "-" if signs and signs[0] != "+" else ""


def _signed(sign: str, digits: str) -> str:
    """No minus before zero."""
    return sign + digits if digits.strip("0.") else digits


def _digits(text: str) -> str:
    return "".join(character for character in text if character.isdigit())
