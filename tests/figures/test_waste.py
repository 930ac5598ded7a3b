"""What leaves in the bowl, split in every way."""

from decimal import Decimal

import polars as pl
import pytest
from frames import agrees, bookings, days, only, product_log, products, services, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as examples
from hypothesis import strategies as st

BOTH = days("2026-02-01", "2026-04-01")
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"}, {"service_id": "TONER", "kind": "toner"})
DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"})


def bowl(mixed_g: str, left_g: str | None = None, logged_at: str = "2026-03-03 10:00", **rest: str) -> dict:
    row = {"logged_at": logged_at, "product_id": "DYE", "stylist": "Mila", "service_id": "ROOTS"}
    return row | {"mixed_g": mixed_g, "left_g": left_g} | rest


def of_all(*rows: dict, **more: object) -> dict:
    return only(
        work_out("waste", product_log=product_log(*rows), services=MENU, **{"products": DYE} | more), split="all"
    )


def test_equals_the_answer_worked_by_hand() -> None:
    answer = work_out("waste", period=BOTH, **small_salon())
    agrees(answer.filter(pl.col("split").is_in(["all", "service"])), "waste")


def test_has_a_row_for_each_item_of_each_split() -> None:
    march = work_out("waste", period="2026-03", cover=BOTH, **small_salon())
    assert march.select("split", "item").rows() == [
        ("all", None),
        ("product", "Developer 6 %"),
        ("product", "Umber 6"),
        ("kind", "colour"),
        ("kind", "developer"),
        ("service", "Foils"),
        ("service", "Roots"),
        ("stylist", "Mila"),
    ]


def test_a_month_without_bowls_has_a_row_with_nothing_to_divide() -> None:
    row = of_all()
    assert (row["bowls"], row["mixed_g"], row["left_share"], row["left_cost_likely"]) == (0, 0, None, None)


def test_bowls_that_were_not_weighed_are_neither_empty_nor_thrown_away() -> None:
    row = of_all(bowl("40", "10"), bowl("80", logged_at="2026-03-04 10:00"))
    assert (row["left_cost"], row["left_cost_likely"], row["left_share"]) == (1.5, 4.5, 0.25)
    only_unweighed = of_all(bowl("80"))
    assert (only_unweighed["left_g"], only_unweighed["left_cost"], only_unweighed["left_cost_likely"]) == (None,) * 3


def test_a_product_without_a_price_has_no_cost_and_others_keep_theirs() -> None:
    row = of_all(bowl("40", "10"), bowl("40", "10", product_id="GHOST"))
    assert (row["left_g"], row["mixed_cost"], row["left_cost"]) == (20, 6, 1.5)
    assert of_all(bowl("40", "10", product_id="GHOST"))["mixed_cost"] is None


def test_the_range_is_wider_where_less_of_the_work_is_logged() -> None:
    bowls = [bowl("40", str(4 + day), f"2026-03-{day:02} 10:00", booking_id=f"V{day}") for day in range(1, 7)]
    visits = [visit(f"V{day}", f"2026-03-{day:02} 10:00", 60, ("ROOTS", "60")) for day in range(1, 25)]
    widths = []
    for lines in (6, 12, 24):
        row = of_all(*bowls, bookings=bookings(*visits[:lines]))
        widths.append(row["left_share_high"] - row["left_share_low"])
    assert widths[0] == pytest.approx(0)
    assert widths[0] < widths[1] < widths[2]


def test_a_bowl_without_a_stylist_is_of_who_did_the_visit() -> None:
    book = bookings(visit("V1", "2026-03-03 10:00", 60, ("ROOTS", "60"), stylist="Noor"))
    rows = product_log(bowl("40", "10", booking_id="V1", stylist=None), bowl("20", "1"))
    frame = work_out("waste", bookings=book, product_log=rows, services=MENU, products=DYE)
    assert frame.filter(split="stylist").select("item", "left_g").rows() == [("Mila", 1), ("Noor", 10)]


def test_dearer_packs_and_grams_left_against_the_year_before() -> None:
    """10 ÷ 60 a gram now and 9 ÷ 60 a year before: 60 g are 1.00 dearer by price; 12 g left would have cost 1.80."""
    prices = products(
        {"product_id": "DYE", "pack_g": "60", "pack_cost": "9"},
        {"product_id": "DYE", "pack_g": "60", "pack_cost": "10", "valid_from": "2025-09-01"},
    )
    row = of_all(bowl("60", "12"), products=prices)
    assert (row["left_cost"], row["price_variance"], row["quantity_variance"]) == (2, 1, Decimal("1.8"))


def test_usual_is_what_the_twelve_months_before_say() -> None:
    """Shares of 0.2 and 0.3 in turn: mean 0.25, moving range 0.1, so −0.016, cut at 0, to 0.516; so too in money."""
    logged = [f"{2025 + place // 12}-{place % 12 + 1:02}-03 10:00" for place in range(2, 15)]
    rows = [bowl("10", "2" if place % 2 else "3", at) for place, at in enumerate(logged)]
    whole = days("2025-03-01", "2026-04-01")
    row = of_all(*rows, period="2026-03", cover=whole)
    assert (row["usual_share_low"], row["usual_share_high"]) == pytest.approx((0, 0.516))
    assert (row["usual_cost_low"], row["usual_cost_high"]) == pytest.approx((0, 0.774), abs=0.006)
    assert (row["previous_share"], row["year_ago_share"], row["previous_cost"]) == (0.2, 0.3, Decimal("0.3"))


