"""Erasing in a group of salons, where numbers and lists may be each salon's own; and going on after a stop."""

from datetime import date
from pathlib import Path

import pytest
from salons import SETTINGS, load_unchecked, write_export

from analytics.erasing.erase import carry_out, find
from analytics.salon import open_salon
from analytics.stops import WorkStopped
from analytics.storage import together
from analytics.storage.asked import NO_ANSWER, Mark, read_marks, write_mark
from analytics.storage.book import BOOK, read_book
from dashboard.start import _finish_stopped

AS_OF = date(2026, 11, 1)
ZORA = (b"Zora", b"Quendel", b"73910465")
HEAD = "site,booking_id,client_id,client,starts_at,ends_at,status,service_id,price,notes\n"
VISIT = "{0},B{1},{2},{3},2026-03-{1:02} 10:00,2026-03-{1:02} 11:00,completed,S1,60,{4}\n"


@pytest.fixture
def group(tmp_path: Path) -> Path:
    """C1 is Zora in the North and Milo in the South, where Zora is C9; old notes of others speak of her."""
    salon = tmp_path / "group"
    salon.mkdir()
    (salon / "salon.toml").write_text(SETTINGS, "utf-8")
    write_export(
        salon, "menu.csv", "service_id,service,kind,price,tax_rate,hands_on_min\nS1,Roots,root_touch_up,60,21,45\n"
    )
    north = VISIT.format("North", 2, "C1", "Zora Quendel", "") + VISIT.format("North", 3, "C2", "Ada Lind", "")
    south = VISIT.format("South", 4, "C1", "Milo Vrantz", "")
    south += VISIT.format("South", 5, "C9", "Zora Quendel", "also in the North")
    old = VISIT.format("South", 6, "C3", "Bo Marl", "came with Quendel Zora; call 06-73910465")
    write_export(salon, "bookings.csv", HEAD + north + south)
    write_export(salon, "old/2026-03 bookings.csv", HEAD + old)
    write_export(
        salon,
        "clients.csv",
        "site,client_id,client,phone\nNorth,C1,Zora Quendel,+31 6 73910465\nNorth,C2,Ada Lind,+31 6 11112222\n"
        "South,C1,Milo Vrantz,+31 6 82640917\nSouth,C9,Zora Quendel,+31 6 73910465\nSouth,C3,Bo Marl,1\n",
    )
    load_unchecked(salon)
    for site in ("North", "South"):
        write_mark(salon, Mark(date(2026, 10, 1), "C1", NO_ANSWER, site=site))
    return salon


def words(salon: Path) -> list[str]:
    return [
        f"{path.name}: {word.decode()}"
        for path in salon.rglob("*")
        if path.is_file()
        for word in ZORA
        if word in path.read_bytes()
    ]


def test_a_number_of_two_clients_asks_for_the_salon(group: Path) -> None:
    with pytest.raises(WorkStopped, match="different clients in North, South; say whose"):
        find(group, "C1")


def test_in_one_salon_and_then_in_the_other_nothing_of_hers_is_left_and_nothing_of_others_goes(group: Path) -> None:
    before = {site: open_salon(group, AS_OF).only_site(site).figure("revenue") for site in ("North", "South")}
    for site, number in (("North", "C1"), ("South", "C9")):
        carry_out(group, find(group, number, site), AS_OF, lambda: load_unchecked(group))
    assert words(group) == []
    book = read_book(group)
    assert set(book.tables["clients"]["client"]) == {"Ada Lind", "Milo Vrantz", "Bo Marl"}
    assert [(mark.site, mark.client_id) for mark in read_marks(group).marks] == [("South", "C1")]
    south = book.tables["bookings"].filter(site="South")["client_id"].to_list()
    assert "C1" in south and "C3" in south and "C9" not in south
    for site, revenue in before.items():
        assert open_salon(group, AS_OF).only_site(site).figure("revenue").equals(revenue), site


def test_the_next_start_may_be_the_pages_own(group: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Killed when half of the files are in their places; nothing but the pages is started afterwards."""
    monkeypatch.setattr("analytics.loading.load_salon", load_unchecked)
    found, moved = find(group, "C9", "South"), []

    def killed(staged: Path, path: Path) -> None:
        if moved:
            raise KeyboardInterrupt
        moved.append(path)
        staged.replace(path)

    with monkeypatch.context() as broken, pytest.raises(KeyboardInterrupt):
        broken.setattr(together, "_moved", killed)
        carry_out(group, found, AS_OF, lambda: None)
    _finish_stopped(group)
    assert not (group / ".erasing").exists()
    assert "C9" not in read_book(group).tables["bookings"]["client_id"].to_list()
    assert b"C9" not in (group / BOOK).read_bytes() and b"C9" not in (group / "exports" / "bookings.csv").read_bytes()
