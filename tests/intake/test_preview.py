"""How a file would be read, before it is kept."""

import csv
import io
import json
import re
import zipfile
from pathlib import Path

import polars as pl
import pytest
from previewed import DUTCH, NO_PRICE, dropped, everything_in, of_bookings
from salons import BOOKINGS, ONE_VISIT, SETTINGS, load_unchecked, write_export

from analytics.commands.cli import main
from analytics.intake.preview import Counts, TriedFile, try_file
from analytics.intake.separate_process import try_apart
from analytics.settings import read_settings
from analytics.storage.keeping import Chosen, keep_export, with_chosen


def tried(tmp_path: Path, salon: Path, content: str | bytes, name: str = "new.csv") -> TriedFile:
    (one,) = try_file(dropped(tmp_path, content), name, salon, read_settings(salon))
    return one


def test_dutch_headings_and_nothing_written(tmp_path: Path, salon: Path) -> None:
    before = everything_in(salon)
    one = tried(tmp_path, salon, DUTCH, "../boekingen.csv")
    assert (one.name, one.table, one.usable, one.stopped) == ("boekingen.csv", "bookings", True, None)
    matched = {meaning.heading: (meaning.column, meaning.by) for meaning in one.headings}
    assert matched["Behandeling"] == ("service", "word list (Dutch)")
    assert matched["Status"] == ("status", "contract name")
    shown = one.rows.to_dicts()[0]
    assert (shown["starts_at"], shown["price"], shown["status"]) == ("2026-03-13 09:30", "84.50", "completed")
    assert (shown["row"], shown["minutes"]) == (2, "45")
    assert one.counts == Counts(1, 1, 0, 0, 0)
    assert everything_in(salon) == before


def test_counts_are_those_of_a_load(tmp_path: Path, salon: Path) -> None:
    """A repeat, an older state, a new visit and a row that cannot be used, as they come out once the file is there."""
    write_export(salon, "march.csv", BOOKINGS + "B2,1,C2,Chair 1,2026-03-20 10:00,2026-03-20 11:00,completed,S2,30\n")
    later = ONE_VISIT.replace("60.00", "65.00") + (
        "B3,1,C3,Chair 1,2026-04-03 10:00,2026-04-03 11:30,completed,S1,60\n"
        "B2,1,C2,Chair 1,2026-03-20 10:00,2026-03-20 11:00,completed,S2,30\n"
        "B4,1,C4,Chair 1,2026-04-31 10:00,2026-04-31 11:30,completed,S1,60\n"
    )
    one = tried(tmp_path, salon, later, "april.csv")
    assert one.findings["code"].to_list() == ["bad_date"]
    write_export(salon, "april.csv", later)
    row = load_unchecked(salon).files.row(by_predicate=pl.col("file") == "april.csv", named=True)
    assert one.counts == Counts(**{name: row[name] for name in Counts.__dataclass_fields__})
    assert one.counts.rows_read == 4 and one.counts.set_aside == 1


def test_an_overlap_gives_repeats(tmp_path: Path, salon: Path) -> None:
    one = tried(tmp_path, salon, ONE_VISIT + "\n", "zz again.csv")
    counts = one.counts
    assert counts is not None and counts.repeats + counts.rows_used == 1
    assert tried(tmp_path, salon, ONE_VISIT, "bookings.csv").counts == Counts(1, 1, 0, 0, 0)  # there already


def test_a_missing_column_is_carried(tmp_path: Path, salon: Path) -> None:
    one = tried(tmp_path, salon, NO_PRICE)
    assert (one.table, one.missing, one.counts, one.usable) == ("bookings", ("price",), None, False)
    assert one.stopped and "is 'Kassa' (84,50) the price" in one.stopped
    assert {meaning.heading: meaning.column for meaning in one.headings}["Kassa"] is None
    assert one.rows["starts_at"].to_list() == ["2026-03-13 09:30"]
    chosen = with_chosen(read_settings(salon), of_bookings({"Kassa": "price"}))
    (now,) = try_file(dropped(tmp_path, NO_PRICE), "new.csv", salon, chosen)
    assert now.usable and now.rows["price"].to_list() == ["84.50"]


def test_an_open_date_order_is_carried(tmp_path: Path, salon: Path) -> None:
    one = tried(tmp_path, salon, DUTCH.replace("13-3-2026", "3-4-2026"))
    assert one.stopped and "[dates] order" in one.stopped
    assert one.rows.height == 1 and one.table == "bookings"


