"""What the sentences on stock and retail say, and what they leave unsaid."""

from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from frames import settings

from analytics.catalogue import result
from analytics.sentences import retail as of_retail
from analytics.sentences import stock as of_stock

SALON, TODAY = settings(), date(2026, 4, 1)
COUNTED = {
    "salon": "", "product_id": "DYE", "product": "Umber 6", "kind": "colour", "from_on": date(2026, 1, 31),
    "to_on": date(2026, 3, 31), "counted_g": 330, "unexplained_g": 60, "unexplained_cost": "9", "unlogged_g": 40.0,
    "closing_g": 330, "closing_value": "50", "colour_lines": 50, "colour_lines_logged": 40,
}  # fmt: skip
NOW = COUNTED | {
    "from_on": date(2026, 3, 31), "to_on": TODAY, "counted_g": None, "unexplained_g": None, "unexplained_cost": None,
    "unlogged_g": None,
}  # fmt: skip
HELD = {
    "salon": "", "product_id": "DYE", "product": "Umber 6", "kind": "colour", "advice": "order", "packs": 3,
    "order_cost": "27", "likely_g": 330.0, "booked_g": 330, "weekly_g": 60.0, "weeks_left": 5.5,
    "runs_out_on": date(2026, 5, 9), "closing_value": "50", "expiring_g": 0.0, "expiring_cost": "0",
}  # fmt: skip


def frame(name: str, *rows: dict[str, Any]) -> pl.DataFrame:
    schema = result(name).schema
    unknown = {key for row in rows for key in row} - set(schema)
    assert not unknown
    typed = [{key: _typed(row.get(key), kind) for key, kind in schema.items()} for row in rows]
    return pl.DataFrame(typed, schema=schema)


def _typed(value: Any, kind: pl.DataType) -> Any:
    return Decimal(str(value)) if isinstance(kind, pl.Decimal) and value is not None else value


SHELF = {
    "counted_products": 1, "counted_from_on": date(2026, 1, 31), "counted_to_on": date(2026, 3, 31),
    "unexplained_cost": "9", "unlogged_cost": "6", "unaccounted_cost": "3", "unlogged_share": 6 / 9,
    "colour_lines": 50, "colour_lines_logged": 40, "logged_share": 0.8, "closing_value": "50",
    "last_counted_on": date(2026, 3, 31), "likely_value": "50", "likely_share": 1.0, "products": 1,
    "unknown_products": 0, "ordered_products": 1, "packs": 3, "order_cost": "27", "expiring_cost": "0",
    "retail_products": 0, "slow_products": 0, "slow_value": "0",
}  # fmt: skip


def shelf(**changed: Any) -> pl.DataFrame:
    return frame("shelf", SHELF | changed)


def unexplained(**changed: Any) -> str:
    return of_stock.stock_sentence(shelf(**changed), SALON)


def test_unexplained_use_with_coverage_and_how_much_of_it_unlogged_bowls_would_be() -> None:
    assert unexplained() == (
        "From count to count (31 January 2026 to 31 March 2026) €9.00 of product went that neither log nor till "
        "explains; 80% of that time's colour services have a bowl logged, and the bowls of the others would be about "
        "€6 of it."
    )
    assert unexplained(unlogged_share=0.95).endswith("the bowls of the others would be nearly all of it.")


def test_retail_has_no_bowls_to_blame() -> None:
    shop = unexplained(unlogged_cost="0", unlogged_share=0.0, logged_share=None)
    assert shop.endswith("€9.00 of product went that neither log nor till explains.")


@pytest.mark.parametrize(
    ("cost", "says"), [("0", "nothing was missing;"), ("-3", "missing (€3.00 more than on record);")]
)
def test_nothing_missing_and_too_much_found(cost: str, says: str) -> None:
    assert says in unexplained(unexplained_cost=cost)


def test_before_two_counts_nothing_can_be_said() -> None:
    assert unexplained(counted_products=0).startswith("No product has been counted twice")
    nothing = "No delivery and no count is on record, so nothing can be said about stock; export them with the rest."
    assert of_stock.stock_sentence(frame("shelf"), SALON) == unexplained(closing_value=None) == nothing


def worth(**changed: Any) -> str:
    return of_stock.stock_value_sentence(shelf(**changed), SALON, TODAY)


