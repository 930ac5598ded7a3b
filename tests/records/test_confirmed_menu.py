"""A menu as it was confirmed: changed kinds, minutes and prices, joined services, and read back from its workbook."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import polars as pl
from salons import SETTINGS, load_unchecked, write_export

from analytics.handover.menu import OWN_MENU, as_workbook, keep_menu
from analytics.records.chairs.confirmed_menu import confirmed_menu, menu_lines
from analytics.settings import read_settings
from analytics.storage.book import read_book

DIARY = """Date,Time,Client,Service,Price
13/03/2026,09:00,Una Vale,Ansatz,60.00
13/03/2026,11:00,Bo Proef,+ Massage,15.00
14/04/2026,09:00,Una Vale,Cut,30.00
14/04/2026,11:00,Cas Proef,Cut,30.00
13/05/2026,09:00,Una Vale,Cut,32.00
20/05/2026,09:00,Una Vale,Cut & dry,32.00
"""


def thin(folder: Path) -> pl.DataFrame:
    """The drafted menu of a diary alone."""
    (folder / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    write_export(folder, "diary.csv", DIARY)
    load_unchecked(folder)
    return read_book(folder).tables["services"]


def test_what_is_kept_is_what_the_next_load_reads(tmp_path: Path) -> None:
    """Cut costs 30 from the first day and 32 from 13 May on; changed to 34, that is what it costs since then."""
    services = thin(tmp_path)
    lines = {line["service"]: line for line in menu_lines(services)}
    assert [(one["valid_from"], one["price"]) for one in lines["Cut"]["prices"]] == [
        (None, Decimal(30)), (date(2026, 5, 13), Decimal(32)),
    ]  # fmt: skip
    changes = {
        ("", "cut"): {"hands_on_min": 40.0, "price": Decimal(34)},
        ("", "+ massage"): {"kind": "treatment", "processing_min": 5.0},
    }
    keep_menu(
        tmp_path, confirmed_menu(services, changes, [("cut", "cut & dry")], {"cut & dry": date(2026, 5, 20)}), ["x"]
    )
    report = load_unchecked(tmp_path)
    assert "menu_drafted" not in set(report.findings["code"]) and report.files["set_aside"].sum() == 0
    menu = read_book(tmp_path).tables["services"]
    cut = menu.filter(service_id="cut").sort("valid_from", nulls_last=False)
    assert cut.select("service", "price", "valid_from", "hands_on_min").rows() == [
        ("Cut", Decimal(30), None, 40.0),
        ("Cut", Decimal(34), date(2026, 5, 13), 40.0),
        ("Cut & dry", Decimal(32), date(2026, 5, 20), 45.0),
    ]
    massage = menu.filter(service="+ Massage")
    assert massage.select("kind", "processing_min").rows() == [("treatment", 5.0)]
    assert read_book(tmp_path).tables["bookings"].filter(service_id="cut").height == 4


def test_another_kind_says_anew_whether_roots_start_again(tmp_path: Path) -> None:
    services = thin(tmp_path)
    assert services.filter(service="Ansatz").select("kind", "resets_roots").rows() == [("root_touch_up", True)]
    keep_menu(tmp_path, confirmed_menu(services, {("", "ansatz"): {"kind": "toner"}}, [], {}), [])
    load_unchecked(tmp_path)
    assert read_book(tmp_path).tables["services"].filter(service="Ansatz")["resets_roots"].to_list() == [False]


def test_the_lists_it_was_read_from_are_left_out(tmp_path: Path) -> None:
    thin(tmp_path)
    write_export(tmp_path, "prices.csv", "Service,Price\nAnsatz,60.00\nCut,30.00\nCut & dry,32.00\n+ Massage,15.00\n")
    load_unchecked(tmp_path)
    services = read_book(tmp_path).tables["services"]
    keep_menu(tmp_path, confirmed_menu(services, {}, [], {}), services["file"].unique().to_list())
    assert read_settings(tmp_path).tables == {"prices.csv": ""}
    load_unchecked(tmp_path)
    assert read_book(tmp_path).tables["services"]["file"].unique().to_list() == [f"{OWN_MENU}"]


def test_the_same_menu_gives_the_same_bytes(tmp_path: Path) -> None:
    menu = confirmed_menu(thin(tmp_path), {}, [], {})
    assert as_workbook(menu) == as_workbook(menu)
