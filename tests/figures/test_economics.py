"""What a chair hour and a hands-on hour bring, what an open one costs, and what stood empty."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import Row, agrees, bookings, days, product_log, products, services, settings, small_salon, visit, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.settings import Costs

MENU = services(
    {"service_id": "ROOTS", "kind": "root_touch_up", "hands_on_min": 40, "processing_min": 20},
    {"service_id": "FOILS", "kind": "lightening", "hands_on_min": 0},
    {"service_id": "CUT", "kind": "cut", "tax_rate": "9"},
)
SUMS = ["lines", "chair_hours", "hands_on_hours", "net", "product_cost"]


def split(name: str, *visits: list[Row], **more: Any) -> dict[str | None, Row]:
    given = {"bookings": bookings(*visits), "services": MENU} | more
    frame = work_out("economics", **given).filter(pl.col("split") == name)
    return {row["item_id"]: row for row in frame.iter_rows(named=True)}


def test_equals_the_answer_worked_by_hand() -> None:
    small = small_salon()
    small["salon"] = small["salon"].model_copy(update={"costs": Costs(per_month=Decimal(7200))})
    agrees(work_out("economics", **small), "economics")


def test_without_costs_nothing_is_said_of_clearing_or_of_what_empty_hours_cost() -> None:
    row = split("salon", visit("V1", "2026-03-03 09:00", 60, ("CUT", "100")))[None]
    assert (row["cost_per_open_hour"], row["covers_open_hour"], row["empty_cost"]) == (None, None, None)
    assert (row["cost_per_taken_hour"], row["carries_taken_hour"], row["open_cost"]) == (None, None, None)
    assert row["empty_hours"] == 233  # 26 days of 9 h, one of them taken


def test_hours_that_have_not_come_yet_are_not_empty() -> None:
    """On Tuesday 3 March the salon has been open for two days of 9 h; an hour costs what it does in all March."""
    work = visit("V1", "2026-03-03 09:00", 60, ("CUT", "100"))
    row = split("salon", work, salon=settings(costs={"per_month": 2340}), as_of="2026-03-03")[None]
    assert (row["open_hours"], row["empty_hours"], row["empty_cost"]) == (18, 17, 170)
    assert (row["cost_per_open_hour"], row["cost_per_taken_hour"], row["open_cost"]) == (10, 180, 180)


def test_a_bowl_goes_to_the_stylist_and_chair_of_its_line_and_without_a_visit_to_whoever_mixed_it() -> None:
    bowl = {"logged_at": "2026-03-03", "product_id": "DYE", "mixed_g": "60", "stylist": "Noor"}
    log = product_log(bowl | {"booking_id": "V1", "service_id": "ROOTS"}, bowl)
    work = visit("V1", "2026-03-03 09:00", 60, ("ROOTS", "100"), stylist="Mila", chair="Window")
    shelf = {"product_log": log, "products": products({"product_id": "DYE"})}
    assert {name: row["product_cost"] for name, row in split("stylist", work, **shelf).items()} == {
        "Mila": 9,
        "Noor": 9,
    }
    assert {name: row["product_cost"] for name, row in split("chair", work, **shelf).items()} == {"Window": 9, None: 9}
    assert split("salon", work, **shelf)[None]["product_cost"] == 18


def test_thirds_of_a_cent_add_up_to_the_months_product_cost() -> None:
    """Three bowls of 1 g at 0.10 for 30 g are 0.00333 each, 0.01 together: one service bears the cent."""
    names = ("ROOTS", "FOILS", "CUT")
    bowls = [{"logged_at": "2026-03-03", "product_id": "DYE", "mixed_g": "1", "service_id": name} for name in names]
    shelf = products({"product_id": "DYE", "pack_g": "30", "pack_cost": "0.10"})
    rows = split("service", product_log=product_log(*bowls), products=shelf)
    assert sorted(row["product_cost"] for row in rows.values()) == [0, 0, Decimal("0.01")]


@pytest.mark.parametrize(("currency", "empty_cost"), [("JPY", "27"), ("KWD", "26.667")])
def test_currencies_without_cents_and_with_mils(currency: str, empty_cost: str) -> None:
    """Five Tuesdays of 9 h at 1,000 a month: 22.2222 an hour; on one, 7.8 h were taken and 1.2 h empty: 26.6667."""
    salon = settings(
        salon={"currency": currency, "chairs": ["Chair 1"]}, costs={"per_month": 1000}, hours={"tue": "09:00-18:00"}
    )
    period = days("2026-03-03", "2026-03-04")
    work = visit("V1", "2026-03-03 09:00", 468, ("CUT", "1"))
    row = split("salon", work, salon=salon, period=period)[None]
    assert row["empty_cost"] == Decimal(empty_cost)


line = st.tuples(
    st.integers(1, 28), st.sampled_from(["ROOTS", "FOILS", "CUT"]), st.integers(-500, 9999),
    st.sampled_from(["Mila", "Noor"]),
    st.sampled_from(["Window", "Mirror"]), st.integers(0, 200),
)  # fmt: skip
bowl = st.tuples(st.integers(0, 5), st.sampled_from(["ROOTS", "CUT", None]), st.integers(0, 999))


@effort(max_examples=12, deadline=None)
@given(st.lists(line, max_size=6), st.lists(bowl, max_size=6))
def test_every_split_adds_up_to_the_salon_and_the_salon_to_the_month(lines: list, bowls: list) -> None:
    book = bookings(
        *[
            visit(
                f"V{n}", f"2026-03-{day:02} 10:00", minutes, (name, str(Decimal(cents) / 100)), stylist=who, chair=chair
            )
            for n, (day, name, cents, who, chair, minutes) in enumerate(lines)
        ]
    )
    log = product_log(
        *[
            {
                "logged_at": "2026-03-03",
                "booking_id": f"V{n}",
                "service_id": name,
                "product_id": "DYE",
                "mixed_g": str(grams / 10),
            }
            for n, name, grams in bowls
        ]
    )
    tables = {
        "bookings": book,
        "services": MENU,
        "product_log": log,
        "products": products({"product_id": "DYE", "pack_g": "70"}),
    }
    frame = work_out("economics", salon=settings(costs={"per_month": 5000}), **tables)
    totals = {name: part.select(pl.col(SUMS).sum()) for (name,), part in frame.group_by("split")}
    month = dict(work_out("month", **tables).select("figure", "value").iter_rows())
    for total in totals.values():
        assert total["net"].item() == month["service_net"] and total["product_cost"].item() == month["product_cost"]
        assert total["lines"].item() == len(lines)
        assert total["chair_hours"].item() == pytest.approx(float(month["chair_hours"]), abs=1e-4)
        assert total["hands_on_hours"].item() == pytest.approx(totals["salon"]["hands_on_hours"].item())
    by_kind = {name: part["product_cost"].sum() for (name,), part in _kinds(frame).group_by("kind")}
    kinds = frame.filter(split="kind").filter(pl.col("item_id").is_not_null())
    assert {row["item_id"]: row["product_cost"] for row in kinds.iter_rows(named=True)} == by_kind
    chairs, salon = frame.filter(split="chair"), frame.filter(split="salon")
    assert chairs["empty_hours"].sum() == pytest.approx(salon["empty_hours"].sum())
    assert chairs["empty_cost"].sum() == salon["empty_cost"].sum()
    for row in salon.drop_nulls("cost_per_taken_hour").iter_rows(named=True):
        assert row["cost_per_taken_hour"] * row["chair_hours"] == pytest.approx(5000)  # no more, no less


def _kinds(frame: pl.DataFrame) -> pl.DataFrame:
    kinds = dict(MENU.select("service_id", "kind").iter_rows())
    return frame.filter(split="service").drop_nulls("item_id").with_columns(kind=pl.col("item_id").replace(kinds))
