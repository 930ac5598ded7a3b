"""What a month was open for, what prices did, and what was to be expected of made-up months."""

from datetime import date
from decimal import Decimal

import numpy as np
import polars as pl
import pytest
from frames import bookings, product_log, products, sales, services, settings, visit
from frames import known as tables
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.periods import Period, add_months, month_name
from analytics.records.clients.visits import told_visits
from analytics.records.months.expected import expected
from analytics.records.months.measures import COUNTS, sources
from analytics.records.months.price_levels import price_levels
from analytics.records.months.usual_days import usual_days

MENU = services({"service_id": "CUT", "tax_rate": "21"}, {"service_id": "ROOTS", "tax_rate": "21"})
HOURS = dict.fromkeys(("tue", "wed", "thu", "fri", "sat"), "09:00-18:00")


def spans(first: str, months: int) -> dict[str, Period]:
    start = Period.month(first).start
    names = [month_name(add_months(start, step)) for step in range(months)]
    return {name: Period.month(name) for name in names}


def test_a_weekday_counts_by_what_it_brought_before() -> None:
    """Two visits each Saturday and one each other open day of April 2026: 4 Saturdays of 2 and 18 days of 1 make 26/22
    a day, so that in May a Saturday counts (8 + 40) ÷ (4·26/22 + 40), and so on; in April all days count 1."""
    days = [date(2026, 4, day) for day in range(1, 31) if date(2026, 4, day).weekday() in range(1, 6)]
    made = [
        visit(f"{day}{n}", f"{day} 10:00", 60, ("CUT", "1")) for day in days for n in range(1 + (day.weekday() == 5))
    ]
    found = usual_days(told_visits(bookings(*made)), settings(hours=HOURS).hours, spans("2026-04", 2))
    assert found[0] == 22
    usual = 26 / 22
    other = {
        day: (count + 40) / (count * usual + 40) for day, count in {"tue": 4, "wed": 5, "thu": 5, "fri": 4}.items()
    }
    saturday = (8 + 40) / (4 * usual + 40)
    assert found[1] == pytest.approx(5 * saturday + 4 * (other["tue"] + other["wed"] + other["thu"]) + 5 * other["fri"])


def test_days_before_the_first_visit_and_closed_months_do_not_count() -> None:
    late = bookings(visit("V", "2026-04-21 10:00", 60, ("CUT", "1")))
    assert usual_days(told_visits(late), settings(hours=HOURS).hours, spans("2026-04", 1)).tolist() == [8]
    shut = [f"2026-05-{day:02}" for day in range(1, 32)]
    hours = settings(hours=HOURS | {"closed": shut}).hours
    assert usual_days(told_visits(late), hours, spans("2026-04", 2)).tolist() == [8, 0]


def levels(*lines: list, **more: pl.DataFrame) -> dict[str, np.ndarray]:
    known = tables(bookings=bookings(*lines), services=MENU, **more)
    names = ("bookings", "services", "product_log", "products", "sales", "settings", "as_of")
    given = sources(**{name: known[name] for name in names})
    return price_levels(given.lines, given.retail, given.log, spans("2026-01", 3))


def line(day: str, service: str, price: str, **rest: object) -> list:
    return visit(f"{day}{service}", f"{day} 10:00", 60, (service, price), **rest)


def test_prices_rise_by_the_mean_of_what_rose_weighted_by_the_money_of_both_months() -> None:
    """Cuts from 50 to 55, roots at 100: shares 1/3 and 2/3 before, 55/155 and 100/155 after, so that the logarithm
    rises by ln 1.1 × (1/3 + 55/155) ÷ 2. March has cuts alone, at 55: no change. A discount is none either. Cents of
    tax are rounded."""
    found = levels(
        line("2026-01-06", "CUT", "50"),
        line("2026-01-07", "ROOTS", "100"),
        line("2026-02-06", "CUT", "55"),
        line("2026-02-07", "ROOTS", "100"),
        line("2026-03-06", "CUT", "55", discount="20"),
    )["services"]
    rise = float(np.log(1.1) * (1 / 3 + 55 / 155) / 2)
    assert found == pytest.approx([1, np.exp(rise), np.exp(rise)], rel=1e-3)


def test_a_service_comes_back_at_another_price_and_a_new_one_is_no_rise() -> None:
    found = levels(line("2026-01-06", "CUT", "50"), line("2026-02-06", "ROOTS", "99"), line("2026-03-06", "CUT", "60"))
    assert found["services"] == pytest.approx([1, 1, 1.2], rel=1e-3)


