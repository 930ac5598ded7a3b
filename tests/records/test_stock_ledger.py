"""The shelf after every movement, and the months it adds up to."""

from decimal import Decimal

import polars as pl
import pytest
from frames import days, product_log, products, sales, settings, table
from hypothesis import given
from hypothesis import settings as tried
from hypothesis import strategies as st

from analytics.checks.oddities import oddities
from analytics.definitions.tables import MOVEMENTS, TABLES
from analytics.records.product.stock_ledger import ledger, stock_by_month
from analytics.records.product.stock_moves import SHELF, movements

EMPTY = {name: TABLES[name].empty() for name in ("stock_moves", "product_log", "sales", "products")}
BOTH = pytest.mark.parametrize("valuation", ["average", "fifo"])
DYE = products(
    {"product_id": "DYE", "pack_g": "60", "pack_cost": "6"},
    {"product_id": "DYE", "pack_g": "60", "pack_cost": "12", "valid_from": "2026-03-16"},
)


def move(movement: str, moved_at: str, **rest: object) -> dict:
    return {"product_id": "DYE", "movement": movement, "moved_at": moved_at} | rest


def bowl(logged_at: str, mixed_g: str, **rest: object) -> dict:
    return {"product_id": "DYE", "logged_at": logged_at, "mixed_g": mixed_g} | rest


def moved(*moves: dict) -> pl.DataFrame:
    return table("stock_moves", list(moves))


def walked(valuation: str = "average", **tables: pl.DataFrame) -> pl.DataFrame:
    given = EMPTY | {"products": DYE} | tables
    return ledger(movements(*(given[name] for name in EMPTY)), valuation)


def levels(book: pl.DataFrame) -> list[tuple[str, Decimal, Decimal]]:
    return book.select("movement", "level_g", "value").rows()


@BOTH
def test_a_count_on_the_day_of_a_delivery_goes_by_the_clock(valuation: str) -> None:
    """60 g; 120 g come at 9, 50 g are mixed at 10; counted at 8, at 9 after they came, that day without a time."""
    opened, delivery = move("count", "2026-03-01", packs=1), move("delivery", "2026-03-03 09:00", packs=2)
    for counted_at, found, order in (
        ("2026-03-03 08:00", -10, ["count", "delivery", "mixed"]),
        ("2026-03-03 09:00", -130, ["delivery", "count", "mixed"]),
        ("2026-03-03", -80, ["delivery", "mixed", "count"]),
    ):
        moves = moved(opened, move("count", counted_at, grams="50"), delivery)
        book = walked(valuation, stock_moves=moves, product_log=product_log(bowl("2026-03-03 10:00", "50")))
        assert book["movement"].to_list() == ["count", *order]
        assert book.filter(pl.col("movement") == "count")["change_g"].to_list() == [60, found]


def test_without_a_time_of_day_a_delivery_comes_first_and_a_bowl_at_midday() -> None:
    moves = moved(*(move(kind, "2026-03-03", grams="60") for kind in ("count", "discarded", "delivery")))
    book = walked(stock_moves=moves, product_log=product_log(bowl("2026-03-03", "9"), bowl("2026-03-03 09:00", "9")))
    assert book["movement"].to_list() == ["opening", "delivery", "mixed", "mixed", "discarded", "count"]
    assert book["at"].dt.hour().to_list() == [0, 0, 9, 12, 12, 23]


@BOTH
def test_a_price_change_between(valuation: str) -> None:
    """120 g for 12 in early March; 60 g at the pack cost of 20 March, 12; 90 g mixed, then 30 g, and 60 g are left."""
    book = walked(
        valuation,
        stock_moves=moved(
            move("delivery", "2026-03-01", packs=2),
            move("delivery", "2026-03-20", packs=1),
            move("count", "2026-03-31", packs=1),
        ),
        product_log=product_log(bowl("2026-03-10 10:00", "90"), bowl("2026-03-21 10:00", "30")),
    )
    last = {"average": Decimal(10), "fifo": Decimal(12)}[valuation]  # 90 g for 15 less a third, or the new pack
    assert levels(book)[-1] == ("count", 60, last)
    assert book["issued"].sum() == 24 - last


