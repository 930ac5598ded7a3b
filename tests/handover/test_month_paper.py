"""The month on paper: the figures of the page, readable in grey, the same bytes for the same book."""

from argparse import Namespace
from datetime import date
from pathlib import Path

import polars as pl
import pymupdf
import pytest
from frames import bookings, days, known, services, visit

from analytics import wording
from analytics.commands.cli import main
from analytics.definitions.tables import TABLES
from analytics.handover.drawing import lines_across
from analytics.handover.month import one_month, statement, write
from analytics.periods import Period, add_months
from analytics.salon import Salon
from analytics.settings import parse_settings
from analytics.stops import WorkStopped
from analytics.storage.book import Book

SETTINGS = parse_settings('[salon]\nname = "Test *bold* #panic()"')
MENU = services({"service_id": "CUT", "kind": "cut", "service": "Cut [x](y) #1", "tax_rate": "0"})


def salon(today: str = "2026-04-01", months: int = 15) -> Salon:
    """A cut a month, of 100 and 110 in turn, and sixty of 100 in March 2026, the last."""
    last = date(2026, 3, 1)
    prices = [100, *[100, 110] * months][:months]
    visits = [
        visit(f"V{back}", f"{add_months(last, -back)} 10:00", 60, ("CUT", str(price)), client_id=f"C{back % 2}")
        for back, price in enumerate(prices)
    ]
    visits += [visit(f"W{n}", f"{last} 10:00", 60, ("CUT", "100"), client_id="C0") for n in range(59)]
    tables = known(bookings=bookings(*visits), services=MENU)
    nothing = pl.DataFrame()
    book = Book({name: tables[name] for name in TABLES}, nothing, nothing, nothing)
    return Salon(Path(), SETTINGS, book, date.fromisoformat(today))


def pages(pdf: bytes) -> pymupdf.Document:
    return pymupdf.open(stream=pdf)


def words(pdf: bytes) -> str:
    return " ".join(" ".join(page.get_text() for page in pages(pdf)).split())


MARCH = Period.month("2026-03")


def test_it_says_what_the_figure_says() -> None:
    book = salon()
    shown = words(statement(book, MARCH))
    net = book.figure("month", MARCH).filter(figure="net_revenue").to_dicts()[0]
    usual = wording.quantities(net["usual_low"], net["usual_high"], "EUR", SETTINGS)
    assert net["usual_high"] < 6000
    assert f"March 2026 brought €6,000 net, above its usual {usual}: that is news." in shown
    assert "Against February, net revenue is €5,900 more; the largest steps:" in shown
    assert f"● €6,000 €100.00 €110.00 {usual}" in shown
    for row in book.figure("month", MARCH).to_dicts():
        assert wording.word(row["figure"]) in shown
        assert wording.quantity(row["value"], row["unit"], SETTINGS) in shown
    assert "Test *bold* #panic()" in shown and "Cut [x](y) #1 brought €5,900 more" in shown


def test_it_fits_two_pages_with_their_numbers() -> None:
    document = pages(statement(salon(), MARCH))
    assert 1 <= len(document) <= 2
    assert f"1 / {len(document)}" in document[0].get_text() and "Made on 1 April 2026" in document[0].get_text()


def test_the_same_book_month_and_day_give_the_same_bytes_whatever_the_order_of_rows() -> None:
    book, mixed = salon(), salon()
    mixed.book.tables["bookings"] = mixed.book.tables["bookings"].sample(fraction=1, shuffle=True, seed=3)
    assert statement(book, MARCH) == statement(mixed, MARCH)


def test_everything_drawn_is_grey_and_what_is_drawn_is_said() -> None:
    pdf = statement(salon(), MARCH)
    colours = {shape[name] for page in pages(pdf) for shape in page.get_drawings() for name in ("color", "fill")} - {
        None
    }
    assert len(colours) > 2 and all(max(colour) - min(colour) < 0.005 for colour in colours)
    assert b"pdfuaid:part" in pdf and b"/Alt" in pdf


def test_a_part_month_is_said_to_be_one() -> None:
    shown = words(statement(salon(today="2026-03-20"), MARCH))
    assert "Part of the month" in shown and "So far March 2026 has brought €6,000 net" in shown
    cut = words(statement(salon(), days("2026-03-01", "2026-03-15")))
    assert "1–14 March" in cut and "Part of the month" in cut and "Against the same days of February" in cut


def test_a_first_month_has_nothing_to_stand_against() -> None:
    shown = words(statement(salon(months=1), MARCH))
    assert "do not reach back to a month to hold this one against" in shown


def test_one_month_at_a_time_and_without_a_name_the_last_that_is_over() -> None:
    assert one_month(salon(today="2026-03-20"), None) == Period.month("2026-02")
    assert one_month(salon(), None) == MARCH
    with pytest.raises(WorkStopped, match="name it with --month"):
        one_month(salon(), days("2026-01-01", "2026-03-01"))


def test_it_is_written_where_it_was_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "new" / "march.pdf"
    assert write(salon(), MARCH, Namespace(pdf=path)) == [path]
    assert path.read_bytes() == statement(salon(), MARCH)


def test_the_command_refuses_to_write_several_salons_into_one_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from salons import load_unchecked, write_salon

    folder = write_salon(tmp_path / "salon")
    load_unchecked(folder)
    asked = ["month", "--salon", str(folder), "--today", "2026-04-01", "--pdf", str(tmp_path / "a.pdf")]
    assert main(asked) == 0 and (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")
    assert main([*asked, "--by", "site"]) == 1
    assert "one salon at a time" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("tallest", "lines"),
    [
        (31_856, [0, 10_000, 20_000, 30_000, 40_000]),
        (100, [0, 25, 50, 75, 100, 125]),
        (9, [0, 2.5, 5, 7.5, 10]),
        (0, [0, 0.1]),
    ],
)
def testlines_across_stand_at_round_amounts(tallest: float, lines: list[float]) -> None:
    found = lines_across(tallest)
    assert found == pytest.approx(lines) and found[-1] > tallest
