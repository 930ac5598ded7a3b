"""The coming weeks in words: each answer written by hand."""

from datetime import date, timedelta
from typing import Any

import polars as pl

from analytics.records.clients.week_standing import with_standing
from analytics.sentences import ahead as said
from analytics.settings import parse_settings

SALON = parse_settings('[salon]\nname = "S"')
TODAY = date(2026, 11, 3)
MONDAY = date(2026, 11, 2)


def week(number: int, expected: float, high: float, opened: float = 100.0, booked: float = 20.0) -> dict[str, Any]:
    return {
        "week_start": MONDAY + timedelta(weeks=number),
        "clients_expected": expected / 2,
        "chair_hours_expected": expected,
        "chair_hours_low": expected * 0.8,
        "chair_hours_high": high,
        "chair_hours_wanted_low": expected * 0.8,
        "chair_hours_booked": booked,
        "chair_hours_open": opened,
        "chair_hours_year_ago": 90.0,
    }


def weeks(*rows: dict[str, Any]) -> pl.DataFrame:
    return with_standing(pl.DataFrame(rows, infer_schema_length=None))


def line(row: dict[str, Any]) -> str:
    return said.week_line(weeks(row).row(0, named=True), SALON)


def test_the_weeks_that_overflow_and_those_with_room_are_named() -> None:
    rows = [week(0, 80, 90), week(1, 130, 140), week(2, 60, 70), week(3, 60, 70), week(4, 0, 0, opened=0, booked=0)]
    assert said.ahead_sentence(weeks(*rows), SALON, TODAY) == (
        "About 165 visits are expected in this week and the 4 after it: the week of 9–15 November is likely "
        "to overflow; the weeks of 16–22 November and 23–29 November have room."
    )


def test_many_weeks_are_counted_and_the_emptiest_named() -> None:
    rows = [week(number, 50 - number, 60 - number) for number in range(4)]
    assert said.ahead_sentence(weeks(*rows), SALON, TODAY) == (
        "About 97 visits are expected in this week and the 3 after it: no week is likely to overflow; "
        "4 weeks have room, the emptiest 23–29 November."
    )


def test_more_booked_than_is_open_is_no_overflow_but_something_to_look_at() -> None:
    rows = [week(0, 80, 90, booked=104), week(1, 80, 90)]
    assert said.ahead_sentence(weeks(*rows), SALON, TODAY).endswith(
        ": no week is likely to overflow; the week of 2–8 November has more booked than is open: look at the diary."
    )


NONE = dict.fromkeys(("chair_hours_low", "chair_hours_high", "chair_hours_wanted_low", "chair_hours_year_ago"))


def test_a_book_of_less_than_a_year_says_so() -> None:
    young = weeks(week(0, 80, 90) | {"chair_hours_year_ago": None}, week(1, 80, 90) | NONE)
    assert said.ahead_sentence(young, SALON, TODAY).endswith(f"has room. {said.YOUNG}")


def test_why_there_is_no_range_is_said() -> None:
    assert said.ahead_sentence(weeks(week(0, 20, 20) | NONE), SALON, TODAY) == said.NO_RANGE


def test_nobody_expected_is_said() -> None:
    nobody = weeks(week(0, 0, 0, booked=0))
    assert said.ahead_sentence(nobody, SALON, TODAY) == "Nobody is expected or booked in the coming weeks."


def test_a_week_in_numbers() -> None:
    plain = "40 visits, 64–90 h likely · 20.0 h booked · 100 h open"
    assert line(week(0, 80, 90)) == f"{plain} · 90.0 h a year before"
    assert line(week(0, 80, 90) | {"chair_hours_year_ago": None}) == plain
    assert line(week(0, 80, 90) | NONE) == "40 visits, no range · 20.0 h booked · 100 h open"
    assert line(week(0, 0, 0, opened=0, booked=0)) == "closed"


def tried(**rules: float) -> pl.DataFrame:
    rows = [{"method": method, "mean_error_hours": hours, "share_inside": None} for method, hours in rules.items()]
    ours = {"method": "ahead", "mean_error_hours": 9.2, "share_inside": 0.78}
    return pl.DataFrame([ours, *rows]).with_columns(group=pl.lit("weeks_2_to_12"), n=pl.lit(118))


def test_how_far_off_the_weeks_were_and_the_rules() -> None:
    assert said.tried_sentence(tried(same_week_last_year=13.2, last_12_weeks=17.7), SALON) == (
        "Tried at the month ends of the past year, weeks 2 to 12 were 9.2 h off on average; the same week a year "
        "before, with growth, 13.2 h and the mean of the last 12 weeks 17.7 h. 78% of them came within their range, "
        "where 80% are meant."
    )


def test_a_rule_that_did_better_is_named_and_a_young_book_says_so() -> None:
    better = said.tried_sentence(tried(last_12_weeks=8.0), SALON)
    assert better.endswith("where 80% are meant. The mean of the last 12 weeks did better than ours.")
    assert said.tried_sentence(tried().with_columns(n=pl.lit(19)), SALON).startswith("The records do not hold enough")
    assert said.tried_sentence(tried().clear(), SALON).startswith("The records do not hold enough")
