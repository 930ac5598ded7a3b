"""The page that a person reads first: short, and every sentence true of the period it is about."""

from itertools import pairwise
from pathlib import Path
from typing import Any

import pymupdf
import pytest
from frames import bookings, payments, products, sales, services, settings, table, visit
from handover.desk import handover_of, pdf_words, salon_of
from handover.spring import MARCH_2026, again, changed_march, salon_in
from salons import load_unchecked, write_salon

from analytics.handover.accountant.closed_periods import read_closed
from analytics.handover.accountant.folder import hand_over
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon

MENU = services({"service_id": "CUT", "tax_rate": "21"})
PAID = {"paid_at": "2026-03-03", "booking_id": "V1", "amount": "121"}
CUT = visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"))


def page(made: Handover) -> str:
    pdf = made.files["covering_page.pdf"]
    assert len(pymupdf.open(stream=pdf)) <= 3
    return pdf_words(pdf)


def made(*visits: Any, currency: str = "EUR", **more: Any) -> Handover:
    chosen = settings(salon={"currency": currency})
    return handover_of(salon_of(chosen, bookings=bookings(*visits), services=MENU, **more))


def test_a_month_in_which_nothing_happened() -> None:
    text = page(handover_of(salon_of()))
    assert "Nothing was charged and nothing was paid in the period." in text
    assert "The records are empty." in text
    assert "No earlier period was handed over for good" in text
    assert "moving average" not in text


@pytest.mark.parametrize(("currency", "shown"), [("EUR", "€121.00"), ("JPY", "JP¥121"), ("KWD", "KWD121.000")])
def test_a_month_that_agrees_in_its_currency(currency: str, shown: str) -> None:
    text = page(made(CUT, payments=payments(PAID), currency=currency))
    assert "Money received agrees exactly with what was due." in text
    assert "Nothing that the records show." in text
    assert shown in text.replace("KWD ", "KWD") and currency in text


def test_a_month_of_refunds_alone() -> None:
    refund = visit("V2", "2026-03-03 09:00", 0, ("CUT", "-121"))
    paid = payments({"paid_at": "2026-03-03", "booking_id": "V2", "amount": "-121"})
    handed = made(refund, payments=paid)
    assert handed.charged_words == "€121.00 more was given back than charged, €21.00 of it tax."
    assert "Money received agrees exactly with what was due." in page(handed)
    assert "No payment is on record" in page(made(refund))


def test_a_group_whose_one_salon_names_no_visits() -> None:
    visits = [
        visit(f"V{n}", "2026-03-03 09:00", 60, ("CUT", "121"), site=site) for n, site in ((1, "North"), (2, "South"))
    ]
    paid = payments(
        PAID | {"site": "North", "amount": "120"}, {"paid_at": "2026-03-03", "amount": "100", "site": "South"}
    )
    text = page(made(*visits, payments=paid))
    assert "does not agree for 1 visit and 1 day as a whole; in all, €22.00 less was received than was due" in text
    assert "North and South are handed over together" in text


def test_what_is_short_or_has_no_cost_or_was_written_down_is_to_decide() -> None:
    moves = [
        {"moved_at": "2026-03-01", "product_id": "BRUSH", "movement": "delivery", "packs": 1},
        {"moved_at": "2026-03-01", "product_id": "DYE", "movement": "delivery", "packs": 2, "expires_on": "2026-03-20"},
        {"moved_at": "2026-03-01", "product_id": "GLOSS", "movement": "delivery", "packs": 2},
    ]
    listed = products(
        {"product_id": "BRUSH", "product": "Brush", "kind": "retail", "pack_g": "90"},
        {"product_id": "DYE"},
        {"product_id": "GLOSS", "pack_cost": None},
    )
    sold = sales(*({"sold_at": f"2026-03-0{day}", "product_id": "BRUSH", "price": "20"} for day in (2, 3)))
    text = page(made(CUT, stock_moves=table("stock_moves", moves), products=listed, sales=sold))
    assert "Brush (1 piece, since 3 March 2026)" in text
    assert "1 product has no known cost and no value here" in text
    assert "€18.00 in the period, product by product in write_downs.csv" in text


