"""Why net revenue changed: price, volume and mix."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import agrees, bookings, days, sales, services, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

MENU = services(*[{"service_id": name, "kind": "cut", "tax_rate": "21"} for name in "ABC"])
TWO_MONTHS = days("2026-02-01", "2026-04-01")
EFFECTS = ["price_effect", "volume_effect", "mix_effect", "refund_effect"]


def march(book: pl.DataFrame, **more: Any) -> pl.DataFrame:
    """Against February."""
    given = {"bookings": book, "services": MENU, "period": "2026-03", "cover": TWO_MONTHS} | more
    return work_out("changes", **given)


def difference(book: pl.DataFrame, **more: Any) -> Decimal:
    """Net revenue of the month figure, March less February."""
    frame = work_out("month", bookings=book, services=MENU, cover=TWO_MONTHS, **more).filter(figure="net_revenue")
    amount: Decimal = frame.select(pl.col("value") - pl.col("previous")).item()
    return amount


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("changes", cover=TWO_MONTHS, **small_salon()), "changes")


def test_stands_against_the_year_before_where_the_book_reaches_back() -> None:
    book = bookings(
        visit("V1", "2025-03-10 09:00", 60, ("A", "121")),
        visit("V2", "2026-02-10 09:00", 60, ("A", "242")),
        visit("V3", "2026-03-10 09:00", 60, ("A", "363")),
    )
    frame = march(book, cover=days("2025-03-01", "2026-04-01"))
    assert dict(frame.select("compared_with", "price_effect").iter_rows()) == {"previous": 100, "year_ago": 200}


def test_the_first_month_of_the_book_stands_against_nothing() -> None:
    assert march(bookings(visit("V1", "2026-03-10 09:00", 60, ("A", "121"))), cover=None).is_empty()


def test_a_part_month_stands_against_the_same_days() -> None:
    """On 10 March: the line of 10 February counts, that of the 11th does not."""
    book = bookings(*[visit(day, f"2026-{day} 09:00", 60, ("A", "121")) for day in ("02-10", "02-11", "03-10")])
    row = march(book, as_of="2026-03-10").row(0, named=True)
    assert (row["quantity"], row["quantity_before"], row["change"]) == (1, 1, 0)


@pytest.mark.parametrize(("currency", "digits"), [("JPY", 0), ("EUR", 2), ("KWD", 3)])
def test_parts_are_whole_minor_units_that_add_up(currency: str, digits: int) -> None:
    """Before 826.45 + 2 × 82.64 = 991.73, in yen 992, in dinars 991.736; a third more visits: 330.58, 331, 330.579."""
    prices = [("02-10", "A", "1000"), ("02-10", "B", "100"), ("02-11", "B", "100"), *[("03-10", "A", "1000")] * 4]
    book = bookings(
        *[visit(f"V{n}", f"2026-{day} 09:00", 60, (name, price)) for n, (day, name, price) in enumerate(prices)]
    )
    salon = settings(salon={"currency": currency})
    frame = march(book, salon=salon)
    assert frame["volume_effect"].sum() == {"JPY": 331, "EUR": Decimal("330.58"), "KWD": Decimal("330.579")}[currency]
    assert all(value == round(value, digits) for name in EFFECTS for value in frame[name])
    assert frame["change"].sum() == difference(book, salon=salon)


line = st.tuples(
    st.sampled_from(["2026-02-03", "2026-02-28", "2026-03-01", "2026-03-31"]),
    st.sampled_from("ABC"),
    st.integers(-9999, 99999),
)


@effort(max_examples=15, deadline=None)
@given(st.lists(line, max_size=9), st.lists(line, max_size=3))
def test_parts_add_up_to_the_change_and_changes_to_the_difference_of_the_months(lines: list, sold: list) -> None:
    book = bookings(
        *[
            visit(f"V{n}", f"{day} 09:00", 60, (name, str(Decimal(cents) / 100)))
            for n, (day, name, cents) in enumerate(lines)
        ]
    )
    shop = sales(
        *[
            {
                "sold_at": day,
                "product_id": name,
                "price": str(Decimal(abs(cents)) / 100),
                "quantity": str(-1 if cents < 0 else 2),
            }
            for day, name, cents in sold
        ]
    )
    frame = march(book, sales=shop)
    assert (frame.select(pl.sum_horizontal(EFFECTS)).to_series() == frame["change"]).all()
    assert frame["change"].sum() == difference(book, sales=shop)
    clients = work_out("clientele", bookings=book, services=MENU, sales=shop, cover=TWO_MONTHS)
    assert clients["effect"].sum() == frame["change"].sum()
    assert set(clients["net_change"]) <= {frame["change"].sum()}
    assert of_visits(clients) == frame.filter(pl.col("kind") != "retail")["volume_effect"].sum()


def of_visits(clientele: pl.DataFrame) -> Decimal:
    """What open days and visits brought."""
    amount: Decimal = clientele.filter(pl.col("number").is_not_null())["effect"].sum()
    return amount


def effects(frame: pl.DataFrame, compared_with: str = "previous") -> dict[str, Decimal]:
    return {name: frame.filter(compared_with=compared_with)[name].sum() for name in EFFECTS}


def test_the_finish_charged_with_the_colour_moves_no_volume() -> None:
    """The same two visits for the same money, in one line instead of two."""
    apart = [visit(f"V{n}", f"2026-02-1{n} 09:00", 60, ("A", "100"), ("B", "21")) for n in (0, 1)]
    together = [visit(f"W{n}", f"2026-03-1{n} 09:00", 60, ("A", "121")) for n in (0, 1)]
    assert effects(march(bookings(*apart, *together)))["volume_effect"] == 0


def test_a_refund_of_what_was_not_sold_that_month_is_no_price_gain_after_it() -> None:
    """50 net paid back in February for a service first sold again in March."""
    back = visit("R", "2026-02-10 09:00", 60, ("A", "-60.50"))
    others = [visit(f"V{month}", f"2026-{month}-11 09:00", 60, ("B", "121")) for month in ("02", "03")]
    found = effects(march(bookings(back, *others, visit("W", "2026-03-10 09:00", 60, ("A", "121")))))
    assert (found["price_effect"], found["refund_effect"]) == (0, 50)
    assert found["volume_effect"] + found["mix_effect"] == 100


def a_year(last: int, dear: str = "121") -> pl.DataFrame:
    """Thirty visits a month from March 2025 on, and so many in March 2026, at another price."""
    months = [
        *((f"2025-{month:02}", 30, "121") for month in range(3, 13)),
        ("2026-01", 30, "121"),
        ("2026-02", 30, "121"),
    ]
    return bookings(
        *[
            visit(f"{month}-{n}", f"{month}-{1 + n % 28:02} {9 + n // 28:02}:00", 60, ("A", price), client_id=f"C{n}")
            for month, count, price in [*months, ("2026-03", last, dear)]
            for n in range(count)
        ]
    )


def test_against_what_was_to_be_expected_it_adds_up_to_the_same_difference() -> None:
    cover = days("2025-03-01", "2026-04-01")
    book = a_year(24, dear="133.10")
    found = march(book, cover=cover).filter(compared_with="expected")
    month = work_out("month", bookings=book, services=MENU, cover=cover).filter(figure="net_revenue")
    assert abs(found["change"].sum() - month["from_expected"].item()) < Decimal("0.01")
    assert found["net"].sum() == 24 * 110
    told = effects(found, "expected")
    assert abs(told["price_effect"]) < 1  # a price rise is expected at the month's own prices
    assert told["volume_effect"] < -400
    who = work_out("clientele", bookings=book, services=MENU, cover=cover).filter(compared_with="expected")
    assert of_visits(who) == told["volume_effect"]


def test_a_month_that_is_not_over_is_held_against_no_expectation() -> None:
    found = march(a_year(24), cover=days("2025-03-01", "2026-04-01"), as_of="2026-03-20")
    assert set(found["compared_with"]) == {"previous", "year_ago"}
