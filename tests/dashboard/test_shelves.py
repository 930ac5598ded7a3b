"""Stock and retail as bars: what stands on them, and what is left unsaid."""

from datetime import date
from decimal import Decimal

from frames import settings

from dashboard.parts import stock_bars

SALON = settings()


def test_unseen_has_its_unaccounted_end() -> None:
    row = {
        "product": "Umber", "unexplained_cost": Decimal(9), "unexplained_packs": 1.0, "unexplained_g": 60,
        "unlogged_g": 40.0, "unaccounted_cost": Decimal(3),
    }  # fmt: skip
    bar = stock_bars.unseen_bars([row], SALON)[0]
    assert (bar.amount, bar.length, bar.wants) == ("€9.00 · 1.0 pack", 9.0, 3.0)
    assert bar.more == "60 g missing; bowls nobody logged would be about 40 g"
    retail = stock_bars.unseen_bars([row | {"unlogged_g": None, "unexplained_packs": 12.4}], SALON)[0]
    assert (retail.amount, retail.more) == ("€9.00 · 12 packs", "60 g missing")


def test_an_order_says_how_long_what_is_there_lasts() -> None:
    row = {
        "product": "Umber", "kind": "colour", "packs": 1, "order_cost": Decimal(9), "likely_g": 60.0, "weekly_g": 30.0,
        "runs_out_on": date(2026, 5, 9),
    }  # fmt: skip
    bar = stock_bars.order_bars([row], SALON)[0]
    assert (bar.amount, bar.more) == ("1 pack · €9.00", "about 60 g there, 30 g a week, enough until about 9 May")
    assert stock_bars.order_bars([row | {"kind": "retail", "packs": 7}], SALON)[0].amount == "7 pieces · €9.00"
    assert stock_bars.order_bars([row | {"likely_g": 0.0}], SALON)[0].more == "about 0 g there, 30 g a week"


def test_retail_whose_cost_is_not_known_has_no_margin() -> None:
    row = {"product": "Oil", "net": Decimal(30), "units": Decimal(2), "margin": Decimal(15), "margin_share": 0.5}
    bar = stock_bars.retail_bars([row], SALON)[0]
    assert (bar.amount, bar.more) == ("€30.00 · 2 pieces", "€15.00 (50%) is left after cost")
    assert stock_bars.retail_bars([row | {"margin": None, "margin_share": None}], SALON)[0].more == ""


def test_a_stylist_stands_beside_like_visits() -> None:
    row = {
        "stylist": "Mila", "share": 0.2, "visits": 50, "visits_with_sale": 10, "share_low": 0.11, "share_high": 0.33,
        "like_share": 0.18,
    }  # fmt: skip
    bar = stock_bars.stylist_bars([row], SALON)[0]
    assert bar.more == "10 of 50 visits, so 11%–33% in the long run; the salon on like visits 18%"
