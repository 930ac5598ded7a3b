"""What whole columns show: ends in the night, midnights, ticks, shares in percent, marks for an empty cell.

Three visits, one over midnight and one until midnight, written as different salons would, are always the same three.
"""

import io
import threading
from datetime import datetime
from pathlib import Path

import polars as pl
import pytest
import xlsxwriter
from dialects.workbooks import write_ods
from salons import ONE_VISIT, SETTINGS, load_unchecked, write_salon

from analytics.intake.cells.values import date_order
from analytics.intake.publishing.report import Report
from analytics.intake.reading.find import Export
from analytics.intake.reading.read_ahead import read_ahead
from analytics.storage.book import read_book

VISITS = [
    ("B1", datetime(2026, 11, 5, 10), datetime(2026, 11, 5, 11, 30)),
    ("B2", datetime(2026, 11, 13, 21, 30), datetime(2026, 11, 14)),
    ("B3", datetime(2026, 11, 28, 23), datetime(2026, 11, 29, 0, 45)),
]
REST = {"client_id": "C1", "chair": "Chair 1", "status": "completed", "service_id": "S1", "price": "60.00"}
DAYS = ("2026-11-05", "2026-11-13", "2026-11-28")
WAYS = {
    "contract": (
        ("starts_at", "ends_at"),
        ("2026-11-05 10:00|2026-11-05 11:30", "2026-11-13 21:30|2026-11-13 24:00", "2026-11-28 23:00|2026-11-29 00:45"),
    ),
    "24:00 after another date": (
        ("Beginn", "Ende"),
        ("Do. 05.11.2026 10:00|Do. 05.11.2026 11:30", "Fr. 13.11.2026 21:30|Fr. 13.11.2026 24:00",
         "Sa. 28.11.2026 23:00|So. 29.11.2026 00:45"),
    ),
    "24h, in French": (
        ("Début", "Fin"),
        ("5 nov. 2026 10h|5 nov. 2026 11h30", "13 nov. 2026 21h30|13 nov. 2026 24h",
         "28 nov. 2026 23h|29 nov. 2026 0h45"),
    ),
    "a day and two times": (
        ("Datum", "Begintijd", "Eindtijd"),
        ("5-11-26|10.00 uur|11.30 uur", "13-11-26|21.30 uur|0.00 uur", "28-11-26|23.00 uur|0.45 uur"),
    ),
    "a day called Tag and twelve hours": (
        ("Tag", "von", "bis"),
        ("5-Nov-2026|10:00 AM|11:30 AM", "13-Nov-2026|9:30 PM|12:00 AM", "28-Nov-2026|11:00 PM|12:45 AM"),
    ),
    "ends as times alone": (
        ("Inicio", "Fin"),
        ("05/11/2026 10:00|11:30", "13/11/2026 21:30|24:00", "28/11/2026 23:00|0:45"),
    ),
    "serials, one of them whole": (
        ("Start", "End"),
        ("46331.4166667|46331.4791667", "46339.8958333|46340", "46354.9583333|46355.03125"),
    ),
    "moments that say their zone": (
        ("Start", "End"),
        ("2026-11-05T10:00:00+01:00|2026-11-05T10:30Z", "2026-11-13T20:30:00Z|2026-11-14T00:00:00.000+01:00",
         "2026-11-28T23:00+01:00|2026-11-28T23:45:00Z"),
    ),
    "two-digit years in a few rows": (
        ("Inizio", "Durata"),
        ("05/11/26 10:00|1h30", "13/11/26 21:30|2 h 30", "28/11/26 23:00|1 ora 45 min"),
    ),
}  # fmt: skip


def as_csv(headings: tuple[str, ...], visits: tuple[str, ...]) -> str:
    lines = [";".join(["booking_id", *REST, *headings])]
    lines += [";".join([f"B{at}", *REST.values(), *visit.split("|")]) for at, visit in enumerate(visits, 1)]
    return "\n".join(lines) + "\n"


def stays(folder: Path) -> list[tuple[str, datetime, datetime]]:
    bookings = read_book(folder).tables["bookings"].sort("booking_id")
    ends = pl.coalesce("ends_at", pl.col("starts_at") + pl.duration(minutes=pl.col("minutes").cast(pl.Int64)))
    return bookings.select("booking_id", "starts_at", ends).rows()


@pytest.mark.parametrize("way", WAYS)
def test_the_same_visits_however_they_are_written(tmp_path: Path, way: str) -> None:
    settings = SETTINGS + ('[dates]\norder = "dmy"\n' if "few rows" in way else "")
    report = load_unchecked(write_salon(tmp_path, {"bookings.csv": as_csv(*WAYS[way])}, settings))
    assert report.findings.is_empty()
    assert stays(tmp_path) == VISITS


