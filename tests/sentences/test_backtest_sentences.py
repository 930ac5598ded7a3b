"""How far the dates can be trusted, in words: each answer written by hand."""

from typing import Any

import polars as pl
import pytest

from analytics.sentences.backtest import backtest_sentence, chance_sentence
from analytics.settings import parse_settings

SALON = parse_settings('[salon]\nname = "S"')


def backtest(habit: dict[str, Any], **rules: dict[str, Any]) -> pl.DataFrame:
    usual = {"n": 240, "share_inside": None, "brier_gain": None, "n_brier": 300}
    rows = {
        "habit": {"median_error_days": 5.2, "mean_error_days": 9.0, "share_inside": 0.81, "brier_gain": 0.7} | habit,
        "six_weeks": {"median_error_days": 12.0, "mean_error_days": 19.0},
        "kind_average": {"median_error_days": 9.0, "mean_error_days": 12.0},
        "own_median": {"median_error_days": 6.0, "mean_error_days": 9.5} | rules.get("own_median", {}),
    }
    return pl.DataFrame([{"group": "all", "method": name} | usual | row for name, row in rows.items()])


def test_the_sentence_holds_the_range_the_error_and_the_rule() -> None:
    assert backtest_sentence(backtest({}), SALON) == (
        "In the last twelve months 8 of 10 clients came within their range; typically 5 days off; "
        "the six-week rule is 12 off."
    )


@pytest.mark.parametrize("better", [{"median_error_days": 4.0}, {"mean_error_days": 8.5}])
def test_a_rule_that_does_better_is_named(better: dict[str, float]) -> None:
    days = {"median_error_days": 6.0, "mean_error_days": 9.5} | better
    said = backtest_sentence(backtest({}, own_median=better), SALON)
    assert said.endswith(
        "the six-week rule is 12 off, but each client's own median gap "
        f"(typically {days['median_error_days']:.0f} days, "
        f"{days['mean_error_days']} days on average) does better than ours (9.0 days on average)."
    )


@pytest.mark.parametrize(("share", "word"), [(0.65, "narrow"), (0.93, "wide")])
def test_ranges_that_miss_what_is_meant_are_said_to(share: float, word: str) -> None:
    assert f"so the ranges are too {word})" in backtest_sentence(backtest({"share_inside": share}), SALON)


@pytest.mark.parametrize(
    ("known", "said"), [(20, " For clients with at most two gaps so far it was typically 11 days."), (19, "")]
)
def test_those_of_whom_least_is_known_are_told_apart(known: int, said: str) -> None:
    few = backtest({"n": known, "median_error_days": 11.2}).with_columns(group=pl.lit("at_most_two_gaps"))
    both = pl.concat([backtest({}), few])
    assert backtest_sentence(both, SALON) == backtest_sentence(backtest({}), SALON) + said


def test_too_little_is_said() -> None:
    for frame in (backtest({"n": 19}), backtest({}).clear()):
        assert backtest_sentence(frame, SALON).startswith("There is not enough on record yet")
        assert "came within their range" not in backtest_sentence(frame, SALON)


def test_the_chance_against_the_plain_share() -> None:
    assert chance_sentence(backtest({}), SALON) == (
        "The chance to come within 90 days was 70% better than the plain share of clients who came (Brier score)."
    )
    assert "no better" in chance_sentence(backtest({"brier_gain": -0.05}), SALON)
    assert chance_sentence(backtest({}).clear(), SALON) == ""
