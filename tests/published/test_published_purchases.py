"""Who buys again, on a log of purchases that nobody here made: 39 weeks to fit, 39 to hold out.

CDNOW, the sample that lifetimes (MIT) carries: 2,357 customers whose first purchase was early in 1997 (Fader, Hardie,
Lee 2005, Marketing Science 24:275–284). What it is held against was measured with the models of lifetimes 0.11.3 on the
same customers and weeks: MBG/NBD's Brier score .161, logarithmic score .505 and relative error of purchases .958.
"""

from datetime import date, timedelta
from functools import cache
from importlib.metadata import files

import numpy as np
import polars as pl
import pytest

from analytics.records.clients.rhythm import habits

TODAY, HELD_OUT = date(1997, 9, 30), 273
MBG_BRIER, MBG_LOG, MBG_ERROR = 0.161, 0.505, 0.958
CLIENT = ["site", "client_id"]


@cache
def customers() -> pl.DataFrame:
    """One row per customer: what was said at the end of 39 weeks, and what came in the 39 after them."""
    sample = next(file for file in files("lifetimes") or [] if file.name == "CDNOW_sample.txt")
    words = [line.split() for line in sample.read_text(encoding="utf-8").splitlines()]
    day = pl.col("day")
    bought = (
        pl.DataFrame({"client_id": [word[1] for word in words], "day": [word[2] for word in words]})
        .select("client_id", day.str.to_date("%Y%m%d"), site=pl.lit(""), kind=pl.lit("all"))
        .unique()
        .sort("client_id", "day")
    )
    later = bought.filter((day > TODAY) & (day <= TODAY + timedelta(days=HELD_OUT)))
    said = habits(bought.filter(day <= TODAY), TODAY)
    return (
        said.clients.with_columns(chance=pl.Series(said.within(HELD_OUT)), visits=said.visits_within(HELD_OUT))
        .join(said.expected(), on=CLIENT)
        .join(later.group_by(CLIENT).agg(came_on=day.min(), came=pl.len()), on=CLIENT, how="left")
        .with_columns(pl.col("came").fill_null(0))
    )


def test_who_buys_again_is_told_as_well_as_by_the_models_of_the_field() -> None:
    chance, came = customers()["chance"].to_numpy(), customers()["came_on"].is_not_null().to_numpy()
    brier = float(((chance - came) ** 2).mean())
    log = float(-np.log(np.where(came, chance, 1 - chance)).mean())
    assert (len(came), came.sum()) == (2357, 684)
    assert brier <= 1.02 * MBG_BRIER
    assert log <= 1.02 * MBG_LOG


def test_how_often_they_buy_is_told_as_well() -> None:
    """Measured .956. On two other tenths of the log, on which nothing was chosen, .913 and .946 (MBG/NBD .915, .951).

    The sum is a sixth too low, as it is with MBG/NBD.
    """
    visits, came = customers()["visits"], customers()["came"]
    assert (visits - came).abs().sum() / came.sum() <= MBG_ERROR
    assert visits.sum() / came.sum() == pytest.approx(0.839, abs=0.01)


def test_who_bought_once_is_mostly_gone() -> None:
    """137 in 1,000 of those who bought once came again; 590 in 1,000 would be said of clients of long gaps."""
    once = customers().filter(pl.col("gaps") == 0)
    assert once["came_on"].is_not_null().mean() == pytest.approx(0.137, abs=0.001)
    assert once["chance"].mean() == pytest.approx(0.137, abs=0.02)


def test_eighty_percent_ranges_hold_as_much() -> None:
    back = customers().drop_nulls("came_on")
    inside = back["came_on"].is_between(back["expected_low_on"], back["expected_high_on"]).mean()
    assert 0.76 <= inside <= 0.84  # type: ignore[operator]
