"""Stock at the lower of cost and what it can bring: IAS 2.9, 2.28-34 (numbers ours, worked by hand)."""

from decimal import Decimal

import polars as pl
import pytest
from frames import days, products, sales, settings, table, work_out
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"})
BRUSH = products({"product_id": "BRUSH", "kind": "retail", "pack_g": "90", "pack_cost": "6"})
YEAR = days("2026-01-01", "2027-01-01")
FLOWS = ("month", "reason", "opening", "written_down", "reversed", "released", "closing")
Move = tuple[str, str, object] | tuple[str, str, object, str]


def moves(*moved: Move, product: str = "DYE") -> pl.DataFrame:
    """(day, movement, packs) and perhaps the day it expires on."""
    names = ("moved_at", "movement", "packs", "expires_on")
    return table("stock_moves", [{"product_id": product, **dict(zip(names, one, strict=False))} for one in moved])


def written(*moved: Move, product: str = "DYE", **more: object) -> pl.DataFrame:
    given = {"products": DYE if product == "DYE" else BRUSH, "period": YEAR, "cover": YEAR} | more
    return work_out("write_downs", stock_moves=moves(*moved, product=product), **given)


def flows(frame: pl.DataFrame) -> list[tuple[object, ...]]:
    return frame.select(FLOWS).rows()


TEN_PACKS = ("2025-10-01", "delivery", 10, "2026-03-31")


def test_ten_packs_that_expired_are_written_down_until_they_are_thrown_away() -> None:
    """90.00 of colour, last good on 31 March: nothing by the end of March, and gone with its cost in May."""
    frame = written(TEN_PACKS, ("2026-05-04", "discarded", 10), period=days("2026-02-01", "2026-07-01"))
    assert flows(frame) == [
        ("2026-03", "expired", 0, 90, 0, 0, 90),
        ("2026-04", "expired", 90, 0, 0, 0, 90),
        ("2026-05", "expired", 90, 0, 0, 90, 0),
    ]


@pytest.mark.parametrize(("last_good", "first"), [("2026-03-31", "2026-03"), ("2026-04-01", "2026-04")])
def test_a_delivery_is_good_until_the_end_of_its_last_day(last_good: str, first: str) -> None:
    frame = written(("2025-10-01", "delivery", 10, last_good), period=days("2026-02-01", "2026-06-01"))
    assert frame["month"][0] == first


def test_what_came_first_leaves_first_and_only_what_has_expired_is_written_down() -> None:
    """10 packs that expire and 4 that do not; 3 are sent back: 7 × 9.00 of the first are there when they expire."""
    frame = written(TEN_PACKS, ("2026-02-01", "delivery", 4), ("2026-02-10", "returned", 3))
    assert flows(frame)[0] == ("2026-03", "expired", 0, 63, 0, 0, 63)
    assert frame["grams"][0] == 420


@pytest.mark.parametrize(("valuation", "expired"), [("average", "110"), ("fifo", "100")])
def test_expired_stock_has_the_cost_that_the_shelf_is_valued_at(valuation: str, expired: str) -> None:
    """10 at 10.00, then 10 at 12.00: of 220.00, ten packs cost 110.00 on average and 100.00 first in, first out."""
    rows = [
        {
            "product_id": "DYE",
            "moved_at": day,
            "movement": "delivery",
            "packs": 10,
            "unit_cost": cost,
            "expires_on": ends,
        }
        for day, cost, ends in (("2026-01-02", "10", "2026-03-31"), ("2026-01-03", "12", "2026-12-31"))
    ]
    chosen = settings(stock={"valuation": valuation})
    frame = work_out(
        "write_downs", stock_moves=table("stock_moves", rows), products=DYE, period="2026-03", cover=YEAR, salon=chosen
    )
    assert flows(frame) == [("2026-03", "expired", 0, Decimal(expired), 0, 0, Decimal(expired))]


