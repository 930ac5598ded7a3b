"""Great Expectations' findings join those of loading; it writes and sends nothing; oddities over all tables."""

import subprocess
import sys
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from salons import BOOKINGS, SETTINGS, write_salon

from analytics.checks import expectations
from analytics.commands.cli import main
from analytics.definitions.tables import TABLES
from analytics.loading import load_salon

MENU = """service_id,service,kind,price,tax_rate,hands_on_min,processing_min,valid_from
S1,Root touch-up,root_touch_up,60.00,21,45,,2026-02-01
S2,Cut,cut,30.00,250,30,,
S3,Blow-dry,styling,-1,21,2000,,
"""
VISITS = """booking_id,line,client_id,chair,starts_at,ends_at,status,service_id,price,regrowth_mm
B1,1,C1,Chair 1,2026-01-06 10:00,2026-01-06 11:30,completed,S1,60.00,
B2,1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00,95
B3,1,C2,Chair 1,2026-03-04 07:00,2026-03-04 07:30,completed,S2,30.00,
B4,0,C2,Chair 1,2026-03-05 10:00,2026-03-05 10:30,completed,S2,30.00,-3
B5,1,C2,Chair 1,2026-03-06 10:00,,completed,S2,forty,
"""
PROJECT = Path(__file__).resolve().parents[2]
EXPORTS: dict[str, str | bytes] = {
    "menu.csv": MENU,
    "bookings.csv": VISITS.replace("2026-03-06 10:00,,", "2026-03-06 10:00,2026-03-06 10:30,"),
    "log.csv": "logged_at,product_id,mixed_g,left_g\n2026-03-03,P1,30,30\n2026-03-03,P1,30,45.5\n2026-03-03,P9,30,\n",
    "products.csv": "product_id,product,kind,pack_g,pack_cost,strength_percent\nP1,Developer,developer,900,10.20,40\n",
    "clients.csv": "client_id,client,natural_level,grey_share\nC1,Ilse Proef,6,3\nC2,Bram Proef,11,0.5\n",
}
FOUND = [  # code, file, row, column, value
    ("bad_number", "bookings.csv", 6, "price", "forty"),
    ("before_menu", "bookings.csv", 2, "starts_at", "S1"),
    ("impossible_regrowth", "bookings.csv", 3, "regrowth_mm", "95"),
    ("out_of_range", "bookings.csv", 5, "line", "0"),
    ("out_of_range", "bookings.csv", 5, "regrowth_mm", "-3"),
    ("out_of_range", "clients.csv", 2, "grey_share", "3"),
    ("out_of_range", "clients.csv", 3, "natural_level", "11"),
    ("out_of_range", "log.csv", 3, "left_g", "45.5"),
    ("out_of_range", "menu.csv", 3, "tax_rate", "250"),
    ("out_of_range", "menu.csv", 4, "hands_on_min", "2000"),
    ("out_of_range", "menu.csv", 4, "price", "-1"),
    ("out_of_range", "products.csv", 2, "strength_percent", "40"),
    ("unknown_product", "log.csv", 4, "product_id", "P9"),
]

Finding = tuple[str, str, int, str, str]


def plain(value: str) -> str:
    """A number without the zeros it may be printed with."""
    try:
        return f"{float(value):g}"
    except ValueError:
        return value


def found(findings: pl.DataFrame) -> list[Finding]:
    rows = findings.select("code", "file", "row", "column", "value").rows()
    return sorted((*row[:4], plain(row[4])) for row in rows)


@pytest.fixture(scope="module")
def findings(tmp_path_factory: pytest.TempPathFactory) -> pl.DataFrame:
    return load_salon(write_salon(tmp_path_factory.mktemp("odd"), EXPORTS)).findings


@pytest.mark.parametrize("expected", FOUND, ids=[f"{row[0]} {row[3]}" for row in FOUND])
def test_each_slip_is_found_at_its_place(findings: pl.DataFrame, expected: Finding) -> None:
    """Findings of loading, of Great Expectations and over all tables stand side by side."""
    assert expected in found(findings)


def test_an_hour_outside_opening_hours_is_found(findings: pl.DataFrame) -> None:
    outside = findings.filter(code="outside_hours").select("file", "row", "column").rows()
    assert outside == [("bookings.csv", 4, "starts_at")]


def test_nothing_else_is_found(findings: pl.DataFrame) -> None:
    """All that was poured back (left_g = mixed_g), empty cells and grey of one half are no findings."""
    others = [row[:3] for row in found(findings.filter(pl.col("code") != "outside_hours"))]
    assert others == sorted(row[:3] for row in FOUND)


