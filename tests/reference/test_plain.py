"""The plain reference against salons small enough to work out by hand; the arithmetic stands beside each answer."""

import sys
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from plain import figures, row_accounts
from plain_tax import largest_remainder
from plain_time import union

TODAY = date(2025, 6, 1)
HOURS = 'mon = "09:00-17:00"'
MENU = """service_id,service,kind,tax_rate,hands_on_min,processing_min,valid_from
root,Root,root_touch_up,20,30,30,
tone,Toner,toner,20,30,0,
cut,Cut,cut,5,0,0,
"""
BOOKING_HEADINGS = (
    "booking_id,line,client_id,stylist,chair,starts_at,ends_at,status,service_id,price,discount,regrowth_mm"
)


def write_salon(folder: Path, files: dict[str, str], tax: str = "", hours: str = HOURS, zone: str = "UTC") -> Path:
    """A salon folder; bookings are given without their headings."""
    settings = f'[salon]\nname = "Small"\ntimezone = "{zone}"\n[tax]\n{tax}\n[hours]\n{hours}\n'
    (folder / "exports").mkdir()
    (folder / "salon.toml").write_text(settings, encoding="utf-8")
    for name, text in {"menu": MENU, **files}.items():
        heading = f"{BOOKING_HEADINGS}\n" if name.startswith("bookings") else ""
        (folder / "exports" / f"{name}.csv").write_text(heading + text, encoding="utf-8")
    return folder


def visit(  # noqa: PLR0917
    booking: str, start: str, end: str, service: str = "cut", price: str = "10", line: int = 1, **cells: str
) -> str:
    """One line of bookings.csv; cells are client, chair, status, discount and mm."""
    chair, status = cells.get("chair", "A"), cells.get("status", "completed")
    mm, client, discount = cells.get("mm", ""), cells.get("client", "c"), cells.get("discount", "")
    return f"{booking},{line},{client},Ola,{chair},{start},{end},{status},{service},{price},{discount},{mm}\n"


def test_tax_of_a_visit_and_of_its_lines_differ(tmp_path: Path) -> None:
    """Ten times 0.99 at 20 % included: 9.90 / 6 = 1.65 by visit, ten times 0.17 by line."""
    rows = "".join(visit("v", "2025-01-06 10:00", "2025-01-06 11:00", "tone", "0.99", line) for line in range(1, 11))
    for round_per, tax in [("booking", "1.65"), ("line", "1.70")]:
        folder = tmp_path / round_per
        folder.mkdir()
        table = figures(write_salon(folder, {"bookings": rows}, f'round_per = "{round_per}"'), TODAY)["tax"]
        assert [(row["gross"], row["tax"], row["net"]) for row in table] == [
            (Decimal("9.90"), Decimal(tax), Decimal("9.90") - Decimal(tax))
        ]


def test_lines_of_a_visit_share_the_rounded_tax(tmp_path: Path) -> None:
    """10.01 / 6 = 1.66833 and 5.05 / 6 = .84167: together 2.51, whole cents 1.66 + .84, the cent goes to the first."""
    start, end = "2025-01-06 10:00", "2025-01-06 11:30"
    rows = visit("v", start, end, "root", "10.01", 1) + visit("v", start, end, "tone", "5.05", 2)
    chairs = figures(write_salon(tmp_path, {"bookings": rows}), TODAY)["chairs"]
    assert [(row["service_id"], row["net"]) for row in chairs] == [("root", Decimal("8.34")), ("tone", Decimal("4.21"))]
    # Ninety minutes over 60 and 30 minutes of the menu.
    assert [row["chair_hours"] for row in chairs] == [1.0, 0.5]


