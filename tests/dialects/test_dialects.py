"""The same salon in many dialects gives the same figures as in the contract's own, to the last digit."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from salons import ONE_VISIT, SETTINGS, load_unchecked
from salons import write_salon as write_visits

from analytics.intake.publishing.report import Report
from analytics.salon import open_salon
from analytics.stops import WorkStopped
from analytics.storage.book import BOOK, read_book
from dialects.dialects import CONTRACT, DIALECTS
from dialects.invented import CLIENTS, TODAY, salon
from dialects.writer import TABLES, Dialect, text_of, write_salon

FIGURES = ("chairs", "occupancy", "bowls", "tax", "takings", "reconciliation", "month", "roots")
SKIPPED = {"total_line", "repeated_heading", "price_shared", "hidden_sheet", "rate_as_share"}
"""What may be said of these exports: what is no record, prices that were shared, rates as workbooks hold them."""

DIALECT = pytest.mark.parametrize("dialect", DIALECTS, ids=lambda dialect: dialect.name)


@dataclass(frozen=True)
class Answers:
    report: Report
    figures: dict[str, pl.DataFrame]


def answers_in(folder: Path, dialect: Dialect) -> Answers:
    """Write the salon in the dialect, load it, and ask for every figure."""
    write_salon(folder, salon(), dialect)
    report = load_unchecked(folder)
    opened = open_salon(folder, TODAY)
    return Answers(report, {name: opened.figure(name) for name in FIGURES})


@pytest.fixture(scope="module")
def contract(tmp_path_factory: pytest.TempPathFactory) -> Answers:
    return answers_in(tmp_path_factory.mktemp("contract") / "salon", CONTRACT)


@pytest.fixture(scope="module")
def in_dialect(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """Answers of a dialect, each worked out once."""
    known: dict[str, Answers] = {}

    def ask(dialect: Dialect) -> Answers:
        if dialect.name not in known:
            known[dialect.name] = answers_in(tmp_path_factory.mktemp("salon") / "salon", dialect)
        return known[dialect.name]

    return ask


def as_in_contract(name: str, frame: pl.DataFrame, dialect: Dialect) -> pl.DataFrame:
    """The figure with the contract's names for what the dialect had to name otherwise, in an order without names."""
    back = {other: own for own, other in dialect.renamed.items()}
    frame = frame.with_columns(pl.col(pl.String).replace(back))
    if name == "roots":
        ids = {client: f"K{100 + number}" for number, client in enumerate(CLIENTS)}
        frame = frame.with_columns(client_id=pl.col("client").replace(ids))
    return frame.sort(frame.columns[:2])


def whole_month(chairs: pl.DataFrame) -> pl.DataFrame:
    """Sums over the lines of a month, which do not depend on how one price was shared over them."""
    return chairs.group_by("month").agg(pl.col("lines", "gross", "net", "product_cost").sum()).sort("month")


def test_the_salon_holds_what_the_dialects_are_about(contract: Answers) -> None:
    """Otherwise the dialects would agree on nothing much."""
    tables = salon()
    assert {row["status"] for row in tables["bookings"]} == {"completed", "booked", "cancelled", "no_show"}
    assert any(row["price"] < 0 for row in tables["bookings"])
    assert any(row["price"] > 1000 for row in tables["bookings"])
    assert {row["starts_at"].day > 12 for row in tables["bookings"]} == {True, False}
    assert {row["starts_at"].hour > 12 for row in tables["bookings"]} == {True, False}
    assert any("&" in row["service"] for row in tables["services"])
    assert contract.report.findings.is_empty()
    assert min(frame.height for frame in contract.figures.values()) >= 3


@DIALECT
def test_every_row_is_read_and_used(in_dialect: Any, contract: Answers, dialect: Dialect) -> None:
    """As many rows of every table as the contract dialect has; nothing is said but of totals and repeated headings."""
    report = in_dialect(dialect).report
    assert set(report.findings["code"]) <= SKIPPED
    used = report.files.group_by("table").agg(pl.col("rows_used").sum()).sort("table")
    of_contract = contract.report.files.group_by("table").agg(pl.col("rows_used").sum()).sort("table")
    if dialect.several:
        used, of_contract = (frame.filter(pl.col("table") != "bookings") for frame in (used, of_contract))
    assert used.rows() == of_contract.rows()


@DIALECT
@pytest.mark.parametrize("figure", FIGURES)
def test_figures_are_those_of_the_contract(in_dialect: Any, contract: Answers, dialect: Dialect, figure: str) -> None:
    got = as_in_contract(figure, in_dialect(dialect).figures[figure], dialect)
    wanted = as_in_contract(figure, contract.figures[figure], CONTRACT)
    if dialect.several and figure == "chairs":
        got, wanted = whole_month(got), whole_month(wanted)
    assert got.rows() == wanted.rows()
    assert got.schema == wanted.schema


@pytest.mark.parametrize("dialect", [dialect for dialect in DIALECTS if dialect.several], ids=lambda one: one.name)
def test_a_price_for_several_services_is_said_to_be_shared(in_dialect: Any, dialect: Dialect) -> None:
    found = in_dialect(dialect).report.findings.filter(code="price_shared")
    assert found.height == 1
    several = [row for row in salon()["bookings"] if row["line"] == 2]
    assert found["count"].item() == len(several)


def test_an_order_that_the_days_leave_open_is_asked_for(tmp_path: Path) -> None:
    """Until [dates] order says which of 04/03/2026 is the day: one sentence, and nothing is loaded."""
    visit = ONE_VISIT.replace("2026-03-03", "04/03/2026")
    folder = write_visits(tmp_path, {"bookings.csv": visit})
    with pytest.raises(WorkStopped, match=r"^bookings\.csv leaves open .*04/03/2026.*\[dates\] order .*\.$"):
        load_unchecked(folder)
    assert not (folder / BOOK).exists()
    write_visits(tmp_path, {"bookings.csv": visit}, SETTINGS + '[dates]\norder = "mdy"\n')
    assert load_unchecked(folder).findings.is_empty()
    assert read_book(folder).tables["bookings"]["starts_at"].dt.date().to_list() == [date(2026, 4, 3)]


def test_the_writer_writes_what_it_is_said_to_write() -> None:
    """Two dialects as bytes, so that the tests above are known to be about something."""
    dialect = next(one for one in DIALECTS if one.name == "dutch tabs in UTF-16 LE")
    assert text_of([["Prijs", "Duur"], ["€ 1.234,50", "90 min"]], dialect).decode("utf-16") == (
        "Prijs\tDuur\r\n€ 1.234,50\t90 min\r\n"
    )
    assert len({one.name for one in DIALECTS}) == len(DIALECTS) >= 14
    assert all(set(one.headings) == set(TABLES) for one in DIALECTS)
