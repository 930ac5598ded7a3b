"""The stylist's list for others: paper, calendar and call sheet say what the list says, and no more than they may."""

import csv
import stat
from datetime import date, timedelta
from pathlib import Path

import icalendar
import pymupdf
import pytest
from salons import load_unchecked, write_salon

from analytics.commands.cli import main
from analytics.due import due
from analytics.handover.roots import list_paper, listed_of, root_calendar
from analytics.salon import Salon, open_salon
from analytics.storage.asked import NOT_NOW, Mark, write_mark

TODAY = date(2026, 11, 2)
HEAD = "booking_id,client_id,chair,starts_at,minutes,status,service_id,price,stylist\n"
PEOPLE = (  # number, name, may be contacted, days since each of her root visits, booked
    ("C1", "Ada Lark", "yes", (70, 35), False),
    ("C2", "Bo Finch", "no", (70, 35), False),
    ("C3", "Cleo Wren", "yes", (70, 35), True),
    ("C4", '=HYPERLINK("http://elsewhere.example")', "yes", (75, 40), False),
    ("C5", "Dana Swift", "yes", (45, 5), False),
    ("C6", "Eli Crane", "yes", (160, 120), False),
)


def rows() -> str:
    lines = []
    for number, _, _, ago, booked in PEOPLE:
        for days in ago:
            lines += [
                f"B{number}-{days},{number},Chair 1,{TODAY - timedelta(days=days)} 10:00,90,completed,S1,60.00,Mila"
            ]
        if booked:
            lines += [f"B{number}-ahead,{number},Chair 1,{TODAY + timedelta(days=9)} 10:00,90,booked,S1,60.00,Mila"]
    return HEAD + "\n".join(lines) + "\n"


def people() -> str:
    quoted = [(number, name.replace('"', '""'), may) for number, name, may, _, _ in PEOPLE]
    return "client_id,client,phone,may_contact\n" + "".join(
        f'{n},"{name}",+31 6 {n[1:]},{may}\n' for n, name, may in quoted
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = write_salon(tmp_path_factory.mktemp("salon") / "s", {"bookings.csv": rows(), "clients.csv": people()})
    load_unchecked(made)
    return made


@pytest.fixture(scope="module")
def salon(folder: Path) -> Salon:
    return open_salon(folder, TODAY)


def run(folder: Path, *options: str) -> int:
    return main(["roots", "--salon", str(folder), "--today", f"{TODAY}", *options])


def words(pdf: bytes) -> str:
    return " ".join(" ".join(page.get_text() for page in pymupdf.open(stream=pdf)).split())


def test_the_call_sheet_has_only_those_who_may_be_contacted_and_are_not_booked(folder: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "call.csv"
    assert run(folder, "--csv", str(sheet)) == 0
    with sheet.open(encoding="utf-8", newline="") as file:
        called = list(csv.DictReader(file))
    assert {row["client_id"] for row in called} == {"C1", "C4"}  # C5 was just here, C6 has gone quiet
    assert {row["client"][0] for row in called if row["client_id"] == "C4"} == {"'"}
    assert stat.S_IMODE(sheet.stat().st_mode) == 0o600


def test_the_paper_names_the_salon_the_day_and_the_cautions_and_keeps_numbers_to_itself(salon: Salon) -> None:
    pdf = list_paper(due(listed_of(salon)), salon.settings, TODAY)
    shown = words(pdf)
    for wanted in (
        "Salon Proefdraad (invented)",
        "2 November 2026",
        "maker's instructions",
        "broken skin",
        "1 / 1",
        "Ada Lark",
    ):
        assert wanted in shown
    assert '=HYPERLINK("http://elsewhere.example")' in shown.replace(" ", "")
    assert "Cleo Wren" not in shown  # booked
    assert "+31 6 1" in shown and "+31 6 2" not in shown  # Bo may not be contacted
    assert pdf == list_paper(due(listed_of(salon)), salon.settings, TODAY)


def test_a_paper_for_nobody_says_so(salon: Salon) -> None:
    assert "Nobody is due." in words(list_paper(due(listed_of(salon)).clear(), salon.settings, TODAY))


def test_the_calendar_has_the_days_that_make_sense_and_no_names(salon: Salon) -> None:
    content = root_calendar(salon, names=False)
    events = {str(each["SUMMARY"]): each for each in icalendar.Calendar.from_ical(content).walk("VEVENT")}
    assert set(events) == {f"Roots ready: {number}" for number in ("C1", "C2", "C4", "C5")}
    row = salon.figure("roots").filter(client_id="C1").row(0, named=True)
    ada = events["Roots ready: C1"]
    assert (ada["DTSTART"].dt, ada["DTEND"].dt) == (row["ready_from"], row["ready_by"] + timedelta(days=1))
    assert "Skin-test as the maker says" in str(ada["DESCRIPTION"])
    assert not any(name.encode() in content for _, name, _, _, _ in PEOPLE)
    assert b"+31" not in content


def test_names_stand_in_the_calendar_only_if_asked_for(folder: Path, tmp_path: Path) -> None:
    plain, named = tmp_path / "a.ics", tmp_path / "b.ics"
    assert run(folder, "--ics", str(plain)) == run(folder, "--ics", str(named), "--names") == 0
    assert b"Ada Lark" not in plain.read_bytes() and b"SUMMARY:Roots ready: Ada Lark" in named.read_bytes()
    assert plain.read_bytes() == root_calendar(open_salon(folder, TODAY), names=False)


def test_the_same_window_has_the_same_uid_on_another_day(folder: Path) -> None:
    def uids(day: date) -> dict[str, str]:
        found = icalendar.Calendar.from_ical(root_calendar(open_salon(folder, day), names=False)).walk("VEVENT")
        return {str(each["SUMMARY"]): str(each["UID"]) for each in found}

    today, later = uids(TODAY), uids(TODAY + timedelta(days=3))
    assert len(set(today.values())) == len(today)
    assert {name: later[name] for name in today if name in later} == {
        name: today[name] for name in today if name in later
    }


def test_where_numbers_are_names_the_calendar_has_neither(tmp_path: Path) -> None:
    named = "booking_id,client,chair,starts_at,minutes,status,service_id,price\n" + (
        f"B1,Ada Lark,Chair 1,{TODAY - timedelta(days=35)} 10:00,90,completed,S1,60.00\n"
    )
    made = write_salon(tmp_path / "s", {"bookings.csv": named})
    load_unchecked(made)
    content = root_calendar(open_salon(made, TODAY), names=False)
    assert b"SUMMARY:Roots ready\r\n" in content and b"ada" not in content.lower()


def test_names_without_a_calendar_are_told_how(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(folder, "--names") == 1
    assert "--ics FILE" in capsys.readouterr().err


def test_a_mark_stands_on_the_paper_and_moves_her_down(folder: Path, salon: Salon) -> None:
    first = due(listed_of(salon)).row(0, named=True)
    write_mark(folder, Mark(TODAY, first["client_id"], NOT_NOW, "Mila"))
    try:
        listed = due(listed_of(salon))
        assert listed["client_id"][-1] == first["client_id"]
        assert "Not now: 2 November (Mila)" in words(list_paper(listed, salon.settings, TODAY))
    finally:
        (folder / "asked.csv").unlink()
