"""Loads that are killed, fail, meet a full disk or one another leave the old book or the new one."""

import errno
import random
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from loads import booked, names, one_sentence, start_load, visits
from salons import load_unchecked, write_export, write_salon

from analytics.commands.cli import main
from analytics.definitions import findings
from analytics.intake.publishing import publish
from analytics.loading import load_salon
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK

KILLS = 8


def test_killed_at_random_the_book_is_the_old_or_the_new_one(salon: Path) -> None:
    """Each load would add a visit. After each kill the book holds the visits before it or those after it."""
    started = time.monotonic()
    assert start_load(salon).done() is None
    longest = time.monotonic() - started
    moments = random.Random(20260303)
    came, held = 0, 1
    for count in range(2, 2 + KILLS):
        write_export(salon, "bookings.csv", visits(count))
        load = start_load(salon)
        load.process.join(longest * (count - 2 + moments.random()) / KILLS)
        came += load.process.is_alive()
        load.kill()
        assert booked(salon) in (held, count)
        held = booked(salon)
    assert came  # else no kill came in time
    load_unchecked(salon)
    assert booked(salon) == 1 + KILLS
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


LEFT_BEHIND: dict[str, Callable[[bytes], bytes]] = {
    "nothing yet": lambda _: b"",
    "its first block": lambda whole: whole[:4096],
    "half of it": lambda whole: whole[: len(whole) // 2],
    "a header half written": lambda whole: whole[:100] + b"\0" * 3996 + whole[4096:],
    "a block half written": lambda whole: whole[:5000] + b"\0" * 3000 + whole[8000:],
    "something else": lambda _: b"no book at all" * 500,
}


def test_what_a_killed_load_left_behind_does_not_stop_the_next(tmp_path: Path) -> None:
    """Nor does the name of the folder, which an error text would quote."""
    salon = write_salon(tmp_path / "Goldilocks & Sons")
    load_unchecked(salon)
    for count, (left, cut) in enumerate(LEFT_BEHIND.items(), start=2):
        (salon / f"{BOOK}.building").write_bytes(cut((salon / BOOK).read_bytes()))
        (salon / f"{BOOK}.building.wal").write_bytes(b"half a log")
        write_export(salon, "bookings.csv", visits(count))
        load_unchecked(salon)
        assert booked(salon) == count, left
        assert names(salon) == ["exports", "salon.duckdb", "salon.toml"], left


def test_a_load_that_fails_leaves_the_old_book_and_nothing_else(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise MemoryError

    before = (salon / BOOK).read_bytes()
    write_export(salon, "bookings.csv", visits(5))
    with monkeypatch.context() as broken, pytest.raises(MemoryError):
        broken.setattr("analytics.loading.check_tables", fail)
        load_salon(salon)
    assert (salon / BOOK).read_bytes() == before
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]
    load_unchecked(salon)
    assert booked(salon) == 5


def test_a_load_that_is_interrupted_says_so_and_leaves_the_old_book(
    salon: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    before = (salon / BOOK).read_bytes()
    monkeypatch.setattr("analytics.loading.check_tables", interrupt)
    assert main(["load", "--salon", str(salon)]) == 1
    assert "as it was" in one_sentence(capsys)
    assert (salon / BOOK).read_bytes() == before
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


@pytest.mark.parametrize("step", ["os.fsync", "pathlib.Path.replace"])
def test_a_full_disk_at_the_last_moment_is_one_sentence_and_leaves_the_old_book(
    salon: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], step: str
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    before = (salon / BOOK).read_bytes()
    with monkeypatch.context() as broken:
        broken.setattr("analytics.loading.check_tables", lambda _: findings.hits([]))
        broken.setattr(step, full)
        assert main(["load", "--salon", str(salon)]) == 1
    one_sentence(capsys)
    assert (salon / BOOK).read_bytes() == before
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


def test_two_loads_at_once_break_nothing(salon: Path) -> None:
    """One does the work; the other does it afterwards, or stops with one sentence."""
    write_export(salon, "bookings.csv", visits(300))
    ends = [load.done() for load in [start_load(salon), start_load(salon)]]
    assert None in ends and all(end is None or end.startswith("Another load") for end in ends)
    assert booked(salon) == 300
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


def test_two_loads_at_once_in_one_program_break_nothing(salon: Path) -> None:
    """As from two browser tabs: one at least is done, and no other ends but with a sentence."""
    write_export(salon, "bookings.csv", visits(300))
    outcomes: list[BaseException | None] = []

    def load() -> None:
        try:
            load_unchecked(salon)
            outcomes.append(None)
        except BaseException as error:
            outcomes.append(error)

    threads = [threading.Thread(target=load) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [error for error in outcomes if error and not isinstance(error, WorkStopped)] == []
    assert None in outcomes
    assert booked(salon) == 300
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


def test_a_load_that_begins_while_another_swaps_its_book_in_breaks_nothing(
    salon: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between the closing of the new book and its swap a second load is run; either load may win, none may crash."""
    write_export(salon, "bookings.csv", visits(7))
    sync, second = publish._sync, []

    def another_load_comes_in(path: Path) -> None:
        sync(path)
        if not second:
            second.append(start_load(salon))
            second[0].process.join(5)

    monkeypatch.setattr(publish, "_sync", another_load_comes_in)
    load_unchecked(salon)
    end = second[0].done()
    assert end is None or end.startswith("Another load")
    assert booked(salon) == 7
