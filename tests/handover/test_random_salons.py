"""Whatever the salon: debits = credits, parts = wholes, net + tax = gross, and the difference is the one planted."""

from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import bookings, payments, services, settings, visit
from handover.desk import csv_total, handover_of, salon_of, sheet, total
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st
from reference.plain_tax import minor_unit, tax_lines

RATES = ["0", "5.5", "9", "21"]
MENU = services(*({"service_id": rate, "tax_rate": rate} for rate in RATES))
METHODS = ["cash", "card", "bank", "voucher", "other"]
FAULTS = ["none", "none", "not_paid", "twice", "other_amount", "other_day"]

lines = st.lists(
    st.tuples(st.sampled_from(RATES), st.integers(-3000, 30000), st.integers(0, 500)), min_size=1, max_size=3
)
visits = st.lists(
    st.tuples(lines, st.integers(2, 6), st.sampled_from(METHODS), st.sampled_from(FAULTS), st.integers(1, 900)),
    max_size=6,
)
sold = st.lists(st.tuples(st.integers(2, 6), st.integers(1, 9999)), max_size=2)
regimes = st.fixed_dictionaries(
    {
        "currency": st.sampled_from(["EUR", "JPY", "KWD"]),
        "prices": st.sampled_from(["included", "added"]),
        "round_per": st.sampled_from(["booking", "line"]),
        "tips": st.sampled_from(["outside", "inside"]),
        "vouchers": st.sampled_from(["multi_purpose", "single_purpose"]),
    }
)


class Drawn:
    """A drawn salon, what it charged and owes in tax by the second program, and the difference planted in it."""

    def __init__(self, drawn: list[Any], vouchers: list[Any], regime: dict[str, str]) -> None:
        self.regime, self.digits = regime, minor_unit(regime["currency"])
        self.gross = self.tax = self.tips = self.planted = Decimal(0)
        self.book: list[Any] = []
        self.paid: list[dict[str, Any]] = [{"paid_at": "2026-03-02", "booking_id": "none", "amount": "0"}]
        for number, (parts, day, method, fault, slip) in enumerate(drawn):
            due = self._charge(f"V{number}", parts, day)
            row = {"paid_at": f"2026-03-0{day} 10:00", "booking_id": f"V{number}", "method": method, "amount": due}
            self._pay(row, fault, self._money(slip))
        for day, units in vouchers:
            self.paid.append({"paid_at": f"2026-03-0{day}", "amount": self._money(units)})
        self.vouchers = [(day, self._money(units)) for day, units in vouchers]
        self.sold = sum((self._money(units) for _, units in vouchers), Decimal(0))

    def _money(self, units: int) -> Decimal:
        return Decimal(units).scaleb(-self.digits)

    def _charge(self, name: str, parts: Any, day: int) -> Decimal:
        """What the visit is due."""
        plain = [
            {"booking_id": name, "line": place, "tax_rate": Decimal(rate), "charged": self._money(units)}
            for place, (rate, units, _) in enumerate(parts, start=1)
        ]
        tax_lines(plain, self.regime["prices"], self.regime["round_per"], self.digits)
        tips = [self._money(tip) for _, _, tip in parts]
        gross = sum(line["gross"] for line in plain)
        self.gross, self.tax = self.gross + gross, self.tax + sum(line["tax"] for line in plain)
        self.tips += sum(tips)
        rows = visit(name, f"2026-03-0{day} 09:00", 60, *((rate, str(self._money(units))) for rate, units, _ in parts))
        self.book.append([row | {"tip": tip} for row, tip in zip(rows, tips, strict=True)])
        return Decimal(gross + sum(tips))

    def _pay(self, row: dict[str, Any], fault: str, slip: Decimal) -> None:
        due = row["amount"]
        later = row | {"paid_at": "2026-03-20 10:00"}
        added = {
            "none": [row],
            "not_paid": [],
            "twice": [row, row],
            "other_amount": [row | {"amount": due + slip}],
            "other_day": [later],
        }[fault]
        self.paid += added
        self.planted += sum((one["amount"] for one in added), Decimal(0)) - due

    @property
    def used(self) -> Decimal:
        return sum((Decimal(row["amount"]) for row in self.paid if row.get("method") == "voucher"), Decimal(0))

    @property
    def beyond(self) -> Decimal:
        """Used beyond those sold by then, those of the day first; what is given back goes back to what was used."""
        left = used = beyond = Decimal(0)
        days = sorted({date.fromisoformat(str(row["paid_at"])[:10]) for row in self.paid})
        for day in days:
            left += sum((amount for sold, amount in self.vouchers if date(2026, 3, sold) == day), Decimal(0))
            for row in sorted(self.paid, key=lambda one: str(one["paid_at"])):
                if row.get("method") == "voucher" and str(row["paid_at"]).startswith(str(day)):
                    amount = Decimal(row["amount"])
                    part = min(amount, left) if amount > 0 else max(amount, -used)
                    left, used, beyond = left - part, used + part, beyond + amount - part
        return beyond

    def handed_over(self) -> Any:
        chosen = settings(
            salon={"currency": self.regime["currency"]},
            tax={"prices": self.regime["prices"], "round_per": self.regime["round_per"]},
            accounting={"tips": self.regime["tips"], "vouchers": self.regime["vouchers"]},
        )
        paid = payments(*self.paid)
        return handover_of(salon_of(chosen, bookings=bookings(*self.book), services=MENU, payments=paid))


