"""What the page of bowls says, each sentence written by hand."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest

from analytics.catalogue import result
from analytics.sentences import waste as said
from analytics.settings import parse_settings

PLAIN = parse_settings('[salon]\nname = "S"')
OCTOBER = {
    "month": "2026-10",
    "split": "all",
    "bowls": 40,
    "weighed_bowls": 30,
    "mixed_g": Decimal(4000),
    "mixed_cost": Decimal(400),
    "left_share": 0.25,
    "left_share_low": 0.22,
    "left_share_high": 0.28,
    "left_cost": Decimal("76.40"),
    "left_cost_likely": Decimal("100.00"),
    "left_cost_low": Decimal("92.10"),
    "left_cost_high": Decimal("108.20"),
    "colour_lines": 50,
    "colour_lines_logged": 40,
    "weighed_share": 0.75,
    "logged_share": 0.8,
    "usual_cost_low": 70.0,
    "usual_cost_high": 130.0,
    "part_month": False,
}
ADVICE = {
    "service_id": "ROOTS", "service": "Roots", "kind": "colour", "advised_mix_g": 35.0, "usual_mix_g": 45.0,
    "own_clients": 0, "saving_own_amounts": Decimal(0),
}  # fmt: skip


def rows(name: str, *given: dict[str, Any]) -> pl.DataFrame:
    schema = result(name).schema
    return pl.DataFrame([{column: row.get(column) for column in schema} for row in given], schema=schema)


def waste(**changed: Any) -> pl.DataFrame:
    return rows("waste", OCTOBER | changed)


LEFT = "In October 2026, about €100 of product was likely left in all bowls"
COVERED = "That is 25% of what was weighed, with 75% of the bowls weighed and 80% of colour services logged."


@pytest.mark.parametrize(
    ("changed", "wanted"),
    [
        (
            {},
            f"{LEFT}, inside its usual €70–€130. {COVERED}",
        ),
        (
            {"usual_cost_high": 90.0, "flag": "above"},
            f"{LEFT}, above its usual €70–€90: that is news. {COVERED}",
        ),
        (
            {"usual_cost_low": None},
            f"{LEFT}; there are too few months before it to say what is usual. {COVERED}",
        ),
        (
            {"part_month": True},
            f"So far in October 2026, about €100 of product was likely left in all bowls. {COVERED}",
        ),
        (
            {"left_cost_likely": None, "logged_share": None},
            "In October 2026, 25% of what was weighed was left in the bowls; its cost is not known, with 75% of the "
            "bowls weighed.",
        ),
        (
            {"weighed_bowls": 0, "weighed_share": 0.0},
            "October 2026: 4,000 g were mixed and no bowl was weighed afterwards, so what was left is not known, with "
            "0% of the bowls weighed and 80% of colour services logged.",
        ),
        ({"bowls": 0}, "No bowl was logged in October 2026, so nothing can be said about what was left over."),
    ],
)
def test_money_left_and_whether_it_is_news(changed: dict[str, Any], wanted: str) -> None:
    assert said.waste_sentence(waste(**changed), PLAIN, "2026-10") == wanted


def test_a_month_that_is_not_there_says_so() -> None:
    assert "No bowl was logged in May 2026" in said.waste_sentence(waste(), PLAIN, "2026-05")


def test_how_sure_it_is() -> None:
    assert said.range_sentence(waste(), PLAIN, "2026-10") == (
        "€76 was left in weighed bowls. Left in all bowls of the log was €92–€108 with a chance of 8 in 10, and for "
        "all colour work the share left is 22%–28%."
    )
    assert said.range_sentence(waste(left_cost_low=None), PLAIN, "2026-10") == ""


def test_the_three_largest_savings_in_money() -> None:
    """Roots: one amount saves 14, the own amounts of two clients 9, so the first is named. Gloss, with 2, is fourth."""
    mixing = rows(
        "mixing",
        ADVICE | {"saving_as_mixed": Decimal(14), "own_clients": 2, "saving_own_amounts": Decimal(9)},
        ADVICE | {"service_id": "FOILS", "service": "Foils", "kind": "lightener", "saving_as_mixed": Decimal(3)},
        ADVICE | {"service_id": "TONER", "service": "Toner", "saving_as_mixed": Decimal(-6)},
        ADVICE | {"service_id": "GLOSS", "service": "Gloss", "saving_as_mixed": Decimal(2)},
    )
    mila = {"split": "stylist", "item": "Mila", "left_share": 0.35, "saving_at_salon_share": Decimal(12)}
    month = rows("waste", OCTOBER | {"saving_at_salon_share": Decimal(12)}, OCTOBER | mila)
    told = said.savings_sentence(mixing, month, PLAIN, "2026-10")
    assert told == (
        "What could be saved in a month: €14 with 35 g instead of 45 g of colour for Roots, €12 by bringing everyone "
        "to the salon's 25% left in the bowl and €3 with 35 g instead of 45 g of lightener for Foils; they overlap, so "
        "they do not add up."
    )
    assert "Mila" not in told


def test_own_amounts_of_known_clients_where_they_save_more() -> None:
    own = {"saving_as_mixed": Decimal(-4), "own_clients": 2, "saving_own_amounts": Decimal(9)}
    assert said.savings_sentence(rows("mixing", ADVICE | own), waste(), PLAIN, "2026-10") == (
        "What could be saved in a month: €9 with an own amount for each of 2 clients in Roots."
    )


def test_no_saving_is_made_up() -> None:
    mixing = rows("mixing", ADVICE | {"saving_as_mixed": Decimal(-4)})
    found = said.savings_sentence(mixing, waste(), PLAIN, "2026-10")
    assert found.startswith("No saving stands out")


def test_what_has_no_amount_yet_is_named_with_the_reason() -> None:
    mixing = rows("mixing", ADVICE | {"advised_mix_g": None, "why": "an advice needs 8 weighed bowls, and there are 2"})
    assert "No amount yet for Roots (colour): an advice needs 8 weighed bowls" in said.mixing_sentence(mixing, PLAIN)
    assert "No amount" not in said.mixing_sentence(rows("mixing", ADVICE), PLAIN)


@pytest.mark.parametrize(
    "words",
    ["no instruction", "maker's instructions", "local rules", "broken skin", "earlier reaction", "not overlapped"],
)
def test_the_cautions_are_all_there(words: str) -> None:
    assert words in said.CAUTIONS


def test_only_amounts_that_save_against_by_eye_are_worth_showing():
    given = [
        ADVICE
        | {"service_id": name, "service": name.title(), "saving_as_mixed": None if saved is None else Decimal(saved)}
        for name, saved in (("A", "4"), ("B", "-3"), ("C", "9"), ("D", "0.2"), ("E", None))
    ]
    mixing = rows("mixing", *given, ADVICE | {"service_id": "F", "advised_mix_g": None, "saving_as_mixed": Decimal(7)})
    assert said.worth_changing(mixing)["service_id"].to_list() == ["C", "A"]
    assert said.by_eye_sentence(mixing) == ("By eye, as now, is cheaper than one amount for B (colour) and D (colour).")
    assert said.by_eye_sentence(mixing.head(1)) == ""
