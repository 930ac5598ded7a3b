"""What the month brought, line by line, and why it changed, in words."""

from decimal import Decimal
from typing import Any

import polars as pl
import pytest
from said_of import PLAIN, frame, measure, settings_of

from analytics import sentences
from analytics.catalogue import result

VISITS = measure("visits", "294", "visits")


def test_a_month_inside_its_usual_range_is_no_news():
    net = measure(
        "net_revenue", "26954.60", previous="29061.04", year_ago="25877", usual_low="18945.2", usual_high="31855.9",
        expected="25400",
    )  # fmt: skip
    assert sentences.month_sentence(frame("month", net, VISITS), PLAIN, "2026-10") == (
        "October 2026 brought €26,955 net, inside its usual €18,945–€31,856. "
        "About €25,400 was to be expected. That is €2,106 less than in September and €1,078 more than a year before."
    )


def verdict(left: str, **more: Any) -> str:
    """October with 26,955 net, 17,500 of costs and 862 of product, and what is left of it."""
    rows = [
        measure("net_revenue", "26955"), VISITS, measure("open_cost", "17500"), measure("product_cost", "862"),
        measure("left_after_costs", left, **more),
    ]  # fmt: skip
    return sentences.month_sentence(frame("month", *rows), PLAIN, "2026-10")


def test_where_costs_are_set_the_month_is_told_by_what_is_left():
    usual = {"usual_low": "5423", "usual_high": "11980"}
    start = "October 2026 brought €26,955 net. Being open cost €17,500 and product €862: "
    assert verdict("8593", **usual, from_expected="128") == (
        f"{start}€8,593 is left, €128 more than was to be expected, which is not unusual."
    )
    assert verdict("5000", **usual, from_expected="-3465", months_before=5) == (
        f"{start}€5,000 is left, €3,465 less than was to be expected, which is unusual: it is €5,423–€11,980 (wide, as "
        "only 5 months lie before it)."
    )
    assert verdict("8593") == (
        f"{start}€8,593 is left; there are too few months before it to say what was to be expected."
    )
    assert "€1,200 more than came in" in verdict("-1200")
    assert "€1,200 more than came in, €300 worse than was" in verdict(
        "-1200", usual_low="-2000", usual_high="500", from_expected="-300"
    )
    running = frame("month", *[
        measure(name, value, unit, part_month=True)
        for name, value, unit in (
            ("net_revenue", "9000", "EUR"), ("visits", "100", "visits"), ("open_cost", "6000", "EUR"),
            ("product_cost", "0", "EUR"), ("left_after_costs", "3000", "EUR"),
        )
    ])  # fmt: skip
    assert sentences.month_sentence(running, PLAIN, "2026-10") == (
        "So far October 2026 has brought €9,000 net from 100 visits. Being open cost €6,000 on these days: €3,000 is "
        "left. The month is not over, so it is not judged yet."
    )


def test_where_costs_were_never_set_the_page_asks_for_them_first():
    rows = frame("month", measure("net_revenue", "800.50"), VISITS, measure("left_after_costs", None))
    opening = sentences.verdict(rows, PLAIN, "2026-10")
    assert opening.startswith("What is left can be said once you set what a month of being open costs")
    assert "October 2026 brought €800.50 net" in opening
    set_now = settings_of("[costs]\nper_month = 100")
    assert sentences.verdict(rows, set_now, "2026-10").startswith("October 2026 brought €800.50 net")


def test_what_no_shows_would_have_brought():
    rows = [
        measure("no_show_net", "412", expected="380"), measure("no_show_share", "0.02", "share"),
        measure("no_show_empty_hours", "10", "h"), measure("cancelled_empty_hours", "26", "h"),
    ]  # fmt: skip
    assert sentences.lost_sentence(frame("month", *rows), PLAIN, "2026-10") == (
        "No-shows, 2.0% of the visits due, would have brought €412.00 net, where €380 was to be expected. They left "
        "10.0 h of the chairs empty, and cancellations 26.0 h, in which nobody else came."
    )
    assert sentences.lost_title(frame("month", *rows), PLAIN, "2026-10") == "What no-shows lost: €412"
    assert sentences.lost_sentence(frame("month"), PLAIN, "2026-10") == ""


