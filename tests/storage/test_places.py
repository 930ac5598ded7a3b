"""Where data of clients lies, and who else can read it."""

import os
from pathlib import Path

import pytest
from salons import load_unchecked, write_salon

from analytics.records.loaded import known_clients
from analytics.sentences.client_data import clients_sentence, files_say, rights_sentence, unseen_sentence
from analytics.settings import parse_settings, read_settings
from analytics.storage import places as places_of
from analytics.storage.book import read_book
from analytics.storage.places import Place, Places, places
from analytics.storage.private_files import write_private

SEEN = (
    "booking_id,line,client_id,chair,starts_at,ends_at,status,service_id,price\n"
    "B1,1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    "B2,1,no name 0123abcd,Chair 1,2026-03-04 10:00,2026-03-04 11:30,completed,S1,60.00\n"
)


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    folder = tmp_path / "salon"
    write_salon(folder, {"bookings.csv": SEEN, "old/clients.csv": "client_id,client\nC1,Zora\nC2,Milo\n"})
    load_unchecked(folder)
    for name in ("asked.csv", "handover/2026-03/tax.csv", "erased.json", ".working/7/copy.xlsx", "lists/week 12.pdf"):
        write_private(b"x", folder / name)
    return folder


def test_every_file_is_of_a_kind_and_settings_and_locks_are_none(salon: Path) -> None:
    assert {place.kind: place.files for place in places(salon).of_kinds} == {
        "exports": 3, "records": 1, "marks": 1, "handover": 1, "papers": 1, "erased": 1, "copies": 1,
    }  # fmt: skip
    assert known_clients(read_book(salon).tables) == 2


@pytest.mark.skipif(os.name != "posix", reason="rights are others there")
def test_files_are_open_to_others_where_they_can_come_as_far(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places_of, "_enter", lambda folder: bool(folder.stat().st_mode & 0o011))
    for path in (salon / "exports").rglob("*"):
        path.chmod(0o755 if path.is_dir() else 0o644)
    (salon / "exports").chmod(0o755)
    salon.chmod(0o755)
    assert {place.kind: place.open_files for place in places(salon).of_kinds if place.open_files} == {"exports": 3}
    (salon / "exports" / "old").chmod(0o700)
    assert places(salon).open_files == 2
    salon.chmod(0o700)
    assert places(salon).open_files == 0


def test_what_is_said_of_it(salon: Path) -> None:
    settings = read_settings(salon)
    found = Places((Place("exports", 3, 1), Place("records", 1, 0)))
    assert clients_sentence(2, found, settings) == "Data of 2 clients lies in this salon's folder, 4 files in all."
    assert rights_sentence(found, settings).startswith("1 file can be read by other accounts of this machine; ")
    assert rights_sentence(Places(found.of_kinds[1:]), settings) == "Other accounts of this machine cannot read them."
    assert files_say(found.of_kinds[0], settings) == "3 files, 1 open to others"
    assert "is not set" in unseen_sentence(0, settings)
    set_to = parse_settings('[salon]\nname = "S"\n[keeping]\nmonths_without_visit = 36\n')
    assert unseen_sentence(0, set_to) == "Nobody was without a visit for 36 months or longer."
    assert unseen_sentence(1, set_to).startswith("1 client was without a visit for 36 months or longer: salon-figures")
