"""The exported rows of a salon folder, read and accounted for in the plainest way.

Cells are text first. A cell that is empty or cannot be read is None. A row in which a required cell is None is set
aside. What is left is settled by the row accounting of the contract: repeats, superseded states, rows used.
"""

import csv
import re
from collections import Counter
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from io import StringIO
from pathlib import Path
from typing import Any

Row = dict[str, Any]

# The column that only this table has: how a file is recognised.
MARKER_COLUMNS: dict[str, str] = {
    "bookings": "status",
    "services": "hands_on_min",
    "product_log": "mixed_g",
    "products": "pack_g",
    "payments": "paid_at",
    "sales": "sold_at",
    "stock_moves": "moved_at",
    "clients": "client_id",  # looked at last: bookings and sales carry it too
}

# One group per required cell; a group of two is "this one or that one".
REQUIRED: dict[str, list[tuple[str, ...]]] = {
    "bookings": [
        ("booking_id",), ("client_id",), ("starts_at",), ("ends_at", "minutes"), ("status",),
        ("service_id", "service"), ("price",),
    ],
    "services": [("service_id",), ("service",), ("kind",), ("tax_rate",), ("hands_on_min",)],
    "product_log": [("logged_at",), ("product_id", "product"), ("mixed_g",)],
    "products": [("product_id",), ("product",), ("kind",), ("pack_g",), ("pack_cost",)],
    "clients": [("client_id",)],
    "payments": [("paid_at",), ("method",), ("amount",)],
    "sales": [("sold_at",), ("product_id", "product"), ("quantity",), ("price",)],
    "stock_moves": [("moved_at",), ("product_id", "product"), ("movement",)],
}  # fmt: skip

# Bookings are superseded a visit at a time, so their key is the visit alone.
KEYS = {
    "bookings": ("booking_id",),
    "services": ("service_id", "valid_from"),
    "products": ("product_id", "valid_from"),
    "clients": ("client_id",),
}

# How far a file reaches in time is read from this column.
REACH_COLUMNS = {
    "bookings": "starts_at", "services": "valid_from", "products": "valid_from", "clients": "patch_tested_on",
    "product_log": "logged_at", "payments": "paid_at", "sales": "sold_at", "stock_moves": "moved_at",
}  # fmt: skip

MOMENT_COLUMNS = {"starts_at", "ends_at", "logged_at", "paid_at", "sold_at", "moved_at"}
DAY_COLUMNS = {"booked_on", "valid_from", "patch_tested_on", "expires_on"}
YES_NO_COLUMNS = {"resets_roots", "may_contact"}
NUMBER_COLUMNS = {
    "line", "minutes", "price", "discount", "tip", "regrowth_mm", "tax_rate", "hands_on_min", "processing_min",
    "mixed_g", "left_g", "pack_g", "pack_cost", "strength_percent", "amount", "fee", "quantity", "packs", "grams",
    "unit_cost",
}  # fmt: skip
WORDS = {
    ("bookings", "status"): {"completed", "booked", "cancelled", "no_show"},
    ("services", "kind"): {
        "root_touch_up", "full_colour", "lightening", "toner", "cut", "styling", "treatment", "other",
    },
    ("products", "kind"): {"colour", "developer", "lightener", "additive", "retail"},
    ("payments", "method"): {"cash", "card", "bank", "voucher", "other"},
    ("stock_moves", "movement"): {"delivery", "count", "returned", "discarded"},
}  # fmt: skip


def read_number(text: str) -> Decimal | None:
    return Decimal(text) if re.fullmatch(r"-?[0-9]+(\.[0-9]+)?", text) else None


def read_moment(text: str) -> datetime | None:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return None
    return moment if moment.tzinfo is None else None  # the contract's times are local wall times


def read_day(text: str) -> date | None:
    moment = read_moment(text)
    return moment.date() if moment else None


def read_yes_no(text: str) -> bool | None:
    return {"yes": True, "true": True, "no": False, "false": False}.get(text.lower())


READERS: list[tuple[set[str], Callable[[str], Any]]] = [
    (MOMENT_COLUMNS, read_moment),
    (DAY_COLUMNS, read_day),
    (NUMBER_COLUMNS, read_number),
    (YES_NO_COLUMNS, read_yes_no),
]


def read_cell(table: str, column: str, text: str) -> Any:
    """The typed cell, or None where it is empty or cannot be read."""
    if text == "":
        return None
    if (table, column) in WORDS:
        return text if text in WORDS[table, column] else None
    for columns, reader in READERS:
        if column in columns:
            return reader(text)
    return text


def is_usable(table: str, row: Row) -> bool:
    for alternatives in REQUIRED[table]:
        if all(row.get(column) is None for column in alternatives):
            return False
    if table == "bookings" and row.get("ends_at") is not None:
        return bool(row["ends_at"] >= row["starts_at"])  # an end before its start is a required cell nobody can use
    return True


