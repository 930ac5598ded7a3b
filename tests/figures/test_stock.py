"""What the shelf holds, what it is worth, and what the log cannot explain."""

from datetime import date
from decimal import Decimal

import polars as pl
import pytest
from frames import (
    agrees,
    bookings,
    only,
    product_log,
    products,
    rows_of,
    sales,
    services,
    settings,
    small_salon,
    table,
    visit,
    work_out,
)
from hypothesis import given
from hypothesis import settings as tried
from hypothesis import strategies as st

from analytics.definitions.tables import MOVEMENTS

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "6"})
NUMBERS = ("opening_g", "expected_g", "counted_g", "unexplained_g", "closing_g")


def moves(*rows: tuple[str, str, object], **rest: object) -> pl.DataFrame:
    """Moves of the dye in packs: (day, movement, packs)."""
    named = ({"moved_at": at, "movement": movement, "packs": packs} for at, movement, packs in rows)
    return table("stock_moves", [{"product_id": "DYE"} | row | rest for row in named])


def log(*bowls: tuple[str, str], **rest: str) -> pl.DataFrame:
    return product_log(*({"product_id": "DYE", "logged_at": at, "mixed_g": grams} | rest for at, grams in bowls))


def stock(**given: object) -> pl.DataFrame:
    return work_out("stock", **{"products": DYE} | given)


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("stock", **small_salon()), "stock")


def test_first_in_first_out_by_hand() -> None:
    """See the last lines of stock.md."""
    small = small_salon()
    fifo = small["salon"].model_copy(update={"stock": settings(stock={"valuation": "fifo"}).stock})
    row = only(work_out("stock", **small | {"salon": fifo}), product_id="DYE", to_on=date(2026, 3, 31))
    assert (row["closing_value"], row["unexplained_cost"]) == (Decimal("50.10"), Decimal("2.25"))


def test_without_any_count_nothing_is_unexplained_and_the_last_stretch_is_all_there_is() -> None:
    row = only(stock(stock_moves=moves(("2026-03-01", "delivery", 2)), product_log=log(("2026-03-02", "50"))))
    assert [row[name] for name in NUMBERS] == [0, 70, None, None, 70]
    assert (row["from_on"], row["to_on"], row["closing_value"]) == (None, date(2026, 4, 1), 7)


def test_one_count_sets_the_level_and_explains_nothing_before_it() -> None:
    """100 g were mixed and 2 packs delivered, 90 g are there: 70 g were there at the start."""
    frame = stock(
        stock_moves=moves(("2026-03-01", "delivery", 2), ("2026-03-10", "count", 1.5)),
        product_log=log(("2026-03-02", "100"), ("2026-03-12", "20")),
    )
    assert frame.select(NUMBERS).rows() == [(70, 90, 90, None, 90), (90, 70, None, None, 70)]


def test_a_first_count_that_finds_less_than_was_delivered_says_so() -> None:
    frame = stock(stock_moves=moves(("2026-03-01", "delivery", 2), ("2026-03-10", "count", 1)))
    assert frame.select(NUMBERS).row(0) == (0, 120, 60, 60, 60)
    assert (frame["from_on"][0], frame["unexplained_cost"][0], frame["used_cost"][0]) == (None, 6, 0)


def test_three_counts_of_one_day_are_four_stretches() -> None:
    """Morning 120 g, 30 of them mixed, noon 90 as it should be, evening 60: 30 are missing."""
    frame = stock(
        stock_moves=moves(
            ("2026-03-01", "delivery", 2),
            ("2026-03-10 09:00", "count", 2),
            ("2026-03-10 12:00", "count", 1.5),
            ("2026-03-10 15:00", "count", 1),
        ),
        product_log=log(("2026-03-10 10:00", "30")),
    )
    assert frame.select(NUMBERS).rows() == [
        (0, 120, 120, None, 120), (120, 90, 90, 0, 90), (90, 90, 60, 30, 60), (60, 60, None, None, 60)
    ]  # fmt: skip
    assert frame["stretch"].to_list() == [1, 2, 3, 4]
    assert frame["last_counted"].to_list() == [False, False, True, False]


