"""The book survives whatever happens to a load: kills, bad input, two loads at once, damage, other versions."""

import contextlib
import errno
import random
import re
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import duckdb
import pytest
from salons import BOOKINGS, load_unchecked, write_export, write_salon

from analytics.commands.cli import main
from analytics.definitions import findings
from analytics.intake.publishing import publish
from analytics.loading import load_salon
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, read_book

TESTS = Path(__file__).parents[1]
KILLS = 20
LOAD = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from salons import load_unchecked
print("ready", flush=True)
load_unchecked(Path(sys.argv[1]))
"""


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    """A loaded salon with one visit."""
    folder = write_salon(tmp_path / "salon")
    load_unchecked(folder)
    return folder


def visits(count: int) -> str:
    """A bookings export of so many visits."""
    row = "B{0},1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    return BOOKINGS + "".join(row.format(number) for number in range(count))


def booked(salon: Path) -> int:
    """How many visits the book holds."""
    return read_book(salon).tables["bookings"].height


def names(salon: Path) -> list[str]:
    """What lies in the folder; the empty lock of a load may stay."""
    return sorted(path.name for path in salon.iterdir() if path.name != ".salon.duckdb.lock")


def start_load(salon: Path) -> "subprocess.Popen[str]":
    """A load in a process of its own, at the point where its parts are imported."""
    process = subprocess.Popen(
        [sys.executable, "-c", LOAD, str(salon), str(TESTS)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout and process.stdout.readline() == "ready\n"
    return process


def one_sentence(capsys: pytest.CaptureFixture[str]) -> str:
    """What the command line said on stderr, which is one sentence."""
    lines = [text for text in capsys.readouterr().err.splitlines() if text.strip()]
    assert len(lines) == 1 and lines[0].startswith("salon-figures: ") and lines[0].endswith("."), lines
    return lines[0]


def test_killed_twenty_times_at_random_the_book_is_the_old_or_the_new_one(salon: Path) -> None:
    """Each load would add a visit. After each kill the book holds the visits before it or those after it."""
    started = time.monotonic()
    start_load(salon).wait()
    longest = time.monotonic() - started
    moments = random.Random(20260303)
    outcomes: list[bool] = []
    for count in range(2, 2 + KILLS):
        write_export(salon, "bookings.csv", visits(count))
        process = start_load(salon)
        time.sleep(moments.uniform(0, min(longest, 0.4)))
        process.kill()
        process.communicate()
        assert booked(salon) in (count - 1, count)
        outcomes.append(booked(salon) == count)
        load_unchecked(salon)
        assert booked(salon) == count
        assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]
    assert not all(outcomes)  # else no kill came in time


LEFT_BEHIND: dict[str, Callable[[bytes], bytes]] = {
    "nothing yet": lambda _: b"",
    "its first block": lambda whole: whole[:4096],
    "half of it": lambda whole: whole[: len(whole) // 2],
    "a header half written": lambda whole: whole[:100] + b"\0" * 3996 + whole[4096:],
    "a block half written": lambda whole: whole[:5000] + b"\0" * 3000 + whole[8000:],
    "something else": lambda _: b"no book at all" * 500,
}


@pytest.mark.parametrize("left", LEFT_BEHIND)
@pytest.mark.parametrize("folder", ["salon", "Goldilocks & Sons"])
def test_what_a_killed_load_left_behind_does_not_stop_the_next(tmp_path: Path, left: str, folder: str) -> None:
    """Nor does the name of the folder, which an error text would quote."""
    salon = write_salon(tmp_path / folder)
    load_unchecked(salon)
    (salon / f"{BOOK}.building").write_bytes(LEFT_BEHIND[left]((salon / BOOK).read_bytes()))
    (salon / f"{BOOK}.building.wal").write_bytes(b"half a log")
    load_unchecked(salon)
    assert booked(salon) == 1
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


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
    both = [start_load(salon), start_load(salon)]
    errors = [process.communicate()[1] for process in both]
    assert 0 in [process.returncode for process in both]
    for process, error in zip(both, errors, strict=True):
        assert process.returncode == 0 or "WorkStopped: Another load" in error.splitlines()[-1]
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
            with contextlib.suppress(subprocess.TimeoutExpired):
                second[0].wait(timeout=5)

    monkeypatch.setattr(publish, "_sync", another_load_comes_in)
    load_unchecked(salon)
    error = second[0].communicate()[1]
    assert second[0].returncode == 0 or "WorkStopped: Another load" in error.splitlines()[-1]
    assert booked(salon) == 7


def test_a_book_being_read_elsewhere_does_not_harm_a_load(salon: Path) -> None:
    """A reader that holds the book open sees the old one to its end; the next sees the new one."""
    write_export(salon, "bookings.csv", visits(3))
    with duckdb.connect(str(salon / BOOK), read_only=True) as reader:
        process = start_load(salon)
        assert process.wait() == 0
        assert reader.sql("SELECT count(*) FROM bookings").fetchall() == [(1,)]
    assert booked(salon) == 3


def test_a_log_beside_the_book_stops_a_load(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """salon.duckdb.wal of another program: swapping the book under it would mix their rows."""
    log = salon / f"{BOOK}.wal"
    log.write_bytes(b"changes of another program")
    before = (salon / BOOK).read_bytes()
    assert main(["load", "--salon", str(salon)]) == 1
    assert f"{BOOK}.wal" in one_sentence(capsys)
    assert (salon / BOOK).read_bytes() == before and log.exists()


def of_version(content: bytes, version: int, path: Path) -> bytes:
    """The book as a DuckDB of another storage version would head it: number and checksum of the header patched."""
    patched = content[:12] + version.to_bytes(8, "little") + content[20:]
    path.write_bytes(patched)
    with pytest.raises(duckdb.Error, match="checksum") as raised:
        duckdb.connect(str(path), read_only=True)
    checksum = re.search(r"computed checksum (\d+)", str(raised.value))
    assert checksum
    return int(checksum[1]).to_bytes(8, "little") + patched[8:]


def with_block_damaged(content: bytes, _path: Path) -> bytes:
    return content[:20000] + bytes(byte ^ 255 for byte in content[20000:20064]) + content[20064:]


DAMAGES: dict[str, tuple[Callable[[bytes, Path], bytes], str]] = {
    "newer DuckDB": (lambda content, path: of_version(content, 1000, path), "another version of DuckDB"),
    "version number patched alone": (lambda content, _path: content[:12] + b"\xff" + content[13:], "cannot be read"),
    "a block damaged": (with_block_damaged, "cannot be read"),
    "cut in half": (lambda content, _path: content[: len(content) // 2], "cannot be read"),
    "empty": (lambda _content, _path: b"", "cannot be read"),
    "something else": (lambda _content, _path: b"no book at all" * 1000, "cannot be read"),
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_book_that_cannot_be_read_is_one_sentence_and_a_load_rebuilds_it(
    salon: Path, damage: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """The sentence tells damage, another version and another program apart, and nothing is touched."""
    damaged, says = DAMAGES[damage]
    content = damaged((salon / BOOK).read_bytes(), salon / BOOK)
    (salon / BOOK).write_bytes(content)
    assert main(["chairs", "--salon", str(salon)]) == 1
    sentence = one_sentence(capsys)
    assert says in sentence and "salon-figures load" in sentence
    assert (salon / BOOK).read_bytes() == content
    load_unchecked(salon)
    assert booked(salon) == 1


def test_a_damaged_book_in_a_folder_named_lock_is_not_taken_for_one_in_use(tmp_path: Path) -> None:
    salon = write_salon(tmp_path / "Sherlock")
    (salon / BOOK).write_bytes(b"no book at all" * 1000)
    with pytest.raises(WorkStopped, match="cannot be read"):
        read_book(salon)


def test_a_book_of_an_older_format_is_to_be_rebuilt(salon: Path) -> None:
    with duckdb.connect(str(salon / BOOK)) as con:
        con.execute("UPDATE about SET format = 0")
    with pytest.raises(WorkStopped, match="salon-figures load"):
        read_book(salon)


@pytest.fixture
def held_open(salon: Path) -> Iterator[Path]:
    """A salon whose book another program has open to write."""
    script = "import duckdb, sys, time; con = duckdb.connect(sys.argv[1]); print('open', flush=True); time.sleep(60)"
    holder = subprocess.Popen([sys.executable, "-c", script, str(salon / BOOK)], stdout=subprocess.PIPE, text=True)
    assert holder.stdout and holder.stdout.readline() == "open\n"
    yield salon
    holder.kill()
    holder.communicate()


def test_a_book_in_use_by_another_program_is_said_to_be(held_open: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chairs", "--salon", str(held_open)]) == 1
    assert "used by another program" in one_sentence(capsys)


def test_a_folder_with_the_name_of_the_book_is_left_alone(salon: Path) -> None:
    (salon / BOOK).unlink()
    (salon / BOOK).mkdir()
    with pytest.raises(WorkStopped, match=BOOK):
        load_unchecked(salon)
    assert names(salon) == ["exports", "salon.duckdb", "salon.toml"]


def test_the_same_exports_give_the_same_rows_with_and_without_an_old_book(salon: Path) -> None:
    before = read_book(salon)
    load_salon(salon)
    after = read_book(salon)
    assert all(before.tables[name].equals(after.tables[name]) for name in before.tables)
    assert before.files.equals(after.files)