def test_what_the_shelf_is_worth_and_what_is_probably_there() -> None:
    start = "On 1 April 2026 the shelf holds €50.00 on record, at cost (moving average); it was "
    assert worth() == f"{start}last counted on 31 March 2026."
    there = (
        "last counted on 31 March 2026. An estimate, in no account: with the bowls nobody logged about €30 of it is "
        "probably there."
    )
    assert worth(likely_value="30", likely_share=0.6) == start + there
    assert worth(last_counted_on=None) == f"{start}never counted, so how much is really there is not known."
    assert of_stock.stock_value_sentence(frame("shelf"), SALON, TODAY) == ""


def test_what_is_below_zero_is_named() -> None:
    short = [
        NOW | {"product_id": f"P{number}", "product": f"Dye {number}", "closing_g": -number} for number in (1, 2, 3, 4)
    ]
    assert of_stock.below_zero_sentence(frame("stock", NOW, *short), SALON) == (
        "On record below zero, so a delivery or count is missing: Dye 4 (-4 g), Dye 3 (-3 g), Dye 2 (-2 g) and 1 more."
    )
    assert of_stock.below_zero_sentence(frame("stock", NOW), SALON) == ""


def order(*rows: dict[str, Any], of_all: dict[str, Any] | None = None, **stock: Any) -> str:
    return of_stock.order_sentence(frame("reorder", *rows), shelf(**of_all or {}), settings(stock=stock), TODAY)


def test_what_to_order_and_what_runs_out_first() -> None:
    other = HELD | {"product_id": "DEV", "product": "Developer", "packs": 1, "order_cost": "8"}
    both = {"products": 2, "ordered_products": 2, "packs": 4, "order_cost": "35"}
    assert order(HELD, other | {"runs_out_on": date(2026, 4, 20)}, of_all=both) == (
        "To last 4 weeks, order 4 packs of 2 products, €35.00; Developer runs out first, about 20 April."
    )
    assert order(HELD | {"packs": 1}, of_all={"packs": 1}, cover_weeks=2.5).startswith(
        "To last 2.5 weeks, order 1 pack of 1 product, €27"
    )
    assert order(HELD | {"runs_out_on": TODAY}).endswith("Umber 6 may be used up already.")
    assert order(HELD | {"runs_out_on": date(2027, 1, 5)}).endswith("about 5 January 2027.")


def test_nothing_to_order_and_too_little_known() -> None:
    unknown = HELD | {"product_id": "TINT", "packs": None, "order_cost": None}
    assert order(HELD | {"packs": 0}) == "What is there lasts for 4 weeks and a delivery: nothing needs ordering now."
    some = {"products": 2, "unknown_products": 1}
    assert order(HELD, unknown, of_all=some).endswith("; of 1 product too little is known.")
    assert order(unknown, of_all={"unknown_products": 1}).startswith("What is on the shelf is not known")
    assert order(of_all={"products": 0}) == "There is no product in use, so there is nothing to order."


def test_what_expires_unused() -> None:
    old = HELD | {"expires_on": date(2026, 3, 20), "expiring_g": 120.0, "expiring_cost": "19.20"}
    soon = old | {"product_id": "DEV", "product": "Developer", "expires_on": date(2026, 5, 1)}
    assert of_stock.expiry_sentence(frame("reorder", HELD, soon, old), shelf(expiring_cost="38.40"), SALON, TODAY) == (
        "At this use €38.40 of product expires before it is used: Umber 6 (120 g, expired on 20 March 2026) and "
        "Developer (120 g, from 1 May 2026)."
    )
    assert of_stock.expiry_sentence(frame("reorder", HELD), shelf(), SALON, TODAY) == ""


def test_slow_lines_and_what_they_tie_up() -> None:
    oil = HELD | {"product_id": "OIL", "product": "Oil", "kind": "retail", "closing_value": "70", "slow": True}
    brush = oil | {"product_id": "BRUSH", "product": "Brush", "closing_value": "20"}
    quick = oil | {"product_id": "SHAM", "slow": False}
    both = shelf(retail_products=3, slow_products=2, slow_value="90")
    told = of_stock.slow_sentence(frame("reorder", HELD, brush, oil, quick), both, SALON)
    assert told == (
        "2 retail lines lie longer than half a year as sold now and tie up €90.00: Oil (€70.00) and Brush (€20.00)."
    )
    assert of_stock.slow_sentence(frame("reorder", quick), shelf(retail_products=1), SALON).startswith("No retail line")
    assert of_stock.slow_sentence(frame("reorder", HELD), shelf(), SALON) == ""


