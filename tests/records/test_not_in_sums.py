"""What keeps rows of a period out of its sums is said above them, with the money it leaves unexplained."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from salons import SETTINGS, load_unchecked, write_export

from analytics.commands.cli import main
from analytics.periods import Period
from analytics.salon import open_salon
from analytics.storage.book import read_book

TODAY = date(2026, 5, 1)
HEAD = "Datum,Tijd,Klant,Behandeling,Prijs\n"
MENU = "Behandeling,Prijs\nKnippen,30\n"


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    """Three cuts and two lines of a service that the menu does not have in March, one more of it in April."""
    rows = [
        "2026-03-03,09:00,Una,Knippen,30", "2026-03-04,09:00,Bo,Knippen,30", "2026-03-05,09:00,Cee,Knippen,30",
        "2026-03-06,09:00,Una,Kleur\u00a0X,70", "2026-03-09,09:00,Bo,Kleur\u00a0X,72.50",
        "2026-04-07,09:00,Bo,Kleur\u00a0X,70",
        "2026-03-10,09:00,Bo,Knippen,veel",
        "2026-04-14,09:00,Una,Knippen,30",
    ]  # fmt: skip
    (tmp_path / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    write_export(tmp_path, "agenda.csv", HEAD + "\n".join(rows) + "\n")
    write_export(tmp_path, "prijzen.csv", MENU)
    write_export(tmp_path, "kas.csv", "paid_at,method,amount\n2026-03-06,cash,162.50\n2026-03-09,card,70\n")
    load_unchecked(tmp_path)
    return tmp_path


def test_the_cause_with_its_rows_and_its_part_of_the_money_received(salon: Path) -> None:
    """70 + 72.50 of the 232.50 received in March; "veel" says no amount."""
    causes, received = open_salon(salon, TODAY).not_in_sums(Period.month("2026-03"), ())
    assert causes.select("rows", "amount").rows() == [(2, Decimal("142.5")), (1, Decimal(0))]
    assert received == Decimal("232.5")
    april, _ = open_salon(salon, TODAY).not_in_sums(Period.month("2026-04"), ())
    assert april["amount"].to_list() == [Decimal(70)]
    before, _ = open_salon(salon, date(2026, 3, 7)).not_in_sums(Period.month("2026-03"), ())
    assert before["amount"].to_list() == [Decimal(70)], "what lies ahead is only booked"


def test_the_command_says_it_before_its_table(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["month", "--month", "2026-03", "--salon", str(salon), "--today", "2026-05-01"]
    assert main(arguments) == 0
    said = capsys.readouterr().err
    assert said.index('"Kleur X"') < said.index("2 rows of this period are in none of these sums")
    assert "142.50 of the" in said and "232.50 received" in said
    assert "1 more row is in none either" in said


def test_findings_name_the_files_own_heading_and_no_sign_that_nobody_sees(salon: Path) -> None:
    said = " ".join(read_book(salon).findings["message"])
    assert 'says "veel" under Prijs' in said
    assert "\\xa0" not in said and "\u00a0" not in said
    assert "under price" not in said and "booking_id" not in said


def test_nothing_is_said_where_nothing_is_kept_out(salon: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["month", "--from", "2026-04-08", "--salon", str(salon), "--today", "2026-05-01"]) == 0
    assert "in none of these sums" not in capsys.readouterr().err
