"""Four salons with odd hours, loaded from their exports; every figure of chair time worked out by hand."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from frames import bookings, services, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from salons import load_unchecked, write_salon

from analytics.checks.oddities import oddities
from analytics.periods import Period
from analytics.salon import Salon, open_salon

HEAD = "booking_id,client_id,stylist,chair,starts_at,ends_at,status,service_id,price\n"
MENU = """service_id,service,kind,tax_rate,hands_on_min,processing_min
ROOTS,Roots,root_touch_up,25,60,30
CUT,Cut,cut,25,30,
TALK,Talk,other,25,0,0
WASH,Wash,other,25,0,
"""


def read_salon(folder: Path, visits: str, hours: str, month: str) -> "Read":
    settings = f'[salon]\nname = "Odd"\n[costs]\nper_month = 900\n[hours]\n{hours}\n'
    write_salon(folder, {"menu.csv": MENU, "bookings.csv": HEAD + visits}, settings)
    load_unchecked(folder)
    return Read(open_salon(folder, date(2027, 1, 1)), month)


class Read:
    """One cell of a figure in one month."""

    def __init__(self, salon: Salon, month: str) -> None:
        self.salon, self.period = salon, Period.month(month)

    def rows(self, name: str, **where: Any) -> list[dict[str, Any]]:
        return self.salon.figure(name, self.period).filter(**where).to_dicts()

    def cell(self, name: str, column: str, **where: Any) -> Any:
        (row,) = self.rows(name, **where)
        return row[column]

    def odd(self, code: str) -> list[int]:
        """The rows found to be odd in this way."""
        return oddities(self.salon.book.tables, self.salon.settings).filter(code=code)["row"].to_list()


def test_overlapping_visits_in_one_chair(tmp_path: Path) -> None:
    """10:00–12:00 and 11:00–12:30 on the one chair, open 9–18 on five Tuesdays = 45 h; 125 and 50 with 25 % tax.

    The chair was taken 2.5 h of 45; the lines took 2 and 1.5 h, as long as their clients sat.
    """
    read = read_salon(
        tmp_path,
        "V1,A,Mila,W,2026-03-03 10:00,2026-03-03 12:00,completed,ROOTS,125\n"
        "V2,B,Mila,W,2026-03-03 11:00,2026-03-03 12:30,completed,CUT,50\n",
        'tue = "09:00-18:00"',
        "2026-03",
    )
    assert read.cell("occupancy", "occupied_hours") == 2.5
    assert read.cell("occupancy", "occupied_share") == pytest.approx(2.5 / 45)
    assert {row["service_id"]: row["chair_hours"] for row in read.rows("chairs")} == {"ROOTS": 2, "CUT": 1.5}
    assert read.cell("economics", "empty_hours", split="salon") == 42.5
    assert read.cell("economics", "empty_cost", split="salon") == 850  # at 900 ÷ 45 = 20
    assert read.cell("economics", "net_per_chair_hour", split="salon") == pytest.approx(140 / 3.5)
    assert sum(row["taken_hours"] for row in read.rows("hours_of_week")) == 2.5
    assert read.cell("processing", "second_client_hours") == 0  # the same chair is no other chair
    assert read.odd("chair_taken_twice") == [3]


def test_a_visit_from_half_past_eight_to_a_quarter_past_midnight(tmp_path: Path) -> None:
    """Saturday 31 January 20:30 to Sunday 00:15, open until 21:00: 3.5 h are January's, 0.25 h February's."""
    read = read_salon(
        tmp_path,
        "V1,A,Mila,W,2026-01-31 20:30,2026-02-01 00:15,completed,ROOTS,125\n"
        "V2,B,Mila,W,2026-02-07 12:00,2026-02-07 13:00,completed,CUT,50\n",
        'sat = "12:00-21:00"',
        "2026-01",
    )
    assert read.cell("chairs", "chair_hours") == 3.75
    assert read.cell("occupancy", "occupied_hours") == 3.5
    assert read.cell("occupancy", "occupied_share") == pytest.approx(0.5 / 45)
    assert read.cell("month", "value", figure="chair_hours") == 3.75
    assert {(row["weekday"], row["hour"]): float(row["net"]) for row in read.rows("hours_of_week") if row["net"]} == {
        ("sat", 20): 13.33, ("sat", 21): 26.67, ("sat", 22): 26.67, ("sat", 23): 26.67, ("sun", 0): 6.66,
    }  # fmt: skip
    february = Read(read.salon, "2026-02")
    assert february.cell("occupancy", "occupied_hours") == 1.25
    assert february.cell("chairs", "chair_hours") == 1
    assert read.odd("outside_hours") == [2]


@pytest.mark.parametrize(("month", "night", "real_hours"), [("2026-03", "29", 2), ("2026-10", "25", 4)])
def test_over_both_nights_of_a_clock_change(tmp_path: Path, month: str, night: str, real_hours: int) -> None:
    """01:00 to 04:00 by the clock is two hours in spring and four in autumn; open Saturday 22:00 to Sunday 04:00.

    March: 4 h of the night from February, three nights of 6 h, one of 5. October: three of 6 h, one of 7, 2 h of the
    last.
    """
    read = read_salon(
        tmp_path,
        f"V1,A,Mila,W,{month}-{night} 01:00,{month}-{night} 04:00,completed,ROOTS,100\n",
        'sat = "22:00-04:00"',
        month,
    )
    assert read.cell("occupancy", "open_hours") == 27
    assert read.cell("chairs", "chair_hours") == real_hours
    assert read.cell("occupancy", "occupied_hours") == real_hours
    assert read.cell("economics", "net_per_chair_hour", split="salon") == pytest.approx(80 / real_hours)
    assert read.cell("durations", "median_minutes") == 60 * real_hours
    assert sum(row["taken_hours"] for row in read.rows("hours_of_week")) == real_hours


def test_a_menu_without_minutes(tmp_path: Path) -> None:
    """An hour for two lines without minutes: half an hour each. Nothing is known of hands-on hours or of the menu's."""
    read = read_salon(
        tmp_path,
        "V1,A,Mila,W,2026-03-03 10:00,2026-03-03 11:00,completed,TALK,25\n"
        "V1,A,Mila,W,2026-03-03 10:00,2026-03-03 11:00,completed,WASH,75\n",
        'tue = "09:00-18:00"',
        "2026-03",
    )
    assert {row["service_id"]: row["chair_hours"] for row in read.rows("chairs")} == {"TALK": 0.5, "WASH": 0.5}
    assert [row["net_per_chair_hour"] for row in read.rows("economics", split="service")] == [40, 120]
    assert {row["net_per_hands_on_hour"] for row in read.rows("economics")} == {None}
    assert {(row["median_minutes"], row["menu_minutes"]) for row in read.rows("durations")} == {(30, None)}
    assert read.cell("processing", "second_client_share") is None
    # The one hour taken carries 900, half of it 450, with 25 % tax.
    assert {row["price_to_clear_cost"] for row in read.rows("prices")} == {562.5}