def test_tax_added_refunds_and_what_did_not_happen(tmp_path: Path) -> None:
    """(103.10 − 3) − 0.15 = 99.95 at 5 % added is 4.9975, rounded 5.00; the cancelled line brings nothing."""
    start, end = "2025-01-06 10:00", "2025-01-06 11:00"
    rows = visit("v", start, end, "cut", "103.10", 1, discount="3.00") + visit("v", start, end, "cut", "-0.15", 2)
    rows += visit("w", start, end, "cut", "70", status="cancelled") + visit("x", start, end, "cut", status="no_show")
    table = figures(write_salon(tmp_path, {"bookings": rows}, 'prices = "added"'), TODAY)["tax"]
    assert table == [
        {"month": "2025-01", "tax_rate": 5, "gross": Decimal("104.95"), "net": Decimal("99.95"), "tax": Decimal("5.00")}
    ]


def test_sales_take_the_rates_of_row_product_and_settings(tmp_path: Path) -> None:
    """2 × 6.00 − 1.50 = 10.50 at 5 % holds .50; 12.00 at 20 % holds 2.00; 11.00 at the default 10 % holds 1.00."""
    products = "product_id,product,kind,pack_g,pack_cost,tax_rate\np,Comb,retail,1,1,20\nq,Clip,retail,1,1,\n"
    sales = "sold_at,product_id,product,quantity,price,tax_rate,discount\n"
    sales += "2025-02-03,p,,2,6.00,5,1.50\n2025-02-03,,Comb,1,12.00,,\n2025-02-03,q,,1,11.00,,\n"
    table = figures(write_salon(tmp_path, {"shelf": products, "sales": sales}, "default_rate = 10"), TODAY)["tax"]
    assert [(row["tax_rate"], row["tax"]) for row in table] == [
        (5, Decimal("0.50")), (10, Decimal("1.00")), (20, Decimal("2.00")),
    ]  # fmt: skip


def test_overlapping_stays_occupy_their_union(tmp_path: Path) -> None:
    """9–11, 10–14, 10:15–10:45, 16–18 on one of four Mondays open 9–17: 7 hours occupied, 6 of them while open."""
    rows = visit("a", "2025-01-06 09:00", "2025-01-06 11:00") + visit("b", "2025-01-06 10:00", "2025-01-06 14:00")
    rows += visit("d", "2025-01-06 16:00", "2025-01-06 18:00") + visit("e", "2025-01-06 10:15", "2025-01-06 10:45")
    (row,) = figures(write_salon(tmp_path, {"bookings": rows}), TODAY)["occupancy"]
    assert (row["open_hours"], row["occupied_hours"], row["occupied_share"]) == (32.0, 7.0, 6 / 32)
    assert union([(1, 3), (2, 6), (8, 10), (15, 18)]) == [(1, 6), (8, 10), (15, 18)]


def test_a_visit_over_midnight_is_cut_at_the_month(tmp_path: Path) -> None:
    """Friday 31 January, open 20–01: a stay 23:30–01:30 leaves half an hour to January, 1.5 (1 open) to February."""
    rows = visit("a", "2025-01-31 23:30", "2025-02-01 01:30") + visit("b", "2025-02-07 20:00", "2025-02-07 20:30")
    folder = write_salon(tmp_path, {"bookings": rows}, hours='fri = "20:00-01:00"')
    january, february = figures(folder, TODAY)["occupancy"]
    # Five Fridays of five hours less the hour after midnight; then that hour and four Fridays, less an hour again.
    assert (january["open_hours"], january["occupied_hours"], january["occupied_share"]) == (24.0, 0.5, 0.5 / 24)
    assert (february["open_hours"], february["occupied_hours"], february["occupied_share"]) == (20.0, 2.0, 1.5 / 20)


def test_nights_when_clocks_change_have_their_real_length(tmp_path: Path) -> None:
    """In March 01:00–03:30 lasts 1.5 hours; in November 01:15 (the first of two) to 02:30 lasts 2.25."""
    rows = visit("a", "2025-03-09 01:00", "2025-03-09 03:30") + visit("b", "2025-11-02 01:15", "2025-11-02 02:30")
    folder = write_salon(tmp_path, {"bookings": rows}, hours='sat = "20:00-04:00"', zone="America/New_York")
    by_month = {row["month"]: row for row in figures(folder, TODAY)["occupancy"]}
    assert len(by_month) == 9
    assert (by_month["2025-03"]["open_hours"], by_month["2025-03"]["occupied_hours"]) == (39.0, 1.5)
    # November: the night of the first is nine hours, four more Saturdays of eight.
    assert (by_month["2025-11"]["open_hours"], by_month["2025-11"]["occupied_hours"]) == (41.0, 2.25)


