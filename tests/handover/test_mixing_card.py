"""The mixing card: one page for the wall, whatever the salon, with the maker before the amounts."""

from argparse import Namespace
from datetime import date
from pathlib import Path

import polars as pl
import pymupdf
import pytest
from frames import known, product_log, products, services

from analytics.definitions.tables import TABLES
from analytics.handover.mixing import MOST_ROWS, card, write
from analytics.salon import Salon
from analytics.sentences.waste import CAUTIONS
from analytics.settings import parse_settings
from analytics.storage.book import Book


def salon(count: int, weighed: int = 8) -> Salon:
    """So many services, each with eight bowls of 45 g in March, of which 12 g were left."""
    names = [f"S{number:02}" for number in range(count)]
    rows = [
        {"logged_at": f"2026-03-{day:02} 10:00", "booking_id": f"{name}-{day}", "service_id": name}
        | {"product_id": "DYE", "mixed_g": "45", "left_g": "12" if day <= weighed else None}
        for name in names
        for day in range(1, 9)
    ]
    menu = [{"service_id": name, "service": f"Long name of a service {name} #x", "kind": "toner"} for name in names]
    tables = known(
        product_log=product_log(*rows),
        services=services(*menu),
        products=products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"}),
    )
    nothing = pl.DataFrame()
    book = Book({name: tables[name] for name in TABLES}, nothing, nothing, nothing)
    return Salon(Path(), parse_settings('[salon]\nname = "Test"'), book, date(2026, 4, 1))


def words(pdf: bytes) -> str:
    return " ".join(" ".join(page.get_text() for page in pymupdf.open(stream=pdf)).split())


def test_amounts_and_the_usual_ones_stand_after_the_cautions() -> None:
    shown = words(card(salon(2)))
    assert "Long name of a service S01 #x" in shown
    assert "35 g 45 g" in shown
    assert shown.index(CAUTIONS[:40]) < shown.index("35 g")
    assert "Made on 1 April 2026" in shown and "March 2026" in shown


@pytest.mark.parametrize("count", [0, 1, 6, 9, 14, MOST_ROWS, MOST_ROWS + 6])
def test_it_is_one_page_whatever_the_menu(count: int) -> None:
    document = pymupdf.open(stream=card(salon(count)))
    assert len(document) == 1
    assert ("6 rarer amounts are left out" in document[0].get_text()) == (count > MOST_ROWS)


def test_letters_are_large_where_services_are_few() -> None:
    page = pymupdf.open(stream=card(salon(4)))[0]
    spans = [
        span for block in page.get_text("dict")["blocks"] for line in block.get("lines", []) for span in line["spans"]
    ]
    assert max(span["size"] for span in spans if span["text"].strip() == "35 g") > 30
    assert all(len({span["color"] >> shift & 255 for shift in (0, 8, 16)}) == 1 for span in spans)  # greys


def test_a_service_without_an_amount_is_named() -> None:
    shown = words(card(salon(1, weighed=7)))
    assert "No amount yet for Long name of a service S00 #x" in shown
    assert "35 g" not in shown


def test_the_command_writes_the_same_bytes_each_time(tmp_path: Path) -> None:
    paths = [write(salon(3), None, Namespace(pdf=tmp_path / f"{name}.pdf"))[0] for name in ("one", "other")]
    assert paths[0].read_bytes() == paths[1].read_bytes()
    assert paths[0].stat().st_mode & 0o777 == 0o600
