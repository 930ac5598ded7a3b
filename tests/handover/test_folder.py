"""The folder on disk: the same bytes again, nobody else reads it, no client in it, closed periods stay."""

import itertools
import json
import shutil
import stat
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from handover.desk import all_text
from salons import load_unchecked, write_export, write_salon

from analytics.commands.shared import finish_stopped
from analytics.handover.accountant.closed_periods import read_closed
from analytics.handover.accountant.command import asked_days
from analytics.handover.accountant.folder import hand_over, verified
from analytics.handover.accountant.period_names import named_period
from analytics.handover.accountant.pseudonyms import pseudonym, read_key
from analytics.periods import Period
from analytics.salon import Salon, open_salon
from analytics.stops import WorkStopped
from analytics.storage import together

BOOKINGS = "booking_id,line,client_id,client,stylist,chair,starts_at,ends_at,status,service_id,price,tip\n"
MARCH = (
    BOOKINGS
    + "B1,1,C-17,Zuzanna Verzonnen,Mila,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00,5\n"
    + "B2,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-03-04 10:00,2026-03-04 11:30,completed,S2,30.00,0\n"
)
APRIL = BOOKINGS + "B3,1,C-17,Zuzanna Verzonnen,Mila,Chair 1,2026-04-03 10:00,2026-04-03 11:30,completed,S1,60.00,0\n"
MAY = APRIL.replace("B3", "B4").replace("2026-04", "2026-05")
CLIENTS = (
    "client_id,client,phone,email,may_contact\n"
    "C-17,Zuzanna Verzonnen,+31 6 5550 1234,zuzanna@verzonnen.example,yes\n"
    "C-18,Ottoline Bedacht,+31 6 5550 9876,ottoline@bedacht.example,no\n"
)
PAYMENTS = (
    "paid_at,booking_id,method,amount,fee\n2026-03-03 11:30,B1,card,65.00,0.65\n"
    "2026-03-04 11:30,B2,cash,29.00,0\n2026-04-03 11:30,B3,card,60.00,0.60\n2026-05-03 11:30,B4,card,60.00,0.60\n"
)
ASIDE = "B9,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-03-99 10:00,2026-03-04 11:30,completed,S2,30.00,0\n"
OF_CLIENTS = ("Zuzanna", "Verzonnen", "Ottoline", "Bedacht", "5550", "verzonnen.example", "C-17", "C-18")
EXPORTS = {
    "bookings.csv": MARCH + ASIDE,
    "april.csv": APRIL,
    "may.csv": MAY,
    "clients.csv": CLIENTS,
    "payments.csv": PAYMENTS,
}


def salon_in(folder: Path, today: str = "2026-06-10", **exports: str) -> Salon:
    write_salon(folder, EXPORTS | {f"{name}.csv": content for name, content in exports.items()})
    load_unchecked(folder)
    return open_salon(folder, date.fromisoformat(today))


def again(salon: Salon, **exports: str) -> Salon:
    """The salon after further exports."""
    for name, content in exports.items():
        write_export(salon.folder, f"{name}.csv", content)
    load_unchecked(salon.folder)
    return open_salon(salon.folder, salon.as_of)


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


MARCH_2026 = named_period("2026-03")


def test_the_same_book_gives_the_same_bytes_on_another_day_in_another_folder(tmp_path: Path) -> None:
    first = hand_over(salon_in(tmp_path / "one"), MARCH_2026)
    second = hand_over(salon_in(tmp_path / "elsewhere" / "two", today="2027-01-31"), MARCH_2026)
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


class KilledError(BaseException):
    pass


