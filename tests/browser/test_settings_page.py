"""Settings changed and the menu confirmed on their pages, without a browser: what is written, and what is said."""

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from analytics.sentences.assumed import COSTS, HOURS
from analytics.sentences.settings import CHANGES, TITLES
from analytics.settings import Section, Settings, read_settings
from analytics.storage.book import read_book
from dashboard.start import APP
from tests.browser.serving import TODAY, load_here, page_file

DIARY = "Date,Time,Client,Service,Price\n13/10/2026,09:00,Una Vale,Ansatz,60.00\n14/10/2026,11:00,Bo Proef,Cut,30.00\n"
TOML = '# Ours.\n[salon]\nname = "Small"  # and fine\n'


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    (tmp_path / "exports").mkdir()
    (tmp_path / "salon.toml").write_text(TOML, "utf-8")
    (tmp_path / "exports" / "diary.csv").write_text(DIARY, "utf-8")
    load_here(tmp_path)
    return tmp_path


def opened(salon: Path, monkeypatch: pytest.MonkeyPatch, page: str) -> AppTest:
    monkeypatch.setattr("sys.argv", ["app.py", "--salon", str(salon), "--today", TODAY.isoformat()])
    return AppTest.from_file(str(APP), default_timeout=60).run().switch_page(page_file(page)).run()


def said(page: AppTest) -> str:
    return " ".join(element.proto.body for element in page.main if element.type == "html")


def press(page: AppTest, key: str) -> None:
    next(button for button in page.button if key in (button.key or "")).click().run()
    assert not page.exception


def test_hours_and_costs_are_said_until_they_are_set(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(salon, monkeypatch, "chairs")
    assert HOURS.says in said(page) and COSTS.says in said(page)
    assert HOURS.says not in said(page.switch_page(page_file("accountant")).run())
    page.switch_page(page_file("settings")).run()
    page.number_input(key="costs-per_month").set_value(2500.0)
    press(page, "form-costs")
    assert "Kept in salon.toml." in said(page)
    page.selectbox(key="hours-all-to").set_value(17 * 60).run()
    press(page, "keep-hours")
    found = read_settings(salon)
    assert found.costs.per_month == 2500 and found.hours.mon == ((540, 1020),) and found.hours.sun == ()
    assert (salon / "salon.toml").read_text("utf-8").startswith(TOML)
    page.switch_page(page_file("chairs")).run()
    assert HOURS.says not in said(page) and COSTS.says not in said(page)


def test_what_cannot_be_is_said_and_not_written(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(salon, monkeypatch, "settings")
    page.number_input(key="tax-default_rate").set_value(210.0)
    press(page, "form-tax")
    assert "default_rate" in said(page) and (salon / "salon.toml").read_text("utf-8") == TOML


def test_a_drafted_menu_is_confirmed_in_one_sitting(salon: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(salon, monkeypatch, "menu")
    assert "one was drafted from your diary: 2 services" in said(page)
    page.number_input(key="hands-on-1").set_value(50.0)
    press(page, "menu")
    assert "Your menu has 2 services" in said(page)
    assert (
        sorted(read_book(salon).tables["services"]["hands_on_min"]) != []
        and (salon / "exports" / "confirmed menu.xlsx").is_file()
    )
    assert 50.0 in read_book(salon).tables["services"]["hands_on_min"].to_list()


def test_every_setting_says_what_changes_with_it() -> None:
    for name, field in Settings.model_fields.items():
        if isinstance(field.annotation, type) and issubclass(field.annotation, Section):
            assert name in TITLES
            assert all(f"{name}.{key}" in CHANGES or name in CHANGES for key in field.annotation.model_fields)