def recognise(headings: list[str]) -> str | None:
    for table, marker in MARKER_COLUMNS.items():
        if marker in headings:
            return table
    return None


def read_file(path: Path, name: str) -> Row | None:
    """One exported file: its table, its rows in order, how far it reaches in time."""
    text = path.read_text(encoding="utf-8-sig")
    heading_line = text.split("\n", 1)[0]
    separator = ";" if ";" in heading_line else ","
    records = [record for record in csv.reader(StringIO(text), delimiter=separator) if record]
    if not records:
        return None
    headings = [heading.strip() for heading in records[0]]
    table = recognise(headings)
    if table is None:
        return None
    rows = []
    for record in records[1:]:
        texts = {heading: cell.strip() for heading, cell in zip(headings, record, strict=False)}
        row = {heading: read_cell(table, heading, cell) for heading, cell in texts.items()}
        # "The same row" is the same text in every filled cell, whatever the order of the columns.
        row["as_typed"] = tuple(sorted((heading, cell) for heading, cell in texts.items() if cell != ""))
        rows.append(row)
    reached = [row[REACH_COLUMNS[table]] for row in rows if row.get(REACH_COLUMNS[table]) is not None]
    reach = max((str(moment) for moment in reached), default="")  # ISO text sorts as time does
    usable = [row for row in rows if is_usable(table, row)]
    return {"name": name, "table": table, "rows_read": len(rows), "usable": usable, "newness": (reach, name)}


def settle_without_key(files: list[Row]) -> tuple[list[Row], list[Row]]:
    """A row stands as often as in the one file where it stands most often."""
    used: list[Row] = []
    accounts = []
    used_count: Counter[Any] = Counter()
    for file in files:
        count_here: Counter[Any] = Counter()
        rows_used = 0
        for row in file["usable"]:
            count_here[row["as_typed"]] += 1
            if count_here[row["as_typed"]] > used_count[row["as_typed"]]:
                used_count[row["as_typed"]] += 1
                used.append(row)
                rows_used += 1
        accounts.append(account(file, rows_used, len(file["usable"]) - rows_used, 0))
    return used, accounts


def settle_with_key(table: str, files: list[Row]) -> tuple[list[Row], list[Row]]:
    """Of each key, the rows of the newest file that has it; the rest are repeats of those or superseded."""
    newest: dict[Any, Row] = {}
    for file in files:
        for row in file["usable"]:
            key = tuple(row.get(column) for column in KEYS[table])
            if key not in newest or file["newness"] > newest[key]["newness"]:
                newest[key] = file
    rows_of_key: dict[Any, dict[Any, Row]] = {}
    for file in files:
        for row in file["usable"]:
            key = tuple(row.get(column) for column in KEYS[table])
            if newest[key] is file:
                rows = rows_of_key.setdefault(key, {})
                if table == "bookings":
                    # Lines are numbered in file order where the export does not number them.
                    row["line"] = int(row["line"]) if row.get("line") is not None else len(rows) + 1
                    rows[row["line"]] = row  # the same line twice in one file: the later row is the newer state
                else:
                    rows[0] = row
    used = [row for rows in rows_of_key.values() for row in rows.values()]
    return used, count_with_key(files, used)


def count_with_key(files: list[Row], used: list[Row]) -> list[Row]:
    used_rows = {id(row) for row in used}
    used_texts = {row["as_typed"] for row in used}
    accounts = []
    for file in files:
        rows_used = repeats = superseded = 0
        for row in file["usable"]:
            if id(row) in used_rows:
                rows_used += 1
            elif row["as_typed"] in used_texts:
                repeats += 1
            else:
                superseded += 1
        accounts.append(account(file, rows_used, repeats, superseded))
    return accounts


def account(file: Row, rows_used: int, repeats: int, superseded: int) -> Row:
    return {
        "file": file["name"], "table": file["table"], "rows_read": file["rows_read"], "rows_used": rows_used,
        "repeats": repeats, "superseded": superseded, "set_aside": file["rows_read"] - len(file["usable"]),
    }  # fmt: skip


def read_exports(folder: Path) -> tuple[dict[str, list[Row]], list[Row]]:
    """The rows used of every table, and the account of every file."""
    exports = folder / "exports"
    paths = sorted(exports.rglob("*.csv"), key=lambda path: path.relative_to(exports).as_posix())
    read = [read_file(path, path.relative_to(exports).as_posix()) for path in paths]
    files = [file for file in read if file is not None]
    tables: dict[str, list[Row]] = {}
    accounts: list[Row] = []
    for table in MARKER_COLUMNS:
        of_table = [file for file in files if file["table"] == table]
        settled = settle_with_key(table, of_table) if table in KEYS else settle_without_key(of_table)
        tables[table] = settled[0]
        accounts.extend(settled[1])
    return tables, accounts
