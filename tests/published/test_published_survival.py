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