def typed_rows(apart: bool) -> list[list[object]]:
    """Headings and visits as typed cells: days and times apart, or moments."""
    headings = ["Datum", "Begintijd", "Eindtijd"] if apart else ["Begin", "Einde"]
    rows: list[list[object]] = [["booking_id", *REST, *headings]]
    for visit, starts, ends in VISITS:
        cells = [starts.date(), starts.time(), ends.time()] if apart else [starts, ends]
        rows.append([visit, *REST.values(), *cells])
    return rows


@pytest.mark.parametrize("apart", [True, False], ids=["days and times apart", "moments"])
@pytest.mark.parametrize("kind", ["1900 system", "1904 system", "ods"])
def test_typed_days_and_times_of_workbooks(tmp_path: Path, kind: str, apart: bool) -> None:
    """Also in the date system that begins in 1904, in which the same cell holds a number smaller by 1462."""
    if kind == "ods":
        write_ods(tmp_path / "made.ods", {"Afspraken": typed_rows(apart)})
        name, content = "Afspraken.ods", (tmp_path / "made.ods").read_bytes()
    else:
        name, content = "Afspraken.xlsx", xlsx(typed_rows(apart), date_1904=kind == "1904 system")
    folder = write_salon(tmp_path / "salon", {name: content})
    (folder / "exports" / "bookings.csv").unlink()
    assert set(load_unchecked(folder).findings["code"]) <= {"hidden_sheet"}
    assert stays(folder) == VISITS


def xlsx(rows: list[list[object]], date_1904: bool) -> bytes:
    content = io.BytesIO()
    with xlsxwriter.Workbook(content, {"in_memory": True, "date_1904": date_1904}) as made:
        sheet = made.add_worksheet("Afspraken")
        formats = {kind: made.add_format({"num_format": shown}) for kind, shown in SHOWN.items()}
        for place, cells in enumerate(rows):
            for at, cell in enumerate(cells):
                sheet.write(place, at, cell, formats.get(type(cell).__name__))
    return content.getvalue()


SHOWN = {"datetime": "d-m-yyyy hh:mm", "date": "d-mmm-yy", "time": "hh:mm"}


@pytest.mark.parametrize("end", ["13:00", "9:59"])
def test_an_end_before_its_start_by_day_remains_a_slip(tmp_path: Path, end: str) -> None:
    """14:00 to 13:00 would be a stay of 23 hours, 10:00 to 9:59 of nearly a day."""
    text = as_csv(("Datum", "Begintijd", "Eindtijd"), (f"{DAYS[0]}|14:00|{end}",))
    report = load_unchecked(write_salon(tmp_path, {"bookings.csv": text}))
    assert report.findings["code"].to_list() == ["end_before_start"]


CLIENTS = "client_id;Klant;Mag benaderd worden;Grijs %;Huidtest\n"


def clients(folder: Path, rows: str) -> tuple[Report, pl.DataFrame]:
    report = load_unchecked(write_salon(folder, {"klanten.csv": CLIENTS + rows}))
    return report, read_book(folder).tables["clients"].sort("client_id")


@pytest.mark.parametrize(
    ("yes", "no"), [("x", ""), ("X", "-"), ("✓", ""), ("1", "0"), ("ja", "nee"), ("true", "false")]
)
def test_ticks_and_ones_are_yes(tmp_path: Path, yes: str, no: str) -> None:
    _, read = clients(tmp_path, f"C1;A;{yes};;\nC2;B;{no};;\nC3;C;{yes};;\n")
    assert read["may_contact"].to_list() == [True, False, True]


def test_a_cross_among_other_words_is_not_taken_for_a_yes(tmp_path: Path) -> None:
    """Beside "ja" it may as well be a cross for no: the row is set aside, as nobody may be written to by a guess."""
    report, read = clients(tmp_path, "C1;A;ja;;\nC2;B;x;;\n")
    assert report.findings.select("code", "value").rows() == [("unknown_word", "x")]
    assert read["client_id"].to_list() == ["C1"]


