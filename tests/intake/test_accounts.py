"""Rows used, repeats, older states and set-aside rows of exports that overlap."""

from collections.abc import Sequence
from itertools import permutations
from pathlib import Path

import pytest
from accounted import BOWL, LOG, accounts, line
from salons import BOOKINGS, load_unchecked, write_salon

from analytics.storage.book import read_book


def table(folder: Path, name: str, columns: str) -> list[tuple[object, ...]]:
    """These columns of a loaded table, sorted."""
    return sorted(read_book(folder).tables[name].select(columns.split()).rows(), key=repr)


def test_the_same_row_in_two_files_is_a_repeat(tmp_path: Path) -> None:
    exports = {
        "bookings.csv": BOOKINGS + line("B1", 1, "2026-03-03"),
        "bookings week 10.csv": BOOKINGS + line("B1", 1, "2026-03-03") + line("B2", 1, "2026-03-04"),
    }
    assert accounts(write_salon(tmp_path, exports)) == {
        "bookings.csv": (1, 0, 1, 0, 0),
        "bookings week 10.csv": (2, 2, 0, 0, 0),
        "menu.csv": (2, 2, 0, 0, 0),
    }


def test_booked_then_completed_then_refunded_over_three_exports(tmp_path: Path) -> None:
    """Only the last state counts; a row that says the same as an earlier state is superseded, not a repeat."""
    exports = {
        "bookings.csv": BOOKINGS + line("B1", 1, "2026-03-03", "booked"),
        "week 10.csv": BOOKINGS + line("B1", 1, "2026-03-03") + line("B2", 1, "2026-03-04"),
        "week 11.csv": BOOKINGS + line("B1", 1, "2026-03-03", price="0.00") + line("B3", 1, "2026-03-10"),
    }
    counts = accounts(write_salon(tmp_path, exports))
    assert counts["bookings.csv"] == (1, 0, 0, 1, 0)
    assert counts["week 10.csv"] == (2, 1, 0, 1, 0)
    assert counts["week 11.csv"] == (2, 2, 0, 0, 0)
    prices = [f"{visit} {price:.2f}" for visit, price in table(tmp_path, "bookings", "booking_id price")]
    assert prices == ["B1 0.00", "B2 60.00", "B3 60.00"]


def test_a_cancelled_visit_that_disappears_stays_as_it_was_last_seen_and_earns_nothing(tmp_path: Path) -> None:
    """The newer export leaves the cancelled visit out: its last known state is kept, and it is no revenue."""
    exports = {
        "bookings.csv": BOOKINGS + line("B1", 1, "2026-03-12", "booked") + line("B2", 1, "2026-03-04"),
        "week 11.csv": BOOKINGS + line("B2", 1, "2026-03-04") + line("B3", 1, "2026-03-13"),
    }
    counts = accounts(write_salon(tmp_path, exports))
    assert (counts["bookings.csv"], counts["week 11.csv"]) == ((2, 1, 1, 0, 0), (2, 2, 0, 0, 0))
    states = table(tmp_path, "bookings", "booking_id status")
    assert states == [("B1", "booked"), ("B2", "completed"), ("B3", "completed")]


def test_monthly_files_that_overlap_by_a_week_count_each_visit_once(tmp_path: Path) -> None:
    """The week in both files is a repeat where nothing changed and an older state where a price did."""
    march = [line(f"B{day}", 1, f"2026-03-{day}") for day in (24, 26, 31)]
    april = [line("B26", 1, "2026-03-26"), line("B31", 1, "2026-03-31", price="65.00"), line("B40", 1, "2026-04-02")]
    exports = {"bookings.csv": BOOKINGS + "".join(march), "april.csv": BOOKINGS + "".join(april)}
    counts = accounts(write_salon(tmp_path, exports))
    assert (counts["bookings.csv"], counts["april.csv"]) == ((3, 1, 1, 1, 0), (3, 3, 0, 0, 0))
    assert sum(price for _, price in table(tmp_path, "bookings", "booking_id price")) == 60 + 60 + 65 + 60


def test_a_visit_edited_from_three_lines_to_two_is_superseded_whole(tmp_path: Path) -> None:
    exports = {
        "bookings.csv": BOOKINGS
        + line("B1", 1, "2026-03-03")
        + line("B1", 2, "2026-03-03", price="20.00")
        + line("B1", 3, "2026-03-03", price="15.00"),
        "edited.csv": BOOKINGS
        + line("B1", 1, "2026-03-03")
        + line("B1", 2, "2026-03-03", price="25.00")
        + line("B2", 1, "2026-03-04"),
    }
    counts = accounts(write_salon(tmp_path, exports))
    assert counts["bookings.csv"] == (3, 0, 1, 2, 0)
    assert counts["edited.csv"] == (3, 3, 0, 0, 0)
    assert [row[:2] for row in table(tmp_path, "bookings", "booking_id line")] == [("B1", 1), ("B1", 2), ("B2", 1)]


