"""Whatever is paid ahead: register, sheets, journal and balance say one number, and it is never below nothing."""

from decimal import Decimal
from typing import Any

import polars as pl
from frames import bookings, payments, services, settings, table, visit, work_out
from handover.desk import handover_of, salon_of, sheet, total
from handover.test_postings import balances
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from reference.plain_tax import minor_unit

from analytics.periods import Period

RATES = ["0", "9", "21"]
MENU = services(*({"service_id": rate, "tax_rate": rate} for rate in RATES))
QUARTER = Period.of_days(*(Period.month(name).start for name in ("2026-01", "2026-03")))
DAYS = [f"2026-0{month}-{day:02}" for month in (1, 2, 3) for day in (3, 9, 15, 21, 27)]

day, units = st.integers(0, len(DAYS) - 1), st.integers(1, 9000)
lines = st.lists(st.tuples(st.sampled_from(RATES), units), min_size=1, max_size=2)
visits = st.lists(
    st.tuples(
        lines,
        day,
        st.sampled_from(["completed", "completed", "no_show", "cancelled", "booked"]),
        st.lists(st.tuples(day, st.integers(-3000, 9000), st.sampled_from(["card", "voucher"])), max_size=3),
    ),
    max_size=4,
)
sold = st.lists(
    st.tuples(day, units, st.integers(0, 9000), st.one_of(st.none(), day), st.booleans(), st.booleans()), max_size=3
)
regimes = st.fixed_dictionaries(
    {
        "currency": st.sampled_from(["EUR", "JPY", "KWD"]),
        "prices": st.sampled_from(["included", "added"]),
        "accounting": st.fixed_dictionaries(
            {
                "deposits": st.sampled_from(["on_receipt", "on_service"]),
                "missed_deposits": st.sampled_from(["returned", "kept"]),
                "kept_deposits": st.sampled_from(["outside", "inside"]),
                "vouchers": st.sampled_from(["multi_purpose", "single_purpose"]),
                "breakage": st.sampled_from(["at_expiry", "in_proportion"]),
                "breakage_percent": st.sampled_from([Decimal(0), Decimal(10)]),
                "vouchers_opening": st.sampled_from([Decimal(0), Decimal(40)]),
            }
        ),
    }
)


def salon(drawn: list[Any], vouchers: list[Any], regime: dict[str, Any]) -> dict[str, Any]:
    """Tables and settings; a voucher is in the register or only paid over the counter, some are sold below face."""
    digits = minor_unit(regime["currency"])

    def money(amount: int) -> str:
        return str(Decimal(amount).scaleb(-digits))

    book, listed, paid = [], [], [{"paid_at": DAYS[0], "booking_id": "none", "amount": "0"}]
    for number, (parts, on, status, payments_of) in enumerate(drawn):
        name = f"V{number}"
        book.append(
            visit(name, f"{DAYS[on]} 09:00", 60, *((rate, money(price)) for rate, price in parts), status=status)
        )
        paid += [
            {"paid_at": f"{DAYS[when]} 10:00", "booking_id": name, "amount": money(amount), "method": method}
            for when, amount, method in payments_of
        ]
    for number, (on, price, more, until, in_register, with_number) in enumerate(vouchers):
        paid.append({"paid_at": DAYS[on], "amount": money(price)})
        if in_register:
            row = {"number": f"A{number}", "sold_on": DAYS[on], "face": money(price + more), "paid": money(price)}
            listed.append(row | ({"expires_on": DAYS[until]} if until is not None and until >= on else {}))
        if with_number:
            paid.append({"paid_at": DAYS[on], "amount": money(5), "method": "voucher", "voucher": f"A{number}"})
    return {
        "salon": settings(
            salon={"currency": regime["currency"]}, tax={"prices": regime["prices"]}, accounting=regime["accounting"]
        ),
        "bookings": bookings(*book),
        "services": MENU,
        "payments": payments(*paid),
        "vouchers": table("vouchers", listed),
    }


@effort(max_examples=15, deadline=None)
@given(visits, sold, regimes)
def test_register_sheets_journal_and_balance_agree(drawn: list[Any], vouchers: list[Any], regime: Any) -> None:
    given = salon(drawn, vouchers, regime)
    made = handover_of(salon_of(given.pop("salon"), as_of="2026-04-01", **given), "2026-Q1")
    sums, _, errors = balances(made.texts["journal.beancount"])
    assert (errors, sum(sums.values())) == ([], 0)
    opening = (
        -made.gathered.money.voucher_moves.filter(move="opening").select(pl.col("tax") - pl.col("amount")).sum().item()
    )
    days = sheet(made, "vouchers")
    for name, account, register, before in (
        ("vouchers_liability", "Vouchers-owed", "voucher_register", opening),
        ("deposits_liability", "Deposits-owed", "deposits", Decimal(0)),
    ):
        last = days[name][-1] if days.height else before
        assert last == before - sums.get(f"Liabilities:{account}", Decimal(0)) == total(made, register, "liability")
        assert days.filter(pl.col(name) < 0).is_empty()
    for name in ("voucher_register", "deposits"):
        assert sheet(made, name).filter((pl.col("owed") < 0) | (pl.col("tax_in_owed") < 0)).is_empty()
    assert -sums.get("Liabilities:Tax-owed", Decimal(0)) == total(made, "tax", "tax")
    income = sum((amount for name, amount in sums.items() if name.startswith("Income:")), Decimal(0))
    assert -income == total(made, "revenue", "net")
    rows = sheet(made, "balances").to_dicts()
    assert all(row["opening"] + row["debit"] - row["credit"] == row["closing"] for row in rows)
    stood = {row["account"]: row["closing"] for row in rows}
    for account in ("Vouchers", "Deposits"):
        owed = total(made, {"Vouchers": "voucher_register"}.get(account, "deposits"), "liability")
        assert -stood.get(f"{account} owed", Decimal(0)) == owed
    beyond = total(made, "vouchers", "vouchers_beyond")
    assert sums.get("Assets:Unreconciled-differences", Decimal(0)) == beyond - total(
        made, "reconciliation", "difference"
    )


@effort(max_examples=15, deadline=None)
@given(visits, sold, regimes)
def test_opening_and_movements_are_the_closing(drawn: list[Any], vouchers: list[Any], regime: Any) -> None:
    frame = work_out("vouchers", period=QUARTER, cover=QUARTER, **salon(drawn, vouchers, regime))
    came = pl.col("opening") + pl.col("vouchers_sold") + pl.col("deposits_received")
    used = pl.col("vouchers_used") - pl.col("voucher_discounts") - pl.col("vouchers_beyond") + pl.col("vouchers_unused")
    went = used + pl.col("deposits_used") + pl.col("deposits_kept") + pl.col("deposits_returned")
    assert frame.filter(came - went != pl.col("owed")).is_empty()
    assert frame["opening"].to_list()[1:] == frame["owed"].to_list()[:-1]
    assert frame.filter(
        pl.col("owed") - pl.col("tax_in_owed") != pl.col("vouchers_liability") + pl.col("deposits_liability")
    ).is_empty()