ASIDE = (
    "booking_id,line,client_id,starts_at,ends_at,status,service_id,price\n"
    "B1,1,C1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    "B2,1,C1,2026-03-99 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    "B3,1,C2,2026-03-04 10:00,2026-03-04 11:30,completed,S2,thirty\n"
    "B4,1,C2,2026-04-04 10:00,2026-04-04 11:30,completed,NOWHERE,30\n"
    "B5,1,C2,2026-04-05 10:00,2026-04-05 11:30,completed,S2,30\n"
)


def test_rows_set_aside_are_told_by_the_period_their_date_falls_in(tmp_path: Path) -> None:
    write_salon(tmp_path, {"bookings.csv": ASIDE})
    load_unchecked(tmp_path)
    salon = open_salon(tmp_path, named_period("2026-05").start)
    march, april = (Handover(salon, named_period(name)) for name in ("2026-03", "2026-04"))
    words = "1 row of this period is in no sum; 1 more has another date, 1 has no date."
    assert march.left_out == april.left_out == [("Rows set aside", words)]
    rows = [line.split(",")[:4] for line in march.texts["set_aside.csv"].splitlines()[1:]]
    assert [(row[0], row[2], row[3].strip('"')) for row in rows] == [
        ("in this period", "bookings", "1"),
        ("another date", "bookings", "1"),
        ("no date", "bookings", "1"),
    ]


def test_what_changed_since_the_last_handover(tmp_path: Path) -> None:
    salon = salon_in(tmp_path)
    hand_over(salon, MARCH_2026, close_it=True)
    april = Handover(salon, named_period("2026-04"), tuple(read_closed(tmp_path)))
    assert "What was handed over of 2026-03 stands as it was." in page(april)
    later = again(salon, later=changed_march("36.05"))
    text = page(Handover(later, named_period("2026-04"), tuple(read_closed(tmp_path))))
    assert "2026-03. Services at 21 %, 4 March 2026: €24.79 then, €29.79 now." in text
    assert "3 amounts changed; they stand in corrections.csv, and in the journal on 1 April 2026." in text


def test_the_cover_of_the_workbook_says_the_same() -> None:
    handed = made(CUT, payments=payments(PAID))
    cover = handed.texts["cover.csv"]
    said = handed.covering
    assert all(sentence.replace('"', '""') in cover for _, sentence in [*said.changed, *said.assumed])


@pytest.mark.parametrize("currency", ["EUR", "KWD"])
def test_no_number_on_paper_runs_into_the_next(currency: str) -> None:
    """Stock of a large salon over a year: every word has a place of its own."""
    moves = [
        {"moved_at": f"2026-0{month}-02", "product_id": "DYE", "movement": what, "packs": packs, "unit_cost": "1234.56"}
        for month in range(1, 10)
        for what, packs in (("delivery", 30), ("discarded", 20))
    ]
    chosen = settings(salon={"currency": currency})
    salon = salon_of(chosen, bookings=bookings(CUT), services=MENU, stock_moves=table("stock_moves", moves))
    made = handover_of(salon, "2026")
    for name in ("statement.pdf", "covering_page.pdf"):
        for sheet in pymupdf.open(stream=made.files[name]):
            assert [pair for pair in pairwise(sorted(_signs(sheet))) if _run_together(*pair)] == []


def _signs(sheet: Any) -> list[tuple[int, float, float, str]]:
    """The signs of a page: line, left, right, what."""
    parts = [span for block in sheet.get_text("rawdict")["blocks"] for line in block["lines"] for span in line["spans"]]
    signs = [(sign["bbox"], sign["c"]) for span in parts for sign in span["chars"]]
    return [(round(box[1]), box[0], box[2], text) for box, text in signs if text.strip() and box[2] > box[0]]


def _run_together(one: tuple[int, float, float, str], other: tuple[int, float, float, str]) -> bool:
    return one[0] == other[0] and other[1] < one[2] - 1.5
