"""The till: payments, retail sales and gift vouchers, tied to what the visits charged."""

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from random import Random

from demo_data.days import FIRST_DAY, LAST_DAY, days_from, open_span, random_for
from demo_data.diary import Visit, start_of
from demo_data.menu import RETAIL, money, shelf_price

PAYMENT_HEADING = ["paid_at", "booking_id", "method", "amount", "fee"]
SALES_HEADING = [
    "sold_at",
    "product_id",
    "product",
    "quantity",
    "price",
    "tax_rate",
    "discount",
    "stylist",
    "client_id",
    "booking_id",
]
CARD_FEE_SHARE = 0.009
# Two visits nobody paid for and one paid twice: the kind of difference a reconciliation is for.
UNPAID_DAYS = (date(2024, 9, 19), date(2026, 2, 7))
PAID_TWICE_DAY = date(2025, 5, 9)


@dataclass
class Payment:
    paid_at: datetime
    booking_id: str
    method: str
    amount_cents: int

    @property
    def day(self) -> date:
        return self.paid_at.date()

    def row(self) -> list[str]:
        fee = money(round(self.amount_cents * CARD_FEE_SHARE)) if self.method == "card" else ""
        cells = [self.paid_at.strftime("%Y-%m-%d %H:%M"), self.booking_id, self.method, money(self.amount_cents), fee]
        # This till writes amounts with a comma, as its country does.
        return cells[:3] + [cell.replace(".", ",") for cell in cells[3:]]


@dataclass
class Sale:
    sold_at: datetime
    product_number: int
    quantity: int
    price_cents: int
    discount_cents: int
    stylist: str
    client_id: str
    booking_id: str

    @property
    def charged_cents(self) -> int:
        return self.quantity * self.price_cents - self.discount_cents

    def row(self) -> list[str]:
        product = RETAIL[self.product_number]
        return [
            self.sold_at.strftime("%Y-%m-%d %H:%M"),
            product.product_id,
            product.product,
            str(self.quantity),
            money(self.price_cents),
            "21",
            money(self.discount_cents) if self.discount_cents else "",
            self.stylist,
            self.client_id,
            self.booking_id,
        ]


@dataclass
class Till:
    payments: list[Payment] = field(default_factory=list)
    sales: list[Sale] = field(default_factory=list)
    vouchers: list[tuple[date, int]] = field(default_factory=list)
    unpaid: list[str] = field(default_factory=list)
    paid_twice: list[str] = field(default_factory=list)


def _method(rng: Random, amount_cents: int) -> str:
    if amount_cents < 4000 and rng.random() < 0.22:
        return "cash"
    return rng.choices(("card", "cash", "bank"), (88, 9, 3))[0]


def _sell_vouchers(rng: Random, till: Till, day: date) -> None:
    per_day = {12: 1.1, 5: 0.6, 11: 0.15, 6: 0.12}.get(day.month, 0.05)
    hours = open_span(day)
    if hours is None:
        return
    for _ in range(3):
        if rng.random() < per_day / 3:
            amount = rng.choice((2500, 3000, 5000, 5000, 7500, 10000))
            at = start_of(day, rng.randrange(hours[0], hours[1]))
            till.payments.append(Payment(at, "", rng.choice(("card", "card", "cash")), amount))
            till.vouchers.append((day + timedelta(days=rng.randint(12, 260)), amount))


def _sell(rng: Random, till: Till, at: datetime, visit: Visit | None) -> int:
    """One retail item, in a visit or over the counter; what it brought in cents."""
    number = rng.choices(range(len(RETAIL)), (14, 10, 12, 9, 9, 8, 11, 6, 8, 5))[0]
    price = shelf_price(RETAIL[number], at.date())
    quantity = 2 if rng.random() < 0.06 else 1
    discount = round(price * quantity * 0.1) if rng.random() < 0.05 else 0
    buyer = ("", "", "") if visit is None else (visit.stylist.name, visit.client_id, visit.booking_id)
    sale = Sale(at, number, quantity, price, discount, *buyer)
    till.sales.append(sale)
    return sale.charged_cents


def _sell_over_counter(rng: Random, till: Till, day: date) -> None:
    hours = open_span(day)
    if hours is None or rng.random() > 0.33:
        return
    at = start_of(day, rng.randrange(hours[0] + 30, hours[1]))
    amount = _sell(rng, till, at, None)
    till.payments.append(Payment(at, "", _method(rng, amount), amount))


def _voucher_part(rng: Random, till: Till, visit: Visit, due_cents: int) -> int:
    """How much of the bill a voucher covers; what remains on it is kept for another day."""
    for place, (ready, left) in enumerate(till.vouchers):
        if ready <= visit.day and rng.random() < 0.2:
            used = min(left, due_cents)
            till.vouchers[place] = (ready, left - used)
            till.vouchers = [each for each in till.vouchers if each[1] > 0]
            return used
        if place > 2:
            break
    return 0


def _pay(rng: Random, till: Till, visit: Visit, due_cents: int) -> None:
    at = visit.ends_at
    covered = _voucher_part(rng, till, visit, due_cents) if due_cents > 2000 else 0
    if covered:
        till.payments.append(Payment(at, visit.booking_id, "voucher", covered))
        due_cents -= covered
    if due_cents > 6000 and rng.random() < 0.03:
        part = rng.choice((2000, 2500, 5000))
        till.payments.append(Payment(at, visit.booking_id, "cash", part))
        till.payments.append(Payment(at, visit.booking_id, "card", due_cents - part))
    elif due_cents:
        till.payments.append(Payment(at, visit.booking_id, _method(rng, due_cents), due_cents))


def _close_visit(rng: Random, till: Till, visit: Visit) -> None:
    due = visit.charged_cents + visit.tip_cents
    if due < 0:
        till.payments.append(Payment(visit.ends_at, visit.booking_id, "card", due))
        return
    if rng.random() < 0.2:
        due += _sell(rng, till, visit.ends_at, visit)
    if visit.day in UNPAID_DAYS and len(till.unpaid) <= UNPAID_DAYS.index(visit.day):
        till.unpaid.append(visit.booking_id)
        return
    _pay(rng, till, visit, due)
    if visit.day == PAID_TWICE_DAY and not till.paid_twice:
        till.paid_twice.append(visit.booking_id)
        till.payments.append(Payment(visit.ends_at + timedelta(minutes=3), visit.booking_id, "card", due))


def make_till(visits: list[Visit]) -> Till:
    rng, till = random_for("till"), Till()
    by_day: dict[date, list[Visit]] = defaultdict(list)
    for visit in visits:
        if visit.status == "completed":
            by_day[visit.day].append(visit)
    for day in days_from(FIRST_DAY, LAST_DAY):
        _sell_vouchers(rng, till, day)
        _sell_over_counter(rng, till, day)
        for visit in by_day[day]:
            _close_visit(rng, till, visit)
    till.payments.sort(key=lambda each: (each.paid_at, each.booking_id, each.method))
    till.sales.sort(key=lambda each: (each.sold_at, each.booking_id, each.product_number))
    return till