stay = st.tuples(st.integers(0, 20 * 32), st.integers(1, 400), st.integers(1, 3))


@effort(max_examples=10, deadline=None)
@given(st.lists(stay, min_size=1, max_size=8))
def test_little(stays: list[tuple[int, int, int]]) -> None:
    """Clients present on average = arrivals per hour × mean stay (Little 1961, Operations Research 9:383–387).

    Clients present on average is the chair hours of the services ÷ hours open, arrivals are the visits of the month.
    """
    visits = [
        visit(
            f"V{n}",
            f"2026-06-{1 + at // 32:02} {9 + at % 32 // 4:02}:00",
            length,
            *[("CUT", "10")] * lines,
            chair=f"C{n}",
        )
        for n, (at, length, lines) in enumerate(stays)
    ]
    given_tables = {"bookings": bookings(*visits), "services": services({"service_id": "CUT"}), "period": "2026-06"}
    open_hours = work_out("occupancy", **given_tables)["open_hours"][0]
    arrivals = work_out("month", **given_tables).filter(figure="visits")["value"].item()
    mean_stay = sum(minutes for _, minutes, _ in stays) / len(stays) / 60
    present = work_out("chairs", **given_tables)["chair_hours"].sum() / open_hours
    assert present == pytest.approx(float(arrivals) / open_hours * mean_stay)
