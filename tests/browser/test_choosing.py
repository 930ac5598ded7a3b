"""Another table and other columns chosen on the exports page, kept in salon.toml, and taken back again."""

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from analytics.intake.preview import try_file
from analytics.settings import read_settings
from analytics.storage.book import read_book
from dashboard.parts import file_drop
from dashboard.start import APP
from tests.browser.serving import TODAY, page_file
from tests.browser.test_apptest import BOOKINGS, MENU, ONE_CUT, write_small

DESK = """date,product,quantity,price,stylist,method,amount,fee
2026-10-06,Mask,1,12.50,Mila,card,12.50,9
2026-10-07,Mask,2,12.50,Mila,cash,25.00,9
"""
TOML = '# Ours.\n[salon]\nname = "Small"\n'
NAME = "desk_2026_10.csv"


@pytest.fixture(autouse=True)
def _looked_at_here(monkeypatch: pytest.MonkeyPatch) -> None:
    """In the tests' own process, which has imported everything; test_preview and test_dropping look in another."""
    monkeypatch.setattr(file_drop, "try_apart", try_file)


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    write_small(tmp_path, ONE_CUT)
    (tmp_path / "exports" / NAME).write_text(DESK, "utf-8")
    (tmp_path / "salon.toml").write_text(TOML, "utf-8")
    return tmp_path


@pytest.fixture
def page(salon: Path, monkeypatch: pytest.MonkeyPatch) -> AppTest:
    return opened(salon, monkeypatch)


def opened(salon: Path, monkeypatch: pytest.MonkeyPatch) -> AppTest:
    """The exports page."""
    monkeypatch.setattr("sys.argv", ["app.py", "--salon", str(salon), "--today", TODAY.isoformat()])
    return AppTest.from_file(str(APP), default_timeout=60).run().switch_page(page_file("exports")).run()


def choose(page: AppTest, label: str, value: str) -> None:
    next(box for box in page.selectbox if box.label.startswith(label)).set_value(value).run()
    assert not page.exception


def column(page: AppTest, heading: str) -> str:
    """The label of the choice of this heading's column."""
    bodies = [element.proto.body for element in page.main if element.type == "html"]
    headings = [body for body in bodies if body.startswith('<div class="heading">')]
    (number,) = (at for at, body in enumerate(headings, start=1) if f">{heading}<" in body)
    return f"Column of heading {number}"


def press(page: AppTest, label: str) -> None:
    next(button for button in page.button if button.label == label).click().run()
    assert not page.exception


def said(page: AppTest) -> str:
    return " ".join(element.proto.body for element in page.main if element.type == "html")


def test_another_table_and_a_heading_not_used(page: AppTest, salon: Path) -> None:
    choose(page, "Or look", NAME)
    assert f"{NAME} was taken for sales" in said(page)
    assert "Keep these choices" not in [button.label for button in page.button]
    choose(page, "Read it as", "payments")
    assert f"{NAME} is read as payments, by your choice; " in said(page) and "desk*.csv" in said(page)
    choose(page, column(page, "fee"), "")
    assert (salon / "salon.toml").read_text("utf-8") == TOML
    press(page, "Keep these choices")
    kept = read_settings(salon)
    assert (kept.tables, kept.columns) == ({"desk*.csv": "payments"}, {"payments": {"fee": ""}})
    assert (salon / "salon.toml").read_text("utf-8").startswith(TOML)
    payments = read_book(salon).tables["payments"]
    assert payments["amount"].to_list() == [12.5, 25] and payments["fee"].to_list() == [0, 0]

    choose(page, "Or look", NAME)
    choose(page, column(page, "fee"), "as found")
    press(page, "Keep these choices")
    assert read_settings(salon).columns == {}
    assert read_book(salon).tables["payments"]["fee"].to_list() == [9, 9]
    choose(page, "Or look", NAME)
    choose(page, "Read it as", "as found")
    assert f"{NAME} was taken for sales" in said(page) and "That takes desk*.csv out" in said(page)


def test_dates_and_numbers_that_can_be_read_in_two_ways(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    both = "booking_id,paid_at,method,amount\nV1,03/11/2026 10:15,card,1.250\nV2,04/11/2026 10:15,card,2.500\n"
    (salon / "exports" / NAME).write_text(both, "utf-8")
    page = opened(salon, monkeypatch)
    choose(page, "Or look", NAME)
    assert "choose how they are written" in said(page) and "Keep these choices" not in str(page.button)
    choose(page, "Its dates are written", "dmy")
    choose(page, "Its numbers are written", ",")
    press(page, "Keep these choices")
    kept = read_settings(salon)
    assert (kept.dates.order, kept.numbers.decimal) == ("dmy", ",")
    assert (salon / "salon.toml").read_text("utf-8").startswith(TOML)
    payments = read_book(salon).tables["payments"]
    assert payments["paid_at"].dt.to_string("%d %b").to_list() == ["03 Nov", "04 Nov"]
    assert payments["amount"].to_list() == [1250, 2500]


def test_a_salon_that_starts_with_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One export is kept before the other is there; with both the page shows what was loaded."""
    (tmp_path / "salon.toml").write_text(TOML, "utf-8")
    page = opened(tmp_path, monkeypatch)
    assert "Nothing is loaded yet. Drop your exports here" in said(page)
    for name, content, says in (
        ("bookings.csv", BOOKINGS + ONE_CUT, "Its one row would be used."),
        ("menu.csv", MENU, "Its one row would be used."),
    ):
        page.file_uploader[0].set_value((name, content.encode(), "text/csv")).run()
        assert says in said(page)
        press(page, "Keep this file")
        assert f"{name} was kept in exports/. " in said(page)
    assert "2 files with 2 rows were read; 2 are used" in said(page)


def test_an_export_that_stops_the_load_is_left_out(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also while another one stops it."""
    for name in ("one.xlsx", "two.xlsx"):
        (salon / "exports" / name).write_bytes(b"PK and then rubbish")
    page = opened(salon, monkeypatch)
    choose(page, "Or look", "one.xlsx")
    assert "one.xlsx cannot be read as a workbook" in said(page)
    choose(page, "Read it as", "")
    press(page, "Keep these choices")
    assert "What you chose for one.xlsx was kept in salon.toml. two.xlsx cannot be read" in said(page)
    assert read_settings(salon).tables == {"one*.xlsx": ""}
