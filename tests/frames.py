"""Small tables for tests, in the types that loading gives them, from short rows.

A row names only what the test is about; the rest is what loading would fill in, or something that does not matter:

    bookings(visit("V1", "2026-03-02 09:00", 90, ("ROOTS", "60.50"), ("CUT", "40")))
    services({"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 45, "processing_min": 35})

Text stands for money, grams, days and moments, as it would stand in a cell. The small salon of expected/ is read from
its files there, and `agrees` holds an answer against the one worked out by hand beside them.
"""

import csv
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl

from analytics.catalogue import figure
from analytics.definitions.results import filled
from analytics.definitions.tables import ROOT_KINDS, TABLES
from analytics.periods import Period
from analytics.records.together import brought_together
from analytics.settings import Settings, parse_settings

Row = dict[str, Any]
EXPECTED = Path(__file__).with_name("expected")
FIRST_ROW = 2  # as a spreadsheet counts rows below its headings

DEFAULTS: dict[str, Row] = {
    "bookings": {"client_id": "Ada", "stylist": "Mila", "chair": "Chair 1", "status": "completed", "price": "0"},
    "services": {"kind": "other", "tax_rate": "21", "hands_on_min": 30, "processing_min": 0},
    "product_log": {},
    "products": {"kind": "colour", "pack_g": "60", "pack_cost": "9"},
    "clients": {},
    "payments": {"method": "card"},
    "sales": {"quantity": "1"},
    "stock_moves": {},
    "vouchers": {},
}
EVERYWHERE: dict[str, Row] = {
    "bookings": {"discount": "0", "tip": "0"},
    "clients": {"may_contact": False},
    "payments": {"fee": "0"},
    "sales": {"discount": "0"},
}


def settings(**sections: Any) -> Settings:
    """Settings of a salon called Test: settings(tax={"prices": "added"}, salon={"currency": "JPY"})."""
    return Settings(**(sections | {"salon": {"name": "Test"} | sections.get("salon", {})}))


ANY_SALON = settings()
EMPTY = {name: definition.empty() for name, definition in TABLES.items()}


def table(name: str, rows: list[Row]) -> pl.DataFrame:
    """The rows as the loaded table of this name."""
    filled = [_filled(name, row) | {"file": f"{name}.csv", "row": place + FIRST_ROW} for place, row in enumerate(rows)]
    schema = TABLES[name].schema
    unknown = {key for row in filled for key in row} - set(schema)
    assert not unknown, f"{name} has no column {unknown}"
    typed = [{key: _typed(row.get(key), dtype) for key, dtype in schema.items()} for row in filled]
    return pl.DataFrame(typed, schema=schema)


def _filled(name: str, row: Row) -> Row:
    return {"site": ""} | EVERYWHERE.get(name, {}) | DEFAULTS[name] | row


def _typed(value: Any, dtype: pl.DataType) -> Any:
    if value is None or isinstance(dtype, pl.String):
        return value
    if isinstance(dtype, pl.Decimal):
        return Decimal(str(value))
    if isinstance(dtype, pl.Datetime):
        return datetime.fromisoformat(value) if isinstance(value, str) else value
    if isinstance(dtype, pl.Date):
        return date.fromisoformat(value) if isinstance(value, str) else value
    if isinstance(dtype, pl.Boolean):
        return {"yes": True, "no": False}.get(value, value)
    return float(value) if dtype == pl.Float64() else int(value)


def visit(booking_id: str, starts_at: str, minutes: float | None, *lines: tuple[str, str], **rest: Any) -> list[Row]:
    """Booking rows of one visit: one line per (service_id, price)."""
    return [
        {
            "booking_id": booking_id,
            "line": number,
            "starts_at": starts_at,
            "minutes": minutes,
            "service_id": service_id,
            "price": price,
            **rest,
        }
        for number, (service_id, price) in enumerate(lines, start=1)
    ]


def bookings(*visits: list[Row]) -> pl.DataFrame:
    return table("bookings", [line for lines in visits for line in lines])