@effort(max_examples=10, deadline=None)
@given(visits, sold, regimes)
def test_every_level_adds_up(drawn: list[Any], vouchers: list[Any], regime: dict[str, str]) -> None:
    salon = Drawn(drawn, vouchers, regime)
    made = salon.handed_over()
    inside = regime["tips"] == "inside"
    assert total(made, "revenue", "gross") == salon.gross + (salon.tips if inside else 0)
    assert total(made, "tips", "gross" if inside else "tips") == salon.tips
    assert total(made, "reconciliation", "charged_gross") == salon.gross
    assert total(made, "reconciliation", "difference") == salon.planted
    assert (total(made, "vouchers", "vouchers_sold"), total(made, "vouchers", "vouchers_used")) == (
        salon.sold,
        salon.used,
    )
    if not inside and regime["vouchers"] == "multi_purpose":
        assert total(made, "tax", "tax") == salon.tax
    for name in ("revenue", "tax"):
        frame = sheet(made, name)
        assert frame.filter(pl.col("net") + pl.col("tax") != pl.col("gross")).is_empty()


@effort(max_examples=10, deadline=None)
@given(visits, sold, regimes)
def test_the_sheets_say_the_same(drawn: list[Any], vouchers: list[Any], regime: dict[str, str]) -> None:
    salon = Drawn(drawn, vouchers, regime)
    made = salon.handed_over()
    assert total(made, "journal", "debit") == total(made, "journal", "credit")
    items = sheet(made, "journal").with_columns(
        amount=pl.col("debit").fill_null(0) - pl.col("credit").fill_null(0), first=pl.col("item").str.slice(0, 5)
    )
    assert items.group_by("entry").agg(pl.col("amount").sum())["amount"].unique().to_list() in ([], [0])
    sums = dict(items.group_by("account").agg(pl.col("amount").sum()).iter_rows())
    assert -sums.get("Tax owed", Decimal(0)) == total(made, "tax", "tax")
    assert sums.get("Unreconciled differences", Decimal(0)) == salon.beyond - salon.planted
    assert -sums.get("Vouchers owed", Decimal(0)) == total(made, "voucher_register", "liability")
    for column in ("due", "paid", "difference"):
        assert csv_total(made, "differences.csv", column) == total(made, "differences", column)
    assert (
        total(made, "differences", "difference") == total(made, "reconciliation_methods", "difference") == salon.planted
    )
    by_method = total(made, "reconciliation_methods", "received")
    assert (
        by_method
        == total(made, "payments_by_method", "amount")
        == total(made, "reconciliation", "received") + salon.used
    )
    single = regime["vouchers"] == "single_purpose"
    net_of_vouchers = salon.sold - (salon.used - salon.beyond) if single else 0
    assert total(made, "tax", "gross") == total(made, "revenue", "gross") + net_of_vouchers


@pytest.mark.parametrize("currency", ["EUR", "JPY", "KWD"])
@pytest.mark.parametrize("prices", ["included", "added"])
def test_ten_thousand_visits_without_one_cent_lost(currency: str, prices: str) -> None:
    """Paid what was due; the second program works out what that is, in whole minor units."""
    digits = minor_unit(currency)
    units = [(number * 7919) % 9973 + 1 for number in range(10_000)]
    charged = pl.Series([Decimal(unit).scaleb(-digits) for unit in units], dtype=pl.Decimal(18, 4))
    rates = [RATES[number % 4] for number in range(10_000)]
    names = [f"V{number}" for number in range(10_000)]
    due = [_due(unit, Decimal(rate), prices) for unit, rate in zip(units, rates, strict=True)]
    one = bookings(visit("V", "2026-03-03 09:00", 60, ("21", "1")))
    many = pl.concat([one] * 10_000).with_columns(
        booking_id=pl.Series(names), price=charged, service_id=pl.Series(rates), row=pl.int_range(2, 10_002)
    )
    amounts = pl.Series([Decimal(amount).scaleb(-digits) for amount in due], dtype=pl.Decimal(18, 4))
    paid = pl.concat([payments({"paid_at": "2026-03-03", "booking_id": "V", "amount": "1"})] * 10_000).with_columns(
        booking_id=pl.Series(names), amount=amounts
    )
    chosen = settings(salon={"currency": currency}, tax={"prices": prices})
    made = handover_of(salon_of(chosen, bookings=many, services=MENU, payments=paid))
    whole = Decimal(sum(due)).scaleb(-digits)
    assert total(made, "revenue", "gross") == total(made, "reconciliation", "received") == whole
    assert total(made, "revenue", "net") + total(made, "tax", "tax") == whole
    assert total(made, "journal", "debit") == total(made, "journal", "credit") == whole
    assert (made.verdict.agrees, made.verdict.difference) == (True, 0)


def _due(units: int, rate: Decimal, prices: str) -> int:
    """What a visit of so many minor units comes to with tax: half a unit up."""
    if prices == "included":
        return units
    return units + int((units * rate * 2 + 100) // 200)
