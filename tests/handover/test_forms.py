"""The forms: blank they are nothing, filled in they are read like any export."""

import argparse
import io
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path

import polars as pl
import pytest
from openpyxl import load_workbook
from salons import SETTINGS, load_unchecked, write_export

from analytics.handover.forms import FORMS, LANGUAGES, TITLES, Known, forms, headings_of, write
from analytics.intake.evidence.plan import constants_of
from analytics.salon import open_salon
from analytics.settings import parse_settings
from analytics.storage.book import read_book

DIARY = """Date,Time,Client,Stylist,Service,Price
2026-03-03,09:00,Una Vale,Anna,Root touch-up,60.00
2026-03-03,11:00,Bo Proef,Anna,Cut,30.00
2026-03-04,09:00,Una Vale,Bea,Cut,30.00
"""
PLAIN = parse_settings('[salon]\nname = "Salon & Proef"')
TODAY = date(2026, 5, 1)


def test_the_same_salon_gives_the_same_bytes() -> None:
    known = Known(("Shade 6.0",), ("Anna",))
    assert forms(PLAIN, known) == forms(PLAIN, known)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_heading_is_read_as_its_column_in_the_salons_language(language: str) -> None:
    settings = parse_settings(f'[salon]\nname = "Salon Proef"\nlocale = "{language}"')
    for table, columns in FORMS:
        headings = headings_of(table, columns, language, settings)
        assert not set(headings) & set(columns) - {"product"}, "a word of the language, not our own name"
        assert len(set(headings)) == len(columns)
    titles = TITLES[language]
    said = [constants_of(f"forms.xlsx#{title}", "stock_moves", settings).get("movement") for title in titles[1:3]]
    assert said == ["count", "delivery"]


def test_cells_offer_what_is_known_and_check_days_and_grams() -> None:
    book = load_workbook(io.BytesIO(forms(PLAIN, Known(("Shade 6.0", "Shade 7.1"), ("Anna",)))))
    bowls = book["Bowls"]
    rules = {str(rule.sqref): rule.type for rule in bowls.data_validations.dataValidation}
    assert rules == {
        "A2:A1001": "date", "B2:B1001": "time", "C2:C1001": "list", "D2:D1001": "list", "E2:E1001": "decimal",
        "F2:F1001": "decimal",
    }  # fmt: skip
    assert book["salon-figures lists"].sheet_state == "hidden"
    assert bowls.page_setup.orientation == "landscape" and bowls.print_title_rows == "$1:$1"


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    (tmp_path / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    write_export(tmp_path, "diary.csv", DIARY)
    return tmp_path


def test_blank_forms_are_nothing_and_filled_in_they_are_read(salon: Path) -> None:
    load_unchecked(salon)
    before = read_book(salon)
    path = salon / "exports" / "forms.xlsx"
    write(salon, TODAY, argparse.Namespace(to=path))
    report = load_unchecked(salon)
    blank = read_book(salon)
    said = report.findings.filter(pl.col("file").str.starts_with("forms"))
    assert said.is_empty(), said["message"].to_list()
    assert all(blank.tables[name].equals(before.tables[name]) for name in before.tables)

    _fill_in(path)
    report = load_unchecked(salon)
    tables = read_book(salon).tables
    bowl = tables["product_log"].row(0, named=True)
    assert (bowl["logged_at"], bowl["stylist"]) == (datetime(2026, 3, 3, 9, 5), "Anna")
    assert (bowl["product_id"], bowl["mixed_g"], bowl["left_g"]) == ("shade 6.0", Decimal(40), Decimal("4.5"))
    moves = tables["stock_moves"].select("movement", "packs", "unit_cost").rows()
    assert sorted(moves) == [("count", 5.0, None), ("delivery", 12.0, Decimal("6.5"))]
    assert tables["products"].select("product", "kind", "pack_g").rows() == [("Shade 6.0", "colour", Decimal(60))]
    assert sorted(tables["services"].select("service", "price", "hands_on_min").rows()) == [
        ("Cut", Decimal(30), 45.0),
        ("Root touch-up", Decimal(62), 40.0),
    ]
    assert report.files["set_aside"].sum() == 0
    waste = open_salon(salon, TODAY).figure("bowls").row(0, named=True)
    assert (waste["bowls"], waste["mixed_g"]) == (1, Decimal(40))


def _fill_in(path: Path) -> None:
    book = load_workbook(path)
    filled = {
        "Bowls": [[datetime(2026, 3, 3), time(9, 5), "Anna", "Shade 6.0", 40, 4.5]],
        "Count": [[datetime(2026, 3, 1), "Shade 6.0", 5]],
        "Delivery": [[datetime(2026, 3, 2), "Shade 6.0", 12, 6.5, None]],
        "Products": [["Shade 6.0", "colour", 60, 6.5, None, 21]],
        "Services": [["Root touch-up", "root touch-up", 62, 21, 40, 35, None], ["Cut", "cut", 30, 21, 45, 0, None]],
    }
    for title, rows in filled.items():
        for at, row in enumerate(rows, start=2):
            for across, cell in enumerate(row, start=1):
                book[title].cell(at, across).value = cell
    book.save(path)
