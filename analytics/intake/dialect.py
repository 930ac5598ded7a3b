"""The text of a file's cells -> the contract's own way of writing them.

What is written as the contract writes it is left alone. Of everything else each different text is read once, with
decisions (which number of a date is the day, which sign is the decimal one) that are taken for the whole file from all
of its values. A text that cannot be read stays as it was typed and becomes a finding.
"""

import re
from collections.abc import Callable
from decimal import Decimal

import polars as pl

from analytics.intake.values import (
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
from analytics.stops import WorkStopped
from analytics.tables import Table

DAY = r"\d{4}-\d{2}-\d{2}"
WRITTEN = {
    "date": rf"^({DAY}([ T]\d{{2}}:\d{{2}}(:\d{{2}}(\.\d+)?)?)?)?$",
    "day": rf"^({DAY})?$",
    "number": r"^([+-]?\d+(\.\d{1,2})?)?$",
}
Read = Callable[[str, Dialect], str | None]
PLAIN = re.compile(r"[+-]?\d+(\.\d+)?")
DATES: dict[str, Read] = {"day": canonical_day, "moment": canonical_moment, "moment_or_day": canonical_moment}
SHARE = r"^0?[.,]\d+$"
MINUTES = ("minutes", "hands_on_min", "processing_min")
NUMBERS = ("money", "percent", "grams", "quantity", "number", "whole")


def in_contract_form(rows: pl.DataFrame, table: Table, file: str, settings: Settings) -> pl.DataFrame:
    """Rows of one file (text columns of the table and its parts) with dates, numbers and durations rewritten.

    Raises WorkStopped where the file leaves the order of its dates or its decimal sign open and salon.toml does not
    say it.
    """
    texts = [name for name in rows.columns if name != "row"]
    rows = _with_made_columns(rows.with_columns(pl.col(texts).str.strip_chars()), table)
    of_type = {column.name: column.type for column in table.columns if column.name in rows.columns}
    dates = [name for name, kind in of_type.items() if kind in DATES]
    numbers = [name for name, kind in of_type.items() if kind in NUMBERS]
    order, sign = _order(rows, dates, file, settings), _sign(rows, numbers, table, file, settings)
    dialect = Dialect(order, sign, settings.salon.timezone)
    for name in dates:
        rows = _rewritten(rows, name, "day" if of_type[name] == "day" else "date", DATES[of_type[name]], dialect)
    for name in numbers:
        rows = _rewritten(rows, name, "number", canonical_minutes if name in MINUTES else canonical_number, dialect)
    for name in (name for name in numbers if of_type[name] == "percent"):
        rows = _in_percent(rows, name)
    return rows


def held_as_shares(before: pl.DataFrame, after: pl.DataFrame, table: Table) -> list[tuple[str, int, str, str]]:
    """(column, row, as typed, percent) of the first rate above 0 in each column that in_contract_form took for shares.

    before, after: the rows it was given and answered.
    """
    found = []
    for name in (column.name for column in table.columns if column.type == "percent" and column.name in before.columns):
        both = before.select("row", typed=pl.col(name).str.strip_chars()).with_columns(percent=after[name])
        share = pl.col("typed").str.replace(",", ".", literal=True).cast(pl.Float64, strict=False)
        changed = both.filter(
            pl.col("typed").str.contains(SHARE) & (pl.col("percent").cast(pl.Float64, strict=False) > 2 * share)
        )
        found += [(name, *row) for row in changed.head(1).iter_rows()]
    return found


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
        raise WorkStopped(
            f"{file} leaves open which number of a date such as {order.example} is the day and which the month; say "
            '[dates] order = "dmy", "mdy" or "ymd" in salon.toml and load again.'
        )
    return decided


def _sign(rows: pl.DataFrame, numbers: list[str], table: Table, file: str, settings: Settings) -> DecimalSign | None:
    texts = [text for name in numbers for text in rows[name].unique().to_list()]
    sign = decimal_sign([*texts, *(f"0{mark}125" for mark in _marks_of_decimals(rows, table, settings))])
    decided = sign.decided or settings.numbers.decimal
    if sign.needed and decided is None:
        raise WorkStopped(
            f"{file} leaves open whether a number such as {sign.example} has thousands or decimals; say [numbers] "
            'decimal = "." or "," in salon.toml and load again.'
        )
    return decided


def _in_percent(rows: pl.DataFrame, name: str) -> pl.DataFrame:
    """A workbook's cell shown as 21 % holds 0.21: where no rate of a file reaches 1 and one is above 0, all are."""
    rates = {text: Decimal(text) for text in rows[name].unique() if PLAIN.fullmatch(text)}
    if any(rates.values()) and all(0 <= rate < 1 for rate in rates.values()):
        percent = {text: f"{(rate * 100).normalize():f}" for text, rate in rates.items()}
        return rows.with_columns(pl.col(name).replace(percent))
    return rows


def _marks_of_decimals(rows: pl.DataFrame, table: Table, settings: Settings) -> list[str]:
    """The decimal signs of texts such as 8.875 that can have no thousands.

    In a column with a highest value they would lie above it; an amount in a currency of three digits has three.
    """
    marks = []
    for column in table.columns:
        by_currency = column.type == "money" and digits_of(settings.salon.currency) == 3
        if column.name in rows.columns and (by_currency or column.high is not None):
            open_texts = rows[column.name].unique().str.extract_groups(r"^-?(\d{1,3})([.,])(\d{3})$").struct.unnest()
            for whole, mark, rest in open_texts.drop_nulls().iter_rows():
                if by_currency or int(whole + rest) > (column.high or 0):
                    marks.append(mark)
    return marks


def _rewritten(rows: pl.DataFrame, name: str, way: str, read: Read, dialect: Dialect) -> pl.DataFrame:
    odd = _odd_texts(rows, [name], way)
    known = {text: value for text in odd if (value := read(text, dialect)) is not None and value != text}
    return rows.with_columns(pl.col(name).replace(known)) if known else rows