def services(*rows: Row) -> pl.DataFrame:
    """The menu; a service resets the roots by its kind, as loading has it."""
    return table(
        "services",
        [{"service": row["service_id"].title(), "resets_roots": row.get("kind") in ROOT_KINDS} | row for row in rows],
    )


def product_log(*rows: Row) -> pl.DataFrame:
    return table("product_log", list(rows))


def products(*rows: Row) -> pl.DataFrame:
    return table("products", [{"product": row["product_id"].title()} | row for row in rows])


def clients(*rows: Row) -> pl.DataFrame:
    return table("clients", list(rows))


def payments(*rows: Row) -> pl.DataFrame:
    return table("payments", list(rows))


def sales(*rows: Row) -> pl.DataFrame:
    return table("sales", list(rows))


def days(first: str, last: str) -> Period:
    """From the first day up to and without the last."""
    return Period(date.fromisoformat(first), date.fromisoformat(last))


def known(
    *,
    period: Period | str = "2026-03",
    cover: Period | None = None,
    as_of: str = "2026-04-01",
    salon: Settings | None = None,
    **tables: pl.DataFrame,
) -> dict[str, Any]:
    """Everything a figure may ask for; tables that are not given are empty."""
    asked = Period.month(period) if isinstance(period, str) else period
    every = EMPTY | tables
    chosen = salon or ANY_SALON
    return {
        **every,
        **brought_together(every, chosen),
        "settings": chosen,
        "period": asked,
        "cover": cover or asked,
        "as_of": date.fromisoformat(as_of),
    }


def work_out(name: str, **given: Any) -> pl.DataFrame:
    """The frame of a figure for the given tables, settings and days."""
    return answered(name, known(**given))


def answered(name: str, asked: dict[str, Any]) -> pl.DataFrame:
    """The frame of a figure for what is known. No two of its rows may share a key."""
    answer = filled(figure(name).function, asked)
    key = answer.select(pl.lit(name), *figure(name).result.key)
    twice = key.filter(key.is_duplicated())
    assert twice.is_empty(), f"answered twice: {twice.unique()}"
    return answer


def rows_of(name: str, **given: Any) -> pl.DataFrame:
    """The rows that a figure adds up."""
    return filled(figure(name).rows, known(**given))


def only(frame: pl.DataFrame, **wanted: Any) -> Row:
    """The one row with these values."""
    found = frame.filter(**wanted) if wanted else frame
    assert found.height == 1, found
    return found.row(0, named=True)


def small_salon(name: str = "small_salon") -> dict[str, Any]:
    """The tables and settings of the salon in expected/, to hand to `work_out`."""
    folder = EXPECTED / name
    tables = {path.stem: table(path.stem, _csv_rows(path)) for path in sorted(folder.glob("*.csv"))}
    resets = pl.coalesce("resets_roots", pl.col("kind").is_in(ROOT_KINDS))
    tables["services"] = tables["services"].with_columns(
        resets_roots=resets, processing_min=pl.col("processing_min").fill_null(0)
    )
    return tables | {"salon": parse_settings((folder / "salon.toml").read_text(encoding="utf-8"))}


def _csv_rows(path: Path) -> list[Row]:
    """Rows without their empty cells."""
    with path.open(encoding="utf-8", newline="") as file:
        return [{key: value for key, value in row.items() if value} for row in csv.DictReader(file)]


def agrees(answer: pl.DataFrame, name: str) -> None:
    """Every cell of expected/<name>.csv: money and grams exactly, hours and ratios to the digits written there."""
    with (EXPECTED / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        wanted = list(csv.DictReader(file))
    assert answer.height == len(wanted), answer
    for row, (want, got) in enumerate(zip(wanted, answer.iter_rows(named=True), strict=True), start=FIRST_ROW):
        for column, text in want.items():
            assert _same(got[column], text), f"{name}.csv row {row} {column}: {text} expected, {got[column]} found"


def _same(value: Any, text: str) -> bool:
    if text == "" or value is None:
        return text == "" and value is None
    if isinstance(value, float):
        return abs(value - float(text)) <= 0.5000001 * 10.0 ** -len(text.partition(".")[2])
    if isinstance(value, Decimal):
        return value == Decimal(text)
    return str(value) == text
