"""Books that are in use, damaged, of another version or in the way."""

import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import duckdb
import pytest
from loads import booked, names, one_sentence, start_load, visits
from salons import load_unchecked, write_export, write_salon

from analytics.commands.cli import main
from analytics.loading import load_salon
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, read_book


def test_a_book_being_read_elsewhere_does_not_harm_a_load(salon: Path) -> None:
    """A reader that holds the book open sees the old one to its end; the next sees the new one."""
    write_export(salon, "bookings.csv", visits(3))
    with duckdb.connect(str(salon / BOOK), read_only=True) as reader:
        assert start_load(salon).done() is None
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
