"""Harbour: a day salon in Britain whose exports overlap. Tax in the price at three rates and rounded per visit, six
chairs, three opening spans on some days, a file per month with a week of the month before and five weeks ahead, so
that a visit is booked, then completed, then edited across files; file names that do not sort by time; refunds."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random
from shutil import copyfile

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
    moment_of,
    plan_visits,
    take_payments,
    write_table,
)

SETTINGS = """[salon]
name = "Harbour & Sons"
currency = "GBP"
locale = "en_GB"
timezone = "Europe/London"
chairs = ["Berth 1", "Berth 2", "Berth 3", "Berth 4", "Berth 5", "Berth 6"]

[tax]
prices = "included"
round_per = "booking"
default_rate = 20

[hours]
mon = "09:00-17:30"
tue = "09:00-17:30"
thu = "09:00-12:00, 12:30-16:00, 17:00-20:00"
fri = "09:00-18:00"
sat = "08:30-12:00, 12:30-15:00, 15:15-18:00"
closed = ["2025-04-18", "2025-12-25", "2025-12-26", "2026-01-01"]
"""

FIRST_DAY = date(2025, 1, 6)
DAYS = 430
EXPORT_DAYS = [date(2025, month, 1) for month in range(2, 13)] + [date(2026, 1, 1), date(2026, 2, 1), date(2026, 2, 11)]
EXPORT_NAMES = "january february march april may june july august september october november december newyear latest"
BERTHS = ["Berth 1", "Berth 2", "Berth 3", "Berth 4", "Berth 5", "Berth 6"]
STYLISTS = ["Mabel Quay", "Otis Rudder", "Isla Fender", "Bryn Halyard"]
MENU = [
    Service("roots", "Roots", "root_touch_up", Decimal("58.99"), "20", "35", "35"),
    Service("all", "All over", "full_colour", Decimal("84.49"), "20", "50", "40"),
    Service("light", "Lights, half", "lightening", Decimal("112.35"), "20", "80", "40"),
    Service("tone", "Toner", "toner", Decimal("22.05"), "20", "10", "15"),
    Service("cut", 'Cut "dry"', "cut", Decimal("31.33"), "20", "35", "0", "no"),
    Service("blow", "Blow-dry", "styling", Decimal("19.99"), "20", "25"),
    Service("scalp", "Scalp care", "treatment", Decimal("17.77"), "5", "20", "10"),
    Service("wig", "Wig fitting", "other", Decimal("40.01"), "0", "30"),
]
# From the seventeenth of June: dearer, slower and in one case taxed otherwise.
CHANGED = [
    Service("roots", "Roots", "root_touch_up", Decimal("62.49"), "20", "40", "30"),
    Service("tone", "Toner", "toner", Decimal("24.95"), "20", "12", "20"),
    Service("scalp", "Scalp care", "treatment", Decimal("20.02"), "20", "20", "5"),
]
PRODUCTS = [("p1", "Slate 5.1"), ("p2", "Sand 8.3"), ("p3", "Tide 6 %"), ("p4", "Foam")]

BOOKING_COLUMNS = (
    "booking_id line client_id stylist chair starts_at ends_at status service_id service price discount tip "
    "booked_on regrowth_mm"
)
SALE_COLUMNS = "sold_at product_id product quantity price tax_rate discount stylist client_id booking_id"


def make_visits(random: Random, lines: int) -> list[Visit]:
    clients = client_ids(random, lines)
    open_days = [day for day in days_from(FIRST_DAY, DAYS) if day.weekday() not in (2, 6)]
    visits = []
    free_from: dict[tuple[date, str], datetime] = {}
    for number, (day, services) in enumerate(plan_visits(random, open_days, MENU, lines)):
        chair = "Window seat" if random.random() < 0.01 else draw_chair(random, day, free_from)
        start = free_from.get((day, chair), datetime.combine(day, time(9)))
        start += timedelta(minutes=5 * random.randint(0, 8))
        visit = Visit(f"H-{number:05d}", random.choice(clients), start, services, random.choice(STYLISTS))
        visit.status = draw_status(random)
        visit.booked_on = day - timedelta(days=random.randint(0, 40))
        end = min(start + timedelta(minutes=draw_minutes(random, services)), datetime.combine(day, time(23, 55)))
        # Now and then the next visit begins before this one has left.
        late = timedelta(minutes=15 if random.random() < 0.05 else 0)
        free_from[day, chair] = min(end - late, datetime.combine(day, time(23)))
        visit.rows = [line_cells(random, visit, number, chair, end) for number in range(len(services))]
        visits.append(visit)
    return visits


def draw_chair(random: Random, day: date, free_from: dict[tuple[date, str], datetime]) -> str:
    if random.random() < 0.3:
        return random.choice(BERTHS)
    return min(BERTHS, key=lambda chair: free_from.get((day, chair), datetime.min))


def draw_minutes(random: Random, services: list[Service]) -> int:
    planned = sum(int(service.hands_on_min) + int(service.processing_min or 0) for service in services)
    return max(10, 5 * (planned // 5 + random.randint(-3, 3)))


def line_cells(random: Random, visit: Visit, number: int, chair: str, end: datetime) -> Cells:
    service = visit.services[number]
    # Part of a visit can be cancelled while the rest takes place.
    line_cancelled = visit.status == "completed" and number > 0 and random.random() < 0.04
    measured = number == 0 and random.random() < 0.1
    return {
        "booking_id": visit.booking_id, "line": str(number + 1), "client_id": visit.client_id,
        "stylist": visit.stylist, "chair": chair, "starts_at": at_text(visit.starts_at), "ends_at": at_text(end),
        "status": "cancelled" if line_cancelled else visit.status, "service_id": service.service_id,
        "service": service.name, "price": str(service.price), "discount": random.choice(["", "", "0.00", "5.55"]),
        "tip": random.choice(["", "2.00"]), "booked_on": visit.booked_on.isoformat(),
        "regrowth_mm": f"{random.uniform(6, 30):.1f}" if measured else "",
    }  # fmt: skip


def rows_at(visit: Visit, previous: date, export_day: date, edit: str) -> list[Cells]:
    """The lines of a visit as an export of that day has them."""
    day = visit.starts_at.date()
    if day >= export_day:
        if visit.booked_on >= export_day:
            return []
        return [{**row, "status": "booked", "tip": "", "regrowth_mm": ""} for row in visit.rows]
    return visit.rows if day >= previous else edited(visit, edit)


def edited(visit: Visit, edit: str) -> list[Cells]:
    """What the front desk made of the visit when it looked once more."""
    first = visit.rows[0]
    if edit == "fewer" and len(visit.rows) > 1:
        return visit.rows[:-1]
    if edit == "price":
        return [{**first, "price": "44.44"}, *visit.rows[1:]]
    if edit == "refund" and visit.status == "completed" and visit.services:
        refund = {"line": str(len(visit.rows) + 1), "price": f"-{first['price']}", "discount": "", "regrowth_mm": ""}
        return [*visit.rows, {**first, **refund}]
    return visit.rows


def refund_visits(random: Random, visits: list[Visit]) -> list[Visit]:
    """Money given back on another day, exported as a visit that took no time."""
    refunds = []
    for visit in visits:
        if visit.status == "completed" and visit.services[0].service_id == "cut" and random.random() < 0.05:
            moment = at_text(visit.starts_at + timedelta(days=1))
            refund = Visit(f"{visit.booking_id}-R", visit.client_id, visit.starts_at + timedelta(days=1), [])
            cells = {"booking_id": refund.booking_id, "line": "1", "starts_at": moment, "ends_at": moment}
            cells.update({"price": "-10.01", "discount": "", "tip": "", "status": "completed", "regrowth_mm": ""})
            refund.rows = [{**visit.rows[0], **cells}]
            refunds.append(refund)
    return refunds


def unusable_rows(visit: Visit) -> list[Cells]:
    """Rows that lack something required, each a visit of its own."""
    good = visit.rows[0]
    faults = [("price", "n/a"), ("client_id", ""), ("status", "arrived"), ("starts_at", "noonish")]
    return [{**good, "booking_id": f"X-{column}", "line": "1", column: value} for column, value in faults]


def write_monthly(exports: Path, visits: list[Visit], kept: dict[str, list[Cells]], edits: dict[str, str]) -> None:
    previous = FIRST_DAY
    names = EXPORT_NAMES.split()
    for name, export_day in zip(names, EXPORT_DAYS, strict=True):
        begin, ahead = previous - timedelta(days=7), export_day + timedelta(days=35)
        rows = []
        for visit in visits:
            if begin <= visit.starts_at.date() < ahead:
                rows.extend(rows_at(visit, previous, export_day, edits[visit.booking_id]))
        rows += unusable_rows(visits[0]) if name in ("march", "april") else []
        write_table(exports / name / "bookings.csv", rows, BOOKING_COLUMNS)
        payments = between(kept["payments"], "paid_at", begin, export_day)
        payments += [{"paid_at": "2025-05-05 10:00", "method": "card", "amount": "?"}] if name == "may" else []
        write_table(exports / f"{name}-payments.csv", payments, "paid_at booking_id method amount fee")
        sales = between(kept["sales"], "sold_at", begin, export_day)
        write_table(exports / f"{name}-sales.csv", sales, SALE_COLUMNS)
        bowls = between(kept["bowls"], "logged_at", begin, export_day)
        write_table(
            exports / f"{name}-bowls.csv", bowls, "logged_at booking_id service_id stylist product_id mixed_g left_g"
        )
        previous = export_day
    copyfile(exports / "june" / "bookings.csv", exports / "june" / "bookings (1).csv")
    copyfile(exports / "july-payments.csv", exports / "again-july-payments.csv")
    copyfile(exports / "may-bowls.csv", exports / "may-bowls-copy.csv")


def make_sales(random: Random, visits: list[Visit]) -> list[Cells]:
    sales = []
    for visit in visits:
        if visit.status != "completed" or random.random() > 0.12:
            continue
        product_id, product, price, rate = random.choice(
            [("r1", "Salt spray", "14.95", ""), ("r2", "Comb", "3.49", ""), ("r3", "Tide tables", "7.99", "")]
        )
        by_name = random.random() < 0.3
        sold_at = visit.starts_at + timedelta(minutes=90)
        sale = {
            "sold_at": at_text(sold_at), "product_id": "" if by_name else product_id, "product": product,
            "quantity": random.choice(["1", "1", "2", "3", "-1"]), "price": price,
            "tax_rate": "5" if random.random() < 0.1 else rate, "discount": random.choice(["", "", "0.50"]),
            "stylist": visit.stylist, "client_id": visit.client_id,
            "booking_id": visit.booking_id if random.random() < 0.5 else "",
        }  # fmt: skip
        sales.append(sale)
        if random.random() < 0.1:
            sales.append(dict(sale))  # the same thing sold twice in one minute is two sales
    return sorted(sales, key=lambda row: moment_of(row, "sold_at"))


def write_lists(random: Random, exports: Path, visits: list[Visit]) -> None:
    menu_columns = "service_id service kind price tax_rate hands_on_min processing_min resets_roots valid_from"
    old_menu = [service.cells() for service in MENU]
    # The older list had the wig fitting wrong; the newer, reaching further, puts it right.
    wrong = [{**cells, "price": "39.00", "hands_on_min": "45"} if cells["service_id"] == "wig" else cells
             for cells in old_menu]  # fmt: skip
    write_table(exports / "menu-before.csv", wrong, menu_columns)
    write_table(exports / "a-menu.csv", old_menu + [service.cells("2025-06-17") for service in CHANGED], menu_columns)
    kinds, costs = ["colour", "colour", "developer", "lightener"], ["6.85", "7.10", "9.99", "21.37"]
    shelf = [
        {"product_id": product_id, "product": product, "kind": kind, "pack_g": "65", "pack_cost": cost}
        for (product_id, product), kind, cost in zip(PRODUCTS, kinds, costs, strict=True)
    ]
    shelf += [{**shelf[0], "pack_cost": "7.49", "valid_from": "2025-09-11"}]
    shelf += [{**shelf[2], "pack_g": "1000", "pack_cost": "14.25", "valid_from": "2025-09-11"}]
    for product_id, product, rate in [("r1", "Salt spray", "20"), ("r2", "Comb", ""), ("r3", "Tide tables", "0")]:
        retail = {"product_id": product_id, "product": product, "kind": "retail", "pack_g": "100", "pack_cost": "2"}
        shelf.append({**retail, "tax_rate": rate})
    write_table(
        exports / "shelf.csv", shelf, "product_id product kind pack_g pack_cost strength_percent tax_rate valid_from"
    )
    ids = sorted({visit.client_id for visit in visits})
    clients = [
        {"client_id": client_id, "client": f"{random.choice(['Ödön', 'Ann, the elder', 'Zoë'])} {client_id[1:]}",
         "may_contact": random.choice(["yes", "yes", "no", ""]), "natural_level": str(random.randint(1, 10))}
        for client_id in ids
    ]  # fmt: skip
    write_table(exports / "people.csv", clients, "client_id client phone email may_contact natural_level")


def make_harbour(folder: Path, lines: int, random: Random) -> None:
    (folder / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    visits = make_visits(random, lines)
    bowls = mix_bowls(random, visits, PRODUCTS, by_name=False)
    bowls += [dict(random.choice(bowls)) for _ in range(len(bowls) // 50)]  # two bowls alike in one minute
    kept = {
        "payments": take_payments(random, visits, Decimal("0.01"), Decimal("1.4")),
        "sales": make_sales(random, visits),
        "bowls": sorted(bowls, key=lambda row: row["logged_at"]),
    }
    visits += refund_visits(random, visits)
    edits = {visit.booking_id: random.choice(["", "", "", "fewer", "price", "refund"]) for visit in visits}
    write_monthly(folder / "exports", visits, kept, edits)
    write_lists(random, folder / "exports", visits)
