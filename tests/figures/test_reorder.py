"""How many packs to order for the coming weeks, and what expires before it is used."""

import random
from datetime import date, datetime, timedelta

import polars as pl
import pytest
from frames import (
    agrees,
    bookings,
    only,
    product_log,
    products,
    sales,
    services,
    settings,
    small_salon,
    table,
    visit,
    work_out,
)

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "6"})
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"})
WEEKS = 4 + 3 / 7
Z = 1.6448536269514722


def move(movement: str, moved_at: str, **rest: object) -> dict:
    return {"product_id": "DYE", "movement": movement, "moved_at": moved_at} | rest


def moves(*rows: dict) -> pl.DataFrame:
    return table("stock_moves", list(rows))


def weekly(grams: list[float], last: str = "2026-03-31", **rest: str) -> pl.DataFrame:
    """A bowl a week back from the last day, the latest first."""
    day = datetime.fromisoformat(f"{last} 10:00")
    bowls = [
        {"product_id": "DYE", "logged_at": str(day - timedelta(weeks=ago)), "mixed_g": str(used)} | rest
        for ago, used in enumerate(grams)
    ]
    return product_log(*bowls)


def reorder(**given: object) -> pl.DataFrame:
    return work_out("reorder", **{"products": DYE} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("reorder", **small_salon()), "reorder")


def test_steady_use_needs_no_reserve() -> None:
    """60 g a week for ten weeks: 4.43 × 60 g = 265.7 g needed, one pack of 60 g there: 205.7 g are 3.4 packs, 4."""
    row = only(
        reorder(product_log=weekly([60] * 10), stock_moves=moves(move("count", "2026-03-31", packs=1))),
        product_id="DYE",
    )
    assert (row["advice"], row["packs"], row["order_cost"], row["likely_g"]) == ("order", 4, 24, 60)
    assert row["needed_g"] == pytest.approx(WEEKS * 60)
    assert (row["weekly_g"], row["weekly_sd_g"], row["weeks_left"]) == (60, 0, 1)
    assert row["runs_out_on"] == date(2026, 4, 8)


def test_uneven_use_needs_a_reserve() -> None:
    """0 and 120 g in turn: a mean of 60 g, a standard deviation of √(26 × 60² ÷ 25) g over 26 weeks."""
    row = only(reorder(product_log=weekly([0, 120] * 15), stock_moves=moves(move("count", "2026-03-31", packs=1))))
    spread = (26 * 3600 / 25) ** 0.5
    assert row["weekly_sd_g"] == pytest.approx(spread)
    assert row["needed_g"] == pytest.approx(WEEKS * 60 + Z * spread * WEEKS**0.5)


def test_the_mean_is_that_of_the_last_eight_weeks_and_the_settings_count() -> None:
    salon = settings(stock={"delivery_days": 7, "cover_weeks": 1, "service_level": 0.5})
    row = only(
        reorder(
            product_log=weekly([60] * 8 + [6] * 30),
            stock_moves=moves(move("count", "2026-03-31", packs=0)),
            salon=salon,
        )
    )
    assert (row["weekly_g"], row["needed_g"], row["packs"]) == (60, 120, 2)


def test_records_that_end_early_are_counted_back_from_their_end() -> None:
    row = only(
        reorder(
            product_log=weekly([60] * 9, last="2026-02-20"), stock_moves=moves(move("count", "2026-02-20", packs=1))
        )
    )
    assert row["weekly_g"] == 60


def test_unlogged_bowls_are_taken_off_the_book_and_added_to_use() -> None:
    """Counted in February, 600 g; since then 6 of 8 root visits were logged, 30 g each: 180 g are 240 g in truth."""
    days = [f"2026-03-{day:02} 10:00" for day in range(2, 18, 2)]
    log = [
        {"product_id": "DYE", "logged_at": day, "mixed_g": "30", "booking_id": f"V{place}"}
        for place, day in enumerate(days[:6])
    ]
    row = only(
        reorder(
            bookings=bookings(*[visit(f"V{place}", day, 60, ("ROOTS", "1")) for place, day in enumerate(days)]),
            services=MENU,
            product_log=product_log(*log),
            stock_moves=moves(move("count", "2026-02-28", packs=10)),
        )
    )
    assert (row["booked_g"], row["likely_g"]) == (420, pytest.approx(360))
    assert row["weekly_g"] == pytest.approx(150 / 2 * 8 / 6)  # 5 bowls in the two weeks up to 16 March


def test_what_counts_find_gone_is_added_where_it_is_more() -> None:
    """The book lost 40 g beside 120 g logged from count to count: each gram logged since is 1⅓ g."""
    row = only(
        reorder(
            product_log=weekly([30, 30, 60, 60]),
            stock_moves=moves(move("count", "2026-03-01", packs=10), move("count", "2026-03-20", grams="440")),
        )
    )
    assert (row["booked_g"], row["likely_g"]) == (380, pytest.approx(380 - 60 / 3))
    assert row["counted_on"] == date(2026, 3, 20)