def test_a_visit_on_two_chairs_is_two_stays_shared_equally_without_menu_minutes(tmp_path: Path) -> None:
    """On A two cuts from 10 to 12 (an hour each), on B one cut of half an hour."""
    rows = visit("a", "2025-01-06 10:00", "2025-01-06 11:00", line=1)
    rows += visit("a", "2025-01-06 11:15", "2025-01-06 12:00", line=2)
    rows += visit("a", "2025-01-06 10:00", "2025-01-06 10:30", line=3, chair="B")
    answer = figures(write_salon(tmp_path, {"bookings": rows}), TODAY)
    assert [row["chair_hours"] for row in answer["chairs"]] == [2.5]
    assert [(row["chair"], row["occupied_hours"]) for row in answer["occupancy"]] == [("A", 2.0), ("B", 0.5)]


def test_visits_are_superseded_whole_by_the_file_that_reaches_furthest(tmp_path: Path) -> None:
    """z has three lines of v; a reaches further and has one; y is an older file whose bad row leaves v alone."""
    start, end = "2025-01-06 10:00", "2025-01-06 11:00"
    old = "".join(visit("v", start, end, "cut", price, line) for line, price in [(1, "10"), (2, "20"), (3, "30")])
    new = visit("v", start, end, "cut", "10", 1) + visit("w", "2025-01-13 10:00", "2025-01-13 11:00")
    bad = visit("v", start, end, "cut", "lots") + visit("u", start, end, "cut", "1")
    folder = write_salon(tmp_path, {"bookings-z": old, "bookings-a": new, "bookings-y": bad, "bookings-y2": bad})
    assert [row["gross"] for row in figures(folder, TODAY)["tax"]] == [Decimal("21.00")]
    counts = {
        row["file"]: (row["rows_read"], row["rows_used"], row["repeats"], row["superseded"], row["set_aside"])
        for row in row_accounts(folder)
        if row["table"] == "bookings"
    }
    assert counts == {
        "bookings-a.csv": (2, 2, 0, 0, 0),
        "bookings-y.csv": (2, 0, 1, 0, 1),
        "bookings-y2.csv": (2, 1, 0, 0, 1),
        "bookings-z.csv": (3, 0, 1, 2, 0),
    }


def test_rows_without_a_key_stand_as_often_as_in_one_file(tmp_path: Path) -> None:
    """Twice in one file and once in another is twice."""
    headings, row = "paid_at,method,amount,fee\n", "2025-01-06 10:00,card,5.00,0.10\n"
    files = {"one": headings + row * 2, "two": headings + row + "2025-01-07,cash,-1,\n" + "2025-01-07,shells,9,\n"}
    assert figures(write_salon(tmp_path, files), TODAY)["takings"] == [
        {"month": "2025-01", "method": "card", "amount": Decimal("10.00"), "fees": Decimal("0.20")},
        {"month": "2025-01", "method": "cash", "amount": Decimal("-1.00"), "fees": Decimal("0.00")},
    ]