def test_the_same_file_under_two_names_counts_once(tmp_path: Path) -> None:
    """Bookings, bowls and clients alike: the one later by name is used, the other is all repeats."""
    text = {
        "bookings": BOOKINGS + line("B1", 1, "2026-03-03") + line("B2", 1, "2026-03-04"),
        "log": LOG + BOWL + BOWL,
        "clients": "client_id,client\nC1,Ilse Proef\nC2,Bram Proef\n",
    }
    exports = {f"{name} {copy}.csv": text[name] for name in text for copy in "ab"}
    counts = accounts(write_salon(tmp_path, exports | {"bookings.csv": BOOKINGS}))
    for name in text:
        assert counts[f"{name} a.csv"] == (2, 0, 2, 0, 0)
        assert counts[f"{name} b.csv"] == (2, 2, 0, 0, 0)


def test_the_file_that_reaches_furthest_in_time_wins_whatever_its_name(tmp_path: Path) -> None:
    exports = {
        "bookings.csv": BOOKINGS,
        "a reaches further.csv": BOOKINGS + line("B1", 1, "2026-03-03", price="70.00") + line("B2", 1, "2026-03-20"),
        "z older.csv": BOOKINGS + line("B1", 1, "2026-03-03", price="60.00"),
    }
    counts = accounts(write_salon(tmp_path, exports))
    assert counts["a reaches further.csv"] == (2, 2, 0, 0, 0)
    assert counts["z older.csv"] == (1, 0, 0, 1, 0)


def test_a_row_that_is_set_aside_does_not_make_its_file_the_newer_one(tmp_path: Path) -> None:
    """A slip in the year of an unusable row would let an old export win over every later one."""
    slip = line("B9", 1, "2062-03-03", "perhaps")
    exports = {
        "bookings.csv": BOOKINGS + line("B1", 1, "2026-03-03", "booked") + slip,
        "later.csv": BOOKINGS + line("B1", 1, "2026-03-03", "cancelled") + line("B2", 1, "2026-03-10"),
    }
    assert accounts(write_salon(tmp_path, exports))["later.csv"] == (2, 2, 0, 0, 0)


@pytest.mark.parametrize("names", list(permutations(["b 1.csv", "b 2.csv", "sub/b 3.csv"])))
def test_on_a_tie_the_file_later_by_name_wins(tmp_path: Path, names: Sequence[str]) -> None:
    """Three states of one visit on one day; the order in which the files were dropped in says nothing."""
    states = {name: BOOKINGS + line("B1", 1, "2026-03-03", price=f"{name[-5]}.00") for name in names}
    write_salon(tmp_path, {"bookings.csv": BOOKINGS} | states)
    load_unchecked(tmp_path)
    assert [f"{price:.2f}" for (price,) in table(tmp_path, "bookings", "price")] == ["3.00"]


@pytest.mark.parametrize(
    ("files", "used", "repeats"),
    [
        ([2], 2, 0),  # the same bowl logged twice for real
        ([1, 1], 1, 1),  # exports that overlap
        ([2, 2], 2, 2),  # twice for real, in two exports that overlap
        ([1, 2], 2, 1),
        ([3, 1, 2], 3, 3),
    ],
)
def test_a_row_without_a_key_counts_as_often_as_in_one_file(
    tmp_path: Path, files: list[int], used: int, repeats: int
) -> None:
    write_salon(tmp_path, {f"log {number}.csv": LOG + BOWL * times for number, times in enumerate(files)})
    counts = [row for file, row in accounts(tmp_path).items() if file.startswith("log")]
    assert sum(row[1] for row in counts) == used == len(table(tmp_path, "product_log", "row"))
    assert sum(row[2] for row in counts) == repeats


def test_rows_without_a_key_that_differ_in_one_cell_are_all_used(tmp_path: Path) -> None:
    """Also where their texts run into each other, or a word looks like an empty cell."""
    bowls = [",Mirre", ",NULL", ",", '"B1, Mirre",', "'B1',Mirre", "B1,'Mirre'"]
    rows = "".join(f"2026-03-03 10:10,{bowl},P1,30\n" for bowl in bowls)
    counts = accounts(write_salon(tmp_path, {"log.csv": LOG + rows}))
    assert counts["log.csv"] == (6, 6, 0, 0, 0)