def test_what_is_out_of_range_is_used_as_it_stands(findings: pl.DataFrame) -> None:
    said = findings.filter(code="out_of_range", column="tax_rate").row(0, named=True)
    assert "0 to 100" in said["message"] and "used as it stands" in said["message"]


def test_a_pack_of_no_grams_is_found_and_does_not_stop_the_work(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What it costs per gram cannot be said; everything else can."""
    products = "product_id,product,kind,pack_g,pack_cost\nP1,Colour 5.0,colour,0,10.20\n"
    log = "logged_at,product_id,mixed_g,left_g\n2026-03-03,P1,30,5\n"
    salon = write_salon(tmp_path, {"products.csv": products, "log.csv": log})
    assert ("products.csv", 2, "pack_g") in load_salon(salon).findings.select("file", "row", "column").rows()
    for figure in ("bowls", "chairs", "month"):
        assert main([figure, "--salon", str(salon), "--today", "2026-04-01"]) == 0
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize("typed", ["9999-12-31", "0206-03-03", "2206-03-03"])
def test_a_slip_in_the_year_is_found_and_does_not_stop_the_work(
    tmp_path: Path, typed: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A visit in the year 206 or 9999 can be no visit: named by check, and the figures still answer."""
    good = "B1,1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"
    slip = f"B2,1,C1,Chair 1,{typed} 10:00,{typed} 11:30,completed,S1,60.00\n"
    salon = write_salon(tmp_path, {"bookings.csv": BOOKINGS + good + slip})
    assert ("bookings.csv", 3, "starts_at") in load_salon(salon).findings.select("file", "row", "column").rows()
    for figure in ("occupancy", "month", "reconciliation", "roots"):
        assert main([figure, "--salon", str(salon), "--today", "2026-04-01", "--format", "csv"]) == 0
        assert capsys.readouterr().out.count("\n") < 1000


def test_empty_tables_pass() -> None:
    assert expectations.check_tables({name: table.empty() for name, table in TABLES.items()}).is_empty()


def test_a_check_that_cannot_be_carried_out_is_said_to_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """A rule on a column that is not there fails inside Great Expectations; it does not pass, nor stop the load."""
    rules = expectations._expectations

    def with_a_broken_rule(known: Any, table: Any, rows: int) -> list[Any]:
        return [*rules(known, table, rows), known.ExpectColumnValuesToBeBetween(column="nowhere", min_value=0)]

    monkeypatch.setattr(expectations, "_expectations", with_a_broken_rule)
    hits = expectations.check_tables({name: table.empty().clear(1) for name, table in TABLES.items()})
    assert hits.filter(code="check_failed", column="nowhere")["table"].to_list() == list(TABLES)


def test_a_word_that_salon_toml_maps_to_no_value_stops_with_a_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """[words.status] may only name statuses; else visits would be counted nowhere."""
    settings = SETTINGS + '[words.status]\n"Klaar" = "finished"\n'
    salon = write_salon(tmp_path, {"bookings.csv": EXPORTS["bookings.csv"]}, settings)
    assert main(["load", "--salon", str(salon)]) == 1
    assert "finished" in capsys.readouterr().err


WATCHED = """
import socket, sys
from pathlib import Path

def refuse(*target):
    raise AssertionError(f"asked for {target}")

socket.getaddrinfo = refuse
socket.socket.connect = lambda self, address: refuse(address)
from analytics.loading import load_salon
print(load_salon(Path(sys.argv[1])).findings.height)
"""


def test_checking_writes_no_files_and_asks_no_network(tmp_path: Path) -> None:
    """No gx folder, no pages, no settings of its own: neither where it runs, nor at home, nor among temporary files."""
    salon = write_salon(tmp_path / "salon")
    places = {name: tmp_path / name for name in ("here", "home", "temporary")}
    for place in places.values():
        place.mkdir()
    done = subprocess.run(
        [sys.executable, "-c", WATCHED, str(salon)],
        cwd=places["here"],
        env={"HOME": str(places["home"]), "TMPDIR": str(places["temporary"]), "PYTHONPATH": str(PROJECT), "PATH": ""},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "0\n", "")
    assert [path for place in places.values() for path in place.rglob("*")] == []
    assert sorted(path.name for path in salon.iterdir() if not path.name.startswith(".")) == [
        "exports",
        "salon.duckdb",
        "salon.toml",
    ]
