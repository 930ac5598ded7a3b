"""A group of salons: every figure of one of them, and that the parts add up to the whole."""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl
import pytest
from frames import bookings, clients, days, known, payments, product_log, products, sales, services, settings, visit
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from salons import load_unchecked, write_salon

from analytics.commands.cli import main
from analytics.output import as_csv
from analytics.records.sites import placed
from analytics.salon import Salon, open_salon
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.book import Book, read_book

TWO_MONTHS = days("2026-02-01", "2026-04-01")
MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 40, "processing_min": 35},
    {"service_id": "CUT", "kind": "cut"},
)
PRICES = products({"product_id": "DYE"})


def group(salon: Settings | None = None, **tables: pl.DataFrame) -> Salon:
    """A group whose book holds these tables."""
    every = known(**{"services": MENU, "products": PRICES} | tables)
    nothing = pl.DataFrame()
    book = Book(
        {name: every[name] for name in every if isinstance(every[name], pl.DataFrame)}, nothing, nothing, nothing
    )
    return Salon(Path(), salon or settings(), book, date(2026, 4, 1))


line = st.fixed_dictionaries(
    {
        "site": st.sampled_from(["North", "South", ""]),
        "visit": st.integers(1, 3),
        "day": st.sampled_from(["2026-02-03", "2026-03-03", "2026-03-31"]),
        "service_id": st.sampled_from(["ROOTS", "CUT"]),
        "price": st.integers(-2_000, 9_999),
        "chair": st.sampled_from(["Chair 1", "Chair 2"]),
    }
)


def at_random(lines: list[dict[str, Any]]) -> Salon:
    """Visits with a payment, a bowl and a retail item each; the same numbers of visits in every salon."""
    booked = [
        visit(f"V{one['visit']}", f"{one['day']} 09:00", 60, (one["service_id"], str(Decimal(one["price"]) / 100)))
        for one in lines
    ]
    of_visit = [{"site": one["site"], "booking_id": f"V{one['visit']}"} for one in lines]
    return group(
        bookings=bookings(
            *[
                [row | {"site": one["site"], "chair": one["chair"], "line": number} for row in rows]
                for number, (one, rows) in enumerate(zip(lines, booked, strict=True), 1)
            ]
        ),
        product_log=product_log(
            *[
                own | {"product_id": "DYE", "logged_at": one["day"], "mixed_g": "30", "left_g": "7"}
                for own, one in zip(of_visit, lines, strict=True)
            ]
        ),
        sales=sales(
            *[
                own | {"product_id": "SHAM", "sold_at": one["day"], "price": "9.99"}
                for own, one in zip(of_visit, lines, strict=True)
            ]
        ),
        payments=payments(
            *[own | {"paid_at": one["day"], "amount": "10.00"} for own, one in zip(of_visit, lines, strict=True)]
        ),
    )


SUMS = {  # figure -> what its rows are, and what adds up
    "tax": (["month", "tax_rate"], ["gross", "net", "tax"]),
    "takings": (["month", "method"], ["amount", "fees"]),
    "chairs": (["month", "service_id"], ["lines", "chair_hours", "gross", "net", "product_cost"]),
    "bowls": (["month", "product_id"], ["bowls", "mixed_g", "left_g", "left_cost"]),
    "occupancy": (["month", "chair"], ["occupied_hours"]),
    "economics": (["month", "split", "item_id"], ["lines", "chair_hours", "net", "product_cost"]),
    "processing": (["month", "stylist"], ["chair_hours", "processing_hours", "second_client_hours"]),
    "reconciliation": (["month"], ["charged_gross", "retail_gross", "received"]),
}


@effort(max_examples=15, deadline=None)
@given(st.lists(line, min_size=1, max_size=8))
def test_the_salons_of_a_group_add_up_to_it(lines: list[dict[str, Any]]) -> None:
    salon = at_random(lines)
    for name, (key, sums) in SUMS.items():
        whole = salon.figure(name, TWO_MONTHS)
        parts = salon.figure_by_site(name, TWO_MONTHS) if salon.sites else whole
        added = parts.group_by(key).agg(pl.col(sums).sum())
        both = whole.join(added, on=key, how="full", suffix="_added", nulls_equal=True)
        for column in sums:
            gap = (both[column].fill_null(0) - both[f"{column}_added"].fill_null(0)).cast(pl.Float64).abs()
            assert gap.sum() < (1e-9 if column.endswith("hours") else 1e-12), (name, column)


def two_salons(**more: Any) -> Salon:
    """One cut in each salon, at the same hour on a chair of the same name, under the same number."""
    both = [visit("V1", "2026-03-03 09:00", 60, ("CUT", price), site=site) for site, price in PRICE_OF.items()]
    return group(bookings=bookings(*both), **more)


PRICE_OF = {"North": "100", "South": "30"}


def test_one_salon_of_a_group_is_alone() -> None:
    north = two_salons().only_site("North")
    assert north.figure("tax")["gross"].to_list() == [100]
    assert north.figure("occupancy")["chair"].to_list() == ["North: Chair 1"]
    assert two_salons().figure_by_site("tax").select("site", "gross").rows() == [("North", 100), ("South", 30)]


def test_a_stylist_of_the_same_name_in_another_salon_is_somebody_else() -> None:
    """Two clients at the same hour, each in a salon of her own: nobody sat beside anybody."""
    visits = [
        visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "60"), site=site, chair=site, client_id=f"client of {site}")
        for site in PRICE_OF
    ]
    salon = group(bookings=bookings(*visits))
    assert salon.figure("processing")["second_client_hours"].sum() == 0


