"""Kaplan–Meier against the 42 patients of Freireich and against lifelines."""

import polars as pl
import pytest
from lifelines import KaplanMeierFitter
from lifelines.datasets import load_leukemia

from analytics.methods.survival import Waiting, kaplan_meier

# Freireich et al. 1963, Blood 21:699–716: weeks of remission, as in lifelines.datasets.load_leukemia (Rx 1: placebo).
TREATED, PLACEBO = 0, 1


def patients(group: int) -> tuple[list[float], list[bool]]:
    data = load_leukemia()
    rows = data[data["Rx"] == group]
    return [float(week) for week in rows["t"]], [bool(status) for status in rows["status"]]


def curve(group: int) -> Waiting:
    weeks, relapsed = patients(group)
    return kaplan_meier(pl.Series(weeks), pl.Series(relapsed))


def test_there_are_42_patients() -> None:
    assert len(patients(TREATED)[0]) == len(patients(PLACEBO)[0]) == 21


def test_published_shares_of_the_treated() -> None:
    weeks = (6, 7, 10, 13, 16, 22, 23)
    shares = (0.8571, 0.8067, 0.7529, 0.6902, 0.6275, 0.5378, 0.4482)
    assert curve(TREATED).days == weeks
    assert curve(TREATED).share == pytest.approx(shares, abs=5e-5)


def test_published_medians() -> None:
    assert (curve(TREATED).median, curve(PLACEBO).median) == (23, 8)


@pytest.mark.parametrize("group", [TREATED, PLACEBO])
def test_equals_lifelines(group: int) -> None:
    weeks, relapsed = patients(group)
    reference = KaplanMeierFitter().fit(weeks, relapsed)
    for week in range(36):
        assert curve(group).at(week) == pytest.approx(float(reference.predict(week)), abs=1e-12)


@pytest.mark.parametrize("group", [TREATED, PLACEBO])
def test_the_band_equals_lifelines(group: int) -> None:
    """Greenwood on the scale log(−log share), 95 %; lifelines writes 0 where everybody relapsed, we write nothing."""
    weeks, relapsed = patients(group)
    reference = KaplanMeierFitter(alpha=0.05).fit(weeks, relapsed).confidence_interval_
    for week in range(6 if group == TREATED else 1, 36):
        low, high = reference.loc[:week].iloc[-1]
        share, ended_low, ended_high = curve(group).ended(week)
        if share == 1:
            assert (ended_low, ended_high) == (None, None)
        else:
            assert (ended_low, ended_high) == pytest.approx((1 - high, 1 - low), abs=1e-9)


def test_beyond_the_longest_wait_nothing_is_known_unless_nobody_waits() -> None:
    assert curve(TREATED).ended(35)[0] == pytest.approx(1 - 0.4482, abs=5e-5)
    assert curve(TREATED).ended(36) == (None, None, None)
    assert curve(PLACEBO).ended(99) == (1, None, None)
