"""Services that seem to be one under two names."""

from datetime import date, timedelta
from pathlib import Path

import polars as pl
import pytest
from dialects.measure_ways import NAME
from dialects.small import TODAY, small_salon
from dialects.way import lines, point, text
from frames import Row, bookings, only, services, visit, work_out

from analytics.definitions import findings
from analytics.intake.load import load
from analytics.records.chairs.renamed_services import joined_menu, names_alike
from analytics.salon import open_salon
from analytics.settings import read_settings

MENU = services(
    {"service_id": "A", "service": "Gloss", "kind": "toner", "hands_on_min": 20},
    {"service_id": "B", "service": "Sheen", "kind": "toner", "hands_on_min": 25},
    {"service_id": "C", "service": "Cut & Blow-dry", "kind": "cut"},
    {"service_id": "D", "service": "blow dry and cut", "kind": "cut"},
    {"service_id": "E", "service": "Fringe", "kind": "cut"},
)
FIRST = date(2026, 1, 5)


def weekly(service: str, price: str, begin: int, end: int, clients: int = 4) -> list[list[Row]]:
    """A visit of the service in each of these weeks, clients in turn."""
    return [
        visit(f"{service}{week}", f"{FIRST + timedelta(weeks=week)} 10:00", 30, (service, price),
              client_id=f"K{week % clients}")
        for week in range(begin, end)
    ]  # fmt: skip


def found(*visits: list[Row]) -> pl.DataFrame:
    return work_out("renamed_services", bookings=bookings(*visits), services=MENU)


def test_one_stops_when_the_other_begins_for_the_same_clients() -> None:
    """Ten weeks of A at 30, then ten of B at 32: all 4 clients of A came again, and all had B."""
    row = only(found(*weekly("A", "30", 0, 10), *weekly("B", "32", 10, 20)))
    assert (row["service_id"], row["goes_on_as"], row["how"]) == ("A", "Sheen", "renamed")
    assert (row["last_on"], row["first_on"]) == (date(2026, 3, 9), date(2026, 3, 16))
    assert (row["lines"], row["goes_on_lines"]) == (10, 10)
    assert (row["clients_after"], row["clients_went_on"]) == (4, 4)


@pytest.mark.parametrize(
    "visits",
    [
        [*weekly("A", "30", 0, 10), *weekly("B", "32", 5, 20)],  # side by side
        [*weekly("A", "30", 0, 10), *weekly("B", "50", 10, 20)],  # another price
        [*weekly("A", "30", 0, 10), *weekly("B", "32", 20, 30)],  # ten weeks apart
        [*weekly("A", "30", 0, 10), *weekly("E", "30", 10, 20)],  # another kind
        [*weekly("A", "30", 0, 10), *weekly("B", "32", 10, 14)],  # four lines
    ],
    ids=["beside", "price", "apart", "kind", "few"],
)
def test_two_services_are_not_taken_for_one(visits: list[list[Row]]) -> None:
    assert found(*visits).is_empty()


def test_other_clients_are_no_sign_that_it_goes_on() -> None:
    later = [[line | {"client_id": f"N{line['client_id']}"} for line in one] for one in weekly("B", "30", 10, 20)]
    seen_again = weekly("E", "12", 10, 20)
    assert found(*weekly("A", "30", 0, 10), *later, *seen_again).is_empty()


def test_one_name_written_in_two_ways() -> None:
    row = only(found(*weekly("C", "45", 0, 20), *weekly("D", "45", 4, 12)))
    assert (row["service_id"], row["goes_on_as_id"], row["how"]) == ("D", "C", "written in two ways")


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ("Knippen & föhnen", "fohnen en knippen", True),
        ("Balayage", "Balyage", True),
        ("Toner 1", "Toner 2", False),
        ("Knippen dames", "Knippen heren", False),
        ("Blow-dry", "blowdry", True),
        ("Highlights half", "Highlights full", False),
        ("", "", False),
    ],
)
def test_names_alike(one: str, other: str, alike: bool) -> None:
    assert names_alike(one, other) is alike


def test_pairs_joined_on_the_menu_are_one_service_after_the_next_load(tmp_path: Path) -> None:
    """From July on the small salon's diary says "Kleur uitgroei" for its root touch-up; there is no menu."""
    salon = small_salon(9, "nl")
    rows: list[list[object]] = [["Datum", "Tijd", "Klant", "Behandeling", "Prijs"]]
    for v, _, one in lines(salon.kept):
        renamed = one.service.id == "S01" and v.starts.month >= 7
        name = "Kleur uitgroei" if renamed else one.service.name
        rows.append([f"{v.starts:%d-%m-%Y}", f"{v.starts:%H:%M}", salon.name(v.client), name, point(one.price)])
    text(tmp_path, "agenda.csv", rows)
    (tmp_path / "salon.toml").write_text(NAME, encoding="utf-8")
    load(tmp_path, read_settings(tmp_path), lambda _: findings.hits([]), lambda *_: None)
    before = open_salon(tmp_path, TODAY)
    pair = only(before.figure("renamed_services"))
    assert (pair["service"], pair["goes_on_as"]) == ("Uitgroei kleuren", "Kleur uitgroei")
    menu = joined_menu(
        before.book.tables["services"],
        [(pair["service_id"], pair["goes_on_as_id"])],
        {pair["goes_on_as_id"]: pair["first_on"]},
    )
    menu.drop("file", "row", "site").write_csv(tmp_path / "exports" / "services.csv")
    load(tmp_path, read_settings(tmp_path), lambda _: findings.hits([]), lambda *_: None)
    after = open_salon(tmp_path, TODAY)
    assert after.figure("renamed_services").is_empty()
    done = after.book.tables["bookings"].filter(service_id=pair["service_id"])
    assert done.height == pair["lines"] + pair["goes_on_lines"]
    assert after.book.set_aside.is_empty()
