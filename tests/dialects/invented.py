"""One small invented salon as plain Python values, before anybody writes it down in a dialect.

Forty visits from February to April 2026 with what salons have: several services in one visit, refunds, tips,
discounts, retail, vouchers, two ways of paying one visit, a menu whose prices change, accents in names, a service whose
name holds a separator, amounts over a thousand, times after noon, days after the twelfth, the night the clocks change.
"""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Any

Row = dict[str, Any]
Tables = dict[str, list[Row]]

TODAY = date(2026, 4, 16)
FIRST_DAY = date(2026, 2, 2)
NEW_PRICES_FROM = date(2026, 3, 16)
SETTINGS = """[salon]
name = "Salon Zilverdraad (invented)"
currency = "EUR"
timezone = "Europe/Amsterdam"
chairs = ["Venster", "Spiegel", "Hoek"]

[tax]
prices = "included"
round_per = "booking"
default_rate = 21

[hours]
mon = "09:00-12:30, 13:00-20:00"
tue = "09:00-20:00"
wed = "09:00-20:00"
thu = "09:00-21:00"
fri = "09:00-20:00"
sat = "09:00-17:00"
closed = ["2026-04-06"]
"""

CHAIRS = ("Venster", "Spiegel", "Hoek")
STYLISTS = ("Jorien Käsmeyer", "Séverine Boël")
CLIENTS = (
    "Anouk d'Hérelle", "Böhm Zita", "Çelik Ayten", "Dörte Müller-Groß", "Eléonore Vançy", "Fenna Hoogstra",
    "Ünal Gül", "Hélène Prévôt", "Ilse Öztürk", "Jutta Weiß", "Katja Ströhm", "Léonie Nuñez",
)  # fmt: skip

#   id, name, kind, price, tax rate, hands-on minutes, processing minutes, resets roots
MENU = (
    ("L1", "Root refresh", "root_touch_up", "68.50", 21, 45, 35, True),
    ("L2", "Full colour, long hair", "full_colour", "112.00", 21, 60, 40, True),
    ("L3", "Balayage", "lightening", "187.25", 21, 110, 45, False),
    ("L4", "Gloss", "toner", "34.00", 21, 15, 15, False),
    ("L5", "Cut & finish", "cut", "46.00", 21, 40, 0, False),
    ("L6", "Bridal party", "other", "1250.00", 9, 300, 0, False),
    ("L7", "Soin à l'argile", "treatment", "28.75", 9, 20, 10, False),
)
NEW_PRICES = {"L1": "71.00", "L5": "48.50"}

#   id, name, kind, grams in a pack, cost of a pack, strength, tax rate
PRODUCTS = (
    ("P1", "Noisette 6.3", "colour", "60", "8.95", None, None),
    ("P2", "Grège 8.1", "colour", "60", "9.40", None, None),
    ("P3", "Crème 6 %", "developer", "1000", "12.80", "6", None),
    ("P4", "Poudre blanche", "lightener", "500", "1031.20", "", None),
    ("P5", "Shampoo 250", "retail", "250", "6.10", None, "21"),
)

PLANS = (
    ("L1", "L5"), ("L2",), ("L3", "L4", "L5"), ("L5",), ("L1", "L4"), ("L1",), ("L2", "L5"), ("L7",), ("L3",),
    ("L1", "L5"),
)  # fmt: skip
COLOURING = {"L1": "P1", "L2": "P2", "L3": "P4", "L4": "P2"}
METHODS = ("card", "cash", "card", "voucher", "bank")


def money(text: str) -> Decimal:
    return Decimal(text)


def list_price(service_id: str, day: date) -> Decimal:
    """What the menu says that day."""
    first = next(Decimal(row[3]) for row in MENU if row[0] == service_id)
    return Decimal(NEW_PRICES[service_id]) if service_id in NEW_PRICES and day >= NEW_PRICES_FROM else first


def salon() -> Tables:
    """The tables of the salon, with the columns of the contract and Python values in them."""
    bookings = _bookings()
    return {
        "services": _services(),
        "products": _products(),
        "clients": _clients(),
        "bookings": bookings,
        "product_log": _product_log(bookings),
        "payments": _payments(bookings),
        "sales": _sales(),
        "stock_moves": _stock_moves(),
    }


def _services() -> list[Row]:
    rows = []
    for service_id, name, kind, price, rate, hands_on, processing, resets in MENU:
        row = {
            "service_id": service_id, "service": name, "kind": kind, "price": money(price), "tax_rate": Decimal(rate),
            "hands_on_min": Decimal(hands_on), "processing_min": Decimal(processing), "resets_roots": resets,
            "valid_from": None,
        }  # fmt: skip
        rows.append(row)
        if service_id in NEW_PRICES:
            rows.append({**row, "price": money(NEW_PRICES[service_id]), "valid_from": NEW_PRICES_FROM})
    return rows


def _products() -> list[Row]:
    return [
        {
            "product_id": product_id, "product": name, "kind": kind, "pack_g": Decimal(grams), "pack_cost": money(cost),
            "strength_percent": Decimal(strength) if strength else None, "tax_rate": Decimal(rate) if rate else None,
        }
        for product_id, name, kind, grams, cost, strength, rate in PRODUCTS
    ]  # fmt: skip


def _clients() -> list[Row]:
    return [
        {
            "client_id": f"K{100 + number}", "client": name, "phone": f"+31 6 0000 {1200 + number}",
            "email": f"client{number}@example.org", "may_contact": number % 3 != 1,
            "natural_level": Decimal(3 + number % 5), "target_level": Decimal(5 + number % 4),
            "grey_share": Decimal(number % 4) / 4,
            "patch_tested_on": date(2026, 1, 13) + timedelta(days=3 * number) if number % 2 else None,
        }
        for number, name in enumerate(CLIENTS)
    ]  # fmt: skip


