"""What became of the exports, added up by hand."""

import polars as pl

from analytics.definitions.findings import CATALOGUE
from analytics.records.loaded import findings_by_cause, rows_by_table

ASIDE = next(code for code, fault in CATALOGUE.items() if fault.sets_aside)
USED = next(code for code, fault in CATALOGUE.items() if not fault.sets_aside)


def test_every_row_read_is_used_or_one_of_three_things() -> None:
    files = pl.DataFrame(
        {
            "table": ["bookings", "sales", "bookings"],
            "rows_read": [10, 4, 20],
            "rows_used": [7, 4, 15],
            "repeats": [1, 0, 2],
            "superseded": [1, 0, 3],
            "set_aside": [1, 0, 0],
        }
    )
    assert rows_by_table(files).rows() == [("bookings", 30, 22, 3, 4, 1), ("sales", 4, 4, 0, 0, 0)]
    assert rows_by_table(files.clear()).is_empty()


def test_findings_of_one_cause_are_one_and_what_was_set_aside_comes_first() -> None:
    rows = [
        {"code": code, "file": file, "column": column, "message": message, "what_to_do": "Look.", "count": count}
        for code, file, column, message, count in (
            (USED, "a.csv", "price", "first", 2),
            (USED, "b.csv", "price", "second", 3),
            (USED, "b.csv", "tip", "another column", 1),
            (ASIDE, "a.csv", "day", "set aside", 4),
        )
    ]
    found = findings_by_cause(pl.DataFrame(rows)).select("message", "count", "files").rows()
    assert found == [("set aside", 4, 1), ("first", 5, 2), ("another column", 1, 1)]