def test_what_nobody_wanted_for_a_year_is_written_down_and_reversed_when_it_sells() -> None:
    """Ten brushes at 6.00, none sold from 10 January 2025: 60.00 written down at the end of January 2026. In March two
    sell: their 12.00 goes with them, and the other 48.00 can be sold after all (IAS 2.33)."""
    sold = sales({"sold_at": "2026-03-05 10:00", "product_id": "BRUSH", "price": "12.10", "quantity": "2"})
    bought = ("2025-01-10", "delivery", 10)
    frame = written(bought, product="BRUSH", sales=sold, period=days("2025-12-01", "2026-05-01"))
    assert flows(frame) == [
        ("2026-01", "no_movement", 0, 60, 0, 0, 60),
        ("2026-02", "no_movement", 60, 0, 0, 0, 60),
        ("2026-03", "no_movement", 60, 0, 48, 12, 0),
    ]


@pytest.mark.parametrize(("after", "first"), [(365, "2026-01"), (31, "2025-02"), (0, None)])
def test_how_long_is_a_setting(after: int, first: str | None) -> None:
    chosen = settings(stock={"unsaleable_after_days": after})
    frame = written(("2025-01-10", "delivery", 10), salon=chosen, period=days("2025-01-01", "2026-05-01"))
    assert (frame["month"][0] if frame.height else None) == first


def test_a_count_is_no_movement() -> None:
    frame = written(("2025-01-10", "delivery", 10), ("2025-12-31", "count", 10), period="2026-01")
    assert flows(frame) == [("2026-01", "no_movement", 0, 90, 0, 0, 90)]


def test_retail_that_sells_below_its_cost_keeps_what_it_brings() -> None:
    """Ten at 6.00, one sold at 4.84 with 21 % in it: the other nine bring 4.00 each and are written down by 18.00. In
    April three more sell: 18.00 of 54.00 at cost leave, and a third of what was written down with them."""
    sold = sales(
        {"sold_at": "2026-03-05 10:00", "product_id": "BRUSH", "price": "4.84"},
        {"sold_at": "2026-04-05 10:00", "product_id": "BRUSH", "price": "4.84", "quantity": "3"},
    )
    frame = written(
        ("2026-03-01", "delivery", 10), product="BRUSH", sales=sold, period=days("2026-03-01", "2026-05-01")
    )
    assert flows(frame) == [("2026-03", "price", 0, 18, 0, 0, 18), ("2026-04", "price", 18, 0, 0, 6, 12)]


def test_what_is_used_up_at_work_keeps_its_cost_and_stock_below_nothing_has_none() -> None:
    assert written(("2026-03-01", "delivery", 10), ("2026-03-02", "discarded", 11)).is_empty()


MOVES = st.lists(
    st.tuples(
        st.integers(0, 500),
        st.sampled_from(["delivery", "delivery", "discarded", "returned", "count"]),
        st.integers(0, 9),
        st.integers(1, 300),
    ),
    min_size=1,
    max_size=8,
)


@effort(max_examples=20, deadline=None)
@given(MOVES, st.sampled_from(["average", "fifo"]), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_every_balance_is_what_it_was_and_what_happened(
    drawn: list[tuple[int, str, int, int]], valuation: str, currency: str
) -> None:
    first = pl.date(2025, 1, 1)
    rows = pl.DataFrame(drawn, schema=["day", "movement", "packs", "good"], orient="row").with_columns(
        moved_at=(first + pl.duration(days="day")).cast(pl.String),
        expires_on=(first + pl.duration(days=pl.col("day") + pl.col("good"))).cast(pl.String),
    )
    moved = table("stock_moves", [row | {"product_id": "BRUSH"} for row in rows.drop("day", "good").to_dicts()])
    chosen = settings(salon={"currency": currency}, stock={"valuation": valuation})
    sold = sales({"sold_at": "2025-06-05 10:00", "product_id": "BRUSH", "price": "5.50"})
    given = {"stock_moves": moved, "products": BRUSH, "sales": sold, "salon": chosen}
    period = days("2025-01-01", "2026-12-01")
    frame = work_out("write_downs", period=period, cover=period, **given)
    net = pl.col("opening") + pl.col("written_down") - pl.col("reversed") - pl.col("released")
    assert frame.filter(net != pl.col("closing")).is_empty()
    assert frame.filter(pl.any_horizontal(pl.col(name) < 0 for name in FLOWS[2:])).is_empty()
    by_month = frame.group_by("month").agg(pl.col("closing").sum())
    at_cost = work_out("stock_months", period=period, cover=period, **given).select("month", cost="closing")
    assert by_month.join(at_cost, on="month").filter(pl.col("closing") > pl.col("cost")).is_empty()