def test_a_chair_of_a_group_is_one_salons() -> None:
    salon = two_salons()
    assert salon.chairs == ["North: Chair 1", "South: Chair 1"]
    assert salon.only_chair("South: Chair 1").figure("tax")["gross"].to_list() == [30]
    assert salon.only_site("South").only_chair("South: Chair 1").figure("tax")["gross"].to_list() == [30]


def test_a_salon_carries_the_costs_of_its_chairs() -> None:
    """3,000 a month over three chairs, two of them in the north, so that an open chair hour costs the same anywhere."""
    more = visit("V2", "2026-03-03 09:00", 60, ("CUT", "1"), site="North", chair="Chair 2")
    tables = two_salons().book.tables
    salon = group(
        settings(costs={"per_month": 3000}), **{**tables, "bookings": pl.concat([tables["bookings"], bookings(more)])}
    )
    carried = [part.settings.costs.per_month for part in map(salon.only_site, ("North", "South"))]
    assert carried == [2000, 1000]
    assert salon.only_chair("North: Chair 2").settings.costs.per_month == 1000


def test_a_log_without_salons_goes_by_its_visits(tmp_path: Path) -> None:
    """A visit number that both salons have names none, and neither does a bowl without a visit."""
    folder = write_salon(
        tmp_path,
        {
            "bookings.csv": "booking_id,client_id,starts_at,minutes,status,service_id,price,site\n"
            "B1,C1,2026-03-03 09:00,60,completed,S1,60,North\n"
            "B2,C2,2026-03-03 09:00,60,completed,S1,60,South\n"
            "B3,C1,2026-03-04 09:00,60,completed,S1,60,North\n"
            "B3,C2,2026-03-04 09:00,60,completed,S1,60,South\n",
            "payments.csv": "paid_at,booking_id,method,amount\n"
            "2026-03-03,B1,cash,1\n2026-03-03,B2,cash,2\n2026-03-04,B3,cash,4\n2026-03-04,,cash,8\n",
        },
    )
    load_unchecked(folder)
    taken = open_salon(folder, date(2026, 4, 1)).figure_by_site("takings")
    assert taken.select("site", "amount").rows() == [("", 12), ("North", 1), ("South", 2)]


def test_clients_kept_without_a_salon_are_found_by_each() -> None:
    visits = [visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "60"), site=site) for site in PRICE_OF]
    salon = group(bookings=bookings(*visits), clients=clients({"client_id": "Ada", "client": "Ada Lind"}))
    assert salon.figure_by_site("roots").select("site", "client").rows() == [
        ("North", "Ada Lind"),
        ("South", "Ada Lind"),
    ]


def test_each_salon_is_priced_from_its_own_menu() -> None:
    """The same line of the menu with 21 % in the north and 9 % in the south; without rows, a salon has no rate."""
    menu = services(
        {"service_id": "CUT", "tax_rate": "25", "site": "North"},
        {"service_id": "CUT", "tax_rate": "0", "site": "South"},
    )
    rates = two_salons(services=menu).figure_by_site("tax").select("site", "tax_rate", "net").rows()
    assert rates == [("North", 25, 80), ("South", 0, 30)]


def test_a_salon_that_is_not_there_is_named_with_those_that_are() -> None:
    with pytest.raises(WorkStopped, match=r"no site 'West'; its sites are 'North', 'South'\."):
        two_salons().only_site("West")


# The command line


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str, str]]:
    def ran(*words: str) -> tuple[int, str, str]:
        status = main(list(words))
        return status, *capsys.readouterr()

    return ran


def test_a_book_without_salons_knows_none_and_is_unchanged(tmp_path: Path, run: Callable[..., Any]) -> None:
    folder = write_salon(tmp_path)
    load_unchecked(folder)
    tables = read_book(folder).tables
    assert all(placed(tables)[name] is tables[name] for name in tables)
    for words in (["--site", "North"], ["--by", "site"]):
        status, out, error = run("chairs", "--salon", str(folder), *words)
        assert (status, out) == (1, "") and "names no salons" in error and error.count("\n") == 1


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = write_salon(
        tmp_path,
        {
            "bookings.csv": "booking_id,client_id,starts_at,minutes,status,service_id,price,site\n"
            "B1,C1,2026-03-03 09:00,60,completed,S1,60,North\nB1,C1,2026-03-03 09:00,60,completed,S2,30,South\n"
        },
    )
    load_unchecked(made)
    return made


def test_one_salon_or_each_on_the_command_line(folder: Path, run: Callable[..., Any]) -> None:
    words = ["chairs", "--salon", str(folder), "--format", "csv"]
    _, alone, _ = run(*words, "--site", "South")
    _, each, _ = run(*words, "--by", "site")
    assert alone.splitlines()[1].startswith("2026-03,S2,")
    assert [row.split(",")[:3] for row in each.splitlines()] == [
        ["site", "month", "service_id"],
        ["North", "2026-03", "S1"],
        ["South", "2026-03", "S2"],
    ]


def test_an_unknown_salon_stops_with_one_sentence(folder: Path, run: Callable[..., Any]) -> None:
    status, out, error = run("tax", "--salon", str(folder), "--site", "West")
    assert (status, out) == (1, "") and "'West'" in error and "'North', 'South'" in error and error.count("\n") == 1


def test_one_salon_and_each_exclude_each_other(folder: Path, run: Callable[..., Any]) -> None:
    with pytest.raises(SystemExit) as ended:
        run("tax", "--salon", str(folder), "--site", "North", "--by", "site")
    assert ended.value.code == 2


def test_the_name_of_a_salon_starts_no_formula() -> None:
    frame = two_salons().figure_by_site("tax").with_columns(site=pl.lit("=North"))
    assert "'=North" in as_csv(frame)