@BOTH
def test_below_nothing_stock_has_no_value_and_the_next_delivery_pays(valuation: str) -> None:
    book = walked(
        valuation,
        stock_moves=moved(move("count", "2026-03-01", packs=1), move("delivery", "2026-03-09", packs=2, unit_cost="9")),
        product_log=product_log(bowl("2026-03-03 10:00", "100")),
    )
    assert levels(book) == [("count", 60, 6), ("mixed", -40, 0), ("delivery", 80, 12)]
    assert book["short_g"].to_list() == [0, 40, 0]
    assert book["issued"].to_list() == [0, 6, 6]


def test_a_delivery_without_a_cost_has_the_pack_cost_of_its_day() -> None:
    book = walked(
        stock_moves=moved(move("delivery", "2026-03-15", packs=1), move("delivery", "2026-03-16", grams="30"))
    )
    assert book["received"].to_list() == [6, 6]


def test_what_a_count_finds_too_much_has_the_cost_of_the_shelf_or_of_its_day() -> None:
    """30 g too much beside 60 g for 6; another product is found on an empty shelf."""
    book = walked(
        stock_moves=moved(
            move("delivery", "2026-03-20", packs=1, unit_cost="6"), move("count", "2026-03-21", packs=1),
            move("count", "2026-03-22", grams="90"), move("count", "2026-03-22", grams="30", product_id="TINT"),
        ),
        products=pl.concat([DYE, products({"product_id": "TINT", "pack_g": "60", "pack_cost": "9"})]),
    )  # fmt: skip
    assert book["received"].to_list() == [6, 0, 3, Decimal("4.5")]


def test_counts_of_one_moment_are_added_up() -> None:
    """Two full tubes on one line, the open one on another."""
    book = walked(stock_moves=moved(move("count", "2026-03-01", packs=2), move("count", "2026-03-01", grams="25")))
    assert book.select("grams", "level_g").rows() == [(145, 145)]


def test_where_the_first_count_comes_late_the_product_starts_with_what_it_implies() -> None:
    """40 g mixed, then 60 g delivered and 50 g there imply 30 g at first; 40 g, since so much was mixed."""
    late = {
        "stock_moves": moved(move("delivery", "2026-03-09", packs=1), move("count", "2026-03-12", grams="50")),
        "product_log": product_log(bowl("2026-03-03 10:00", "40")),
    }
    assert walked(**late).select("movement", "change_g", "level_g").rows() == [
        ("opening", 40, 40), ("mixed", -40, 0), ("delivery", 60, 60), ("count", -10, 50)
    ]  # fmt: skip


def test_a_product_that_was_never_counted_starts_with_what_was_used_before_its_first_delivery() -> None:
    """40 g were mixed of something; of the 60 g delivered then, 70 g cannot be."""
    book = walked(
        stock_moves=moved(move("delivery", "2026-03-09", packs=1)),
        product_log=product_log(bowl("2026-03-03 10:00", "40"), bowl("2026-03-10 10:00", "70")),
    )
    assert levels(book) == [("opening", 40, 4), ("mixed", 0, 0), ("delivery", 60, 6), ("mixed", -10, 0)]


def test_retail_is_counted_by_the_piece_and_a_refund_brings_it_back() -> None:
    pieces = sales(
        {"sold_at": "2026-03-02", "product_id": "DYE", "price": "20", "quantity": "2"},
        {"sold_at": "2026-03-03", "product_id": "DYE", "price": "20", "quantity": "-1"},
        {"sold_at": "2026-03-04", "product_id": "DYE", "price": "-20", "quantity": "1"},
    )
    book = walked(stock_moves=moved(move("delivery", "2026-03-01", packs=3, unit_cost="7")), sales=pieces)
    assert levels(book) == [("delivery", 180, 21), ("sold", 60, 7), ("sold", 120, 14), ("sold", 180, 21)]


def test_a_minus_before_what_was_sent_back_or_thrown_away_says_the_same_again() -> None:
    book = walked(
        stock_moves=moved(
            move("delivery", "2026-03-01", packs=3), move("returned", "2026-03-02", packs=-1),
            move("discarded", "2026-03-03", grams="-10"), move("delivery", "2026-03-04", packs=-1),
        )
    )  # fmt: skip
    assert book["level_g"].to_list() == [180, 120, 110, 50]


