"""Single sheets: rates that change, refunds, tips, vouchers, fees, stock, wages, what is left out."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import bookings, payments, products, sales, services, settings, small_salon, table, visit
from handover.desk import csv_rows, handover_of, salon_of, sheet, total

from analytics.handover.accountant.package import Handover

MENU = services(
    {"service_id": "CUT", "tax_rate": "9"},
    {"service_id": "CUT", "tax_rate": "21", "valid_from": "2026-03-16"},
    {"service_id": "FREE", "tax_rate": "0"},
    {"service_id": "CLASS", "tax_rate": "0"},
)
CUT = visit("V1", "2026-03-03 09:00", 60, ("CUT", "109"))


def made(*visits: list[Any], period: str = "2026-03", **more: Any) -> Handover:
    return handover_of(salon_of(bookings=bookings(*visits), services=MENU, **more), period)


def rows(done: Handover, name: str, *columns: str) -> list[tuple[str, ...]]:
    return [tuple(row[column] for column in columns) for row in csv_rows(done, f"{name}.csv")]


def test_a_rate_that_changes_in_mid_period() -> None:
    done = made(CUT, visit("V2", "2026-03-16 09:00", 60, ("CUT", "121")))
    assert rows(done, "tax", "tax_rate", "first_on", "last_on", "net", "tax") == [
        ("9.0000", "2026-03-03", "2026-03-03", "100.00", "9.00"),
        ("21.0000", "2026-03-16", "2026-03-16", "100.00", "21.00"),
    ]


def test_zero_rated_and_exempt_stand_apart() -> None:
    chosen = settings(accounting={"exempt": ["CLASS"]})
    done = made(visit("V1", "2026-03-03 09:00", 60, ("FREE", "10"), ("CLASS", "20")), salon=chosen)
    assert sorted(rows(done, "tax", "treatment", "gross", "tax")) == [
        ("exempt", "20.00", "0.00"),
        ("zero-rated", "10.00", "0.00"),
    ]


def test_a_refund_counts_in_the_period_it_is_given_back() -> None:
    refund = visit("V2", "2026-04-02 09:00", 0, ("CUT", "-121"))
    assert total(made(CUT, refund), "revenue", "gross") == 109
    april = made(CUT, refund, period="2026-04")
    assert rows(april, "refunds", "day", "booking_id", "gross", "net", "tax") == [
        ("2026-04-02", "V2", "-121.00", "-100.00", "-21.00")
    ]


def test_tips_inside_the_tax_are_revenue_at_the_rate_of_their_line() -> None:
    """A compulsory charge of 10.90 at 9 %: 0.90 tax, whichever the regime of the prices."""
    tipped = visit("V1", "2026-03-03 09:00", 60, ("CUT", "100"), tip="10.90")
    for prices, gross in (("included", "110.90"), ("added", "119.90")):
        done = made(tipped, salon=settings(tax={"prices": prices}, accounting={"tips": "inside"}))
        assert rows(done, "tips", "gross", "net", "tax") == [("10.90", "10.00", "0.90")]
        assert total(done, "revenue", "gross") == Decimal(gross)
    assert total(made(tipped), "revenue", "gross") == 100


PAID_ELSEWHERE = {"paid_at": "2026-03-01", "booking_id": "V0", "amount": "0"}
VOUCHER = payments(
    PAID_ELSEWHERE,
    {"paid_at": "2026-03-02", "amount": "121"},
    {"paid_at": "2026-03-03", "booking_id": "V1", "amount": "60.50", "method": "voucher"},
)


def test_a_multi_purpose_voucher_is_owed_and_taxed_when_used() -> None:
    """Directive (EU) 2016/1065, article 30b: the tax is due when the work is done."""
    done = made(visit("V1", "2026-03-03 09:00", 60, ("CUT", "60.50")), payments=VOUCHER)
    assert rows(done, "tax", "gross", "tax") == [("60.50", "5.00")]
    assert rows(done, "vouchers", "day", "vouchers_sold", "vouchers_used", "owed") == [
        ("2026-03-02", "121.00", "0.00", "121.00"),
        ("2026-03-03", "0.00", "60.50", "60.50"),
    ]


def test_a_single_purpose_voucher_is_taxed_when_sold_and_not_again() -> None:
    """Article 30a and 30b: 121 at 21 % sold, 60.50 of it used for work of 60.50 at 21 %: tax 21 − 10.50 + 10.50."""
    chosen = settings(accounting={"vouchers": "single_purpose", "voucher_tax_rate": 21})
    work = visit("V1", "2026-03-20 09:00", 60, ("CUT", "60.50"))
    used = VOUCHER.with_columns(
        paid_at=pl.when(pl.col("method") == "voucher").then(pl.lit("2026-03-20").str.to_datetime()).otherwise("paid_at")
    )
    done = made(work, payments=used, salon=chosen)
    assert rows(done, "tax", "gross", "net", "tax") == [("121.00", "100.00", "21.00")]
    assert total(done, "revenue", "gross") == Decimal("60.50")
    items = {row["item"]: row["debit"] or "-" + row["credit"] for row in csv_rows(done, "journal.csv")}
    assert (items["Vouchers sold"], items["Vouchers used"]) == ("-100.00", "50.00")


def test_deposits_are_paid_before_the_visit() -> None:
    ahead = payments({"paid_at": "2026-02-20", "booking_id": "V1", "amount": "109"})
    february = made(CUT, payments=ahead, period="2026-02")
    assert rows(february, "vouchers", "deposits_received", "owed") == [("109.00", "109.00")]
    assert february.verdict.agrees
    march = made(CUT, payments=ahead)
    assert rows(march, "vouchers", "deposits_used", "owed") == [("109.00", "0.00")]
    assert rows(march, "differences", "cause", "left") == []


def test_fees_are_stated_or_else_assumed() -> None:
    """1.75 % of 109.00 is 1.9075, that is 1.91; nothing is assumed of cash, or where any payment states a fee."""
    chosen = settings(costs={"card_fee_percent": Decimal("1.75")})
    card = {"paid_at": "2026-03-03", "booking_id": "V1", "amount": "109"}
    assumed = made(CUT, payments=payments(card), salon=chosen)
    assert rows(assumed, "payments_by_method", "fees", "assumed_fees") == [("0.00", "1.91")]
    stated = made(CUT, payments=payments(card | {"fee": "2"}, card | {"method": "cash"}), salon=chosen)
    assert rows(stated, "payments_by_method", "fees", "assumed_fees") == [("2.00", "0.00"), ("0.00", "0.00")]
    journal = {row["item"]: row["debit"] or "-" + row["credit"] for row in csv_rows(assumed, "journal.csv")}
    assert (journal["Fees"], journal["Fees taken off, card"]) == ("1.91", "-1.91")


def test_the_difference_stands_with_the_last_way_it_was_paid() -> None:
    paid = payments(
        {"paid_at": "2026-03-03 10:00", "booking_id": "V1", "amount": "50", "method": "cash"},
        {"paid_at": "2026-03-03 10:05", "booking_id": "V1", "amount": "58"},
    )
    done = made(CUT, visit("V2", "2026-03-03 09:00", 60, ("CUT", "20")), payments=paid)
    assert rows(done, "reconciliation_methods", "method", "due", "received", "difference") == [
        ("none", "20.00", "0.00", "-20.00"),
        ("card", "59.00", "58.00", "-1.00"),
        ("cash", "50.00", "50.00", "0.00"),
    ]


@pytest.mark.parametrize(("tolerance", "ties"), [("0", False), ("0.99", False), ("1", True)])
def test_small_differences_are_tolerated_where_the_settings_say(tolerance: str, ties: bool) -> None:
    paid = payments({"paid_at": "2026-03-03", "booking_id": "V1", "amount": "108"})
    done = made(CUT, payments=paid, salon=settings(accounting={"tolerance": Decimal(tolerance)}))
    assert done.verdict.agrees is ties
    assert rows(done, "differences", "tolerated") == [("yes" if ties else "",)]
    says = ("received agrees;" in done.verdict_words, "does not agree for 1 visit" in done.verdict_words)
    assert says == (ties, not ties)


def test_two_days_with_the_same_gap_are_two_places() -> None:
    without_visits = payments(
        {"paid_at": "2026-03-03", "amount": "108"},
        {"paid_at": "2026-03-04", "amount": "108"},
    )
    done = made(CUT, visit("V2", "2026-03-04 09:00", 60, ("CUT", "109")), payments=without_visits)
    assert (done.verdict.open_items, done.verdict.left) == (2, -2)


def test_without_payments_nothing_is_said_to_tie() -> None:
    assert not made(CUT).verdict.agrees
    assert "No payment is on record" in made(CUT).verdict_words


@pytest.mark.parametrize(
    ("valuation", "closing"), [("average", "8902.06"), ("fifo", "8955.00")], ids=["moving average", "fifo"]
)
def test_closing_stock_of_the_published_example(valuation: str, closing: str) -> None:
    """OpenStax, Principles of Accounting 1, 10.2-10.3, as IAS 2 allows: 150 @ 21; sell 120; buy 225 @ 27; sell 180;
    buy 210 @ 33. FIFO 8,955. Moving average: the book rounds unit costs and has 8,902; exactly, 30 @ 21 and 225 @ 27
    are 6,705, of which 75 ÷ 255 stay: 1,972.06; with 6,930 that is 8,902.06."""
    moved = [("2026-03-01", "150", "21"), ("2026-03-03", "225", "27"), ("2026-03-05", "210", "33")]
    deliveries = [
        {"moved_at": day, "product_id": "P", "movement": "delivery", "packs": float(packs), "unit_cost": cost}
        for day, packs, cost in moved
    ]
    sold = sales(
        {"sold_at": "2026-03-02", "product_id": "P", "price": "1", "quantity": "120"},
        {"sold_at": "2026-03-04", "product_id": "P", "price": "1", "quantity": "180"},
    )
    listed = products({"product_id": "P", "kind": "retail", "pack_g": "1", "pack_cost": "21"})
    chosen = settings(stock={"valuation": valuation})
    done = made(sales=sold, products=listed, stock_moves=table("stock_moves", deliveries), salon=chosen)
    assert rows(done, "stock", "purchases", "closing") == [("16155.00", closing)]
    assert total(done, "closing_stock", "closing") == Decimal(closing)


def test_products_add_up_to_the_months() -> None:
    """Three thirds of a pack of 1.00 are 0.33 each, rounded product by product, and 0.99 in the month."""
    listed = products(*({"product_id": name, "pack_g": "3", "pack_cost": "1"} for name in "ABC"))
    deliveries = [
        {"moved_at": "2026-03-01", "product_id": name, "movement": "delivery", "grams": "1"} for name in "ABC"
    ]
    done = made(products=listed, stock_moves=table("stock_moves", deliveries))
    assert rows(done, "stock", "purchases", "closing") == [("0.99", "0.99")]
    assert rows(done, "closing_stock", "purchases", "closing") == [("0.33", "0.33")] * 3


def test_hours_and_wages_where_rates_are_set() -> None:
    """Mila has two clients from 9 to 10 and 9:30 to 10:30: an hour and a half, not two; Noor has no rate."""
    work = (
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "109"), stylist="Mila", tip="3"),
        visit("V2", "2026-03-03 09:30", 60, ("CUT", "109"), stylist="Mila", chair="Chair 2"),
        visit("V3", "2026-03-03 09:30", 60, ("CUT", "109"), stylist="Noor"),
    )
    chosen = settings(wages={"per_hour": {"Mila": 20}, "share_percent": {"Mila": 10}})
    done = made(*work, salon=chosen)
    assert rows(done, "wages", "stylist", "visits", "hours", "net", "tips", "wages_base") == [
        ("Mila", "2", "1.5", "200.00", "3.00", "50.00"),
        ("Noor", "1", "1", "100.00", "0.00", ""),
    ]
    assert "wages.csv" not in made(*work).texts
    assert "Mila" not in "".join(made(*work).texts.values())


def test_what_is_left_out_is_said() -> None:
    missed = visit("V2", "2026-03-03 09:00", 60, ("CUT", "40"), status="no_show")
    done = made(CUT, missed, visit("V3", "2026-03-04 09:00", 60, ("CUT", "50"), status="cancelled"), period="2026-Q1")
    assert done.left_out == [("Not on record", "The records are of March 2026 only.")]
    assert total(done, "revenue", "gross") == 109


def test_an_empty_salon_is_handed_over_as_one() -> None:
    done = handover_of(salon_of())
    assert all(not one.sums or set(map(one.total, one.sums)) == {0} for one in done.sheets)
    assert done.files["statement.pdf"].startswith(b"%PDF")


def test_the_small_salon_of_expected() -> None:
    salon = small_salon()
    done = handover_of(salon_of(salon.pop("salon"), **salon))
    assert rows(done, "tax", "tax_rate", "gross", "net", "tax") == [
        ("9.0000", "80.00", "73.40", "6.60"),
        ("21.0000", "231.00", "190.91", "40.09"),
    ]
    assert rows(done, "differences", "booking_id", "cause", "difference") == [("V5", "paid another amount", "-0.40")]
    assert rows(done, "discounts", "supply", "kind", "discounts", "discount") == [
        ("services", "root touch-up", "1", "6.60")
    ]
    assert sheet(done, "cover").height > 15
