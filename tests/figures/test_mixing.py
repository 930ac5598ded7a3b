"""How much to mix: by hand, at the edges, and on salons whose needs are known."""

import numpy as np
import polars as pl
import pytest
from frames import agrees, bookings, days, only, product_log, products, services, settings, small_salon, visit, work_out
from simulated_bowls import GRAM_COST, Draw, Drawn, drawn_salon, gamma, log_normal, short_and_long_hair

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"})
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "FOILS", "kind": "lightening"})
CHAIR = settings(
    costs={"per_month": 1800},
    salon={"chairs": ["Chair 1"]},
    hours=dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "09:00-18:00"),
)
HOUR = 1800 / (22 * 9)  # March 2026 has 22 working days


def bowl(day: int, mixed_g: str, left_g: str | None = None, clock: str = "10:00", **rest: str) -> dict:
    return {
        "logged_at": f"2026-03-{day:02} {clock}",
        "booking_id": f"V{day}",
        "service_id": "ROOTS",
        "product_id": "DYE",
        "mixed_g": mixed_g,
        "left_g": left_g,
    } | rest


def mixing(*rows: dict, **more: object) -> dict:
    return only(work_out("mixing", product_log=product_log(*rows), services=MENU, products=DYE, **more))


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("mixing", period=days("2026-02-01", "2026-04-01"), **small_salon()), "mixing")


def test_equal_needs_by_hand() -> None:
    """Eight times 33 g of 45: 30 g would be 3 g short, 35 g leaves 2. A gram left costs 9 ÷ 60 = 0.15; mixing again
    costs 10 g (1.50) and no chair time, over at least 1 g short: 1.50 a gram. So 35 g, and 10 g less left of each of
    the eight bowls of the month: 8 × 10 × 0.15 = 12.00."""
    row = mixing(*[bowl(day, "45", "12") for day in range(1, 9)])
    assert (row["bowls"], row["used_median_g"], row["usual_mix_g"], row["advised_mix_g"]) == (8, 33, 45, 35)
    assert (row["left_cost_per_g"], row["short_cost_per_g"]) == pytest.approx((0.15, 1.5))
    assert row["covered_share"] == pytest.approx(1.5 / 1.65)
    assert (row["saving_per_month"], row["saving_as_mixed"], row["second_bowl_share"]) == (12, 12, 0)


def test_seven_weighed_bowls_advise_nothing_and_say_why() -> None:
    row = mixing(*[bowl(day, "45", "12" if day < 8 else None) for day in range(1, 20)])
    assert (row["advised_mix_g"], row["saving_per_month"], row["used_median_g"]) == (None, None, 33)
    assert "8 weighed bowls" in row["why"]
    assert "7" in row["why"]


def test_without_a_pack_cost_nothing_is_advised() -> None:
    rows = [bowl(day, "45", "12") for day in range(1, 10)]
    free = products({"product_id": "DYE", "pack_cost": "0"})
    row = only(work_out("mixing", product_log=product_log(*rows), services=MENU, products=free))
    assert row["advised_mix_g"] is None
    assert "pack cost" in row["why"]


def test_a_second_bowl_adds_to_what_the_visit_took() -> None:
    """30 g ran out and 4 g of another 10 were left: 36 g."""
    row = mixing(bowl(1, "30"), bowl(1, "10", "4", "10:30"))
    assert (row["bowls"], row["visits"], row["used_median_g"], row["usual_mix_g"]) == (2, 1, 36, 30)
    assert row["second_bowl_seen"] == 1


def test_a_log_that_knows_the_day_only_has_second_bowls_too() -> None:
    row = mixing(bowl(1, "30", clock="00:00"), bowl(1, "10", "4", "00:00"))
    assert (row["bowls"], row["visits"], row["used_median_g"]) == (2, 1, 36)


def test_a_bowl_of_another_colour_is_no_second_bowl() -> None:
    both = products({"product_id": "DYE"}, {"product_id": "COPPER"})
    rows = product_log(bowl(1, "30", "5"), bowl(1, "20", "4", "10:30", product_id="COPPER"))
    row = only(work_out("mixing", product_log=rows, services=MENU, products=both))
    assert (row["bowls"], row["visits"], row["second_bowl_seen"], row["used_median_g"]) == (2, 2, 0, 20.5)


