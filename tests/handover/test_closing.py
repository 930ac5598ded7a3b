"""Closed periods: they stay, what changes in them is a correction of the next, and killed work leaves old or new."""

import json
import shutil
from pathlib import Path

import pytest
from handover.spring import (
    MARCH_2026,
    again,
    changed_march,
    contents,
    salon_in,
)
from killed import KilledError, stopping_at

from analytics.commands.shared import finish_stopped
from analytics.handover.accountant.closed_periods import read_closed
from analytics.handover.accountant.folder import hand_over, verified
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon
from analytics.stops import WorkStopped


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


def test_a_manifest_that_was_written_anew_is_not_the_one_of_the_closing(tmp_path: Path) -> None:
    folder = hand_over(salon_in(tmp_path), MARCH_2026, close_it=True).folder
    manifest = folder / "manifest.json"
    manifest.write_bytes(manifest.read_bytes().replace(b'"visits": 2', b'"visits": 3'))
    assert verified(folder)[1:] == ["manifest.json is not the one that was written when 2026-03 was closed."]


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
