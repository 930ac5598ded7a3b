"""A figure's frame as a table for people, as CSV (RFC 4180) or as JSON (a list of objects)."""

import json
import sys
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import polars as pl

from analytics.definitions.results import Result
from analytics.money import digits_of, rounded
from analytics.plain_text import csv_line, guarded, visible


def write(
    frame: pl.DataFrame, style: str, result: Result | None = None, *, currency: str = "", empty: str = "No rows."
) -> None:
    """Print the frame to stdout as 'table', 'csv' or 'json'; a figure's with what it answers with and the currency."""
    frame = in_currency(frame, result, currency) if result else frame
    if style == "csv":
        sys.stdout.write(as_csv(frame))
    elif style == "json":
        json.dump([_plain_row(row) for row in frame.iter_rows(named=True)], sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
    elif frame.is_empty():
        print(empty)
    else:
        _print_table(frame, result, currency)


def in_currency(frame: pl.DataFrame, result: Result, currency: str) -> pl.DataFrame:
    """Money columns with the digits of the currency."""
    digits = digits_of(currency)
    return frame.with_columns(rounded(pl.col(result.amounts), digits).cast(pl.Decimal(38, digits)))


def as_csv(frame: pl.DataFrame) -> str:
    """RFC 4180: header, CR LF, ISO dates, a dot as decimal sign, empty for no value; text never starts a formula."""
    lines = [[guarded(name) for name in frame.columns]]
    lines += [[_cell(value) for value in row] for row in frame.iter_rows()]
    return "".join(map(csv_line, lines))


def _cell(value: Any) -> str:
    if isinstance(value, str):
        return guarded(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.6f}".rstrip("0").rstrip(".") if abs(value) >= 5e-7 else "0"
    if isinstance(value, datetime):
        return value.isoformat(sep=" ")
    return "" if value is None else str(value)


def _plain_row(row: dict[str, Any]) -> dict[str, Any]:
    return {name: _plain(value) for name, value in row.items()}


def _plain(value: Any) -> Any:
    """Decimals become JSON numbers; at these sizes a double prints the same digits."""
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    return value


def _print_table(frame: pl.DataFrame, result: Result | None, currency: str) -> None:
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    chosen = result.for_people if result else ()
    frame, whole = (frame.select("^site$", *chosen) if chosen else frame), frame
    table = Table(box=None, header_style="bold", pad_edge=False)
    for column, kind in frame.schema.items():
        table.add_column(column.replace("_", " "), justify="right" if kind.is_numeric() else "left", overflow="fold")
    for row in frame.iter_rows():
        table.add_row(*(Text(_for_people(value)) for value in row))
    console = Console(file=sys.stdout, highlight=False)
    if not console.is_terminal:
        console.width = 240
    console.print(table)
    if result:
        money = f"; money in {currency}" if result.has_money(frame.columns) else ""
        more = f"; {whole.width - frame.width} more columns with --format csv" if chosen else ""
        console.print(f"{result.grain}{money}{more}", style="dim")


def _for_people(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:,.2f}"
    if isinstance(value, Decimal):
        return f"{value:,.2f}" if value.as_tuple().exponent == -4 else f"{value:,}"
    return "" if value is None else visible(str(value))