def _bookings() -> list[Row]:
    rows = []
    for number in range(40):
        day = FIRST_DAY + timedelta(days=2 * number)
        day += timedelta(days=day.weekday() == 6)
        plan = ("L6",) if number in (11, 26) else PLANS[number % len(PLANS)]
        rows += _visit(f"A{2601 + number}", number, day, plan)
    # Paid back: one service of a visit whose colour did not last.
    rows += [{**row, "booking_id": "A2699", "line": Decimal(1), "price": -row["price"], "discount": Decimal(0),
              "tip": Decimal(0), "regrowth_mm": None, "starts_at": datetime(2026, 3, 31, 16, 45),
              "ends_at": datetime(2026, 3, 31, 17, 0), "booked_on": date(2026, 3, 27)}
             for row in rows if row["booking_id"] == "A2606"]  # fmt: skip
    return rows


def _status(number: int, day: date) -> str:
    if number in (7, 23):
        return "cancelled"
    return "no_show" if number == 14 else "booked" if day > TODAY else "completed"


def _visit(booking_id: str, number: int, day: date, plan: tuple[str, ...]) -> list[Row]:
    starts_at = datetime.combine(day, time(9 + number * 5 % 8, 15 * (number % 4)))
    client = number * 7 % len(CLIENTS)
    measured = number % 5 == 0 and any(service_id in ("L1", "L2") for service_id in plan)
    rows = []
    for line, service_id in enumerate(plan, 1):
        names = {row[0]: row[1] for row in MENU}
        first = line == 1
        discount = Decimal("125.00") if number == 26 else Decimal("5.50") if number % 6 == 0 else Decimal(0)
        rows.append(
            {
                "booking_id": booking_id, "line": Decimal(line), "client_id": f"K{100 + client}",
                "client": CLIENTS[client], "stylist": STYLISTS[number % 2], "chair": CHAIRS[number % 3],
                "starts_at": starts_at, "ends_at": starts_at + timedelta(minutes=45 + 20 * (number % 7) * len(plan)),
                "status": _status(number, day), "service_id": service_id, "service": names[service_id],
                "price": list_price(service_id, day), "discount": discount if first else Decimal(0),
                "tip": Decimal("3.50") if first and number % 4 == 1 else Decimal(0),
                "booked_on": day - timedelta(days=3 + number % 17),
                "regrowth_mm": Decimal(10 + number) / 2 if measured and first else None,
            }
        )  # fmt: skip
    return rows


def _done(bookings: list[Row]) -> dict[str, list[Row]]:
    visits: dict[str, list[Row]] = {}
    for row in bookings:
        if row["status"] == "completed":
            visits.setdefault(row["booking_id"], []).append(row)
    return visits


def _product_log(bookings: list[Row]) -> list[Row]:
    rows = []
    for visit, lines in _done(bookings).items():
        for line in lines:
            colour = COLOURING.get(line["service_id"])
            if colour is None or line["price"] < 0:
                continue
            for place, product_id in enumerate((colour, "P3")):
                grams = Decimal(300 + 15 * int(visit[-2:]) + 5 * place) / 10
                rows.append(
                    {
                        "logged_at": line["starts_at"] + timedelta(minutes=10), "booking_id": visit,
                        "service_id": line["service_id"], "stylist": line["stylist"], "product_id": product_id,
                        "product": next(row[1] for row in PRODUCTS if row[0] == product_id), "mixed_g": grams,
                        "left_g": None if int(visit[-1]) % 3 == 0 else grams / 10,
                    }
                )  # fmt: skip
    return rows


def _payments(bookings: list[Row]) -> list[Row]:
    rows = []
    for number, (visit, lines) in enumerate(_done(bookings).items()):
        due = sum((line["price"] - line["discount"] + line["tip"] for line in lines), Decimal(0))
        method = METHODS[number % len(METHODS)]
        paid_at = lines[0]["ends_at"]
        parts = [(method, due)] if number % 9 else [("voucher", Decimal("20.00")), (method, due - Decimal("20.00"))]
        rows += [
            {"paid_at": paid_at, "booking_id": visit, "method": paid, "amount": amount,
             "fee": (amount / 100).quantize(Decimal("0.01")) if paid == "card" and amount > 0 else Decimal(0)}
            for paid, amount in parts
        ]  # fmt: skip
    sold = {"paid_at": datetime(2026, 2, 14, 15, 5), "booking_id": None, "method": "card", "fee": Decimal("0.75")}
    return [*rows, {**sold, "amount": Decimal("75.00")}]


def _sales() -> list[Row]:
    return [
        {
            "sold_at": datetime.combine(FIRST_DAY + timedelta(days=13 * number), time(12 + number, 20)),
            "product_id": "P5", "product": "Shampoo 250", "quantity": Decimal(1 + number % 2),
            "price": Decimal("18.90"), "tax_rate": Decimal(21), "discount": Decimal("1.90") if number == 3 else None,
            "stylist": STYLISTS[number % 2],
        }
        for number in range(6)
    ]  # fmt: skip


def _stock_moves() -> list[Row]:
    kinds = ("delivery", "count", "returned", "discarded")
    return [
        {
            "moved_at": datetime.combine(date(2026, 2, 13) + timedelta(days=16 * number), time(18, 0)),
            "product_id": PRODUCTS[number][0], "product": PRODUCTS[number][1], "movement": kind,
            "packs": Decimal(1 + number), "unit_cost": Decimal(PRODUCTS[number][4]) if kind == "delivery" else None,
        }
        for number, kind in enumerate(kinds)
    ]  # fmt: skip
