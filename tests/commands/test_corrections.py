"""Rows set aside are written out, corrected and dropped back in; the corrected row takes the old one's place."""

import csv
from pathlib import Path

from salons import BOOKINGS, load_unchecked, write_salon

from analytics.commands.corrections import write_corrections
from analytics.storage.book import read_book

ROW = "{0},1,{1},Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,{2}\n"
SECOND = "B1,2,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,20.00\n"


def correct(path: Path, heading: str, value: str, exports: Path) -> None:
    """What a person does in a spreadsheet: change one cell, save the file among the exports."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        row[heading] = value
    with (exports / path.name).open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows(rows)


def test_a_corrected_row_takes_the_place_of_the_row_set_aside(tmp_path: Path) -> None:
    """The visit has a good line and a bad one; after the correction both are there, and every row has its place."""
    salon = write_salon(tmp_path / "salon", {"bookings.csv": BOOKINGS + ROW.format("B1", "C1", "sixty") + SECOND})
    assert load_unchecked(salon).files.filter(file="bookings.csv")["set_aside"].to_list() == [1]
    (written,) = write_corrections(read_book(salon), tmp_path / "out")
    correct(written, "price", "60.00", salon / "exports")
    report = load_unchecked(salon)
    counts = report.files.select("file", "rows_read", "rows_used", "superseded", "set_aside").rows()
    assert ("bookings.csv", 2, 1, 1, 0) in counts and (written.name, 1, 1, 0, 0) in counts
    assert report.findings.is_empty()
    assert sorted(read_book(salon).tables["bookings"]["price"].cast(float).to_list()) == [20.0, 60.0]


def test_a_correction_is_older_than_what_a_later_export_says(tmp_path: Path) -> None:
    """It stands where the row it corrects stood, so a newer state of the visit still wins."""
    later = ROW.format("B1", "C1", "75.00") + ROW.format("B2", "C2", "10.00").replace("2026-03-03", "2026-05-05")
    files = {"a.csv": BOOKINGS + ROW.format("B1", "C1", "sixty"), "b.csv": BOOKINGS + later}
    salon = write_salon(tmp_path / "salon", files)
    load_unchecked(salon)
    (written,) = write_corrections(read_book(salon), tmp_path / "out")
    correct(written, "price", "60.00", salon / "exports")
    load_unchecked(salon)
    assert sorted(read_book(salon).tables["bookings"]["price"].cast(float).to_list()) == [10.0, 75.0]


def test_a_row_still_wrong_stays_set_aside(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon", {"bookings.csv": BOOKINGS + ROW.format("B1", "C1", "sixty")})
    load_unchecked(salon)
    (written,) = write_corrections(read_book(salon), tmp_path / "out")
    correct(written, "price", "seventy", salon / "exports")
    report = load_unchecked(salon)
    assert dict(report.files.select("file", "set_aside").iter_rows())["bookings.csv"] == 1
    assert report.findings.height == 2


def test_what_could_start_a_formula_comes_back_as_it_was(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "salon", {"bookings.csv": BOOKINGS + ROW.format("B1", "=C1", "sixty")})
    load_unchecked(salon)
    (written,) = write_corrections(read_book(salon), tmp_path / "out")
    assert "'=C1" in written.read_text(encoding="utf-8")
    correct(written, "price", "-60.00", salon / "exports")
    load_unchecked(salon)
    bookings = read_book(salon).tables["bookings"]
    assert bookings.select("client_id").item() == "=C1" and float(bookings["price"].item()) == -60.0
