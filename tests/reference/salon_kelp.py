"""Kelp: a late-night salon in Tokyo. Tax on top of the price and rounded line by line, yen without decimals, stylists
instead of chairs, minutes instead of an end, the menu by name only, open until one at night, semicolons, no clients."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random

from salon_parts import (
    Cells,
    Service,
    Visit,
    at_text,
    between,
    client_ids,
    days_from,
    draw_status,
    mix_bowls,
    plan_visits,
    take_payments,
    write_table,
)

SETTINGS = """[salon]
name = "Kelp"
currency = "JPY"
locale = "ja_JP"
timezone = "Asia/Tokyo"

[tax]
prices = "added"
round_per = "line"
default_rate = 10

[hours]
mon = "14:00-01:00"
tue = "14:00-01:00"
thu = "14:00-01:00"
fri = "12:00-16:30, 17:30-01:00"
sat = "12:00-01:00"
sun = "11:00-19:00"
closed = ["2024-12-31", "2025-01-01"]
"""

FIRST_DAY = date(2024, 11, 11)
DAYS = 430
MENU = [
    Service("k1", "根元カラー", "root_touch_up", Decimal(6485), "10", "30", "35"),
    Service("k2", "フルカラー", "full_colour", Decimal(9875), "10", "45", "40"),
    Service("k3", "ブリーチ", "lightening", Decimal(12345), "10", "70", "45"),
    Service("k4", "トナー", "toner", Decimal(2995), "10", "10", "15", "yes"),
    Service("k5", "カット; 前髪", "cut", Decimal(4400), "10", "40"),
    Service("k6", "ブロー", "styling", Decimal(2205), "10", "20"),
    Service("k7", "海藻パック", "treatment", Decimal(3315), "8", "15", "20"),
    Service("k8", "お茶", "other", Decimal(455), "8", "0"),
]
PRODUCTS = [("kp1", "藍 4"), ("kp2", "藍 6"), ("kp3", "潮 6 %"), ("kp4", "白波")]
STYLISTS = ["Umi Tanabe", "Ren Okuda", "Sora Minato"]

BOOKING_COLUMNS = "starts_at minutes booking_id client_id stylist status service price discount booked_on"


def draw_start(random: Random, day: date) -> datetime:
    """In the evening mostly; one in eight so late that the visit passes midnight, some start after it."""
    if random.random() < 0.12:
        return datetime.combine(day, time(22, 30)) + timedelta(minutes=5 * random.randint(0, 23))
    return datetime.combine(day, time(12)) + timedelta(minutes=15 * random.randint(0, 40))


def make_visits(random: Random, lines: int) -> list[Visit]:
    clients = client_ids(random, lines)
    visits = []
    open_days = [day for day in days_from(FIRST_DAY, DAYS) if day.weekday() != 2]
    for number, (day, services) in enumerate(plan_visits(random, open_days, MENU, lines)):
        visit = Visit(f"K{number:06d}", random.choice(clients), draw_start(random, day), services)
        visit.stylist, visit.status = random.choice(STYLISTS), draw_status(random)
        visit.booked_on = day - timedelta(days=random.randint(0, 30))
        minutes = random.choice([25, 40, 55, 75, 95, 130, 185])
        visit.rows = [line_cells(random, visit, service, minutes) for service in services]
        visits.append(visit)
    return visits


def line_cells(random: Random, visit: Visit, service: Service, minutes: int) -> Cells:
    refund = random.random() < 0.02
    return {
        "starts_at": at_text(visit.starts_at), "minutes": str(minutes), "booking_id": visit.booking_id,
        "client_id": visit.client_id, "stylist": visit.stylist, "status": visit.status, "service": service.name,
        "price": str(-service.price if refund else service.price),
        "discount": random.choice(["", "", "0", "105"]) if not refund else "",
        "booked_on": visit.booked_on.isoformat(),
    }  # fmt: skip


def product_cells() -> list[Cells]:
    kinds = ["colour", "colour", "developer", "lightener"]
    packs = [("60", "715"), ("60", "730"), ("1000", "1255"), ("400", "3333")]
    rows = []
    for (product_id, product), kind, (pack_g, pack_cost) in zip(PRODUCTS, kinds, packs, strict=True):
        cells = {"product_id": product_id, "product": product, "kind": kind, "pack_g": pack_g, "pack_cost": pack_cost}
        rows.append({**cells, "strength_percent": "6" if kind == "developer" else ""})
    # The first product costs more from a day in mid-month; this is the only dated row.
    return [*rows, {**rows[0], "pack_cost": "789", "valid_from": "2025-05-14"}]


def make_kelp(folder: Path, lines: int, random: Random) -> None:
    (folder / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    exports = folder / "exports"
    visits = make_visits(random, lines)
    booking_rows = [row for visit in visits for row in visit.rows]
    bowls = mix_bowls(random, visits, PRODUCTS, by_name=True)
    payments = take_payments(random, visits, Decimal(1), Decimal("3.25"))
    end = FIRST_DAY + timedelta(days=DAYS + 7)
    # Two spans that overlap by a month; the names run against time.
    spans = [("z-first", FIRST_DAY, date(2025, 8, 1)), ("a-second", date(2025, 7, 1), end)]
    for name, begin, stop in spans:
        bookings = between(booking_rows, "starts_at", begin, stop)
        write_table(exports / f"{name}-bookings.csv", bookings, BOOKING_COLUMNS, ";")
        bowl_columns = "logged_at booking_id service_id stylist product mixed_g left_g"
        write_table(exports / f"{name}-bowls.csv", between(bowls, "logged_at", begin, stop), bowl_columns, ";")
        till = between(payments, "paid_at", begin, stop)
        write_table(exports / f"{name}-till.csv", till, "paid_at booking_id method amount fee", ";")
    menu_columns = "service_id service kind price tax_rate hands_on_min processing_min resets_roots"
    write_table(exports / "menu.csv", [service.cells() for service in MENU], menu_columns, ";")
    product_columns = "product_id product kind pack_g pack_cost strength_percent valid_from"
    write_table(exports / "shelf.csv", product_cells(), product_columns, ";")
