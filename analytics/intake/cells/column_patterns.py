"""What a column or two columns together show, where a single text does not: shares, ticks, empty cells, ends of visits.

Everything here is decided from all values of a column in one file. Where a reading leaves anybody a doubt, it is said.
"""

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from decimal import Decimal

import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import Column, Table
from analytics.intake.cells.days import joined_moment, read_moment

PLAIN = re.compile(r"[+-]?\d+(\.\d+)?")
SAID = {"grey_share": "share_as_percent"}
WRITTEN = {"rate_as_share": r"^0?[.,]\d+$", "share_as_percent": r"^[\d.,]+$"}
"""How a number is written that was read as another: with a % sign there is nothing to say."""
NOTHING = re.compile(
    r"[-\u2010-\u2015\u2212]{1,3}|n\.? ?/?a\.?|null|none|nil|n\.? ?v\.? ?t\.?|k\. ?a\.|n\. ?d\.|n/d|s\. ?d\.|s/d",
    re.IGNORECASE,
)
"""What people and programs write into a cell that has no value, in the six languages."""
CROSSES, DASHES = {"x", "\u2713", "\u2714", "\u2611", "\u25cf"}, {"", "-", "\u2013", "\u2014", "\u2610", "\u25cb"}
SERIAL_DAY, SERIAL_MOMENT = re.compile(r"\d{5}"), re.compile(r"\d{5}[.,]\d*[1-9]\d*")
MOMENT = re.compile(r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(:\d\d)?")
LONGEST_NIGHT = timedelta(hours=8)


def may_be_nothing(table: Table, column: Column) -> bool:
    """Whether a cell of the column may be left empty whatever the others hold."""
    return not column.required and column.type != "text" and all(column.name not in group for group in table.either)


def is_nothing(text: str) -> bool:
    """'-', 'n/a', 'NULL': what stands for an empty cell."""
    return NOTHING.fullmatch(text) is not None


def with_midnights(known: dict[str, str]) -> dict[str, str]:
    """Days that were read from whole serial numbers are midnights where other serials of the column hold a time."""
    if not any(SERIAL_MOMENT.fullmatch(text) for text in known):
        return known
    return {text: f"{value} 00:00" if SERIAL_DAY.fullmatch(text) else value for text, value in known.items()}


def ticked(rows: pl.DataFrame, name: str) -> pl.DataFrame:
    """A column of nothing but crosses or ticks: with one is yes, a dash is no, and an empty cell stays empty."""
    typed = set(rows[name].unique().str.to_lowercase())
    if not typed & CROSSES or typed - CROSSES - DASHES:
        return rows
    folded = pl.col(name).str.to_lowercase()
    empty = pl.when(folded != "").then(pl.lit("no")).otherwise(pl.lit(""))
    return rows.with_columns(pl.when(folded.is_in(sorted(CROSSES))).then(pl.lit("yes")).otherwise(empty).alias(name))


def in_percent(rows: pl.DataFrame, name: str) -> pl.DataFrame:
    """A workbook's cell shown as 21 % holds 0.21: where no rate of a file reaches 1 and one is above 0, all are."""
    rates = _plain_numbers(rows[name].unique())
    if any(rates.values()) and all(0 <= rate < 1 for rate in rates.values()):
        return rows.with_columns(pl.col(name).replace({text: _written(rate * 100) for text, rate in rates.items()}))
    return rows


def in_shares(rows: pl.DataFrame, name: str, with_sign: Iterable[str]) -> pl.DataFrame:
    """A share of 0 to 1 that a file writes as percent: 25 % -> 0.25.

    with_sign: the canonical texts of cells that had a percent sign. Without any sign all are percent where one is above
    1 and none lies between 0 and 1; else they stay as they are.
    """
    numbers = _plain_numbers(rows[name].unique())
    signed = set(with_sign)
    bare = [value for text, value in numbers.items() if text not in signed]
    if signed:
        percent = {text: value for text, value in numbers.items() if text in signed}
    elif any(1 < value <= 100 for value in bare) and not any(0 < value < 1 for value in bare):
        percent = numbers
    else:
        return rows
    return rows.with_columns(pl.col(name).replace({text: _written(value / 100) for text, value in percent.items()}))


def _plain_numbers(texts: pl.Series) -> dict[str, Decimal]:
    return {text: Decimal(text) for text in texts if PLAIN.fullmatch(text)}


def _written(value: Decimal) -> str:
    return f"{value.normalize():f}"


def ends_on_their_day(rows: pl.DataFrame, made: bool) -> pl.DataFrame:
    """Ends that were typed as a time alone, on the day of their start or in the night after it.

    rows: starts_at and ends_at, canonical where they could be read. made: whether ends_at was put together from a day
    and a time. 23:00 to 01:00 goes over midnight; 14:00 to 13:00 would be a stay of 23 hours, and remains a slip.
    """
    ends = pl.col("ends_at")
    alone = ((ends.str.len_bytes() < len("2026-03-14 09:30")) & (ends != "")) | ends.str.starts_with("1899-")
    before = (ends < pl.col("starts_at")) if made else pl.lit(False)
    pairs = rows.select("starts_at", "ends_at").filter(alone | before)
    found = [(start, end, later) for start, end in pairs.unique().iter_rows() if (later := _end(start, end))]
    if not found:
        return rows
    schema = dict.fromkeys(("starts_at", "ends_at", "_later"), pl.String())
    nights = pl.DataFrame(found, schema=schema, orient="row")
    joined = rows.join(nights, on=["starts_at", "ends_at"], how="left", maintain_order="left")
    return joined.with_columns(ends_at=pl.coalesce("_later", "ends_at")).drop("_later")


def _end(start: str, typed: str) -> str | None:
    begins, ends = _moment(start), _moment(typed) or _moment(read_moment(joined_moment(start[:10], typed), None, "UTC"))
    if begins is None or ends is None:
        return None
    if ends < begins <= ends + timedelta(days=1) <= begins + LONGEST_NIGHT:
        ends += timedelta(days=1)
    return ends.isoformat(" ", "seconds" if ends.second else "minutes")


def _moment(text: str | None) -> datetime | None:
    try:
        return datetime.fromisoformat(text) if text and MOMENT.fullmatch(text) else None
    except ValueError:  # the 31st of February
        return None


def wants_a_look(before: pl.DataFrame, after: pl.DataFrame, table: Table, file: str) -> pl.DataFrame:
    """Hits of what was read in a way that somebody may want to correct.

    before, after: the rows as typed and in the contract's form.
    """
    noted = [findings.hits([])]
    for column in table.columns:
        if column.name not in before.columns or column.type == "text":
            continue
        both = pl.DataFrame({"row": before["row"], "typed": before[column.name], "read": after[column.name]})
        if code := "rate_as_share" if column.type == "percent" else SAID.get(column.name):
            odd = both.with_columns(pl.col("typed").str.strip_chars())
            odd = odd.filter(pl.col("typed").str.contains(WRITTEN[code]))
            noted.append(_first_changed(odd, code, column.name, table.name, file))
        if may_be_nothing(table, column):
            noted.append(_emptied(both, column.name, table.name, file))
    return pl.concat(noted)


def _emptied(both: pl.DataFrame, column: str, table: str, file: str) -> pl.DataFrame:
    """Hits of the cells that were taken for empty ones."""
    emptied = both.filter((pl.col("read") == "") & (pl.col("typed") != ""))
    emptied = emptied.with_columns(pl.col("typed").str.strip_chars()).filter(pl.col("typed") != "")
    return emptied.select(
        code=pl.lit("read_as_nothing"),
        table=pl.lit(table),
        file=pl.lit(file),
        row=pl.col("row").cast(findings.HITS["row"]),
        column=pl.lit(column),
        value="typed",
        expected=pl.lit(""),
    )


def _first_changed(changed: pl.DataFrame, code: str, column: str, table: str, file: str) -> pl.DataFrame:
    """A hit of the first number that was taken for a hundred times as much or as little; row, typed, read."""
    numbers = (
        pl.col("typed").str.replace(",", ".", literal=True).cast(pl.Float64, strict=False),
        pl.col("read").cast(pl.Float64, strict=False),
    )
    ratio = numbers[1] / numbers[0]
    first = changed.filter((numbers[0] > 0) & ((ratio > 2) | (ratio < 0.5))).head(1)
    return findings.hits([(code, table, file, row, column, text, value) for row, text, value in first.iter_rows()])
