"""Dune: a night salon paid in dinars (three decimals) under New York's clock. Open on Saturdays from eight to four, so
the hour that falls out in spring and the one that comes twice in autumn are working hours. Times per line, visits on
two chairs, double bookings, a menu with minutes missing, growth settings of its own and many measured regrowths."""

from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random
from zoneinfo import ZoneInfo

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
name = "Dune"
currency = "KWD"
locale = "en_GB"
timezone = "America/New_York"
chairs = ["North", "East"]

[tax]
prices = "included"
round_per = "booking"
default_rate = 5

[hours]
tue = "10:00-18:00"
wed = "10:00-18:00"
thu = "10:00-13:30, 14:00-22:00"
fri = "10:00-18:00"
sat = "20:00-04:00"

[costs]
per_month = 1250.500

[roots]
touch_up_from_mm = 11
growth_sd = 0.07

[roots.full_colour]
touch_up_from_mm = 12.5
touch_up_by_mm = 27
growth_mm_per_day = 0.4
growth_sd = 0.05
"""

ZONE = ZoneInfo("America/New_York")
FIRST_DAY = date(2024, 9, 3)
DAYS = 440
LAST_EXPORT_DAY = date(2025, 11, 12)
CLOCK_CHANGE_NIGHTS = [date(2024, 11, 2), date(2025, 3, 8), date(2025, 11, 1)]
CHAIRS = ["North", "East", "South"]
STYLISTS = ["Noor Sandgrouse", "Idris Oryx"]
MENU = [
    Service("d1", "Root line", "root_touch_up", Decimal("14.125"), "5", "30", "30"),
    Service("d2", "Whole colour", "full_colour", Decimal("22.375"), "5", "45", ""),
    Service("d3", "Sun strands", "lightening", Decimal("37.333"), "5", "0", "0"),
    Service("d4", "Shade", "toner", Decimal("6.005"), "5", "0", ""),
    Service("d5", "Trim", "cut", Decimal("5.001"), "5", "20"),
    Service("d6", "Night set", "styling", Decimal("9.999"), "5", "0"),
    Service("d7", "Oil", "treatment", Decimal("3.500"), "5", "0", "25"),
    Service("d8", "Regrown gloss", "full_colour", Decimal("18.250"), "5", "25", "20", "no"),
]
PRODUCTS = [("s1", "Amber"), ("s2", "Ochre"), ("s3", "Wadi 9 %")]

BOOKING_COLUMNS = (
    "status booking_id line client_id stylist chair starts_at ends_at service_id price discount booked_on regrowth_mm"
)


def on_the_clock(moment: datetime) -> datetime:
    """A wall time that exists: the hour left out in spring is shown by no clock, so the clock shows the next one."""
    there_and_back = moment.replace(tzinfo=ZONE).astimezone(ZoneInfo("UTC")).astimezone(ZONE).replace(tzinfo=None)
    return max(moment, there_and_back)


def draw_start(random: Random, day: date) -> datetime:
    if day in CLOCK_CHANGE_NIGHTS:
        # In the chair while the clock is changed.
        return datetime.combine(day + timedelta(days=1), time(0, 30)) + timedelta(minutes=5 * random.randint(0, 16))
    if day.weekday() == 5:
        return on_the_clock(datetime.combine(day, time(20)) + timedelta(minutes=5 * random.randint(0, 90)))
    return datetime.combine(day, time(10)) + timedelta(minutes=5 * random.randint(0, 90))


def make_visits(random: Random, lines: int) -> list[Visit]:
    clients = client_ids(random, lines)
    # Few clients beside the many, so that some have a dozen measurements.
    regulars = clients[: len(clients) // 4]
    growth_mm_per_day = {client: random.uniform(0.22, 0.52) for client in clients}
    last_root: dict[str, date] = {}
    open_days = [day for day in days_from(FIRST_DAY, DAYS) if day.weekday() in (1, 2, 3, 4, 5, 5)]
    nights = [(night, random.sample(MENU, 2)) for night in CLOCK_CHANGE_NIGHTS for _ in range(4 + lines // 1000)]
    planned = plan_visits(random, open_days, MENU, max(1, lines - 2 * len(nights))) + nights
    visits = []
    for number, (day, services) in enumerate(sorted(planned, key=lambda plan: plan[0])):
        client = random.choice(regulars if random.random() < 0.5 else clients)
        visit = Visit(f"D{number:05d}", client, draw_start(random, day), services, random.choice(STYLISTS))
        visit.status = draw_status(random) if day < LAST_EXPORT_DAY else "booked"
        visit.booked_on = day - timedelta(days=random.randint(0, 60))
        visit.rows = line_rows(random, visit)
        if visit.status == "completed":
            grown_days = (day - last_root.get(client, day)).days
            measure(random, visit, growth_mm_per_day[client] * grown_days)
            if any(service.resets() for service in services):
                last_root[client] = day
        visits.append(visit)
    return visits


def measure(random: Random, visit: Visit, grown_mm: float) -> None:
    """Sometimes on every line, sometimes on the first; now and then a length that cannot be."""
    if random.random() > 0.6:
        return
    measured_mm = max(0.0, grown_mm + random.gauss(0, 1.5)) + (70 if random.random() < 0.04 else 0)
    rows = visit.rows if random.random() < 0.5 else visit.rows[:1]
    for row in rows:
        row["regrowth_mm"] = f"{measured_mm:.1f}"


def line_rows(random: Random, visit: Visit) -> list[Cells]:
    """Lines one after another or side by side, on one chair or two; nobody minds who sits there already."""
    chairs = random.sample(CHAIRS, 2) if random.random() < 0.25 else [random.choice(CHAIRS)]
    rows = []
    begin = visit.starts_at
    for number, service in enumerate(visit.services):
        end = on_the_clock(begin + timedelta(minutes=5 * random.randint(3, 18)))
        refund = random.random() < 0.015 and not service.resets()
        rows.append(
            {
                "status": visit.status,
                "booking_id": visit.booking_id,
                "line": str(number + 1),
                "client_id": visit.client_id,
                "stylist": visit.stylist,
                "chair": chairs[number % len(chairs)],
                "starts_at": at_text(begin),
                "ends_at": at_text(end),
                "service_id": service.service_id,
                "price": str(-service.price if refund else service.price),
                "discount": random.choice(["", "", "0.125", "0.333"]) if not refund else "",
                "booked_on": visit.booked_on.isoformat(),
                "regrowth_mm": "",
            }
        )
        begin = begin if random.random() < 0.2 else end
    return rows


def menu_cells() -> list[Cells]:
    """The menu, a later version of one line, and a version without minutes that nobody can use."""
    later = Service("d1", "Root line", "root_touch_up", Decimal("15.875"), "5", "35", "25")
    unusable = Service("d5", "Trim", "cut", Decimal("5.501"), "5", "")
    return [*[service.cells() for service in MENU], later.cells("2025-02-12"), unusable.cells("2025-05-20")]


def shelf_cells() -> list[Cells]:
    rows = []
    for (product_id, product), cost in zip(PRODUCTS, ["1.375", "1.425", "4.005"], strict=True):
        kind = "developer" if "%" in product else "colour"
        rows.append({"product_id": product_id, "product": product, "kind": kind, "pack_g": "70", "pack_cost": cost})
    # Before the first of these days the earliest price holds.
    first = [{**row, "valid_from": "2024-12-10"} for row in rows]
    return [*first, {**rows[1], "pack_cost": "1.675", "valid_from": "2025-07-23"}]


def write_bookings(exports: Path, visits: list[Visit]) -> None:
    """Two spans, cut by the visit's beginning so that no visit is torn; the second reaches into what is booked."""
    first = [row for visit in visits if visit.starts_at.date() < date(2025, 4, 10) for row in visit.rows]
    second = [row for visit in visits if visit.starts_at.date() >= date(2025, 3, 1) for row in visit.rows]
    write_table(exports / "book" / "spring.csv", first, BOOKING_COLUMNS)
    write_table(exports / "book" / "autumn.csv", second, BOOKING_COLUMNS)