def test_bowls_count_what_was_weighed_and_cost_what_the_pack_cost_that_day(tmp_path: Path) -> None:
    """60 g at 0.10 and 40 g at 0.125 make 11.00; 15 of 60 g left cost 1.50; two of three colour lines are in the log,
    one of them by its visit alone: its 20 g cost 2.50 and belong to the visit's colour line."""
    shelf = "product_id,product,kind,pack_g,pack_cost,valid_from\np,Sand,colour,80,8.00,2025-01-05\n"
    shelf += "p,Sand,colour,80,10.00,2025-01-10\n"
    log = "logged_at,booking_id,service_id,product,mixed_g,left_g\n"
    log += "2025-01-03 10:10,v,root,Sand,60,15\n2025-01-10 10:10,,root,Sand,40,\n2025-01-10 11:10,w,,Sand,20,\n"
    start, end = "2025-01-03 10:00", "2025-01-03 12:00"
    rows = visit("v", start, end, "root", "60", 1) + visit("v", start, end, "tone", "12", 2)
    rows += visit("w", "2025-01-10 11:00", "2025-01-10 12:00", "tone", "12")
    answer = figures(write_salon(tmp_path, {"bookings": rows, "log": log, "shelf": shelf}), TODAY)
    assert answer["bowls"] == [
        {
            "month": "2025-01", "product_id": "p", "product": "Sand", "kind": "colour", "bowls": 3, "mixed_g": 120.0,
            "weighed_mixed_g": 60.0, "left_g": 15.0, "left_share": 0.25, "left_cost": Decimal("1.50"),
            "colour_lines": 3, "colour_lines_logged": 2,
        }
    ]  # fmt: skip
    root, toned = answer["chairs"]
    assert (toned["service_id"], toned["product_cost"]) == ("tone", Decimal("2.50"))
    # 50.00 net over 120 × 60 / 90 = 80 minutes is 37.50 an hour; less 11.00 it is 39 / (4/3) = 29.25.
    assert (root["product_cost"], root["net_per_chair_hour"]) == (Decimal("11.00"), 37.5)
    assert root["after_product_per_chair_hour"] == 29.25


def test_growth_without_and_with_a_measurement(tmp_path: Path) -> None:
    """Prior .35 ± .075: 10 / .35 and 30 / .35 give 29 and 86 days. 20 mm after 40 days: (.35 × 177.8 + 355.6) / 888.9
    = .47 a day, 22 and 64 days; 60 mm after 40 days is over 36.5 and ignored."""
    rows = visit("a", "2025-04-01 10:00", "2025-04-01 11:00", "root", client="new")
    rows += visit("b", "2025-03-01 10:00", "2025-03-01 11:00", "root", client="old")
    rows += visit("d", "2025-04-10 10:00", "2025-04-10 11:00", "root", client="old", mm="20", line=1)
    rows += visit("d", "2025-04-10 10:00", "2025-04-10 11:00", "tone", client="old", mm="20", line=2)
    rows += visit("e", "2025-05-20 10:00", "2025-05-20 11:00", "cut", client="old", mm="60")
    rows += visit("f", "2025-06-01 10:00", "2025-06-01 11:00", "root", client="old", status="booked")
    new, old = figures(write_salon(tmp_path, {"bookings": rows}), TODAY)["roots"]
    assert (new["ready_from"], new["ready_by"]) == (date(2025, 4, 30), date(2025, 6, 26))
    assert (new["state"], new["days_since"], new["may_contact"]) == ("ready", 61, False)
    assert abs(new["regrowth_low_mm"] - 61 * (0.35 - 0.0961163674)) < 1e-6
    assert old["growth_mm_per_day"] == 0.47
    assert (old["ready_from"], old["ready_by"]) == (date(2025, 5, 2), date(2025, 6, 13))
    assert abs(old["regrowth_high_mm"] - 52 * (0.47 + 1.2815515655 * 888.8888888889**-0.5)) < 1e-6
    assert (old["state"], old["booked_on"], old["kind"]) == ("booked", date(2025, 6, 1), "root_touch_up")


def test_seats_of_the_1790_census_by_largest_remainder() -> None:
    """The first census: 60 seats over fifteen states."""
    people = [630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236]
    people += [179570, 141822, 85533, 70835, 68705, 68446, 55540]
    # A refund beside a charge: 500.5 and −0.75 units are 499.75, so 500; after 500 and −1 one is left for the first.
    assert largest_remainder(500, [Fraction("500.5"), Fraction("-0.75")]) == [501, -1]
    exact = [Fraction(60 * count, sum(people)) for count in people]
    assert largest_remainder(60, exact) == [11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1]


def test_an_empty_salon_answers_with_empty_tables(tmp_path: Path) -> None:
    answer = figures(write_salon(tmp_path, {}), TODAY)
    assert all(rows == [] for rows in answer.values())