def test_the_first_of_two_counts_with_nothing_before_it_begins_the_first_stretch() -> None:
    frame = stock(stock_moves=moves(("2026-03-10 09:00", "count", 2), ("2026-03-10 15:00", "count", 2)))
    assert frame.select("stretch", "counted_g").rows() == [(1, 120), (2, None)]


def test_a_count_that_finds_too_much_has_a_minus() -> None:
    frame = stock(stock_moves=moves(("2026-03-01", "count", 1), ("2026-03-10", "count", 3)))
    row = frame.row(0, named=True)
    assert (row["unexplained_packs"], row["unexplained_cost"], row["closing_value"]) == (-2, -12, 18)


def test_a_product_that_was_never_delivered_nor_counted_has_no_known_level() -> None:
    row = only(stock(product_log=log(("2026-03-02", "50"))))
    assert row["mixed_g"] == 50
    assert [row[name] for name in ("expected_g", "closing_g", "closing_packs", "closing_value")] == [None] * 4


def test_a_product_named_only_in_the_log_has_grams_and_its_name() -> None:
    herb = product_log({"product_id": "HERB", "product": "Herb", "logged_at": "2026-03-02", "mixed_g": "5"})
    row = only(stock(product_log=herb))
    assert (row["product"], row["kind"], row["mixed_g"], row["unexplained_packs"]) == ("Herb", None, 5, None)


def test_a_count_on_the_day_of_a_delivery_is_taken_after_it_unless_its_time_is_earlier() -> None:
    for counted_at, delivered_at, missing in (
        ("2026-03-10", "2026-03-10", 120),
        ("2026-03-10 09:00", "2026-03-10 09:00", 120),
        ("2026-03-10 08:00", "2026-03-10 09:00", 0),
    ):
        frame = stock(
            stock_moves=moves(("2026-03-01", "count", 1), (counted_at, "count", 1), (delivered_at, "delivery", 2))
        )
        assert frame["unexplained_g"][0] == missing


def test_two_sites_have_their_own_counts_and_coverage() -> None:
    menu = services({"service_id": "ROOTS", "kind": "root_touch_up"})
    seen = [
        visit("V1", "2026-03-05 09:00", 60, ("ROOTS", "1"), site="North"),
        visit("V2", "2026-03-05 09:00", 60, ("ROOTS", "1"), site="South"),
    ]
    frame = stock(
        bookings=bookings(*seen),
        services=menu,
        product_log=log(("2026-03-05 09:00", "30"), booking_id="V1", site="North"),
        stock_moves=pl.concat(
            moves(("2026-03-01", "count", 1), (f"2026-03-{day}", "count", 0.5), site=site)
            for site, day in (("North", 10), ("South", 20))
        ),
    ).filter(pl.col("counted_g").is_not_null())
    told = ["salon", "to_on", "unexplained_g", "colour_lines", "colour_lines_logged"]
    assert frame.select(told).rows() == [
        ("North", date(2026, 3, 10), 0, 1, 1),
        ("South", date(2026, 3, 20), 30, 1, 0),
    ]


def test_nothing_dated_later_than_today_is_seen() -> None:
    kept = moves(("2026-03-01", "count", 1), ("2026-03-10", "count", 2), ("2026-03-11", "delivery", 5))
    row = only(stock(stock_moves=kept, as_of="2026-03-09"))
    assert (row["closing_g"], row["to_on"]) == (60, date(2026, 3, 9))


@pytest.mark.parametrize(("currency", "value"), [("JPY", "3"), ("EUR", "3.33"), ("KWD", "3.333")])
def test_values_are_rounded_to_the_currency(currency: str, value: str) -> None:
    """20 g of a pack of 60 g for 10."""
    prices = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "10"})
    salon = settings(salon={"currency": currency})
    row = only(stock(stock_moves=moves(("2026-03-01", "delivery", 1 / 3)), products=prices, salon=salon))
    assert f"{row['closing_value'].normalize():f}" == value


def test_the_rows_are_every_movement_with_what_it_leaves() -> None:
    rows = rows_of("stock", **small_salon()).filter(product_id="DYE")
    assert rows.select("movement", "level_g", "value").rows()[-2:] == [
        ("mixed", 345, Decimal("52.28")),
        ("count", 330, Decimal("50.01")),
    ]


