"""The folder on disk: the same bytes again, nobody else reads it, no client in it, it proves what was sent."""

import json
import shutil
import stat
from datetime import date
from pathlib import Path

import pytest
from handover.desk import all_text
from handover.spring import EXPORTS, MARCH_2026, MAY, OF_CLIENTS, again, contents, salon_in
from salons import write_export

from analytics.handover.accountant.command import asked_days
from analytics.handover.accountant.folder import hand_over, verified
from analytics.handover.accountant.pseudonyms import pseudonym, read_key
from analytics.periods import Period
from analytics.salon import open_salon
from analytics.stops import WorkStopped


def test_the_same_book_gives_the_same_bytes_on_another_day_in_another_folder(tmp_path: Path) -> None:
    first = hand_over(salon_in(tmp_path / "one"), MARCH_2026)
    second = hand_over(again(salon_in(tmp_path / "elsewhere" / "two", today="2027-01-31")), MARCH_2026)
    again_there = hand_over(open_salon(tmp_path / "one", date(2029, 1, 1)), MARCH_2026)
    made = contents(first.folder)
    assert made == contents(second.folder) == contents(again_there.folder)
    assert {"summary.xlsx", "statement.pdf", "journal.csv", "journal.beancount", "manifest.json"} <= set(made)
    assert str(tmp_path) not in all_text(made)


def test_files_are_their_owners_alone(tmp_path: Path) -> None:
    written = hand_over(salon_in(tmp_path), MARCH_2026)
    assert {stat.S_IMODE(path.stat().st_mode) for path in written.folder.iterdir()} == {0o600}
    assert stat.S_IMODE(written.folder.stat().st_mode) == stat.S_IMODE(written.folder.parent.stat().st_mode) == 0o700


def test_nothing_of_a_client_leaves(tmp_path: Path) -> None:
    """Names stand in bookings and clients here, and in a row that was set aside."""
    text = all_text(contents(hand_over(salon_in(tmp_path), MARCH_2026).folder))
    assert [word for word in OF_CLIENTS if word in text] == []
    assert "B2" in text and "bookings.csv" in text and "no day of the calendar" in text


def test_clients_leave_under_pseudonyms_where_asked(tmp_path: Path) -> None:
    salon = salon_in(tmp_path / "salon")
    path = tmp_path / "keys" / "own.key"
    key = read_key(path, salon.folder)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert key == read_key(path, salon.folder)
    made = contents(hand_over(salon, MARCH_2026, key=key).folder)
    text = all_text(made)
    assert [word for word in OF_CLIENTS if word in text] == []
    assert pseudonym(key, "", "C-18") in made["differences.csv"].decode()
    assert {pseudonym(key, "", "C-17"), pseudonym(key, "", "C-18")} < set(text.replace(",", "\n").splitlines())
    four = {pseudonym(k, site, "C-17") for k in (key, b"another key") for site in ("North", "South")}
    assert len(four | {pseudonym(key, "North", "C-18")}) == 5
    assert "clients.csv" not in contents(hand_over(salon, MARCH_2026).folder)


def test_a_key_that_others_can_read_or_that_lies_with_the_book_is_refused(tmp_path: Path) -> None:
    with pytest.raises(WorkStopped, match="lies in the salon's folder"):
        read_key(tmp_path / "salon" / "own.key", tmp_path / "salon")
    open_to_all = tmp_path / "own.key"
    open_to_all.write_bytes(b"x" * 32)
    open_to_all.chmod(0o644)
    with pytest.raises(WorkStopped, match="can be read by others"):
        read_key(open_to_all, tmp_path / "salon")
    open_to_all.chmod(0o600)
    open_to_all.write_bytes(b"short")
    with pytest.raises(WorkStopped, match="too short"):
        read_key(open_to_all, tmp_path / "salon")


def test_the_manifest_names_every_export_and_every_file(tmp_path: Path) -> None:
    written = hand_over(salon_in(tmp_path), MARCH_2026)
    record = json.loads((written.folder / "manifest.json").read_text(encoding="utf-8"))
    assert {export["name"] for export in record["exports"]} == {"menu.csv", *EXPORTS}
    assert set(record["files"]) | {"manifest.json"} == {path.name for path in written.folder.iterdir()}
    assert record["period"] == {"name": "2026-03", "from": "2026-03-01", "to": "2026-04-01"}
    assert (record["counts"]["visits"], record["counts"]["clients"], record["counts"]["differences"]) == (2, 2, 1)
    assert record["agrees"] is False
    bookings = next(export for export in record["exports"] if export["name"] == "bookings.csv")
    assert (bookings["rows_read"], bookings["rows_used"], bookings["set_aside"]) == (3, 2, 1)


def test_a_folder_proves_that_it_is_what_was_sent(tmp_path: Path) -> None:
    folder = hand_over(salon_in(tmp_path), MARCH_2026, close_it=True).folder
    sent = tmp_path / "sent" / "to the accountant"
    shutil.copytree(folder, sent)
    assert len(verified(folder)) == len(verified(sent)) == 1
    tax = folder / "tax.csv"
    tax.write_bytes(tax.read_bytes().replace(b"9", b"8"))
    (folder / "tips.csv").unlink()
    (folder / "more.csv").write_text("x")
    assert verified(folder)[1:] == [
        "tax.csv is not the file that was written.",
        "tips.csv is missing.",
        "more.csv was not part of it.",
    ]
    with pytest.raises(WorkStopped, match="no manifest"):
        verified(tmp_path)


def test_exports_that_are_not_in_the_book_yet_stop_the_work(tmp_path: Path) -> None:
    salon = salon_in(tmp_path)
    write_export(tmp_path, "june.csv", MAY.replace("2026-05", "2026-06"))
    with pytest.raises(WorkStopped, match="run salon-figures load"):
        hand_over(salon, MARCH_2026)


def test_what_people_put_in_the_folder_stays_and_what_is_no_longer_written_goes(tmp_path: Path) -> None:
    salon = salon_in(tmp_path / "salon")
    folder = hand_over(salon, MARCH_2026, key=b"k" * 32).folder
    (folder / "letter.txt").write_text("dear accountant")
    hand_over(salon, MARCH_2026)
    assert (folder / "letter.txt").exists()
    assert not (folder / "clients.csv").exists()


def test_the_days_asked_for() -> None:
    assert asked_days("2026-Q3", None, None) == Period(date(2026, 7, 1), date(2026, 10, 1))
    assert asked_days(None, date(2026, 7, 3), date(2026, 7, 9)) == Period(date(2026, 7, 3), date(2026, 7, 9))
    first = date(2026, 7, 3)
    for wrong in ((None, None, None), ("2026", first, None), (None, first, None), (None, first, first)):
        with pytest.raises(WorkStopped):
            asked_days(*wrong)
