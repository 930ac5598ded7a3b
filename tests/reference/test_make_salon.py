"""The invented salons hold what they are for, and the plain reference can answer all of them."""

import sys
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))

from make_salon import MAKERS, make_salon
from plain import figures, row_accounts
from plain_book import read_book
from plain_roots import measured_regrowths

TODAY = {"harbour": date(2026, 2, 11), "kelp": date(2026, 1, 15), "dune": date(2025, 11, 12)}


def made(folder: Path, name: str, lines: int = 1200) -> Path:
    make_salon(folder, name, lines, 7)
    return folder


@pytest.mark.parametrize("name", sorted(MAKERS))
def test_the_same_seed_writes_the_same_files(tmp_path: Path, name: str) -> None:
    first, second = made(tmp_path / "one", name, 200), made(tmp_path / "two", name, 200)
    paths = [path.relative_to(first) for path in sorted(first.rglob("*")) if path.is_file()]
    assert len(paths) > 5
    assert all((first / path).read_bytes() == (second / path).read_bytes() for path in paths)


@pytest.mark.parametrize("name", sorted(MAKERS))
def test_every_row_is_accounted_for_and_every_level_adds_up(tmp_path: Path, name: str) -> None:
    folder = made(tmp_path, name)
    for row in row_accounts(folder):
        assert row["rows_read"] == row["rows_used"] + row["repeats"] + row["superseded"] + row["set_aside"]
    book, answer = read_book(folder), figures(folder, TODAY[name])
    assert all(answer.values())
    net_of_sales = sum((sale["net"] for sale in book["sales"]), Decimal(0))
    by_service = sum((row["net"] for row in answer["chairs"]), Decimal(0))
    assert by_service + net_of_sales == sum((row["net"] for row in answer["tax"]), Decimal(0))
    assert all(row["gross"] == row["net"] + row["tax"] for row in answer["tax"])
    paid = sum((row["amount"] for row in book["tables"]["payments"]), Decimal(0))
    assert paid == sum((row["amount"] for row in answer["takings"]), Decimal(0))
    stayed = sum(stay["span"][1] - stay["span"][0] for stay in book["stays"])
    assert abs(sum(row["chair_hours"] for row in answer["chairs"]) - stayed / 3600) < 1e-6


def test_harbour_supersedes_repeats_and_sets_aside(tmp_path: Path) -> None:
    accounts = row_accounts(made(tmp_path, "harbour"))
    bookings = [row for row in accounts if row["table"] == "bookings"]
    assert sum(row["superseded"] for row in bookings) > 100
    assert sum(row["repeats"] for row in bookings) > 100
    assert sum(row["set_aside"] for row in bookings) == 8
    states = {row["state"] for row in figures(tmp_path, TODAY["harbour"])["roots"]}
    assert states == {"booked", "resting", "nearing", "ready", "long_past"}


def test_kelp_stays_past_midnight_and_has_no_cents(tmp_path: Path) -> None:
    book = read_book(made(tmp_path, "kelp"))
    opened = [line for line in book["completed"] if line["starts_at"].hour >= 22 or line["starts_at"].hour < 1]
    assert len(opened) > 50
    assert all(line["tax"] == int(line["tax"]) for line in book["completed"])
    assert all(row["client"] is None for row in figures(tmp_path, TODAY["kelp"])["roots"])


def test_dune_works_through_the_nights_when_clocks_change(tmp_path: Path) -> None:
    book = read_book(made(tmp_path, "dune"))
    differs = 0
    for line in book["completed"]:
        on_the_wall = (line["ends_at"] - line["starts_at"]).total_seconds()
        differs += on_the_wall != line["end_seconds"] - line["start_seconds"]
        assert line["end_seconds"] >= line["start_seconds"]
    assert differs > 2
    lines_of_client: dict[str, list[dict[str, Any]]] = {}
    for line in book["completed"]:
        lines_of_client.setdefault(line["client_id"], []).append(line)
    assert max(len(measured_regrowths(lines)) for lines in lines_of_client.values()) > 4
    occupied = figures(tmp_path, TODAY["dune"])["occupancy"]
    stayed = sum(row["chair_hours"] for row in figures(tmp_path, TODAY["dune"])["chairs"])
    assert sum(row["occupied_hours"] for row in occupied) < stayed