def test_a_refund_of_retail_is_back_on_the_shelf() -> None:
    back = sales({"sold_at": "2026-03-05", "product_id": "DYE", "price": "9", "quantity": "-1"})
    row = only(stock(stock_moves=moves(("2026-03-01", "delivery", 2)), sales=back))
    assert (row["sold_g"], row["closing_packs"], row["closing_value"]) == (-60, 3, 18)


AT = st.builds("2026-03-{:02}{}".format, st.integers(2, 6), st.sampled_from(("", " 09:00")))
AMOUNT = st.integers(0, 40).map(lambda tenths: tenths / 10)
MOVE = st.tuples(AT, st.sampled_from((*MOVEMENTS, "delivery", "count")), AMOUNT)
COST = st.none() | st.decimals("0.01", "30", places=2).map(str)


@tried(max_examples=20, deadline=None)
@given(
    rows=st.lists(st.tuples(MOVE, COST), max_size=12),
    bowls=st.lists(st.tuples(AT, st.decimals("0", "90", places=1).map(str)), max_size=8),
    counted_first=st.booleans(),
    valuation=st.sampled_from(("average", "fifo")),
)
def test_every_stretch_adds_up_to_the_gram_and_the_cent(
    rows: list, bowls: list, counted_first: bool, valuation: str
) -> None:
    """Opening and what came, less what went and what is missing, is closing, and the next stretch opens with it."""
    opened = [moves(("2026-03-01", "count", 2))] if counted_first else []
    moved = pl.concat([*opened, *(moves(row, unit_cost=cost) for row, cost in rows), moves()])
    salon = settings(stock={"valuation": valuation})
    frame = stock(stock_moves=moved, product_log=log(*bowls), salon=salon).filter(pl.col("closing_g").is_not_null())
    zero = pl.col("unexplained_g", "unexplained_cost").fill_null(0)
    for row in frame.with_columns(zero).iter_rows(named=True):
        gone = sum(row[name] for name in ("mixed_g", "sold_g", "returned_g", "discarded_g", "unexplained_g"))
        assert row["opening_g"] + row["delivered_g"] - gone == row["closing_g"]
        value = row["opening_value"] + row["delivered_cost"] - row["used_cost"] - row["unexplained_cost"]
        assert value == row["closing_value"] >= 0
        assert row["counted_g"] in (None, row["closing_g"])
    assert frame["opening_g"].to_list()[1:] == frame["closing_g"].to_list()[:-1]
    assert frame["opening_value"].to_list()[1:] == frame["closing_value"].to_list()[:-1]


def test_only_the_last_stretch_between_two_counts_is_marked() -> None:
    counts = moves(("2026-01-01", "count", 5), ("2026-02-01", "count", 5), ("2026-03-01", "count", 4))
    frame = stock(stock_moves=counts)
    assert frame.select("to_on", "last_counted").rows() == [
        (date(2026, 2, 1), False), (date(2026, 3, 1), True), (date(2026, 4, 1), False),
    ]  # fmt: skip


def test_unlogged_bowls_account_for_no_more_than_is_missing_and_for_nothing_found() -> None:
    """Of three lines one is logged, with 30 g: two more would be 60 g. Of 90 g missing that is two thirds, 6 of 9;
    of 30 g all; where a pack too much is found, nothing."""
    visits = bookings(*[visit(f"V{n}", f"2026-03-0{n} 10:00", 60, ("ROOTS", "60")) for n in (2, 3, 4)])
    menu = services({"service_id": "ROOTS", "kind": "root_touch_up"})
    bowls = log(("2026-03-02 10:00", "30"), booking_id="V2", service_id="ROOTS")
    costs = []
    for packs in (3, 4, 5.5):
        counts = moves(("2026-03-01", "count", 5), ("2026-03-20", "count", packs))
        row = only(stock(stock_moves=counts, product_log=bowls, bookings=visits, services=menu), last_counted=True)
        costs.append((row["unexplained_cost"], row["unlogged_cost"], row["unaccounted_cost"]))
        assert row["logged_share"] == pytest.approx(1 / 3)
    assert costs == [(9, 6, 3), (3, 3, 0), (-6, 0, -6)]