def test_what_fits_no_table(tmp_path: Path, salon: Path) -> None:
    one = tried(tmp_path, salon, "Wanneer gebeurd;Hoe;Hoe\nx;y;z\n")
    assert (one.table, one.stopped, one.usable) == (None, None, False)
    assert [meaning.column for meaning in one.headings] == [None] * 3
    assert one.rows.to_dicts() == [{"row": 2, "Wanneer gebeurd": "x", "Hoe": "y", "Hoe (3)": "z"}]
    assert one.counts == Counts(1, 0, 0, 0, 1)


def archive(members: dict[str, bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as into:
        for name, content in members.items():
            into.writestr(name, content)
    return packed.getvalue()


@pytest.mark.parametrize(
    ("content", "name", "says"),
    [
        (b"", "x.csv", "empty"),
        (b"\x89PNG\r\n\x1a\n", "x.png", "not a kind of file"),
        (b"PK\x03\x04 and then rubbish", "x.zip", "cannot be read as a zip"),
        (b"PK\x03\x04 and then rubbish", "x.xlsx", "cannot be read as a workbook"),
        (archive({}), "x.zip", "holds no files"),
        (b"a" * (5 * 1024**2), "x.csv", "endless line"),
    ],
)
def test_what_cannot_be_read_is_a_sentence(tmp_path: Path, salon: Path, content: bytes, name: str, says: str) -> None:
    one = tried(tmp_path, salon, content, name)
    assert one.stopped and says in one.stopped and str(tmp_path) not in one.stopped
    assert not one.usable


def test_every_file_of_an_archive(tmp_path: Path, salon: Path) -> None:
    content = archive({"in/one.csv": DUTCH.encode(), "two.csv": b"x;y\n1;2\n"})
    found = try_file(dropped(tmp_path, content), "week.zip", salon, read_settings(salon))
    assert [one.table for one in found] == ["bookings", None]


def test_an_archive_that_leads_out_of_itself_is_refused(tmp_path: Path, salon: Path) -> None:
    content = archive({"../../out.csv": DUTCH.encode(), "in/one.csv": DUTCH.encode()})
    (one,) = try_file(dropped(tmp_path, content), "week.zip", salon, read_settings(salon))
    assert one.stopped and "leads out of the archive" in one.stopped
    assert not (tmp_path / "out.csv").exists()


def test_a_salon_without_exports_yet(tmp_path: Path) -> None:
    (tmp_path / "salon").mkdir()
    (tmp_path / "salon" / "salon.toml").write_text(SETTINGS, "utf-8")
    one = tried(tmp_path, tmp_path / "salon", DUTCH)
    assert one.table == "bookings" and one.stopped is None and one.usable
    assert one.findings.filter(code="menu_drafted").is_empty()  # it is said of no file
    assert keep_export(dropped(tmp_path, DUTCH), "new.csv", tmp_path / "salon", Chosen()).name == "new.csv"


def test_the_command_keeps_nothing(tmp_path: Path, salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = everything_in(salon)
    path = str(dropped(tmp_path, DUTCH, "boekingen.csv"))
    assert main(["try", path, "--salon", str(salon)]) == 0
    said = capsys.readouterr().out
    assert "boekingen.csv was taken for bookings, because all its 8 headings name columns" in said
    assert re.search(r"Behandeling +service +known word \(Dutch\)", said) and "2026-03-13 09:30" in said
    assert main(["try", path, "--salon", str(salon), "--format", "json"]) == 0
    (told,) = json.loads(capsys.readouterr().out)
    assert told["counts"]["rows_used"] == 1 and told["first_rows"][0]["price"] == "84.50"
    assert main(["try", path, "--salon", str(salon), "--format", "csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert rows[4]["heading"] == "Behandeling" and rows[4]["column"] == "service" and rows[4]["rows_used"] == "1"
    assert everything_in(salon) == before


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (NO_PRICE, "is 'Kassa' (84,50) the price"),
        ("a;b\n1;2\n", "fit no table"),
        (DUTCH.replace("Root touch-up", "Perm"), "Every row"),
        (None, "There is no file"),
    ],
)
def test_the_command_where_it_cannot_be_used(
    tmp_path: Path, salon: Path, capsys: pytest.CaptureFixture[str], content: str | None, says: str
) -> None:
    path = tmp_path / "x.csv"
    if content is not None:
        path.write_text(content, "utf-8")
    assert main(["try", str(path), "--salon", str(salon)]) == 1
    told = capsys.readouterr()
    assert says in told.err and told.err.count("\n") == 1
    assert content is None or content.split(";")[0] in told.out


def test_a_process_of_its_own_says_the_same(tmp_path: Path, salon: Path) -> None:
    path, settings = dropped(tmp_path, DUTCH), read_settings(salon)
    (apart,), (here,) = (look(path, "x.csv", salon, settings) for look in (try_apart, try_file))
    assert apart.rows.equals(here.rows)
    assert (apart.headings, apart.counts, apart.stopped) == (here.headings, here.counts, None)