def test_two_tubes_in_one_bowl_are_one_amount() -> None:
    both = products({"product_id": "DYE"}, {"product_id": "COPPER"})
    rows = product_log(bowl(1, "20", "4"), bowl(1, "10", "2", product_id="COPPER"))
    row = only(work_out("mixing", product_log=rows, services=MENU, products=both))
    assert (row["bowls"], row["used_median_g"], row["usual_mix_g"], row["product"]) == (1, 24, 30, "Dye")


def test_colour_and_lightener_of_one_service_are_two_rows() -> None:
    both = products({"product_id": "DYE"}, {"product_id": "POWDER", "kind": "lightener"})
    rows = product_log(bowl(1, "30"), bowl(1, "40", clock="11:00", product_id="POWDER"))
    frame = work_out("mixing", product_log=rows, services=MENU, products=both)
    assert frame.select("service_id", "kind", "usual_mix_g").rows() == [
        ("ROOTS", "colour", 30.0),
        ("ROOTS", "lightener", 40.0),
    ]


def test_more_left_than_mixed_is_a_slip_and_not_a_weight() -> None:
    assert mixing(bowl(1, "30", "31"), bowl(2, "30", "10"))["weighed_bowls"] == 1


def test_developer_costs_what_it_costs_but_is_not_the_amount() -> None:
    """10 g of colour at 0.15 with 20 g at 0.01: a gram of colour left is 0.17 thrown away."""
    both = products(
        {"product_id": "DYE"}, {"product_id": "DEV", "kind": "developer", "pack_g": "1000", "pack_cost": "10"}
    )
    rows = [bowl(day, "10", "1") for day in range(1, 9)] + [
        bowl(day, "20", "2", product_id="DEV") for day in range(1, 9)
    ]
    row = only(work_out("mixing", product_log=product_log(*rows), services=MENU, products=both))
    assert (row["used_median_g"], row["left_cost_per_g"]) == (9, pytest.approx(0.17))


def test_chair_minutes_cost_what_an_open_hour_costs_or_else_what_an_hour_brings() -> None:
    rows = [bowl(day, "45", "12") for day in range(2, 12)]
    book = bookings(*[visit(f"V{day}", f"2026-03-{day:02} 10:00", 60, ("ROOTS", "36.30")) for day in range(2, 12)])
    costed = mixing(*rows, bookings=book, salon=CHAIR)
    assert costed["short_cost_per_g"] == pytest.approx(10 * 0.15 + 5 / 60 * HOUR)
    assert mixing(*rows, bookings=book)["short_cost_per_g"] == pytest.approx(
        10 * 0.15 + 5 / 60 * 30
    )  # 36.30 − 21 % tax


def test_settings_set_step_minutes_and_least_bowl() -> None:
    rows = [bowl(day, "45", "12") for day in range(1, 9)]
    row = mixing(*rows, salon=settings(mixing={"step_g": 2, "second_bowl_g": 20, "minutes": 0}))
    assert (row["advised_mix_g"], row["short_cost_per_g"]) == (34, pytest.approx(3.0))


def test_months_without_bowls_do_not_thin_the_saving() -> None:
    rows = [bowl(day, "45", "12") for day in range(1, 9)]
    assert mixing(*rows, period=days("2026-01-01", "2026-07-01"))["saving_per_month"] == 12


SALONS = [
    pytest.param(log_normal, {"weighed": 0.4}, id="log-normal, four in ten weighed"),
    pytest.param(log_normal, {"weighed": 0.9, "spread": 0.2}, id="log-normal, nearly all weighed"),
    pytest.param(gamma, {"weighed": 0.3, "spread": 0.15}, id="gamma, three in ten weighed"),
    pytest.param(gamma, {"weighed": 0.5, "follows": True, "spread": 0.12}, id="gamma, mixed by eye"),
    pytest.param(short_and_long_hair, {"weighed": 0.5}, id="short and long hair"),
    pytest.param(short_and_long_hair, {"weighed": 0.4, "follows": True, "spread": 0.12}, id="both, mixed by eye"),
]