def make_dune(folder: Path, lines: int, random: Random) -> None:
    (folder / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    exports = folder / "exports"
    visits = make_visits(random, lines)
    write_bookings(exports, visits)
    bowls = mix_bowls(random, visits, PRODUCTS, by_name=False)
    # One bowl logged twice over because there were two of it.
    bowls = [bowl for bowl in bowls for _ in range(2 if random.random() < 0.03 else 1)]
    end = FIRST_DAY + timedelta(days=DAYS + 7)
    for name, begin, stop in [("one", FIRST_DAY, date(2025, 6, 1)), ("two", date(2025, 5, 15), end)]:
        write_table(
            exports / f"bowls-{name}.csv",
            between(bowls, "logged_at", begin, stop),
            "mixed_g left_g product_id booking_id service_id stylist logged_at",
        )
    write_table(
        exports / "till.csv",
        take_payments(random, visits, Decimal("0.001"), Decimal("2.75")),
        "paid_at booking_id method amount fee",
    )
    menu_columns = "service_id service kind price tax_rate hands_on_min processing_min resets_roots valid_from"
    write_table(exports / "menu.csv", menu_cells(), menu_columns)
    write_table(exports / "shelf.csv", shelf_cells(), "product_id product kind pack_g pack_cost valid_from")
    ids = sorted({visit.client_id for visit in visits})
    clients = [{"client_id": client_id, "client": f"Guest {client_id}", "may_contact": "yes"} for client_id in ids]
    write_table(exports / "guests.csv", clients, "client_id client may_contact")