@pytest.mark.parametrize(
    ("typed", "shares", "said"),
    [
        (("0", "25", "100"), [0.0, 0.25, 1.0], ["share_as_percent"]),
        (("0 %", "25 %", "100 %"), [0.0, 0.25, 1.0], []),
        (("0", "0,25", "1"), [0.0, 0.25, 1.0], []),
        (("0,5", "25", "1"), [0.5, 25.0, 1.0], []),  # they contradict each other: used as typed, and out of range
    ],
)
def test_a_share_of_grey_in_percent(
    tmp_path: Path, typed: tuple[str, ...], shares: list[float], said: list[str]
) -> None:
    rows = "".join(f"C{at};A{at};;{share};\n" for at, share in enumerate(typed))
    report, read = clients(tmp_path, rows)
    assert read["grey_share"].to_list() == shares
    assert report.findings["code"].to_list() == said


@pytest.mark.parametrize("mark", ["-", "–", "n/a", "NULL", "n.v.t.", "k. A."])
def test_a_mark_for_nothing_is_an_empty_cell_and_is_said(tmp_path: Path, mark: str) -> None:
    report, read = clients(tmp_path, f"C1;A;;50 %;{mark}\nC2;B;;{mark};14-03-2026\nC3;C;;10 %;{mark}\n")
    assert read["grey_share"].to_list() == [0.5, None, 0.1]
    assert read["patch_tested_on"].is_null().to_list() == [True, False, True]
    found = report.findings.sort("column").select("code", "column", "value", "count").rows()
    assert found == [("read_as_nothing", "grey_share", mark, 1), ("read_as_nothing", "patch_tested_on", mark, 2)]


def test_a_mark_for_nothing_where_something_is_needed_is_set_aside(tmp_path: Path) -> None:
    report = load_unchecked(write_salon(tmp_path, {"bookings.csv": ONE_VISIT.replace("60.00", "-")}))
    assert report.findings.select("code", "column", "value").rows() == [("bad_number", "price", "-")]


@pytest.mark.parametrize(
    ("texts", "decided"),
    [
        (["17/01/26", "23/01/26", "04/02/26"], "dmy"),
        (["26-01-17", "26-01-23", "26-02-04"], "ymd"),
        (["13/02/26", "01/03/26", "31/08/27", "17/03/26"], "dmy"),
        (["24-01-01", "25-01-01", "26-01-01"], None),  # new prices on every 1st of January, or three days of 2001
        (["01-01-24", "01-07-25", "01-01-26"], None),
        (["16/03/26", "17/03/26"], None),
        (["16/03/26", "17/03/26", "18/03/26"], None),  # one month: three days of it, or the 26th of three years
    ],
)
def test_a_few_dates_tell_the_year_where_they_can(texts: list[str], decided: str | None) -> None:
    assert date_order(texts).decided == decided


def tables(folder: Path) -> dict[str, list[tuple[object, ...]]]:
    return {name: frame.sort(pl.all()).rows() for name, frame in read_book(folder).tables.items()}


def test_files_dropped_in_in_any_order_give_the_same_book(tmp_path: Path) -> None:
    """Written one after the other forwards and backwards, over months, tables and kinds of file."""
    months = [ONE_VISIT.replace("B1", f"B{month}").replace("2026-03", f"2026-{month:02}") for month in range(1, 7)]
    exports: dict[str, str | bytes] = {f"bookings-{at}.csv": text for at, text in enumerate(months)}
    exports |= {"klanten.csv": CLIENTS + "C1;A;ja;25 %;14-03-2026\n", "again.csv": months[0] + months[1].split("\n")[1]}
    exports["Afspraken.xlsx"] = xlsx(typed_rows(apart=False), date_1904=False)
    books = []
    for name, names in (("forwards", [*exports]), ("backwards", [*reversed(exports)])):
        folder = write_salon(tmp_path / name, {one: exports[one] for one in names})
        report = load_unchecked(folder)
        books.append((tables(folder), report.files.sort("file").rows(), report.findings.rows()))
    assert books[0] == books[1]
    assert [row[0] for row in books[0][0]["bookings"]] == [f"B{at}" for at in range(1, 7)]


def test_a_slow_first_file_changes_nothing_and_what_fails_is_raised_in_its_turn(tmp_path: Path) -> None:
    """The first export is read only after the second was: their order stays, and so does that of a failure."""
    exports = [Export(name, tmp_path / name) for name in ("first", "second", "third")]
    for export in exports:
        export.path.write_text(export.name)
    second_is_read = threading.Event()

    def read(export: Export) -> str:
        if export.name == "first":
            assert second_is_read.wait(10)
        if export.name == "second":
            second_is_read.set()
        if export.name == "third":
            raise ValueError(export.name)
        return export.path.read_text()

    answers = read_ahead(exports, read)
    assert [next(answers), next(answers)] == ["first", "second"]
    with pytest.raises(ValueError, match="third"):
        next(answers)
