"""How the text of a cell, in the contract's own form, becomes a typed value.

Each different text of a column is read once. A cell that cannot be read as its type becomes null and a fault; nothing
is rounded, guessed or quietly dropped.
"""

import re
import unicodedata
from datetime import timedelta
from decimal import ROUND_HALF_UP, Decimal

import polars as pl

from analytics.definitions.columns import GRAMS, MONEY, PERCENT, Column, Table
from analytics.intake.meaning.words import VALUES
from analytics.settings import Settings

NUMBER = r"[+-]?[0-9]+(\.[0-9]+)?"
DAY = r"(19|2[01])[0-9]{2}-[0-9]{2}-[0-9]{2}"
CLOCK = r"[ T](([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9](\.[0-9]+)?)?|24:00(:00)?)"
MIDNIGHT = r"[ T]24:00(:00)?$"  # of the day that ends
NOISE = 7  # so many digits after the point and more are a spreadsheet's rounding noise

DECIMALS = {"money": MONEY, "percent": PERCENT, "grams": GRAMS, "quantity": GRAMS}
EXPECTED = {
    "text": "text",
    "yes_no": "yes or no",
    "whole": "a whole number such as 2",
    "number": "a number such as 45 or 12.5",
    "quantity": "a number such as 1 or 2.5",
    "grams": "grams such as 60 or 42.5",
    "money": "an amount such as 84.50",
    "percent": "a percentage such as 21",
    "day": "a day such as 2026-03-14",
    "moment": "a day and time such as 2026-03-14 09:30",
    "moment_or_day": "a day and time such as 2026-03-14 09:30",
}


def expected(column: Column) -> str:
    """What a cell of the column should hold, in words."""
    return "one of " + ", ".join(column.words) if column.words else EXPECTED[column.type]


def cast(texts: pl.Series, table: Table, column: Column, settings: Settings) -> pl.Series:
    """Trimmed texts of the column as its type; null where they are empty or unreadable."""
    if column.type == "text":
        return texts if column.default is not None else texts.replace("", None)
    if column.type in ("word", "yes_no"):
        words = known_words(table, column, settings)
        values = [words.get(folded_word(text)) for text in texts]
        return pl.Series([value == "yes" if value else None for value in values] if column.type == "yes_no" else values)
    if column.type in ("day", "moment", "moment_or_day"):
        return _moments(texts, column)
    return _numbers(texts, column)


def _moments(texts: pl.Series, column: Column) -> pl.Series:
    pattern = {"day": f"{DAY}([ T]00:00(:00)?)?", "moment": DAY + CLOCK, "moment_or_day": f"{DAY}({CLOCK})?"}
    readable = _only(texts, pattern[column.type])
    if column.type == "day":
        return readable.str.slice(0, 10).str.to_date("%Y-%m-%d", strict=False)
    late = readable.str.contains(MIDNIGHT)
    whole = readable.str.replace(MIDNIGHT, " 00:00").str.replace("T", " ", literal=True)
    whole = whole.str.replace("^(.{10})$", "${1} 00:00").str.replace("^(.{16})$", "${1}:00")
    moments = whole.str.to_datetime("%Y-%m-%d %H:%M:%S%.f", time_unit="us", strict=False)
    return moments.scatter(late.arg_true(), moments.filter(late) + timedelta(days=1)) if late.any() else moments


def _numbers(texts: pl.Series, column: Column) -> pl.Series:
    if column.type == "whole":
        return _only(texts, r"[0-9]+(\.0+)?").str.replace(r"\.0+$", "").cast(pl.Int64, strict=False)
    readable = _only(texts, NUMBER)
    decimal = DECIMALS.get(column.type)
    if decimal is None:
        numbers = readable.cast(pl.Float64)
        return numbers.set(~numbers.is_finite(), None)
    digits = readable.str.extract(r"\.([0-9]*?)0*$", 1).str.len_chars().fill_null(0)
    values = readable.set(digits > decimal.scale, None).cast(decimal, strict=False)
    noisy = digits >= NOISE
    rounded = [_rounded(text, decimal) for text in readable.filter(noisy)]
    return values.scatter(noisy.arg_true(), pl.Series(rounded).cast(decimal, strict=False)) if rounded else values


def _rounded(text: str, kind: pl.Decimal) -> Decimal | None:
    value = Decimal(text)
    if value.adjusted() >= kind.precision - kind.scale:
        return None
    return value.quantize(Decimal(1).scaleb(-kind.scale), ROUND_HALF_UP)


def _only(texts: pl.Series, pattern: str) -> pl.Series:
    """Null where the text is not wholly of the pattern."""
    return texts.set(~texts.str.contains(f"^(?:{pattern})$"), None)


def known_words(table: Table, column: Column, settings: Settings) -> dict[str, str]:
    """Folded word -> the contract's; the salon's own words go first."""
    general = VALUES["yes_no"] if column.type == "yes_no" else VALUES.get(f"{table.name}.{column.name}")
    general = VALUES.get(column.name, {}) if general is None else general
    contract = column.words or ("yes", "no")
    cases = {folded_word(word): value for value, words in general.items() for word in words}
    cases |= {folded_word(word): word for word in contract}
    return cases | {folded_word(word): value for word, value in settings.words.get(column.name, {}).items()}


def folded_word(word: str) -> str:
    """A word without case and accents, blanks and hyphens alike."""
    plain = word.strip()
    if not plain.isascii():
        letters = unicodedata.normalize("NFD", plain)
        plain = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return re.sub(r"[\s\-_]+", "_", plain.lower())