def test_no_more_than_all_is_usual() -> None:
    """Shares of 0.9 and 1 in turn: mean 0.95, moving range 0.1, so up to 1.216, cut at 1."""
    logged = [f"{2025 + place // 12}-{place % 12 + 1:02}-03 10:00" for place in range(2, 15)]
    rows = [bowl("10", "9" if place % 2 else "10", at) for place, at in enumerate(logged)]
    row = of_all(*rows, period="2026-03", cover=days("2025-03-01", "2026-04-01"))
    assert (row["usual_share_low"], row["usual_share_high"]) == pytest.approx((0.684, 1))


def test_a_cut_month_is_a_part_month_and_is_compared_with_whole_ones() -> None:
    rows = [bowl("10", "2", "2026-02-20 10:00"), bowl("10", "1"), bowl("10", "9", "2026-03-20 10:00")]
    row = of_all(*rows, period=days("2026-03-01", "2026-03-10"), cover=BOTH)
    assert (row["part_month"], row["left_share"], row["previous_share"]) == (True, 0.1, 0.2)


def test_costs_have_the_digits_of_the_currency() -> None:
    row = of_all(bowl("10", "1"), salon=settings(salon={"currency": "JPY"}))
    assert (str(row["left_cost"]), str(row["mixed_cost"])) == ("0.0000", "2.0000")


BOWLS = st.lists(
    st.tuples(
        st.sampled_from(["DYE", "DEV"]),
        st.sampled_from(["ROOTS", "TONER"]),
        st.sampled_from(["Mila", "Noor"]),
        st.integers(1, 20),
        st.integers(10, 80),
        st.one_of(st.none(), st.integers(0, 10)),
    ),
    min_size=1,
    max_size=12,
)


@given(BOWLS)
@examples(max_examples=12, deadline=None)
def test_every_split_adds_up_to_all(bowls: list[tuple]) -> None:
    shelf = products(
        {"product_id": "DYE", "pack_cost": "6"}, {"product_id": "DEV", "kind": "developer", "pack_cost": "3"}
    )
    rows = [
        bowl(str(mixed), None if left is None else str(left), f"2026-03-{day:02} 10:00", stylist=stylist)
        | {"product_id": product_id, "service_id": service_id}
        for product_id, service_id, stylist, day, mixed, left in bowls
    ]
    frame = work_out("waste", product_log=product_log(*rows), services=MENU, products=shelf)
    whole = only(frame, split="all")
    for split in ("product", "kind", "service", "stylist"):
        part = frame.filter(split=split)
        for name in ("mixed_g", "weighed_mixed_g", "left_g"):
            assert part[name].sum() == (whole[name] or 0)
        assert float(part["mixed_cost"].sum()) == pytest.approx(float(whole["mixed_cost"]), abs=0.02)
    assert whole["left_cost_likely"] is None or whole["left_cost_likely"] >= whole["left_cost"]


def test_what_leaving_no_more_than_the_salon_would_save() -> None:
    """Mila leaves 24 of 60 g twice and Noor 6 of 60: 60 of 240, a quarter. All was weighed, so nothing is left to
    chance: of Mila's 18.00, 0.40 − 0.25 is 2.70."""
    rows = [bowl("60", "24", f"2026-03-0{day} 10:00") for day in (3, 4)]
    rows += [bowl("60", "6", f"2026-03-0{day} 10:00", stylist="Noor") for day in (5, 6)]
    frame = work_out("waste", product_log=product_log(*rows), services=MENU, products=DYE)
    savings = dict(frame.filter(split="stylist").select("item", "saving_at_salon_share").iter_rows())
    assert savings == {"Mila": Decimal("2.70"), "Noor": None}
    assert only(frame, split="all")["saving_at_salon_share"] == Decimal("2.70")


def test_what_few_weighed_bowls_show_by_chance_is_no_saving() -> None:
    rows = [bowl("60", left, f"2026-03-0{day} 10:00") for day, left in ((3, "30"), (4, "6"), (5, None), (6, None))]
    rows += [bowl("60", "12", f"2026-03-0{day} 11:00", stylist="Noor") for day in (3, 4)]
    frame = work_out("waste", product_log=product_log(*rows), services=MENU, products=DYE)
    mila = only(frame, split="stylist", item="Mila")
    assert mila["left_share"] == pytest.approx(0.3) and mila["saving_at_salon_share"] is None
    assert only(frame, split="all")["saving_at_salon_share"] == 0


def test_a_month_without_bowls_has_no_saving_and_no_coverage() -> None:
    row = of_all()
    assert (row["saving_at_salon_share"], row["weighed_share"], row["logged_share"]) == (None, None, None)
