"""Vouchers one by one: below face, in two parts, expired, before the records begin, and beyond what was owed."""

from decimal import Decimal
from typing import Any

import pytest
from frames import bookings, days, only, payments, services, settings, table, visit, work_out

MENU = services({"service_id": "CUT", "tax_rate": "21"}, {"service_id": "LOW", "tax_rate": "9"})
BOTH = days("2026-09-01", "2026-11-01")
VISITS = bookings(
    visit("V1", "2026-09-10 09:00", 60, ("CUT", "60")),
    visit("V2", "2026-10-08 09:00", 60, ("LOW", "40")),
)
SOLD = {"paid_at": "2026-09-03", "amount": "80"}
FIRST = {"paid_at": "2026-09-10", "booking_id": "V1", "amount": "60", "method": "voucher"}
SECOND = {"paid_at": "2026-10-08", "booking_id": "V2", "amount": "40", "method": "voucher"}
A1 = {"number": "A1", "sold_on": "2026-09-03", "face": "100", "paid": "80"}


def answer(name: str, *paid: dict[str, Any], listed: Any = (A1,), **accounting: Any) -> Any:
    """60 charged at 21 % in September and 40 at 9 % in October."""
    return work_out(
        name,
        bookings=VISITS,
        services=MENU,
        payments=payments({"paid_at": "2026-09-01", "booking_id": "V0", "amount": "0"}, *paid),
        vouchers=table("vouchers", list(listed)),
        period=BOTH,
        cover=BOTH,
        salon=settings(accounting=accounting),
    )


def months(frame: Any, *columns: str) -> list[tuple[Any, ...]]:
    return [tuple(row[column] for column in columns) for row in frame.to_dicts()]


def test_sold_at_80_for_100_and_used_in_two_parts() -> None:
    """Directive 2006/112/EC art. 73a (from memory): taxed on what was paid. 60 of 100 take 48 of the 80: 48 at 21 %
    hold 8.33; 40 take the other 32: at 9 % 2.64. By hand, 10.41 − 2.08 and 3.30 − 0.66."""
    given = (SOLD, FIRST, SECOND)
    assert months(answer("vouchers", *given), "vouchers_sold", "vouchers_used", "voucher_discounts", "owed") == [
        (80, 60, 12, 32),
        (0, 40, 8, 0),
    ]
    assert months(answer("tax", *given), "tax_rate", "gross", "tax") == [
        (21, 48, Decimal("8.33")),
        (9, 32, Decimal("2.64")),
    ]
    row = only(answer("voucher_register", *given))
    assert (row["used"], row["used_value"], row["left"], row["owed"]) == (100, 80, 0, 0)
    assert answer("differences", *given).is_empty()


def test_below_face_and_single_purpose_is_taxed_on_what_was_paid_when_it_is_sold() -> None:
    """80 at 21 % hold 13.88; what is used later takes off what was taxed then, 8.33 and 5.55, and is taxed as work."""
    told = months(answer("tax", SOLD, FIRST, SECOND, vouchers="single_purpose"), "month", "tax_rate", "tax")
    assert told == [
        ("2026-09", 21, Decimal("13.88")),
        ("2026-10", 9, Decimal("2.64")),
        ("2026-10", 21, Decimal("-5.55")),
    ]
    owed = months(answer("vouchers", SOLD, FIRST, SECOND, vouchers="single_purpose"), "owed", "vouchers_liability")
    assert owed == [(32, Decimal("26.45")), (0, 0)]


@pytest.mark.parametrize(
    ("accounting", "unused"),
    [
        ({}, [0, 32]),
        ({"breakage": "in_proportion", "breakage_percent": Decimal(20)}, [12, 20]),
        ({"breakage_percent": Decimal(20)}, [0, 32]),
    ],
)
def test_what_expires_is_earned_at_expiry_or_in_proportion(accounting: dict[str, Any], unused: list[int]) -> None:
    """IFRS 15, B46 (from memory): of 80, a fifth never used, 48 used earn 48 ÷ 4 = 12; the other 20 at expiry."""
    listed = [A1 | {"expires_on": "2026-10-01"}]
    frame = answer("vouchers", SOLD, FIRST, listed=listed, **accounting)
    assert frame["vouchers_unused"].to_list() == unused
    assert frame["owed"].to_list() == [32 - unused[0], 0]
    row = only(answer("voucher_register", SOLD, FIRST, listed=listed, **accounting))
    assert (row["unused"], row["left"], row["owed"], str(row["expires_on"])) == (32, 0, 0, "2026-10-01")
    earned = answer("revenue", SOLD, FIRST, listed=listed, **accounting).filter(supply="vouchers_unused")
    assert (earned["gross"].sum(), set(earned["treatment"])) == (32, {"outside the tax"})
    assert answer("tax", SOLD, FIRST, listed=listed, **accounting)["tax"].to_list() == [
        Decimal("8.33"),
        Decimal("3.30"),
    ]


