"""The text of a file's cells -> the contract's own way of writing them.

What is written as the contract writes it is left alone. Of everything else each different text is read once, with
decisions (which number of a date is the day, which sign is the decimal one) that are taken for the whole file from all
of its values. A text that cannot be read stays as it was typed and becomes a finding.
"""

from collections.abc import Callable

import polars as pl

from analytics.definitions.columns import Table
from analytics.intake.cells.column_patterns import (
    ends_on_their_day,
    in_percent,
    in_shares,
    is_nothing,
    may_be_nothing,
    ticked,
    with_midnights,
)
from analytics.intake.cells.numbers import sign_shown
from analytics.intake.cells.values import (
    DayOrder,
    DecimalSign,
    Dialect,
    canonical_day,
    canonical_minutes,
    canonical_moment,
    canonical_number,
    date_order,
    decimal_sign,
    joined_moment,
)
from analytics.money import digits_of
from analytics.settings import Settings
from analytics.stops import LeftOpen

DAY = r"\d{4}-\d{2}-\d{2}"
WRITTEN = {
    "date": rf"^({DAY}([ T]\d{{2}}:\d{{2}}(:\d{{2}}(\.\d+)?)?)?)?$",
    "day": rf"^({DAY})?$",
    "number": r"^([+-]?\d+(\.\d{1,2})?)?$",
}
Read = Callable[[str, Dialect], str | None]
DATES: dict[str, Read] = {"day": canonical_day, "moment": canonical_moment, "moment_or_day": canonical_moment}
SHARES = ("grey_share",)
MINUTES = ("minutes", "hands_on_min", "processing_min")
NUMBERS = ("money", "percent", "grams", "quantity", "number", "whole")


def in_contract_form(rows: pl.DataFrame, table: Table, file: str, settings: Settings) -> pl.DataFrame:
    """Rows of one file (text columns of the table and its parts) with dates, numbers and durations rewritten.

    Raises LeftOpen where the file leaves the order of its dates or its decimal sign open and salon.toml does not
    say it.
    """
    texts = [name for name in rows.columns if name != "row"]
    rows = rows.with_columns(pl.col(texts).str.strip_chars())
    made = "ends_at" not in rows.columns
    rows = _with_made_columns(rows, table)
    of_type = {column.name: column.type for column in table.columns if column.name in rows.columns}
    dates = [name for name, kind in of_type.items() if kind in DATES]
    numbers = [name for name, kind in of_type.items() if kind in NUMBERS]
    order, sign = _order(rows, dates, file, settings), _sign(rows, numbers, table, file, settings)
    dialect = Dialect(order, sign, settings.salon.timezone)
    empty = {column.name for column in table.columns if may_be_nothing(table, column)}
    for name in dates:
        way = "day" if of_type[name] == "day" else "date"
        rows = _rewritten(rows, name, way, _or_nothing(DATES[of_type[name]], name in empty), dialect)
    for name in numbers:
        read = canonical_minutes if name in MINUTES else canonical_number
        shares = _with_percent_sign(rows[name], dialect) if name in SHARES else []
        rows = _rewritten(rows, name, "number", _or_nothing(read, name in empty), dialect)
        if name in SHARES:
            rows = in_shares(rows, name, shares)
        elif of_type[name] == "percent":
            rows = in_percent(rows, name)
    for name in (name for name, kind in of_type.items() if kind == "yes_no"):
        rows = ticked(rows, name)
    if {"starts_at", "ends_at"} <= set(rows.columns):
        rows = ends_on_their_day(rows, made)
    return rows


def _with_percent_sign(texts: pl.Series, dialect: Dialect) -> list[str]:
    """The canonical texts of the cells that have one."""
    signed = texts.filter(texts.str.contains("[%％]")).unique()
    return [number for text in signed if (number := canonical_number(text, dialect)) is not None]