def costs_per_gram(took: np.ndarray) -> tuple[float, float]:
    """What a gram left and a gram short cost, from the definitions and the true needs."""
    above = took[took > np.median(took)] - np.median(took)
    return GRAM_COST, (10 * GRAM_COST + 5 / 60 * HOUR) / above.mean()


def cost_of(amount: float, took: np.ndarray) -> float:
    left, short = costs_per_gram(took)
    return float((left * (amount - took).clip(0) + short * (took - amount).clip(0)).mean())


def over_the_best(log: pl.DataFrame, drawn: Drawn) -> float:
    """Cost of the amount advised from this log ÷ that of the best amount there is, found by trying them all."""
    amount = float(only(work_out("mixing", salon=CHAIR, **drawn.tables | {"product_log": log}))["advised_mix_g"])
    return cost_of(amount, drawn.took_g) / min(cost_of(tried, drawn.took_g) for tried in np.arange(5, 120, 5.0))


@pytest.mark.parametrize(("uses", "how"), SALONS)
def test_costs_within_three_percent_of_the_best_amount_there_is(uses: Draw, how: dict) -> None:
    """On average of salons; one alone, with few bowls weighed, may be a step off, which costs it 5 % at most."""
    salons = [drawn_salon(uses, visits=300, seed=seed, **how) for seed in range(5)]
    over = [over_the_best(drawn.tables["product_log"], drawn) for drawn in salons]
    assert np.mean(over) <= 1.03
    assert max(over) <= 1.05


@pytest.mark.parametrize("uses", [log_normal, gamma, short_and_long_hair])
def test_costs_less_than_thirty_percent_on_top_of_the_median(uses: Draw) -> None:
    """At least 15 % less."""
    drawn = drawn_salon(uses, seed=4, visits=300, weighed=0.5)
    row = only(work_out("mixing", salon=CHAIR, **drawn.tables))
    habit = cost_of(1.3 * float(np.median(drawn.took_g)), drawn.took_g)
    assert cost_of(row["advised_mix_g"], drawn.took_g) <= 0.85 * habit
    assert row["saving_per_month"] > 0


def test_a_bowl_that_was_not_weighed_is_neither_empty_nor_nothing() -> None:
    """Taken for empty, it advises too much; left out, too little, as a bowl that ran out is not weighed. In salons that
    weigh one visit in four, both cost more, on average and by a clear margin."""
    ours, empty, left_out = (np.empty(6) for _ in range(3))
    for seed in range(6):
        drawn = drawn_salon(gamma, visits=200, weighed=0.25, seed=seed)
        log = drawn.tables["product_log"]
        ours[seed] = over_the_best(log, drawn)
        empty[seed] = over_the_best(log.with_columns(pl.col("left_g").fill_null(0)), drawn)
        left_out[seed] = over_the_best(log.drop_nulls("left_g"), drawn)
    assert ours.mean() <= 1.03
    assert empty.mean() > ours.mean() + 0.05
    assert left_out.mean() > ours.mean() + 0.05


def test_own_amounts_of_clients_are_added_up_by_hand() -> None:
    """As in mixing_clients: Ada's ten bowls of 90 leave 22, and 70 g saves 20 × 0.15 each, 30.00; Bo's ten of 40 leave
    10, and 30 g saves 1.50 each, 15.00. Cleo's nine are too few for an amount of her own."""
    kept = [("Ada", 10, "90", "22"), ("Bo", 10, "40", "10"), ("Cleo", 9, "60", "30")]
    visits, rows = [], []
    for client, count, mixed_g, left_g in kept:
        for day in range(1, count + 1):
            named = f"{client}{day}"
            visits.append(visit(named, f"2026-03-{day:02} 10:00", 60, ("ROOTS", "60"), client_id=client))
            rows.append(bowl(day, mixed_g, left_g, booking_id=named))
    row = mixing(*rows, bookings=bookings(*visits))
    assert (row["own_clients"], row["saving_own_amounts"]) == (2, 45)


def test_without_known_clients_there_is_no_saving_with_own_amounts() -> None:
    row = mixing(bowl(3, "45", "12"))
    assert (row["own_clients"], row["saving_own_amounts"]) == (0, 0)
