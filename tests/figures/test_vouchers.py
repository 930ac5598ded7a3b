"""What vouchers and deposits brought in, and what is owed for them."""

import polars as pl
from frames import agrees, bookings, days, only, payments, services, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")
MENU = services({"service_id": "CUT", "kind": "cut"})


def vouchers(visits: list[list[dict]], *paid: tuple[str, str | None, str, str], **given: object) -> pl.DataFrame:
    """paid: (day, visit, method, amount)."""
    named = (
        {"paid_at": f"{day} 12:00", "booking_id": who, "method": how, "amount": sum_} for day, who, how, sum_ in paid
    )
    tables = {"bookings": bookings(*visits), "services": MENU, "payments": payments(*named)}
    return work_out("vouchers", **tables, **{"period": BOTH, "cover": BOTH} | given)


def cut(booking_id: str, day: str) -> list[dict]:
    return visit(booking_id, f"{day} 10:00", 60, ("CUT", "40"))


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("vouchers", period=BOTH, **small_salon()), "vouchers")


def test_an_empty_salon_owes_nothing_month_by_month() -> None:
    assert vouchers([]).select("month", "vouchers_sold", "owed").rows() == [("2026-02", 0, 0), ("2026-03", 0, 0)]


def test_a_voucher_is_owed_until_it_is_used_and_money_paid_back_without_a_visit_is_a_difference() -> None:
    """100 sold in February, 40 of it used in March. For what 30 were paid back nobody can tell."""
    frame = vouchers(
        [cut("V1", "2026-02-03"), cut("V2", "2026-03-03")],
        ("2026-02-03", "V1", "cash", "40"), ("2026-02-10", None, "card", "100"),
        ("2026-03-03", "V2", "voucher", "40"), ("2026-03-10", None, "card", "-30"),
    )  # fmt: skip
    told = ["vouchers_sold", "vouchers_used", "owed"]
    assert frame.select(told).rows() == [(100, 0, 100), (0, 40, 60)]


def test_a_deposit_is_owed_until_its_visit_has_happened() -> None:
    frame = vouchers([cut("V1", "2026-03-03")], ("2026-02-20", "V1", "card", "40"))
    assert frame.select("deposits_received", "deposits_used", "owed").rows() == [(40, 0, 40), (0, 40, 0)]


def test_a_cut_month_tells_what_is_owed_at_its_cut() -> None:
    paid = (("2026-03-03", "V1", "cash", "40"), ("2026-03-05", None, "card", "50"), ("2026-03-20", None, "card", "25"))
    row = only(vouchers([cut("V1", "2026-03-03")], *paid, period=days("2026-03-01", "2026-03-11")))
    assert (row["vouchers_sold"], row["owed"]) == (50, 50)


def test_salons_of_a_group_are_owed_together() -> None:
    visits = [[row | {"site": site} for row in cut("V1", "2026-02-03")] for site in ("North", "South")]
    rows = [
        {"paid_at": "2026-02-03 12:00", "booking_id": who, "method": "card", "amount": amount, "site": site}
        for site, who, amount in (
            ("North", "V1", "40"),
            ("North", None, "10"),
            ("South", "V1", "40"),
            ("South", None, "20"),
        )
    ]
    tables = {"bookings": bookings(*visits), "services": MENU, "payments": payments(*rows)}
    assert work_out("vouchers", period=BOTH, cover=BOTH, **tables)["owed"].to_list() == [30, 30]