def test_an_expired_voucher_pays_nothing_and_a_month_of_the_settings_is_a_calendar_month() -> None:
    """Sold on 3 September for a month: its last day is 3 October, so that what is used on the 8th is beyond it."""
    frame = answer("vouchers", SOLD, FIRST, SECOND, listed=(), voucher_months=1)
    assert months(frame, "vouchers_sold", "vouchers_used", "vouchers_beyond", "vouchers_unused", "owed") == [
        (80, 60, 0, 0, 20),
        (0, 40, 40, 20, 0),
    ]


def test_by_balance_with_what_was_owed_before_the_records_begin() -> None:
    frame = answer("vouchers", FIRST, SECOND, listed=(), vouchers_opening=Decimal("70"))
    assert months(frame, "opening", "vouchers_used", "vouchers_beyond", "owed") == [(70, 60, 0, 10), (10, 40, 30, 0)]
    row = only(answer("voucher_register", FIRST, SECOND, listed=(), vouchers_opening=Decimal("70")))
    assert (row["number"], row["sold_on"], row["paid"], row["used"]) == ("opening balance", None, 70, 70)


def test_one_of_the_register_that_was_sold_before_is_owed_as_far_as_it_was_not_used_before() -> None:
    """Of 100 the register says 75 were used, and payments know of 60: 15 were used before the records begin."""
    old = {"number": "OLD", "sold_on": "2026-05-01", "face": "100", "used": "75"}
    assert months(answer("vouchers", FIRST, listed=[old]), "opening", "owed") == [(85, 25), (25, 25)]
    row = only(answer("voucher_register", FIRST, listed=[old]))
    assert (row["face"], row["used"], row["left"]) == (85, 60, 25)


def test_a_payment_that_names_its_voucher_uses_that_one() -> None:
    two = [A1 | {"paid": None}, A1 | {"number": "B2", "face": "70", "paid": None}]
    frame = answer("voucher_register", SOLD | {"amount": "170"}, FIRST | {"voucher": "B2"}, listed=two)
    assert months(frame, "number", "left") == [("A1", 100), ("B2", 10)]


def test_one_sold_with_a_visit_where_payments_say_so() -> None:
    """V1 pays 60 and buys a voucher of 25 in the same breath: no difference, and 25 owed."""
    given = (
        {"paid_at": "2026-09-10", "booking_id": "V1", "amount": "60"},
        {"paid_at": "2026-09-10", "booking_id": "V1", "amount": "25", "purpose": "voucher"},
    )
    assert months(answer("reconciliation", *given, listed=()), "vouchers_sold", "difference")[0] == (25, 0)
    assert answer("vouchers", *given, listed=())["owed"].to_list() == [25, 25]


def test_one_of_the_register_that_nobody_paid_is_a_difference() -> None:
    (row,) = answer("differences", listed=[A1]).filter(cause="counter").to_dicts()
    assert (row["due"], row["paid"], str(row["day"])) == (80, 0, "2026-09-03")


@pytest.mark.parametrize(("until", "owed"), [("2026-10-07", 0), ("2026-10-08", 32)])
def test_it_has_expired_once_the_records_reach_the_day_after_its_last(until: str, owed: int) -> None:
    """The records reach to 8 October. Single-purpose, no cent of its tax is left when nothing is owed."""
    listed = [A1 | {"expires_on": until}]
    row = only(answer("voucher_register", SOLD, FIRST, listed=listed, vouchers="single_purpose"))
    assert (row["owed"], row["tax_in_owed"] == 0, row["liability"] == 0) == (owed, owed == 0, owed == 0)


def test_one_of_the_register_that_was_paid_with_a_visit_is_sold_once() -> None:
    sold = {"paid_at": "2026-09-03", "booking_id": "V1", "amount": "80", "purpose": "voucher"}
    assert months(answer("reconciliation", sold, FIRST), "vouchers_sold", "difference")[0] == (80, 0)
    assert answer("vouchers", sold, FIRST)["owed"].to_list() == [32, 32]
