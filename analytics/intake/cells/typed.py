"""Rows of text -> rows of typed values, each with its fault where a cell of it cannot be used.

Each different text of a column is read once, however many rows hold it.
"""

import polars as pl

from analytics.definitions.columns import CORRECTS, LINEAGE, POLARS_TYPES, Column, Table
from analytics.intake.cells.casts import cast, expected
from analytics.settings import Settings

FAULT = pl.Struct(dict.fromkeys(("code", "column", "value", "expected"), pl.String()))
CODES = {"word": "unknown_word", "yes_no": "unknown_word"} | dict.fromkeys(
    ("day", "moment", "moment_or_day"), "bad_date"
)
MADE_LATER = ("ends_at", "minutes")  # where a sheet has neither, they are made once the menu is known
PRICED_LATER = ("bookings", "price")  # the same of a diary without prices beside a menu that has them
Fault = tuple[pl.Series, pl.Expr]
"""Which rows have it, and what it is as FAULT."""


def typed_schema(table: Table) -> dict[str, pl.DataType]:
    columns: dict[str, pl.DataType] = {column.name: POLARS_TYPES[column.type] for column in table.columns}
    return LINEAGE | dict.fromkeys(CORRECTS, pl.String()) | columns | {"fault": FAULT}


def typed_rows(texts: pl.DataFrame, table: Table, settings: Settings) -> pl.DataFrame:
    """typed_schema's columns. texts: file, row and the columns that the sheet has, in the contract's own form.

    `fault` is that of the first column that has one, null where the row can be used.
    """
    typed: dict[str, pl.Series] = {}
    faults: list[Fault] = []
    for column in table.columns:
        given = texts[column.name] if column.name in texts.columns else pl.repeat("", texts.height, eager=True)
        typed[column.name], found = _typed(given, table, column, settings)
        made_later = (table.name, column.name) == PRICED_LATER and column.name not in texts.columns
        faults += [] if made_later else found
    asked = [group for group in table.either if group != MADE_LATER or set(group) & set(texts.columns)]
    faults += [lacking for group in asked if (lacking := _none_of(texts, group))]
    fault: pl.Expr = pl.lit(None, FAULT)
    for chosen, says in reversed(faults):
        fault = pl.when(chosen).then(says).otherwise(fault)
    uncorrected = [pl.lit("").alias(name) for name in CORRECTS if name not in texts.columns]
    return texts.with_columns(**typed, fault=fault).with_columns(uncorrected).select(list(typed_schema(table)))


def _typed(texts: pl.Series, table: Table, column: Column, settings: Settings) -> tuple[pl.Series, list[Fault]]:
    if column.type == "text":
        filled = texts if not column.default else texts.replace("", column.default)
        return cast(filled, table, column, settings), _missing(column, texts == "")
    different, places = _different(texts)
    different = different.replace("", column.default) if column.default else different
    values = cast(different, table, column, settings).cast(POLARS_TYPES[column.type])
    unreadable = values.is_null() & (different != "")
    faults = _missing(column, (different == "")[places])
    if unreadable.any():
        code = CODES.get(column.type, "bad_number")
        faults.append((unreadable[places], _says(code, column.name, pl.lit(different[places]), expected(column))))
    return values[places], faults


def _different(texts: pl.Series) -> tuple[pl.Series, pl.Series]:
    """The different texts, and for each row the place of its text among them."""
    codes = texts.cast(pl.Categorical(pl.Categories.random())).to_physical()
    firsts = codes.arg_unique()
    known = pl.DataFrame({"code": codes[firsts]}).with_row_index("place")
    rows = codes.alias("code").to_frame().join(known, on="code", how="left", maintain_order="left")
    return texts[firsts], rows["place"]


def _missing(column: Column, empty: pl.Series) -> list[Fault]:
    if not column.required or not empty.any():
        return []
    return [(empty, _says("missing_value", column.name, pl.lit(""), expected(column)))]


def _none_of(texts: pl.DataFrame, group: tuple[str, ...]) -> Fault | None:
    """The fault of rows that have none of these cells."""
    given = [pl.col(name) == "" for name in group if name in texts.columns]
    empty = texts.select(pl.all_horizontal(True, *given)).to_series()
    names = " or ".join(group)
    return (empty, _says("missing_value", names, pl.lit(""), "one of them")) if empty.any() else None


def _says(code: str, column: str, value: pl.Expr, says: str) -> pl.Expr:
    return pl.struct(
        code=pl.lit(code), column=pl.lit(column), value=value.cast(pl.String), expected=pl.lit(says), eager=False
    )