def _with_made_columns(rows: pl.DataFrame, table: Table) -> pl.DataFrame:
    """Columns the export does not have, made from others: a day and a time column, a name for an id."""
    for name, parts in table.made_from.items():
        given = [part for part in parts if part in rows.columns]
        if (name in rows.columns and name not in parts) or given != list(parts):
            continue
        if len(parts) == 1:
            rows = rows.with_columns(folded_name(pl.col(parts[0])).alias(name))
        else:
            pairs = rows.select(parts).unique()
            made = [joined_moment(day, time) if day.strip() else "" for day, time in pairs.iter_rows()]
            joined = pairs.with_columns(pl.Series("_made", made, dtype=pl.String))
            rows = rows.join(joined, on=parts, how="left", maintain_order="left").drop(name, strict=False)
            rows = rows.rename({"_made": name})
    return rows.drop(*table.parts, strict=False)


def folded_name(name: pl.Expr) -> pl.Expr:
    """A name without case, accents and double blanks, so that one client keeps one id."""
    plain = name.str.normalize("NFKD").str.replace_all(r"\p{M}", "")
    return plain.str.to_lowercase().str.replace_all(r"\s+", " ").str.strip_chars()


def _odd_texts(rows: pl.DataFrame, names: list[str], way: str) -> list[str]:
    """Different texts of these columns that are not written as the contract writes them."""
    texts = [rows[name].unique() for name in names]
    return (
        pl.concat(text.filter(~text.str.contains(WRITTEN[way])) for text in texts).unique().to_list() if texts else []
    )


def _order(rows: pl.DataFrame, dates: list[str], file: str, settings: Settings) -> DayOrder | None:
    order = date_order(_odd_texts(rows, dates, "date"))
    decided = order.decided or settings.dates.order
    if order.needed and decided is None:
        raise LeftOpen(
            f"{file} leaves open which number of a date such as {order.example} is the day and which the month; say "
            '[dates] order = "dmy", "mdy" or "ymd" in salon.toml and load again.',
            "dates",
        )
    return decided


def _sign(rows: pl.DataFrame, numbers: list[str], table: Table, file: str, settings: Settings) -> DecimalSign | None:
    texts = [text for name in numbers for text in rows[name].unique().to_list()]
    sign = decimal_sign([*texts, *(f"0{mark}125" for mark in _marks_of_decimals(rows, table, settings))])
    decided = sign.decided or settings.numbers.decimal
    if sign.needed and decided is None:
        raise LeftOpen(
            f"{file} leaves open whether a number such as {sign.example} has thousands or decimals; say [numbers] "
            'decimal = "." or "," in salon.toml and load again.',
            "numbers",
        )
    return decided


def _marks_of_decimals(rows: pl.DataFrame, table: Table, settings: Settings) -> list[str]:
    """The decimal signs of texts such as 8.875 that can have no thousands.

    In a column with a highest value they would lie above it; an amount in a currency of three digits has three, and
    one in a currency of none has thousands, so that the other sign is the decimal one.
    """
    marks = []
    digits = digits_of(settings.salon.currency)
    for column in table.columns:
        by_currency = column.type == "money" and digits == 3
        if column.type == "money" and digits == 0 and column.name in rows.columns:
            shown = {sign_shown(text) for text in rows[column.name].unique()}
            grouped = rows[column.name].str.extract(r"^\D*\d{1,3}([.,])\d{3}\D*$").drop_nulls().unique()
            marks += ["." if mark == "," else "," for mark in grouped] if shown <= {None, "open"} else []
        if column.name in rows.columns and (by_currency or column.high is not None):
            open_texts = rows[column.name].unique().str.extract_groups(r"^-?(\d{1,3})([.,])(\d{3})$").struct.unnest()
            for whole, mark, rest in open_texts.drop_nulls().iter_rows():
                if by_currency or int(whole + rest) > (column.high or 0):
                    marks.append(mark)
    return marks


def _rewritten(rows: pl.DataFrame, name: str, way: str, read: Read, dialect: Dialect) -> pl.DataFrame:
    odd = _odd_texts(rows, [name], way)
    known = {text: value for text in odd if (value := read(text, dialect)) is not None and value != text}
    known = with_midnights(known) if way == "date" else known
    return rows.with_columns(pl.col(name).replace(known)) if known else rows


def _or_nothing(read: Read, may_be_empty: bool) -> Read:
    """Where a cell may be empty, '-' and 'n/a' are read as empty cells."""
    return (lambda text, dialect: "" if is_nothing(text) else read(text, dialect)) if may_be_empty else read