SHAM = {
    "month": "2026-03", "product_id": "SHAM", "product": "Shampoo", "units": 3, "net": "30", "gross": "36.30",
    "cost": "16", "margin": "14", "margin_share": 14 / 30, "visits": 40, "visits_with_sale": 3, "month_units": 3,
    "month_net": "30", "month_margin": "14", "month_margin_share": 14 / 30, "sale_share": 0.075,
}  # fmt: skip
MONTH = {
    "month": "2026-03", "figure": "retail_net", "value": "30", "unit": "EUR", "usual_low": "10", "usual_high": "20",
    "part_month": False, "judged": True, "flag": "above",
}  # fmt: skip


def retail(row: dict[str, Any] | None = SHAM, **month: Any) -> str:
    rows = [] if row is None else [row]
    return of_retail.retail_sentence(frame("retail", *rows), frame("month", MONTH | month), SALON, "2026-03")


def test_what_retail_brought_whether_that_is_news_and_in_how_many_visits() -> None:
    assert retail() == (
        "March 2026 brought €30.00 net from 3 pieces of retail, above its usual €10–€20: that is news; €14.00 of it "
        "(47%) is left after what it cost; 7.5% of 40 visits had a sale."
    )


def test_what_retail_does_not_know_it_does_not_say() -> None:
    bare = SHAM | {"month_units": 1, "month_margin": None, "month_margin_share": None, "sale_share": None}
    assert retail(bare, usual_low=None, usual_high=None, judged=False) == (
        "March 2026 brought €30.00 net from 1 piece of retail; there are too few months before it to say what is usual."
    )
    assert retail(part_month=True).startswith("So far March 2026 brought €30.00 net from 3 pieces of retail; €14.00")
    assert retail(None) == "Nothing was sold over the counter in March 2026."


def seller(stylist: str, share: float, differs: bool, like: float = 0.2) -> dict[str, Any]:
    return {"stylist": stylist, "visits": 600, "share": share, "like_share": like, "differs": differs}


def test_who_sells_beyond_chance_is_counted_and_not_named() -> None:
    rows = frame(
        "retail_year_by_stylist", seller("Mila", 0.4, True), seller("Noor", 0.18, False), seller("Odile", 0.1, True)
    )
    told = of_retail.stylists_sentence(rows, SALON)
    assert told == (
        "Over twelve months, beyond what chance would do: 1 stylist sells in more visits than the salon on like visits "
        "and 1 in fewer; the shares stand below."
    )
    assert not any(name in told for name in ("Mila", "Odile"))
    assert of_retail.stylists(rows)["stylist"].to_list() == ["Mila", "Noor", "Odile"]
    only_more = of_retail.stylists_sentence(rows.head(2), SALON)
    assert only_more.endswith("1 stylist sells in more visits than the salon on like visits; the shares stand below.")
    assert "no stylist sells so much more" in of_retail.stylists_sentence(rows.filter(stylist="Noor"), SALON)
    assert of_retail.stylists_sentence(rows.clear(), SALON) == ""


def test_stock_opens_with_what_to_order_or_else_with_what_is_known_of_the_shelf() -> None:
    nothing = of_stock.opening_sentence(frame("reorder"), frame("shelf"), frame("stock"), settings(), TODAY)
    assert nothing == of_stock.stock_sentence(frame("shelf"), settings())
    row = {"products": 3, "unknown_products": 3}
    unknown = of_stock.opening_sentence(frame("reorder"), shelf(**row), frame("stock", {}), settings(), TODAY)
    assert unknown == of_stock.stock_sentence(shelf(**row), settings())
    row = {"products": 3, "unknown_products": 0}
    known = of_stock.opening_sentence(frame("reorder"), shelf(**row), frame("stock", {}), settings(), TODAY)
    assert known == of_stock.order_sentence(frame("reorder"), shelf(**row), settings(), TODAY)
    assert of_stock.more_to_order(1, settings()) == "1 more product to order"