def test_killed_before_or_after_it_counts_folder_and_closing_are_the_old_or_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stopped dead before the list is written, before the first move and before the last; the next start goes on."""
    salon = salon_in(tmp_path / "salon")
    folder = hand_over(salon, MARCH_2026).folder
    listed = json.loads((folder / "manifest.json").read_bytes())
    listed["files"]["gone.csv"] = listed["files"]["tax.csv"]  # one that is no longer part of it
    (folder / "manifest.json").write_text(json.dumps(listed))
    shutil.copy(folder / "tax.csv", folder / "gone.csv")
    before, old = names_in(salon.folder), contents(folder)
    written = len(old) - 1 + 1  # less what is gone; with the record of the closing
    for stop, closed in ((written + 1, []), (written + 2, ["2026-03"]), (2 * written + 1, ["2026-03"])):
        with monkeypatch.context() as broken, pytest.raises(KilledError):
            stopping_at(stop, broken)
            hand_over(salon, MARCH_2026, close_it=True)
        finish_stopped(salon.folder)
        assert names_in(salon.folder) == before
        assert [one.name for one in read_closed(salon.folder)] == closed
        if closed:
            assert verified(folder)[1:] == [] and "gone.csv" not in contents(folder)
            (salon.folder / "handover" / "closed" / "2026-03.json").unlink()
        else:
            assert contents(folder) == old


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.suffix != ".lock")


def stopping_at(stop: int, broken: pytest.MonkeyPatch) -> None:
    """Whatever writes or moves a file dies at the step of this number."""
    steps = itertools.count(1)

    def counted(do: Callable[..., None]) -> Callable[..., None]:
        def step(*given: object) -> None:
            if next(steps) == stop:
                raise KilledError
            do(*given)

        return step

    for name in ("replace_private", "_moved"):
        broken.setattr(together, name, counted(getattr(together, name)))


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


def test_a_manifest_that_was_written_anew_is_not_the_one_of_the_closing(tmp_path: Path) -> None:
    folder = hand_over(salon_in(tmp_path), MARCH_2026, close_it=True).folder
    manifest = folder / "manifest.json"
    manifest.write_bytes(manifest.read_bytes().replace(b'"visits": 2', b'"visits": 3'))
    assert verified(folder)[1:] == ["manifest.json is not the one that was written when 2026-03 was closed."]


def changed_march(price: str) -> str:
    """A later export of March in which B2 costs otherwise; it reaches further, so that it is the newer state."""
    rows = MARCH.replace("S2,30.00", f"S2,{price}")
    return rows + "B8,1,C-18,Ottoline Bedacht,Mila,Chair 1,2026-07-01 10:00,2026-07-01 11:30,booked,S2,30.00,0\n"


def test_what_changes_in_a_closed_period_is_a_correction_of_the_next(tmp_path: Path) -> None:
    """B2 (30.00 at 21 %, tax 5.21) turns out to be 36.05 (tax 6.26): net 24.79 → 29.79."""
    salon = salon_in(tmp_path)
    march = hand_over(salon, MARCH_2026, close_it=True)
    before = contents(march.folder)
    later = again(salon, later=changed_march("36.05"))
    stays = hand_over(later, MARCH_2026)
    assert (stays.files, contents(march.folder)) == ((), before)
    assert "stays as it was handed over" in stays.said[0] and "3 amounts have changed" in stays.said[0]
    april = contents(hand_over(later, named_period("2026-04")).folder)
    assert april["corrections.csv"].decode().splitlines()[1:] == [
        "2026-03,2026-03-04,Difference to clear,1.00,7.05,6.05",
        "2026-03,2026-03-04,Services at 21 %,-24.79,-29.79,-5.00",
        "2026-03,2026-03-04,Tax at 21 %,-5.21,-6.26,-1.05",
    ]
    journal = [line for line in april["journal.csv"].decode().splitlines() if "Correction of 2026-03" in line]
    first = "1,2026-04-01 correction of 2026-03,2026-04-01,Correction of 2026-03,"
    assert journal == [
        first + "Unreconciled differences,Difference to clear,6.05,",
        first + "Services,Services at 21 %,,5.00",
        first + "Tax owed,Tax at 21 %,,1.05",
    ]


def test_a_correction_is_told_once(tmp_path: Path) -> None:
    salon = salon_in(tmp_path)
    hand_over(salon, MARCH_2026, close_it=True)
    later = again(salon, later=changed_march("36.05"))
    april = hand_over(later, named_period("2026-04"), close_it=True)
    told = contents(april.folder)
    may = contents(hand_over(later, named_period("2026-05")).folder)
    assert may["corrections.csv"].decode().splitlines()[1:] == []
    again_april = hand_over(later, named_period("2026-04"))
    assert again_april.files and contents(again_april.folder) == told
    back = again(later, last=changed_march("30.00").replace("2026-07-01", "2026-07-02"))
    may = contents(hand_over(back, named_period("2026-05")).folder)
    assert "2026-03,2026-03-04,Services at 21 %,-29.79,-24.79,5.00" in may["corrections.csv"].decode()


def test_settings_that_change_a_closed_period_are_corrections_too(tmp_path: Path) -> None:
    salon = salon_in(tmp_path)
    hand_over(salon, MARCH_2026, close_it=True)
    toml = salon.folder / "salon.toml"
    toml.write_text(toml.read_text(encoding="utf-8") + '[accounting]\ntips = "inside"\n', encoding="utf-8")
    april = hand_over(open_salon(tmp_path, salon.as_of), named_period("2026-04"))
    assert "2026-03,2026-03-03,Tips to pass on,-5.00,0.00,5.00" in contents(april.folder)["corrections.csv"].decode()
    renamed = '[accounts]\ncash = "1000"\n'
    toml.write_text(toml.read_text(encoding="utf-8").split("[accounting]")[0] + renamed, encoding="utf-8")
    april = hand_over(open_salon(tmp_path, salon.as_of), named_period("2026-04"))
    assert contents(april.folder)["corrections.csv"].decode().splitlines()[1:] == []


@pytest.mark.parametrize(
    ("closed", "period", "today", "says"),
    [
        ("", "2026-05", "2026-05-31", "is not over on 2026-05-31; close it from 2026-06-01 on"),
        ("", "2026-Q2", "2026-07-01", "covers 2026-03 to 2026-05, not all of 2026-Q2"),
        ("2026-04", "2026-03", "2026-06-10", "2026-04 is closed already, and 2026-03 does not come after it"),
        ("2026-03", "2026-Q1", "2026-06-10", "not all of 2026-Q1"),
    ],
)
def test_what_cannot_be_closed(tmp_path: Path, closed: str, period: str, today: str, says: str) -> None:
    salon = salon_in(tmp_path, today)
    if closed:
        hand_over(salon, named_period(closed), close_it=True)
    with pytest.raises(WorkStopped, match=says.replace(".", r"\.")):
        hand_over(salon, named_period(period), close_it=True)
    assert len(read_closed(tmp_path)) == bool(closed)
    assert not (tmp_path / "handover" / period).exists()


def test_a_record_that_was_spoilt_is_said_to_be(tmp_path: Path) -> None:
    salon = salon_in(tmp_path)
    hand_over(salon, MARCH_2026, close_it=True)
    (tmp_path / "handover" / "closed" / "2026-03.json").write_text("{}")
    with pytest.raises(WorkStopped, match="cannot be read as a closed period"):
        hand_over(salon, named_period("2026-04"))


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