def test_a_product_whose_cost_nobody_knows_has_grams_and_no_value() -> None:
    """Named in the log and in deliveries, not in the products export; packs of it weigh nobody knows what."""
    book = walked(
        stock_moves=moved(
            move("delivery", "2026-03-01", grams="100", product_id="HERB"),
            move("delivery", "2026-03-02", packs=3, product_id="HERB"),
        ),
        product_log=product_log(bowl("2026-03-03", "30", product_id="HERB", product="Herb")),
    )
    assert book.select("product", "level_g", "value").rows() == [("HERB", 100, None), ("Herb", 70, None)]


def test_two_sites_keep_two_shelves_and_one_stock_where_the_moves_name_no_site() -> None:
    log = product_log(bowl("2026-03-03", "30", site="North"), bowl("2026-03-03", "20", site="South"))
    apart = walked(
        stock_moves=moved(*(move("delivery", "2026-03-01", packs=1, site=site) for site in ("North", "South"))),
        product_log=log,
    )
    assert apart.group_by("site", maintain_order=True).last().select("site", "level_g").rows() == [
        ("North", 30), ("South", 40)
    ]  # fmt: skip
    together = walked(stock_moves=moved(move("delivery", "2026-03-01", packs=1)), product_log=log)
    assert together.select("site", "level_g").rows() == [("", 60), ("", 40), ("", 10)]


def found_odd(**tables: pl.DataFrame) -> list[tuple]:
    everything = {name: table.empty() for name, table in TABLES.items()} | {"products": DYE} | tables
    return oddities(everything, settings()).select("code", "table", "row", "value", "expected").rows()


def test_each_time_a_product_falls_short_is_a_finding_at_the_row_that_does_it() -> None:
    """60 g; 50, 30 and 5 g are mixed, 120 g come, two packs are sold; what was never delivered cannot be short."""
    found = found_odd(
        stock_moves=moved(move("count", "2026-03-01", packs=1), move("delivery", "2026-03-05", packs=2)),
        product_log=product_log(
            bowl("2026-03-02", "50"), bowl("2026-03-03", "30"), bowl("2026-03-04", "5"),
            bowl("2026-03-04", "5", product_id="TINT"),
        ),
        sales=sales({"sold_at": "2026-03-06", "product_id": "DYE", "price": "9", "quantity": "2"}),
        products=pl.concat([DYE, products({"product_id": "TINT"})]),
    )  # fmt: skip
    assert found == [
        ("stock_below_nothing", "product_log", 3, "Dye", "20 g"),
        ("stock_below_nothing", "sales", 2, "Dye", "25 g"),
    ]


def test_a_move_of_a_product_that_is_not_listed_is_a_finding() -> None:
    found = found_odd(stock_moves=moved(move("delivery", "2026-03-01", grams="9", product_id="HERB")))
    assert found == [("unknown_product", "stock_moves", 2, "HERB", None)]


def test_months_add_up_and_an_empty_one_has_a_row() -> None:
    """January: one pack for 6 of which 40 g are mixed, 4; March: 20 g are missing a third time; 10 ÷ 60 × 6 left."""
    book = walked(
        stock_moves=moved(
            move("count", "2026-01-01", packs=1), move("delivery", "2026-01-02", packs=1),
            move("count", "2026-03-31", packs=1),
        ),
        product_log=product_log(bowl("2026-01-03 10:00", "40")),
    )  # fmt: skip
    assert stock_by_month(book, days("2026-01-01", "2026-04-01"), 2).rows() == [
        ("2026-01", 0, 6, 6, 4, 0, 8, 0),
        ("2026-02", 8, 0, 0, 0, 0, 8, 0),
        ("2026-03", 8, 0, 0, 2, 2, 6, 0),
    ]


AT = st.builds("2026-{:02}-{:02}{}".format, st.integers(2, 4), st.sampled_from((1, 2, 16)),
               st.sampled_from(("", " 09:00", " 09:30")))  # fmt: skip
