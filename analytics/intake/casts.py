"""How the text of a cell becomes a typed value, as SQL made from tables.py.

A cell that cannot be read as its type becomes NULL and a fault; nothing is rounded, guessed or quietly dropped.
"""

import re
import unicodedata

from analytics.intake.words import VALUES
from analytics.settings import Settings
from analytics.tables import CORRECTS, GRAMS, MONEY, PERCENT, Column, Table

NUMBER = r"[+-]?\d+(\.\d+)?"
DAY = r"(19|2[01])\d{2}-\d{2}-\d{2}"
CLOCK = r"[ T]\d{2}:\d{2}(:\d{2}(\.\d+)?)?"

DECIMALS = {"money": MONEY, "percent": PERCENT, "grams": GRAMS, "quantity": GRAMS}
FAULTS = {"word": "unknown_word", "yes_no": "unknown_word", "day": "bad_date"} | dict.fromkeys(
    ("moment", "moment_or_day"), "bad_date"
)
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


def quoted(text: str) -> str:
    """An SQL string literal."""
    return "'" + text.replace("'", "''") + "'"


def expected(column: Column) -> str:
    """What a cell of the column should hold, in words."""
    return "one of " + ", ".join(column.words) if column.words else EXPECTED[column.type]


def cast(table: Table, column: Column, settings: Settings) -> str:
    """SQL that reads the trimmed text of the column as its type; NULL where it is empty or unreadable."""
    text = f'"{column.name}"'
    if column.type == "text":
        return text if column.default is not None else f"nullif({text}, '')"
    if column.type == "word":
        general = VALUES.get(f"{table.name}.{column.name}", VALUES.get(column.name, {}))
        return _words(text, column.words, general, settings.words.get(column.name, {}))
    if column.type == "yes_no":
        words = _words(text, ("yes", "no"), VALUES["yes_no"], settings.words.get(column.name, {}))
        return f"CASE {words} WHEN 'yes' THEN true WHEN 'no' THEN false END"
    if column.type == "day":
        return f"CASE WHEN regexp_full_match({text}, '{DAY}([ T]00:00(:00)?)?') THEN try_cast({text}[:10] AS DATE) END"
    if column.type in ("moment", "moment_or_day"):
        pattern = DAY + CLOCK if column.type == "moment" else f"{DAY}({CLOCK})?"
        return f"CASE WHEN regexp_full_match({text}, '{pattern}') THEN try_cast({text} AS TIMESTAMP) END"
    return _number(column, text)


def _number(column: Column, text: str) -> str:
    if column.type == "whole":
        return f"CASE WHEN regexp_full_match({text}, '\\d+(\\.0+)?') THEN try_cast({text} AS BIGINT) END"
    decimal = DECIMALS.get(column.type)
    kind = f"DECIMAL({decimal.precision},{decimal.scale})" if decimal else "DOUBLE"
    fits = f"AND {_digits_fit(text, decimal.scale)}" if decimal else ""
    number = f"try_cast({text} AS {kind})"
    return f"CASE WHEN regexp_full_match({text}, '{NUMBER}') {fits} THEN {number} END"


def _digits_fit(text: str, scale: int) -> str:
    """True unless digits would be lost; seven digits and more after the point are a spreadsheet's rounding noise."""
    digits = f"length(regexp_extract({text}, '[.,](\\d*?)0*$', 1))"
    return f"({digits} <= {scale} OR {digits} >= 7)"


def _words(text: str, contract: tuple[str, ...], general: dict[str, tuple[str, ...]], own: dict[str, str]) -> str:
    """SQL that turns a word into the contract's: without case and accents; the salon's own words go first."""
    cases = {folded_word(word): value for value, words in general.items() for word in words}
    cases |= {folded_word(word): word for word in contract}
    cases |= {folded_word(word): value for word, value in own.items()}
    whens = " ".join(f"WHEN {quoted(word)} THEN {quoted(value)}" for word, value in cases.items())
    return f"CASE regexp_replace(lower(strip_accents({text})), '[\\s\\-_]+', '_', 'g') {whens} END"


def folded_word(word: str) -> str:
    """A word as the SQL of _words folds the cell."""
    letters = unicodedata.normalize("NFD", word.strip())
    plain = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return re.sub(r"[\s\-_]+", "_", plain.lower())


def fault(column: Column) -> str:
    """SQL for the fault of the column's cell, or NULL; the typed value stands under the name with _typed."""
    name, typed = f'"{column.name}"', f'"{column.name}_typed"'
    code = FAULTS.get(column.type, "bad_number")
    says = _struct(code, column.name, name, expected(column))
    unreadable = f"WHEN {name} <> '' AND {typed} IS NULL THEN {says}"
    missing = f"WHEN {name} = '' THEN {_struct('missing_value', column.name, quoted(''), expected(column))}"
    return f"CASE {unreadable} {missing if column.required else ''} END"


def missing_either(group: tuple[str, ...]) -> str:
    """SQL for the fault of a row that has none of these cells."""
    empty = " AND ".join(f"\"{name}\" = ''" for name in group)
    names = " or ".join(group)
    return f"CASE WHEN {empty} THEN {_struct('missing_value', names, quoted(''), 'one of them')} END"


def _struct(code: str, column: str, value: str, says: str) -> str:
    return (
        f"struct_pack(code := '{code}', \"column\" := {quoted(column)}, value := {value}::VARCHAR, "
        f"expected := {quoted(says)})"
    )


def typed_query(table: Table, settings: Settings) -> str:
    """SELECT rid (a number of its own for each row), file, row, the typed columns and `fault` (NULL where the row can be used) from raw_<table>."""
    columns = table.columns
    trimmed = ", ".join(
        f'coalesce(nullif(trim("{c.name}"), \'\'), {quoted(c.default or "")}) AS "{c.name}"' for c in columns
    )
    typed = ", ".join(f'{cast(table, c, settings)} AS "{c.name}_typed"' for c in columns)
    faults = ", ".join([fault(c) for c in columns] + [missing_either(group) for group in table.either])
    renamed = ", ".join(f'"{c.name}_typed" AS "{c.name}"' for c in columns)
    extra = "".join(f", {name}" for name in CORRECTS)
    return f"""
        WITH trimmed AS (SELECT file, "row"{extra}, {trimmed} FROM raw_{table.name}),
        read AS (SELECT *, {typed} FROM trimmed)
        SELECT row_number() OVER () AS rid, file, "row"{extra}, {renamed}, coalesce({faults}) AS fault FROM read"""