def test_services_products_and_clients_are_superseded_by_key(tmp_path: Path) -> None:
    """A new start of validity is a row of its own; the same start with another price supersedes."""
    menu = "service_id,service,kind,price,tax_rate,hands_on_min,valid_from\n"
    products = "product_id,product,kind,pack_g,pack_cost,valid_from\n"
    clients = "client_id,client,patch_tested_on\n"
    exports = {
        "menu.csv": menu + "S1,Roots,root_touch_up,60,21,45,2025-01-01\n",
        "menu 2026.csv": menu
        + "S1,Roots,root_touch_up,62,21,45,2025-01-01\nS1,Roots,root_touch_up,66,21,45,2026-01-01\n",
        "products.csv": products + "P1,Colour 5.0,colour,60,10.20,2025-01-01\n",
        "products 2026.csv": products
        + "P1,Colour 5.0,colour,60,10.20,2025-01-01\nP1,Colour 5.0,colour,60,11.40,2026-01-01\n",
        "clients.csv": clients + "C1,Ilse Proef,2026-01-05\nC2,Bram Proef,\n",
        "clients later.csv": clients + "C1,Ilse Proef,2026-02-05\n",
    }
    counts = accounts(write_salon(tmp_path, exports))
    assert counts["menu.csv"] == (1, 0, 0, 1, 0) and counts["menu 2026.csv"] == (2, 2, 0, 0, 0)
    assert counts["products.csv"] == (1, 0, 1, 0, 0) and counts["products 2026.csv"] == (2, 2, 0, 0, 0)
    assert counts["clients.csv"] == (2, 1, 0, 1, 0) and counts["clients later.csv"] == (1, 1, 0, 0, 0)


def test_a_salon_of_a_group_keeps_its_own_visits(tmp_path: Path) -> None:
    """The same booking_id at two sites is two visits."""
    head = BOOKINGS.strip() + ",site\n"
    row = line("B1", 1, "2026-03-03").strip()
    counts = accounts(write_salon(tmp_path, {"bookings.csv": f"{head}{row},North\n{row},South\n"}))
    assert counts["bookings.csv"] == (2, 2, 0, 0, 0)


def test_lines_without_numbers_that_say_the_same_all_count_and_are_found(tmp_path: Path) -> None:
    """Two cuts in one visit may be two cuts; an older export of the same two is repeats."""
    head = "booking_id,client_id,chair,starts_at,ends_at,status,service_id,price\n"
    row = "B1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    report = load_unchecked(write_salon(tmp_path, {"bookings.csv": head + row, "later.csv": head + row + row}))
    counts = report.files.filter(table="bookings").select("file", "rows_used", "repeats").rows()
    assert counts == [("bookings.csv", 0, 1), ("later.csv", 2, 0)]
    assert report.findings.select("code", "file", "row").rows() == [("same_line_twice", "later.csv", 3)]
    assert table(tmp_path, "bookings", "line row") == [(1, 2), (2, 3)]


def test_a_set_aside_row_is_not_counted_and_kept_as_typed(tmp_path: Path) -> None:
    bad = line("B2", 1, "2026-03-04", price=" forty ")
    counts = accounts(write_salon(tmp_path, {"bookings.csv": BOOKINGS + line("B1", 1, "2026-03-03") + bad}))
    assert counts["bookings.csv"] == (2, 1, 0, 0, 1)
    kept = read_book(tmp_path).set_aside.row(0, named=True)
    assert (kept["file"], kept["row"], kept["code"], kept["column"]) == ("bookings.csv", 3, "bad_number", "price")
    assert '"price": " forty "' in kept["cells"] and '"booking_id": "B2"' in kept["cells"]


def test_many_faults_of_one_cause_are_one_finding_with_a_count(tmp_path: Path) -> None:
    """The same word three times is one cause; thirty different dates that are none are one cause."""
    same_word = "".join(line(f"B{number}", 1, "2026-03-03", "perhaps") for number in range(3))
    bad_days = "".join(line(f"D{number}", 1, f"day {number}") for number in range(30))
    report = load_unchecked(write_salon(tmp_path, {"bookings.csv": BOOKINGS + same_word + bad_days}))
    assert report.findings.select("code", "row", "count", "rows").rows() == [
        ("unknown_word", 2, 3, "2, 3, 4"),
        ("bad_date", 5, 30, "5, 6, 7, 8, 9"),
    ]
