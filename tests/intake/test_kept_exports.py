"""A file kept among a salon's exports, and what is written into salon.toml for it."""

import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from previewed import NO_PRICE, dropped, everything_in, of_bookings
from salons import SETTINGS

from analytics.intake.reading.find import FOLDER
from analytics.settings import parse_settings, read_settings
from analytics.stops import WorkStopped
from analytics.storage import keeping
from analytics.storage.keeping import Chosen, keep_export, safe_name, with_chosen


def test_exports_lie_where_loading_looks_for_them() -> None:
    assert keeping.EXPORTS == FOLDER


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("bookings week 21.csv", "bookings week 21.csv"),
        ("../../x.csv", "x.csv"),
        ("C:\\salon\\x.csv", "x.csv"),
        ("C:x.csv", "C-x.csv"),
        ("/etc/passwd", "passwd"),
        ("", "export"),
        (".", "export"),
        ("..", "export"),
        ("...csv", "export.csv"),
        (".csv", "export.csv"),
        (".salon.toml", "salon.toml"),
        ("../", "export"),
        ("a\0b.csv", "ab.csv"),
        ("\0", "export"),
        ("bookings (1).csv", "bookings -1-.csv"),
        ("~$menu.xlsx", "menu.xlsx"),
        ("Verkäufe März.CSV", "Verkäufe März.CSV"),
        ("con.csv", "export con.csv"),
        ("LPT1", "export LPT1"),
        ("contacts.csv", "contacts.csv"),
        ("x.csv ", "x.csv"),
        ("sheet#1.csv", "sheet-1.csv"),
        ("\u202egnp.csv", "gnp.csv"),
    ],
)
def test_safe_name(name: str, safe: str) -> None:
    assert safe_name(name) == safe


@given(st.text(max_size=300) | st.text(alphabet="./\\:. \0ab~$#", max_size=20))
def test_a_safe_name_stays_in_its_folder(name: str) -> None:
    safe = safe_name(name)
    assert 0 < len(safe) <= 100 and len(safe.encode()) <= 255
    assert not safe.startswith((".", "~", " ")) and safe == safe.strip(" ")
    assert all(sign.isalnum() or sign in "._- " for sign in safe)
    assert os.path.normpath(f"exports/{safe}") == f"exports/{safe}"
    assert safe_name(safe) == safe


def test_a_long_name_keeps_its_ending() -> None:
    for letter in ("a", "漢", "𝒳"):
        safe = safe_name(letter * 500 + ".xlsx")
        assert safe.endswith(f"{letter}.xlsx") and len(safe) <= 100 and len(safe.encode()) <= 255


def test_the_same_content_twice_is_kept_once_and_another_gets_a_number(tmp_path: Path, salon: Path) -> None:
    first, second = dropped(tmp_path, "a\n1\n", "one"), dropped(tmp_path, "a\n2\n", "two")
    assert keep_export(first, "../x.csv", salon, Chosen()).name == "x.csv"
    again = keep_export(first, "x.csv", salon, Chosen())
    assert (again.name, again.already) == ("x.csv", True)
    assert keep_export(second, "x.csv", salon, Chosen()).name == "x-2.csv"
    assert keep_export(second, "x.csv", salon, Chosen()).already
    assert sorted(path.name for path in (salon / "exports").iterdir()) == [
        "bookings.csv",
        "menu.csv",
        "x-2.csv",
        "x.csv",
    ]
    assert stat.S_IMODE((salon / "exports" / "x.csv").stat().st_mode) & 0o077 == 0


def test_a_link_out_of_the_folder_is_not_followed(tmp_path: Path, salon: Path) -> None:
    outside = tmp_path / "outside.csv"
    (salon / "exports" / "x.csv").symlink_to(outside)
    assert keep_export(dropped(tmp_path, "a\n"), "x.csv", salon, Chosen()).name == "x-2.csv"
    assert not outside.exists()


COMMENTED = """# Ours.
[salon] # who we are
name = "Salon Proefdraad (invented)"

[columns.bookings] # what the till calls things
"Wie" = "client"   # who came
# the last word

[tax]
round_per = "line"
"""


def test_comments_and_order_survive(tmp_path: Path, salon: Path) -> None:
    (salon / "salon.toml").write_text(COMMENTED, "utf-8")
    keep_export(dropped(tmp_path, NO_PRICE), "new.csv", salon, of_bookings({'Kassa "bruto"\n[x]': "price"}))
    text = (salon / "salon.toml").read_text("utf-8")
    assert [line for line in COMMENTED.splitlines() if line not in text.splitlines()] == []
    assert read_settings(salon).columns == {"bookings": {"Wie": "client", 'Kassa "bruto"\n[x]': "price"}}
    keep_export(dropped(tmp_path, NO_PRICE), "new.csv", salon, of_bookings({" WIE": "stylist"}))
    assert read_settings(salon).columns["bookings"]["Wie"] == "stylist"
    keep_export(dropped(tmp_path, NO_PRICE), "new.csv", salon, of_bookings({"Wie": None, 'Kassa "bruto"\n[x]': None}))
    assert read_settings(salon).columns == {"bookings": {}}
    kept = (salon / "salon.toml").read_text("utf-8")
    assert [line for line in COMMENTED.splitlines() if line not in kept.splitlines()] == [
        '"Wie" = "client"   # who came'
    ]


@pytest.mark.parametrize(
    "before",
    [SETTINGS, "columns = {bookings = {Wie = 'client'}}\n" + SETTINGS, "[columns]\nbookings.Wie='client'\n" + SETTINGS],
)
def test_any_way_of_writing_settings(tmp_path: Path, salon: Path, before: str) -> None:
    """Settings that cannot be added to are left alone, with a sentence."""
    (salon / "salon.toml").write_text(before, "utf-8")
    chosen = Chosen({"a.csv": "sales"}, {"sales": {"Zoveel": "price", "Wie": ""}})
    wanted = with_chosen(parse_settings(before), chosen)
    try:
        keep_export(dropped(tmp_path, "a\n"), "a.csv", salon, chosen)
    except WorkStopped as stop:
        assert "by hand" in str(stop) and (salon / "salon.toml").read_text("utf-8") == before
        assert not (salon / "exports" / "a.csv").exists()
    else:
        assert read_settings(salon) == wanted


def test_a_column_that_is_none_changes_nothing(tmp_path: Path, salon: Path) -> None:
    before = everything_in(salon)
    with pytest.raises(WorkStopped, match="is not a column of bookings"):
        keep_export(dropped(tmp_path, NO_PRICE), "new.csv", salon, of_bookings({"Kassa": "prise"}))
    assert everything_in(salon) == before