def test_retail_and_product_have_prices_of_their_own() -> None:
    sold = [
        {"sold_at": day, "product_id": "S", "price": price}
        for day, price in (("2026-01-02", "10"), ("2026-02-02", "12"))
    ]
    packs = products(
        {"product_id": "T", "pack_cost": "6"}, {"product_id": "T", "pack_cost": "9", "valid_from": "2026-03-01"}
    )
    mixed = [{"logged_at": f"2026-{month}-02 09:00", "product_id": "T", "mixed_g": 40} for month in ("01", "02", "03")]
    found = levels(sales=sales(*sold), products=packs, product_log=product_log(*mixed))
    assert found["retail"] == pytest.approx([1, 1.2, 1.2], rel=2e-3)
    assert found["product"] == pytest.approx([1, 1, 1.5])
    assert found["all"] == pytest.approx(found["retail"])


def made_up(visits: list[int], **columns: list) -> pl.DataFrame:
    names = list(spans("2023-01", len(visits)))
    counts = {name: [5] * len(visits) for name in COUNTS}
    return pl.DataFrame({"month": names, "visits": visits, **(counts | columns)})


def told(
    measured: pl.DataFrame, figure: str, days: list[float] | None = None, level: list[float] | None = None
) -> pl.DataFrame:
    number = measured.height
    of_prices = np.array(level or [1.0] * number)
    groups = dict.fromkeys(("services", "retail", "all", "all_gross", "product"), of_prices)
    found = expected(measured, np.array(days or [25.0] * number), groups, np.arange(number) < 6)
    return found.filter(figure=figure)


SEASON = [70, 80, 100, 100, 105, 115, 90, 75, 100, 100, 105, 135]
THREE_YEARS = [3 * share + (month * 7) % 11 - 5 for month, share in enumerate(SEASON * 3)]


def test_the_season_is_no_news_and_a_fifth_missing_is() -> None:
    row = told(made_up(THREE_YEARS), "visits").row(35, named=True)
    assert row["usual_low"] < THREE_YEARS[35] < row["usual_high"]
    assert THREE_YEARS[35] * 0.8 < row["usual_low"]
    assert row["months_before"] == 35


def test_half_a_month_closed_is_expected_to_bring_half() -> None:
    days = [25.0] * 36
    days[35] = 12.5
    whole, half = told(made_up(THREE_YEARS), "visits"), told(made_up(THREE_YEARS), "visits", days)
    assert float(half["expected"][35]) == pytest.approx(float(whole["expected"][35]) / 2, rel=0.01)


def test_of_a_month_that_is_closed_nothing_is_expected() -> None:
    days = [25.0] * 36
    days[35] = 0.0
    assert told(made_up(THREE_YEARS), "visits", days).row(35, named=True)["expected"] is None


def test_a_price_rise_is_no_news() -> None:
    level = [1.0] * 30 + [1.1] * 6
    net = [Decimal(60 * visits) * Decimal(str(dear)) for visits, dear in zip(THREE_YEARS, level, strict=True)]
    row = told(made_up(THREE_YEARS, net_revenue=net), "net_revenue", level=level).row(30, named=True)
    blind = told(made_up(THREE_YEARS, net_revenue=net), "net_revenue").row(30, named=True)
    assert abs(net[30] - row["expected"]) < abs(net[30] - blind["expected"])
    assert row["usual_low"] < net[30] < row["usual_high"]


def test_a_month_without_anybody_is_judged_and_teaches_nothing() -> None:
    visits = [*THREE_YEARS[:28], 0, 0, *THREE_YEARS[30:]]
    found = told(made_up(visits), "visits")
    assert found["usual_low"][28] > 0 and found["usual_low"][29] > 0
    assert found["usual_low"][30] < THREE_YEARS[30] < found["usual_high"][30]


def test_the_half_year_in_which_everybody_looks_new_says_nothing_of_new_clients() -> None:
    found = told(made_up([90] * 12, new_clients=[80, 60, 40, 30, 20, 15, *[10] * 6]), "new_clients")
    assert found["months_before"].to_list() == [0] * 7 + [1, 2, 3, 4, 5]
    assert found["expected"].is_not_null().to_list() == [False] * 9 + [True] * 3
    assert float(found["expected"][9]) < 20


amount = st.decimals(0, 9000, places=2)


@effort(max_examples=12, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 90), amount, st.decimals(0, 1, places=4)), min_size=4, max_size=30))
def test_nothing_is_below_nought_and_no_share_above_one(months: list[tuple[int, Decimal, float]]) -> None:
    visits, money, shares = ([month[place] for month in months] for place in range(3))
    measured = made_up(visits, net_revenue=money, no_show_share=shares)
    for figure in ("visits", "net_revenue", "no_show_share"):
        found = told(measured, figure).drop_nulls("expected")
        assert (found["usual_low"] >= 0).all()
        assert (found["usual_low"] <= found["expected"]).all() and (found["expected"] <= found["usual_high"]).all()
        assert figure != "no_show_share" or (found["usual_high"] <= 1).all()
