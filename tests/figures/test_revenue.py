"""What was earned, by what was sold, kind and tax rate."""

from decimal import Decimal

import polars as pl
from frames import agrees, bookings, days, only, products, sales, services, settings, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")
MENU = services(
    {"service_id": "CUT", "kind": "cut"},
    {"service_id": "CURE", "kind": "treatment", "tax_rate": "0"},
    {"service_id": "TALK", "tax_rate": "0"},
)


def revenue(*visits: list[dict], **given: object) -> pl.DataFrame:
    return work_out("revenue", bookings=bookings(*visits), services=MENU, **given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("revenue", period=BOTH, **small_salon()), "revenue")


def test_adds_up_to_the_tax() -> None:
    small = small_salon()
    earned, taxed = (work_out(name, period=BOTH, **small) for name in ("revenue", "tax"))
    for column in ("gross", "net", "tax"):
        assert earned[column].sum() == taxed[column].sum()


def test_nothing_at_all_and_an_empty_month() -> None:
    assert revenue().is_empty()
    assert revenue(visit("V1", "2026-02-03 09:00", 60, ("CUT", "121")), cover=BOTH).is_empty()


def test_a_refund_takes_its_gross_off_and_is_a_line() -> None:
    lines = (visit("V1", "2026-03-03 09:00", 60, ("CUT", "121")), visit("V2", "2026-03-04 09:00", 0, ("CUT", "-121")))
    row = only(revenue(*lines))
    assert (row["lines"], row["gross"], row["net"], row["tax"]) == (2, 0, 0, 0)


def test_free_of_tax_is_exempt_or_zero_rated() -> None:
    exempt = settings(accounting={"exempt": ["CURE"]})
    rows = revenue(visit("V1", "2026-03-03 09:00", 60, ("CURE", "50"), ("TALK", "9")), salon=exempt)
    assert dict(rows.select("kind", "treatment").iter_rows()) == {"treatment": "exempt", "other": "zero-rated"}


def test_a_discount_is_counted_where_something_was_taken_off() -> None:
    whole, less = (
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "121")),
        visit("V2", "2026-03-03 10:00", 60, ("CUT", "121")),
    )
    less[0]["discount"] = "12.10"
    row = only(revenue(whole, less))
    assert (row["discounts"], row["discount"], row["gross"]) == (1, Decimal("12.10"), Decimal("229.90"))


def test_retail_stands_apart_and_missed_visits_earn_nothing() -> None:
    oil = products({"product_id": "OIL", "kind": "retail"})
    sold = sales({"product_id": "OIL", "sold_at": "2026-03-03 09:00", "price": "12.10", "tax_rate": "21"})
    missed = visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), status="no_show")
    row = only(revenue(missed, products=oil, sales=sold))
    assert (row["supply"], row["kind"], row["net"]) == ("retail", "retail", 10)