def effect(group: str, amount: str, compared_with: str = "expected") -> dict[str, Any]:
    about = {"month": "2026-10", "compared_with": compared_with, "group": group}
    return about | {"effect": Decimal(amount), "net_change": Decimal(157)}


def test_three_causes_are_told_with_their_amounts_and_where_to_go_on():
    told = [effect("due", "-801"), effect("came", "1031"), effect("prices", "-6"), effect("retail", "-256")]
    rows = frame("clientele", *told)
    causes = sentences.causes(rows, PLAIN, "2026-10")
    assert [(step.name, step.amount) for step in causes] == [
        ("A larger part of the clients due came", 1031),
        ("Fewer clients were due", -801),
        ("Retail brought less", -256),
    ]
    assert sentences.causes_head(rows, PLAIN, "2026-10") == "€157 more came in than was to be expected: what did most"
    assert sentences.next_page(rows, "2026-10")[0] == "roots"
    assert sentences.next_page(frame("clientele", effect("retail", "-5"), effect("due", "9")), "2026-10")[0] == "stock"
    assert sentences.next_page(frame("clientele", effect("due", "9")), "2026-10") == sentences.FULL
    before = frame("clientele", effect("everybody", "5", "previous"))
    assert sentences.causes_head(before, PLAIN, "2026-10").startswith("€157 more came in than in September")
    assert sentences.causes(frame("clientele"), PLAIN, "2026-10") == [] and not sentences.causes_head(
        frame("clientele"), PLAIN, "2026-10"
    )


def test_a_month_outside_its_usual_range_is_news():
    low = measure("net_revenue", "15000", usual_low="19400", usual_high="24100")
    assert sentences.month_sentence(frame("month", low, VISITS), PLAIN, "2026-10") == (
        "October 2026 brought €15,000 net, below its usual €19,400–€24,100: that is news."
    )


def test_without_months_before_nothing_is_called_usual():
    net = measure("net_revenue", "800.50", previous="800.20")
    assert sentences.month_sentence(frame("month", net, VISITS), PLAIN, "2026-10") == (
        "October 2026 brought €800.50 net; there are too few months before it to say what is usual. "
        "That is about the same as in September."
    )


def test_what_has_lasted_is_news_and_few_months_are_said():
    row = measure("visits", "294", "visits", usual_low="194", usual_high="359", one_side="below", drift="-2.5")
    row |= {"months_one_side": 9, "months_before": 30}
    lasting = "below what was to be expected for 9 months in a row and falling for a year, by about 2.5 visits a month"
    assert sentences.outside_sentence(frame("month", row), PLAIN, "2026-10") == (
        f"Outside what is usual: visits 294 visits ({lasting})."
    )
    line = sentences.statement_line(dict.fromkeys(result("month").columns) | row, PLAIN, "2026-10")
    assert line.news and line.sentence.startswith("Usual 194–359 visits; below what was to be expected for 9 months")
    young = measure("net_revenue", "800", usual_low="500", usual_high="1400", months_before=5)
    assert sentences.month_sentence(frame("month", young, VISITS), PLAIN, "2026-10") == (
        "October 2026 brought €800.00 net, inside its usual €500–€1,400 (wide, as only 5 months lie before it)."
    )


def test_a_part_month_is_not_judged():
    net = measure("net_revenue", "12300", usual_low="19400", usual_high="24100", previous="20000", part_month=True)
    assert sentences.month_sentence(frame("month", net, VISITS), PLAIN, "2026-10") == (
        "So far October 2026 has brought €12,300 net from 294 visits; the month is not over, so it is not judged yet."
    )


