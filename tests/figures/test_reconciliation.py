"""Whether the month's money agrees."""

import polars as pl
from frames import (
    Row,
    agrees,
    bookings,
    days,
    only,
    payments,
    sales,
    services,
    settings,
    small_salon,
    visit,
    work_out,
)

MENU = services({"service_id": "CUT", "tax_rate": "21"})
CUT = bookings(visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), tip="9"))


def reconciled(*paid: Row, book: pl.DataFrame = CUT, **given: object) -> Row:
    rows = payments(*({"paid_at": "2026-03-03 10:00"} | row for row in paid))
    return only(work_out("reconciliation", bookings=book, services=MENU, payments=rows, **given))


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("reconciliation", period=days("2026-02-01", "2026-04-01"), **small_salon()), "reconciliation")


def test_a_month_agrees_where_all_is_paid() -> None:
    row = reconciled({"booking_id": "V1", "amount": "130"})
    assert (row["charged_gross"], row["tips"], row["received"], row["difference"]) == (121, 9, 130, 0)


def test_what_was_not_paid_is_missing_and_what_was_paid_twice_is_too_much() -> None:
    assert reconciled()["difference"] == -130
    assert reconciled({"booking_id": "V1", "amount": "130"}, {"booking_id": "V1", "amount": "130"})["difference"] == 130


def test_tax_added_is_part_of_what_must_be_taken() -> None:
    row = reconciled({"booking_id": "V1", "amount": "155.41"}, salon=settings(tax={"prices": "added"}))
    assert (f"{row['charged_gross']:.2f}", row["difference"]) == ("146.41", 0)


def test_a_voucher_is_received_when_it_is_sold_and_not_when_it_is_used() -> None:
    sold = reconciled({"amount": "130"}, {"booking_id": "V1", "amount": "130"})
    assert (sold["vouchers_sold"], sold["received"], sold["difference"]) == (130, 260, 0)
    used = reconciled({"booking_id": "V1", "amount": "130", "method": "voucher"})
    assert (used["vouchers_used"], used["received"], used["difference"]) == (130, 0, 0)


def test_retail_over_the_counter_is_not_a_voucher() -> None:
    sold = sales({"sold_at": "2026-03-03", "product_id": "SHAM", "price": "20"})
    row = reconciled({"booking_id": "V1", "amount": "130"}, {"amount": "20"}, sales=sold)
    assert (row["retail_gross"], row["vouchers_sold"], row["difference"]) == (20, 0, 0)


def test_retail_that_was_paid_with_a_visit_takes_nothing_off_the_vouchers() -> None:
    sold = sales({"sold_at": "2026-03-03", "product_id": "SHAM", "price": "20"})
    row = reconciled({"booking_id": "V1", "amount": "150"}, sales=sold)
    assert (row["vouchers_sold"], row["difference"]) == (0, 0)


def test_a_refund_agrees_with_what_was_paid_back() -> None:
    refund = bookings(visit("V2", "2026-03-03 09:00", 0, ("CUT", "-30")))
    assert reconciled({"booking_id": "V2", "amount": "-30"}, book=refund)["difference"] == 0


def test_payments_that_name_no_visit_are_not_all_vouchers() -> None:
    """booking_id is optional: an export of payments without it still pays for the visits of the day."""
    assert reconciled({"amount": "130"})["difference"] == 0


def test_a_month_without_anything_has_a_row_of_zeros() -> None:
    row = only(work_out("reconciliation"))
    assert set(row.values()) == {"2026-03", 0}
