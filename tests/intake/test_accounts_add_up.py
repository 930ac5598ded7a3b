"""Whatever the exports: accounts add up, and order, folders and copies change nothing."""

import csv
import io
import tempfile
from collections import Counter
from pathlib import Path

import polars as pl
import pytest
from accounted import BOWL, LOG, accounts, line
from hypothesis import given, settings
from hypothesis import strategies as st
from polars.testing import assert_frame_equal
from salons import BOOKINGS, MENU, load_unchecked, write_export, write_salon

from analytics.definitions.tables import TABLES
from analytics.intake.publishing import row_states
from analytics.storage.book import read_book

LATER_BOWL = "2026-03-09 10:10,B7,Mirre,P1,30\n"


# Small exports at random: visits and bowls over three files, some rows unusable, some no rows at all.
DAYS = st.sampled_from(["2026-03-03", "2026-03-04", "2026-03-10", "2026-02-30"])


LINES = st.builds(
    line,
    st.sampled_from(["B1", "B2", "B3", ""]),
    st.sampled_from([1, 2]),
    DAYS,
    st.sampled_from(["completed", "booked", "perhaps"]),
    st.sampled_from(["60.00", "20,5", "forty"]),
)


BOWLS = st.builds(lambda day, grams: f"{day},B1,Mirre,P1,{grams}\n", DAYS, st.sampled_from(["30", "31", "x"]))


ODD = ["\n", "Total,,,,1\n", "too,few\n"]


def files_of(heading: str, rows: st.SearchStrategy[str]) -> st.SearchStrategy[list[str]]:
    odd = st.sampled_from([*ODD, heading])  # the heading of another table begins that table
    one = st.lists(st.one_of(rows, rows, rows, odd), max_size=6).map(lambda texts: heading + "".join(texts))
    return st.lists(one, min_size=1, max_size=3)


def usable(text: str, columns: int) -> list[tuple[str, ...]]:
    """What of a file can be used, told apart by plain string work."""
    rows = [tuple(cells) for cells in csv.reader(io.StringIO(text)) if any(cells)][1:]
    bad = ("2026-02-30", "x", "forty", "perhaps", "Total", "too", "logged_at", "booking_id")
    return [row for row in rows if len(row) == columns and row[0] and not any(cell.startswith(bad) for cell in row)]


@settings(max_examples=8, deadline=None)
@given(visits=files_of(BOOKINGS, LINES), logs=files_of(LOG, BOWLS))
def test_any_exports_add_up_and_load_the_same_twice(visits: list[str], logs: list[str]) -> None:
    exports = {f"bookings {number}.csv": text for number, text in enumerate(visits)}
    exports |= {f"product_log {number}.csv": text for number, text in enumerate(logs)}
    with tempfile.TemporaryDirectory() as name:
        folder = write_salon(Path(name), {"bookings.csv": BOOKINGS, **exports})
        counts = accounts(folder)
        first = read_book(folder)
        for file, text in exports.items():
            read, used, repeats, superseded, aside = counts[file]
            columns = 9 if file.startswith("bookings") else 5
            assert read == len([row for row in csv.reader(io.StringIO(text)) if any(row)]) - 1
            assert aside == read - len(usable(text, columns))
            assert read == used + repeats + superseded + aside
        for table_name in ("bookings", "product_log"):
            used_rows = sum(row[1] for file, row in counts.items() if file.startswith(table_name))
            assert used_rows == first.tables[table_name].height
        most = Counter[tuple[str, ...]]()
        for text in logs:
            most |= Counter(usable(text, 5))
        assert first.tables["product_log"].height == most.total()
        files_per_visit = first.tables["bookings"].group_by("booking_id").agg(pl.col("file").n_unique())
        assert files_per_visit["file"].to_list() == [1] * files_per_visit.height
        load_unchecked(folder)
        second = read_book(folder)
        for table_name in TABLES:
            assert_frame_equal(first.tables[table_name], second.tables[table_name])
        assert_frame_equal(first.findings, second.findings)


@pytest.fixture(scope="module")
def three_exports() -> dict[str, str]:
    """Exports of three weeks that overlap, each reaching further than the one before."""
    return {
        "week 1.csv": BOOKINGS + line("B1", 1, "2026-03-03") + line("B2", 1, "2026-03-10", "booked"),
        "week 2.csv": BOOKINGS + line("B2", 1, "2026-03-10") + line("B3", 1, "2026-03-17", "booked"),
        "week 3.csv": BOOKINGS + line("B3", 1, "2026-03-17", "cancelled") + line("B4", 1, "2026-03-24", "booked"),
        "log 1.csv": LOG + BOWL + BOWL,
        "log 2.csv": LOG + BOWL + LATER_BOWL,
    }


def test_many_rows_are_looked_up_in_portions(
    tmp_path: Path, three_exports: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Names of services and products, looked up sheet by sheet, come out as from all sheets at once."""
    said = {"week 1.csv": "Root touch-up", "week 2.csv": "Cut", "week 3.csv": "Cut"}
    by_name = {
        name: three_exports[name].replace("service_id", "service").replace(",S1,", f",{service},")
        for name, service in said.items()
    }
    expected = loaded(tmp_path / "at once", by_name)
    monkeypatch.setattr(row_states, "ROWS_AT_ONCE", 1)
    for name, frame in loaded(tmp_path / "in portions", by_name).items():
        assert_frame_equal(frame, expected[name])
    assert expected["bookings"]["service_id"].to_list() == ["S1", "S2", "S2", "S2"]


def loaded(folder: Path, exports: dict[str, str]) -> dict[str, pl.DataFrame]:
    """The tables without where their rows came from, in an order that does not depend on it."""
    (folder / "exports").mkdir(parents=True)
    (folder / "salon.toml").write_text('[salon]\nname = "Salon Proefdraad (invented)"\n', encoding="utf-8")
    for name, text in {**exports, "menu.csv": MENU}.items():
        write_export(folder, name, text)
    load_unchecked(folder)
    tables = read_book(folder).tables
    return {name: frame.drop("file", "row").sort(pl.all()) for name, frame in tables.items()}


def test_order_folders_names_and_copies_change_nothing(tmp_path: Path, three_exports: dict[str, str]) -> None:
    expected = loaded(tmp_path / "as exported", three_exports)
    variants = {
        "dropped in the other way round": dict(reversed(three_exports.items())),
        "in folders": {f"{2026 - number}/{name}": text for number, (name, text) in enumerate(three_exports.items())},
        "renamed": {f"{9 - number} export.csv": text for number, text in enumerate(three_exports.values())},
        "with copies": three_exports | {f"copy of {name}": text for name, text in three_exports.items()},
    }
    for variant, exports in variants.items():
        for name, frame in loaded(tmp_path / variant, exports).items():
            assert_frame_equal(frame, expected[name])
    assert expected["bookings"]["status"].to_list() == ["completed", "completed", "cancelled", "booked"]