def test_an_empty_month_and_a_month_outside_the_book():
    nothing = frame("month", measure("net_revenue", "0"), measure("visits", "0", "visits"))
    assert sentences.month_sentence(nothing, PLAIN, "2026-10") == (
        "Nothing was charged in October 2026: the records hold no visit that happened."
    )
    assert sentences.month_sentence(frame("month"), PLAIN, "2026-10") == (
        "The records hold nothing for October 2026; choose another month, or load its exports."
    )


def test_what_is_outside_its_usual_range_is_named():
    rows = frame(
        "month",
        measure("retail_share", "0.033", "share", usual_low="0.038", usual_high="0.061"),
        measure("visits", "294", "visits", usual_low="194", usual_high="359"),
    )
    assert sentences.outside_sentence(rows, PLAIN, "2026-10") == (
        "Outside what is usual: retail share of net revenue 3.3% (below its usual 3.8%–6.1%)."
    )
    assert sentences.outside_sentence(pl.concat([rows.tail(1)] * 2), PLAIN, "2026-10") == (
        "All 2 figures with a usual range are inside it."
    )
    assert sentences.outside_sentence(frame("month"), PLAIN, "2026-10") == ""


def test_each_figure_stands_with_what_it_was_and_what_is_usual():
    row = measure("net_per_chair_hour", "54.35", "EUR/h", previous="55.02", usual_low="52.82", usual_high="55.19")
    assert sentences.figure_lines(frame("month", row), PLAIN, "2026-10") == [
        {
            "figure": "Net per chair hour",
            "value": "€54.35 an hour",
            "previous": "€55.02 an hour",
            "year_ago": "–",
            "expected": "–",
            "usual": "€52.82–€55.19 an hour",
            "standing": "usual",
        }
    ]


def test_a_line_of_the_statement_says_what_it_was_and_what_is_usual():
    row = measure("visits", "294", "visits", previous="306", year_ago="277", usual_low="194", usual_high="359")
    line = sentences.statement_line(dict.fromkeys(result("month").columns) | row, PLAIN, "2026-10")
    assert (line.name, line.value, line.news) == ("Visits", "294 visits", False)
    assert line.sentence == (
        "12 fewer than in September (306 visits), 17 more than a year before (277 visits); usual 194–359 visits."
    )


@pytest.mark.parametrize(
    ("row", "sentence"),
    [
        (
            measure("retail_share", "0.033", "share", previous="0.047", usual_low="0.038", usual_high="0.061"),
            "1.4 points less than in September (4.7%); below its usual 3.8%–6.1%, which is news.",
        ),
        (measure("tips", "12.50", previous="10"), "€2.50 more than in September (€10.00)."),
        (measure("tips", "12.50", year_ago="12.50"), "The same as a year before (€12.50)."),
        (
            measure(
                "visits", "9", "visits", previous="10", year_ago="8", usual_low="1", usual_high="2", part_month=True
            ),
            "1 fewer than in the same days of September (10 visits), "
            "1 more than in the same days a year before (8 visits).",
        ),
        (measure("chair_hours", "479", "h"), "There is nothing yet to hold it against."),
        (measure("average_visit", None), "There is nothing to work it out from."),
    ],
)
def test_every_line_of_the_statement_has_its_sentence(row: dict[str, Any], sentence: str):
    whole = dict.fromkeys(result("month").columns) | row
    assert sentences.statement_line(whole, PLAIN, "2026-10").sentence == sentence


def test_the_statement_has_every_figure_once_in_groups():
    from analytics.figures.month import UNITS

    rows = frame("month", *[measure(figure, "1", "visits") for figure in [*UNITS, "a_new_one"]])
    groups = sentences.statement(rows, PLAIN, "2026-10")
    assert list(groups)[-1] == "More" and [line.figure for line in groups["More"]] == ["a_new_one"]
    assert sorted(line.figure for lines in groups.values() for line in lines) == sorted([*UNITS, "a_new_one"])
    first = [row["figure"] for row in sentences.first_figures(rows, "2026-10")]
    assert first == ["net_revenue", "visits", "average_visit", "net_per_chair_hour", "occupied_share"]
