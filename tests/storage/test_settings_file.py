"""salon.toml written by the program: comments kept, exact numbers, and nothing written that could not be read."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from analytics.settings import read_settings
from analytics.stops import WorkStopped
from analytics.storage.settings_file import write_settings

OURS = '# Ours.\n[salon]\nname = "Small"  # and fine\n\n[costs]  # of a month\nper_month = 2000 # rent\n'


def test_a_folder_without_settings_gets_some(tmp_path: Path) -> None:
    hours = {"mon": None, "tue": "09:00-12:30, 13:30-18:00", "closed": [date(2026, 12, 25), date(2026, 12, 26)]}
    write_settings(
        tmp_path, {("salon",): {"name": "New"}, ("hours",): hours, ("costs",): {"per_month": Decimal("1850.50")}}
    )
    found = read_settings(tmp_path)
    assert found.salon.name == "New" and found.costs.per_month == Decimal("1850.5")
    assert found.hours.tue == ((540, 750), (810, 1080)) and found.hours.mon == () and found.hours.sat == ()
    assert found.hours.closed == (date(2026, 12, 25), date(2026, 12, 26))


def test_comments_stay_and_one_line_changes(tmp_path: Path) -> None:
    (tmp_path / "salon.toml").write_text(OURS, "utf-8")
    write_settings(tmp_path, {("costs",): {"per_month": Decimal(2400)}, ("roots", "toner"): {"touch_up_from_mm": 12.5}})
    text = (tmp_path / "salon.toml").read_text("utf-8")
    assert text.startswith(OURS.replace("2000", "2400"))
    assert read_settings(tmp_path).roots.by_kind["toner"].touch_up_from_mm == 12.5
    write_settings(tmp_path, {("roots", "toner"): {"touch_up_from_mm": None}})
    assert (tmp_path / "salon.toml").read_text("utf-8").strip() == OURS.replace("2000", "2400").strip()


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ({("costs",): {"per_month": -1}}, "per_month is -1"),
        ({("hours",): {"mon": "09:00-12:00, 11:00-13:00"}}, "overlap"),
        ({("salon",): {"currency": "Euro"}}, "ISO 4217"),
        ({("kosts",): {"per_month": 1}}, "not a setting we know"),
    ],
)
def test_what_cannot_be_read_is_not_written(
    tmp_path: Path, lines: dict[tuple[str, ...], dict[str, object]], says: str
) -> None:
    (tmp_path / "salon.toml").write_text(OURS, "utf-8")
    with pytest.raises(WorkStopped, match=says):
        write_settings(tmp_path, lines)
    assert (tmp_path / "salon.toml").read_text("utf-8") == OURS
    assert [path.name for path in tmp_path.iterdir()] == ["salon.toml"]