AMOUNT = st.decimals("0", "300", places=1).map(str)
PLACE = st.sampled_from(("North", "South"))
MOVE = st.builds(
    lambda kind, at, grams, site, cost: move(kind, at, grams=grams, site=site, unit_cost=cost),
    st.sampled_from(MOVEMENTS), AT, AMOUNT, PLACE,
    st.none() | st.decimals("0", "30", places=2).map(str),
)  # fmt: skip
BOWL = st.builds(lambda at, grams, site: bowl(at, grams, site=site), AT, AMOUNT, PLACE)


def moment(row: dict, kind: str) -> tuple[str, int]:
    """When it takes place, and its place among what takes place then: deliveries first, counts last."""
    day, _, clock = (row.get("moved_at") or row["logged_at"]).partition(" ")
    untimed = {"delivery": "00:00", "count": "23:59"}.get(kind, "12:00")
    return f"{day} {clock or untimed}", {"delivery": 0, "count": 2}.get(kind, 1)


def missing_by_hand(moves: list[dict], bowls: list[dict], level: Decimal) -> list[Decimal]:
    """What each count of one shelf finds missing, walked through in plain Python; counts of one moment are one."""
    steps = [(moment(row, row["movement"]), row["movement"], Decimal(row["grams"])) for row in moves]
    steps += [(moment(row, "mixed"), "mixed", Decimal(row["mixed_g"])) for row in bowls]
    counts: dict[tuple[str, int], Decimal] = {}
    for at, kind, grams in steps:
        counts[at] = counts.get(at, Decimal(0)) + grams if kind == "count" else counts.get(at, Decimal(0))
    missing = []
    for at in sorted(counts):
        if at[1] == 2:
            missing.append(level - counts[at])
            level = counts[at]
        else:
            level += sum(grams if kind == "delivery" else -grams for when, kind, grams in steps if when == at)
    return missing


@tried(max_examples=20, deadline=None)
@given(
    moves=st.lists(MOVE, max_size=14), bowls=st.lists(BOWL, max_size=8), valuation=st.sampled_from(("average", "fifo"))
)
def test_stock_adds_up_to_the_gram_and_the_cent(moves: list[dict], bowls: list[dict], valuation: str) -> None:
    """Whatever moves: what came in less what went out is there, at every row, count, shelf and month."""
    opened = [move("count", "2026-01-31", grams="100", site=site) for site in ("North", "South")]
    book = walked(valuation, stock_moves=moved(*opened, *moves), product_log=product_log(*bowls))
    assert book.filter(pl.col("level_g") != pl.col("change_g").cum_sum().over(SHELF)).is_empty()
    gap = pl.col("received") - pl.col("issued")
    assert book.filter(pl.col("value") != gap.cum_sum().over(SHELF)).is_empty()
    assert book.filter((pl.col("value") < 0) | ((pl.col("level_g") <= 0) & (pl.col("value") != 0))).is_empty()
    assert book.filter((pl.col("movement") == "count") & (pl.col("level_g") != pl.col("grams"))).is_empty()
    for site in ("North", "South"):
        here = [[row for row in rows if row["site"] == site] for rows in (moves, bowls)]
        wanted = missing_by_hand(*here, Decimal(100))
        counts = book.filter((pl.col("site") == site) & (pl.col("movement") == "count"))
        assert [-change for change in counts["change_g"]][1:] == wanted
    months = stock_by_month(book, days("2026-01-01", "2026-05-01"), 2)
    came = pl.col("movement").is_in(["delivery", "opening"]) | (
        (pl.col("movement") == "count") & (pl.col("stretch") == 0)
    )
    left = book.with_columns(pl.when(~came).then(pl.col("issued") - pl.col("received")).otherwise("issued"))
    for row in months.iter_rows(named=True):
        assert row["opening"] + row["found"] + row["purchases"] - row["used"] == row["closing"]
        of_month = left.filter(pl.col("at").dt.strftime("%Y-%m") == row["month"])["issued"].sum()
        assert row["used"] == pytest.approx(of_month, abs=Decimal("0.04"))
    assert months["opening"].to_list()[1:] == months["closing"].to_list()[:-1]
    ends = book.group_by(SHELF).last()
    assert months["closing"].to_list()[-1] == pytest.approx(ends["value"].sum(), abs=Decimal("0.01"))
