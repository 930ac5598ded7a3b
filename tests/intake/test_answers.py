"""What a load asks has answers to tap, and with each the load goes on."""

from decimal import Decimal
from pathlib import Path

import pytest
from salons import SETTINGS, load_unchecked, write_export

from analytics.intake.answers import Inquiry, asked_of_findings, inquiries
from analytics.intake.unreadable import unreadable
from analytics.settings import read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import Book, read_book
from analytics.storage.settings_file import write_settings

DIARY = """Date,Time,Client,Stylist,Service,Price
13/03/2026,09:00,Una Vale,Anna,Root touch-up,60.00
13/03/2026,11:00,Bo Proef,Anna,Cut,30.00
14/03/2026,09:00,Una Vale,Anna,Cut,30.00
15/03/2026,10:00,Cas Proef,Anna,Cut,30.00
16/03/2026,09:00,Una Vale,Anna,Cut,32.00
"""


def asked(folder: Path) -> list[Inquiry]:
    """What the load asks; nothing where it goes through."""
    try:
        load_unchecked(folder)
    except WorkStopped as stop:
        return inquiries(stop)
    return []


def answered(folder: Path, answer: str) -> Book:
    """The book once the first question was answered so."""
    chosen = next(one for one in asked(folder)[0].answers if one.label == answer)
    write_settings(folder, chosen.lines)
    load_unchecked(folder)
    return read_book(folder)


def salon(folder: Path, diary: str) -> Path:
    (folder / "salon.toml").write_text(SETTINGS, "utf-8")
    write_export(folder, "diary.csv", diary)
    return folder


def test_which_of_two_headings_is_the_client(tmp_path: Path) -> None:
    salon(tmp_path, DIARY.replace("Client,Stylist", "Alpha,Beta"))
    (one,) = asked(tmp_path)
    assert [(answer.heading, answer.values[:1]) for answer in one.answers] == [
        ("Alpha", ("Una Vale",)), ("Beta", ("Anna",)), ("", ()),
    ]  # fmt: skip
    chosen = one.answers[0]
    write_settings(tmp_path, chosen.lines)
    load_unchecked(tmp_path)
    assert set(read_book(tmp_path).tables["bookings"]["client"]) == {"Una Vale", "Bo Proef", "Cas Proef"}


def test_one_heading_that_may_be_the_price(tmp_path: Path) -> None:
    salon(tmp_path, DIARY.replace("Client", "Yy"))
    assert [one.label for one in asked(tmp_path)[0].answers] == ["It is the client", "It is not"]
    assert answered(tmp_path, "It is the client").tables["bookings"].height == 5


def test_cents_or_whole_amounts(tmp_path: Path) -> None:
    salon(tmp_path, DIARY.replace(".00\n", "00\n"))
    assert answered(tmp_path, "In cents").tables["bookings"]["price"].sum() == Decimal(182)


def test_dates_that_leave_the_day_open(tmp_path: Path) -> None:
    months = (
        DIARY.replace("13/03", "03/04").replace("14/03", "04/04").replace("15/03", "05/04").replace("16/03", "06/04")
    )
    salon(tmp_path, months)
    (one,) = asked(tmp_path)
    assert "salon.toml" not in one.says and one.says.endswith("How are its dates written?")
    book = answered(tmp_path, "day, month, year")
    assert set(book.tables["bookings"]["starts_at"].dt.month()) == {4}


def test_a_statement_that_does_not_say_how_it_was_paid(tmp_path: Path) -> None:
    salon(tmp_path, DIARY)
    write_export(tmp_path, "payments.csv", "Date,Time,Amount\n23/03/2026,10:55,90.00\n24/03/2026,11:45,30.00\n")
    report = load_unchecked(tmp_path)
    (one,) = asked_of_findings(report.findings)
    write_settings(tmp_path, next(answer.lines for answer in one.answers if answer.label == "Card"))
    assert asked_of_findings(load_unchecked(tmp_path).findings) == []
    assert read_book(tmp_path).tables["payments"]["method"].to_list() == ["card", "card"]


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("a.csv", b"Day,Price\n1,2\n", ""),
        ("a.xlsx", b"PK and rubbish", "a.xlsx"),
        ("a.pdf", b"%PDF", "a.pdf"),
        ("a.csv", b"", "empty"),
    ],
)
def test_a_file_that_cannot_be_read_is_told_before_it_is_kept(
    tmp_path: Path, name: str, content: bytes, says: str
) -> None:
    (tmp_path / "salon.toml").write_text(SETTINGS, "utf-8")
    (tmp_path / "dropped").write_bytes(content)
    found = unreadable([(tmp_path / "dropped", name)], read_settings(tmp_path))
    assert says in found.get(0, "") and bool(found) == bool(says)