def test_retail_is_ordered_by_the_piece_and_no_log_corrects_it() -> None:
    sold = sales(*[{"sold_at": f"2026-03-{day:02} 12:00", "product_id": "DYE", "price": "9"} for day in range(4, 32)])
    shop = products({"product_id": "DYE", "kind": "retail", "pack_g": "60", "pack_cost": "6"})
    row = only(reorder(products=shop, sales=sold, stock_moves=moves(move("delivery", "2026-03-01", packs=30))))
    assert (row["weekly_g"], row["likely_g"], row["packs"]) == (420, 120, 29)  # 31 pieces for 31 days, 2 are there


def test_a_product_that_was_never_counted_nor_delivered_gets_no_advice() -> None:
    row = only(reorder(product_log=weekly([60] * 4)))
    assert row["closing_value"] is None
    assert (row["advice"], row["packs"], row["likely_g"], row["weekly_g"]) == ("not counted", None, None, 60)


def test_a_product_that_is_not_listed_has_no_pack() -> None:
    log = product_log({"product_id": "HERB", "product": "Herb", "logged_at": "2026-03-30", "mixed_g": "5"})
    row = only(reorder(product_log=log, stock_moves=moves(move("count", "2026-03-01", grams="9", product_id="HERB"))))
    assert (row["product"], row["advice"], row["packs"], row["order_cost"]) == ("Herb", "no pack known", None, None)


def test_what_nobody_uses_and_the_shelf_does_not_hold_is_left_out() -> None:
    old = weekly([60], last="2025-06-01")
    assert reorder(product_log=old, stock_moves=moves(move("count", "2026-03-01", packs=0))).is_empty()
    row = only(reorder(product_log=old, stock_moves=moves(move("count", "2026-03-01", packs=1))))
    assert (row["advice"], row["packs"], row["runs_out_on"]) == ("not used", 0, None)


def test_what_expires_before_it_is_used_is_not_counted_on() -> None:
    """60 g a week: of 120 g that keep for 7 days more, 60 g are used; 240 g of 300 g count, 265.7 g are needed."""
    row = only(
        reorder(
            product_log=weekly([60] * 8),
            stock_moves=moves(
                move("delivery", "2026-02-01", packs=50, expires_on="2026-03-01"),
                move("delivery", "2026-03-10", packs=2, expires_on="2026-04-07"),
                move("delivery", "2026-03-20", packs=3, expires_on="2027-03-01"),
                move("count", "2026-04-01 08:00", packs=5),
            ),
        )
    )
    assert (row["expires_on"], row["expiring_g"], row["expiring_cost"]) == (date(2026, 4, 7), pytest.approx(60), 6)
    assert (row["likely_g"], row["packs"]) == (300, 1)


def test_two_salons_order_each_for_itself() -> None:
    log = pl.concat([weekly([60] * 8, site="North"), weekly([6] * 8, site="South")])
    kept = moves(*(move("count", "2026-03-31", packs=1, site=site) for site in ("North", "South")))
    frame = reorder(product_log=log, stock_moves=kept)
    assert frame.select("salon", "weekly_g").rows() == [("North", 60), ("South", 6)]


def test_on_a_simulated_shelf_what_is_likely_there_is_close_to_the_truth() -> None:
    """A year of root visits, 3 in 10 without a bowl in the log: the book is off by weeks of use, the rest is not."""
    draw, there, seen, log, moved = random.Random(4), 1200, [], [], [move("count", "2025-04-01 08:00", packs=20)]
    for number in range(600):
        at = datetime(2025, 4, 1, 9) + timedelta(hours=14.6 * number)
        used = draw.randint(25, 55)
        if there < 600:
            moved.append(move("delivery", str(at - timedelta(minutes=30)), packs=20))
            there += 1200
        there -= used
        seen.append(visit(f"V{number}", str(at), 60, ("ROOTS", "1")))
        if draw.random() < 0.7:
            log.append({"product_id": "DYE", "logged_at": str(at), "mixed_g": str(used), "booking_id": f"V{number}"})
    row = only(
        reorder(bookings=bookings(*seen), services=MENU, product_log=product_log(*log), stock_moves=moves(*moved))
    )
    week = 40 * 7 * 24 / 14.6
    assert abs(float(row["booked_g"]) - there) > 10 * week
    assert abs(row["likely_g"] - there) < 2 * week
    assert row["weekly_g"] == pytest.approx(week, rel=0.15)


def test_what_is_likely_there_has_its_part_of_the_value() -> None:
    """5 packs, 300 g for 30.00, a count, then 100 g logged of which half the lines have no bowl: 100 g more are
    likely gone, so of the 200 g on record, 20.00, 100 g are likely there: 10.00."""
    menu = services({"service_id": "ROOTS", "kind": "root_touch_up"})
    visits = bookings(*[visit(f"V{n}", f"2026-03-2{n} 10:00", 60, ("ROOTS", "60")) for n in (1, 2)])
    logged = product_log({"product_id": "DYE", "logged_at": "2026-03-21 10:00", "mixed_g": "100", "booking_id": "V1"})
    row = only(
        reorder(
            stock_moves=moves(move("count", "2026-03-01", packs=5)), product_log=logged, bookings=visits, services=menu
        )
    )
    assert (row["booked_g"], row["likely_g"], row["closing_value"], row["likely_value"]) == (200, 100, 20, 10)
    assert row["slow"] is False


def test_what_was_never_delivered_nor_counted_has_no_likely_value() -> None:
    row = only(reorder(product_log=weekly([30.0])))
    assert (row["likely_value"], row["slow"]) == (None, False)
