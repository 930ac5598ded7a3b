"""Who was asked, and what she said: nothing is lost, whoever writes, and whatever happens to a line."""

import csv
import stat
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.stops import WorkStopped
from analytics.storage.asked import (
    ANSWERS,
    FILE,
    NO_ANSWER,
    NOT_NOW,
    TAKEN_BACK,
    WILL_CALL,
    Mark,
    latest,
    read_marks,
    write_mark,
)

DAY = date(2026, 11, 2)
ADA = Mark(DAY, "Ada", NO_ANSWER, "Mila")


def test_what_was_marked_is_read_again(tmp_path: Path) -> None:
    marks = [ADA, Mark(DAY, "Bo, the 2nd", WILL_CALL), Mark(date(2026, 11, 3), 'C"1"', NOT_NOW, "Zoë")]
    for mark in marks:
        write_mark(tmp_path, mark)
    assert list(read_marks(tmp_path).marks) == marks
    assert (tmp_path / FILE).read_text("utf-8").splitlines()[0] == "day,client_id,answer,stylist,site"


def test_only_its_owner_reads_it(tmp_path: Path) -> None:
    write_mark(tmp_path, ADA)
    assert stat.S_IMODE((tmp_path / FILE).stat().st_mode) == 0o600


def test_a_folder_without_marks_has_none(tmp_path: Path) -> None:
    assert read_marks(tmp_path).marks == ()


def test_lines_are_only_ever_added(tmp_path: Path) -> None:
    write_mark(tmp_path, ADA)
    before = (tmp_path / FILE).read_bytes()
    write_mark(tmp_path, Mark(DAY, "Bo", NOT_NOW))
    assert (tmp_path / FILE).read_bytes().startswith(before)


def test_many_writers_at_once_lose_nothing(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda n: write_mark(tmp_path, Mark(DAY, f"C{n}", NO_ANSWER)), range(40)))
    found = read_marks(tmp_path)
    assert {mark.client_id for mark in found.marks} == {f"C{n}" for n in range(40)}
    assert found.damaged == ()


def test_writers_of_two_programs_take_turns(tmp_path: Path) -> None:
    code = (
        "import sys; from datetime import date; from pathlib import Path\n"
        "from analytics.storage.asked import Mark, write_mark\n"
        "[write_mark(Path(sys.argv[1]), Mark(date(2026, 11, 2), sys.argv[2] + str(n), 'not_now')) for n in range(25)]"
    )
    running = [subprocess.Popen([sys.executable, "-c", code, str(tmp_path), name]) for name in "AB"]
    assert [each.wait(timeout=60) for each in running] == [0, 0]
    found = read_marks(tmp_path)
    assert (len({mark.client_id for mark in found.marks}), found.damaged) == (50, ())


def test_a_line_cut_short_is_said_and_the_next_one_is_whole(tmp_path: Path) -> None:
    write_mark(tmp_path, ADA)
    with (tmp_path / FILE).open("ab") as file:
        file.write(b'2026-11-02,"Bo,no_ans')  # the machine stopped here
    write_mark(tmp_path, Mark(DAY, "Cleo", WILL_CALL))
    found = read_marks(tmp_path)
    assert [mark.client_id for mark in found.marks] == ["Ada", "Cleo"]
    assert found.damaged == (3,)


@pytest.mark.parametrize(
    "line", ["2026-13-01,Ada,not_now,,", "2026-11-02,Ada,perhaps,,", "x", "2026-11-02,,not_now,,", "\xff"]
)
def test_a_damaged_line_is_passed_over_and_counted(tmp_path: Path, line: str) -> None:
    write_mark(tmp_path, ADA)
    with (tmp_path / FILE).open("ab") as file:
        file.write(line.encode("latin-1") + b"\n")
    found = read_marks(tmp_path)
    assert (found.marks, found.damaged) == ((ADA,), (3,))


@pytest.mark.parametrize("name", ["=1+1", "+31 6", "-x", "@x", " =x", "'=x", "'x", "''"])
def test_a_name_starts_no_formula_and_comes_back_as_it_was(tmp_path: Path, name: str) -> None:
    write_mark(tmp_path, Mark(DAY, name, NOT_NOW, name))
    with (tmp_path / FILE).open(encoding="utf-8", newline="") as file:
        cells = list(csv.reader(file))[1]
    assert not any(cell.lstrip().startswith(("=", "+", "-", "@")) for cell in cells)
    assert read_marks(tmp_path).marks == (Mark(DAY, name, NOT_NOW, name),)


def test_the_last_mark_counts_and_can_be_taken_back(tmp_path: Path) -> None:
    for mark in (ADA, Mark(DAY, "Ada", WILL_CALL), Mark(DAY, "Bo", NOT_NOW), Mark(DAY, "Bo", TAKEN_BACK)):
        write_mark(tmp_path, mark)
    assert latest(read_marks(tmp_path), DAY) == [Mark(DAY, "Ada", WILL_CALL)]
    assert latest(read_marks(tmp_path), date(2026, 11, 1)) == []


def test_what_cannot_be_written_stops_with_a_sentence(tmp_path: Path) -> None:
    (tmp_path / FILE).mkdir()
    with pytest.raises(WorkStopped, match=r"asked\.csv cannot be written"):
        write_mark(tmp_path, ADA)
    with pytest.raises(WorkStopped, match="over two lines"):
        write_mark(tmp_path, Mark(DAY, "A\nB", NOT_NOW))


@effort(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(min_size=1, max_size=12), st.sampled_from(ANSWERS), st.text(max_size=6))
def test_any_text_comes_back(tmp_path: Path, client_id: str, answer: str, stylist: str) -> None:
    mark = Mark(DAY, client_id, answer, stylist)
    (tmp_path / FILE).unlink(missing_ok=True)
    try:
        write_mark(tmp_path, mark)
    except WorkStopped:
        return
    assert read_marks(tmp_path).marks == (mark,)


def test_clients_of_two_salons_with_one_number_are_two(tmp_path: Path) -> None:
    north, south = Mark(DAY, "C1", NO_ANSWER, "", "north"), Mark(DAY, "C1", NOT_NOW, "", "south")
    write_mark(tmp_path, north)
    write_mark(tmp_path, south)
    assert latest(read_marks(tmp_path), DAY) == [north, south]
