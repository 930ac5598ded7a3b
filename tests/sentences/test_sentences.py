"""The sentences of the pages, each answer written by hand."""

from datetime import date
from decimal import Decimal
from typing import Any

import polars as pl
import pytest

from analytics import sentences, wording
from analytics.catalogue import result
from analytics.records.chairs.price_trial import tried_price
from analytics.settings import Settings, parse_settings


def settings_of(more: str = "", locale: str = "en_GB", currency: str = "EUR") -> Settings:
    return parse_settings(f'[salon]\nname = "S"\nlocale = "{locale}"\ncurrency = "{currency}"\n{more}')


PLAIN = settings_of()


def frame(name: str, *rows: dict[str, Any]) -> pl.DataFrame:
    """Rows of a result, with nothing under the columns not named."""
    schema = result(name).schema
    return pl.DataFrame([{column: row.get(column) for column in schema} for row in rows], schema=schema)


def measure(figure: str, value: str | None, unit: str = "EUR", **more: Any) -> dict[str, Any]:
    """A row of the figure `month` in October 2026, amounts as text; how far they are apart and judged as it has it."""
    amounts = {name: Decimal(text) for name, text in more.items() if isinstance(text, str) and name != "one_side"}
    part = bool(more.get("part_month", False))
    given = None if value is None else Decimal(value)
    apart = {f"from_{name}": given - amounts[name] for name in ("previous", "year_ago") if given and name in amounts}
    judged = {"part_month": part, "judged": not part and "usual_low" in amounts}
    if judged["judged"] and given is not None and not amounts["usual_low"] <= given <= amounts["usual_high"]:
        judged |= {"flag": "below" if given < amounts["usual_low"] else "above"}
    row = {"month": "2026-10", "figure": figure, "value": given, "unit": unit}
    return row | more | amounts | apart | judged


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
        "Nothing was charged in October 2026: the book holds no visit that happened."
    )
    assert sentences.month_sentence(frame("month"), PLAIN, "2026-10") == (
        "The book holds nothing for October 2026; choose another month, or load its exports."
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


def changed(service: str, before: tuple[int, int], now: tuple[int, int], **more: Any) -> dict[str, Any]:
    """A row of `changes` in October 2026: (quantity, net) before and now; without effects, all of it is price."""
    change = Decimal(now[1] - before[1])
    row = {"month": "2026-10", "compared_with": "previous", "service_id": service, "service": service, "kind": "cut"}
    row |= {"quantity": Decimal(now[0]), "quantity_before": Decimal(before[0]), "change": change}
    row |= {"net": Decimal(now[1]), "net_before": Decimal(before[1]), "price_effect": change}
    row |= {
        "net_each": now[1] / now[0] if now[0] else None,
        "net_each_before": before[1] / before[0] if before[0] else None,
    }
    return row | {"volume_effect": Decimal(0), "mix_effect": Decimal(0), "refund_effect": Decimal(0)} | more


CHANGES = frame(
    "changes",
    changed("Cut", (10, 400), (8, 340), price_effect=Decimal(20), volume_effect=Decimal(-50), mix_effect=Decimal(-30)),
    changed("Foils", (0, 0), (2, 250), price_effect=Decimal(0), mix_effect=Decimal(250)),
    changed("Curls", (1, 90), (0, 0), price_effect=Decimal(0), mix_effect=Decimal(-90)),
    changed("Toner", (5, 100), (5, 101)),
    changed("Retail", (4, 60), (1, 15), kind="retail", service_id=None),
)

CLIENTELE = frame(
    "clientele",
    *[
        {"month": "2026-10", "compared_with": "previous", "group": group}
        | {"number": now and Decimal(now), "number_before": then and Decimal(then), "effect": Decimal(effect)}
        | {"net_change": Decimal(56)}
        for group, now, then, effect in (
            ("open_days", "23.4", "24", -20), ("due", "120", "131", -60), ("came", "70", "71", 30),
            ("prices", None, None, 21), ("mix", None, None, 130), ("retail", None, None, -45),
        )
    ],
)  # fmt: skip


def test_the_bridge_adds_up_and_is_said():
    """−20 − 60 + 30 + 21 + 130 − 45 = 56."""
    steps = sentences.bridge(CLIENTELE, "2026-10", "previous", PLAIN)
    assert [(step.name, step.amount, step.more) for step in steps] == [
        ("Open days", -20, "23.4, then 24.0"), ("Clients due", -60, "120, then 131"),
        ("Of them came", 30, "70, then 71"), ("Prices and discounts", 21, ""), ("What was done", 130, ""),
        ("Retail", -45, ""),
    ]  # fmt: skip
    assert sum(step.amount for step in steps) == 56
    assert sentences.change_sentence(CLIENTELE, PLAIN, "2026-10") == (
        "Against September, net revenue is €56 more; the largest steps: what was done +€130, clients due −€60 and "
        "retail −€45."
    )
    part = sentences.change_sentence(CLIENTELE, PLAIN, "2026-10", part=True)
    assert part.startswith("Against the same days of September,")
    assert "in the same days of September." in sentences.movers(CHANGES, PLAIN, "2026-10", part=True)[0]


def test_days_cut_out_of_a_month_are_told_and_not_judged():
    net = measure("net_revenue", "14761", part_month=True)
    assert sentences.days_sentence(frame("month", net, VISITS), PLAIN, "2026-10", "1–17 October") == (
        "1–17 October brought €14,761 net from 294 visits; a part of a month is not judged."
    )
    assert sentences.days_sentence(frame("month"), PLAIN, "2026-10", "1–17 October").startswith(
        "The book holds nothing"
    )
    row = dict.fromkeys(result("month").columns) | net
    assert sentences.range_says(row, PLAIN) == "part of a month"
    held = row | {"usual_low": Decimal(12000), "usual_high": Decimal(19000)}
    assert sentences.range_says(held, PLAIN) == "usual for these days €12,000–€19,000"


def test_without_a_month_before_nothing_is_held_against():
    assert sentences.comparisons(CHANGES, "2026-10") == ["previous"]
    assert sentences.change_sentence(CLIENTELE, PLAIN, "2026-10", "year_ago") == sentences.NOTHING_BEFORE
    assert sentences.other_month("2026-10", "year_ago", PLAIN) == "October 2025"
    assert sentences.other_month("2026-01", "previous", PLAIN) == "December 2025"


def test_the_three_that_moved_most_are_told_from_their_numbers():
    assert sentences.movers(CHANGES, PLAIN, "2026-10") == [
        "Foils brought €250, done 2 times; it was not done in September.",
        "Curls was not done; €90 in September, done 1 time.",
        "Cut brought €60 less than in September: done 8 times against 10, at €42.50 each against €40.00.",
    ]
    retail = sentences.movers(CHANGES.filter(kind="retail"), PLAIN, "2026-10")
    assert retail == ["Retail brought €45 less than in September: sold 1 piece against 4, at €15.00 each then and now."]


def test_against_what_was_to_be_expected_it_is_said_so():
    rows = CHANGES.with_columns(compared_with=pl.lit("expected"))
    assert sentences.comparisons(rows, "2026-10") == ["expected"]
    who = CLIENTELE.with_columns(compared_with=pl.lit("expected"))
    assert sentences.change_sentence(who, PLAIN, "2026-10", "expected").startswith(
        "Against what was to be expected, net revenue is €56 more"
    )
    assert sentences.movers(rows, PLAIN, "2026-10", "expected") == [
        "Foils brought €250, done 2 times; none was to be expected.",
        "Curls was not done; €90 was to be expected, done 1 time.",
        "Cut brought €60 less than was to be expected: done 8 times against 10, at €42.50 each against €40.00.",
    ]


def priced(service: str, hour: float | None, **more: Any) -> dict[str, Any]:
    return {"service_id": service, "service": service, "after_product_per_chair_hour": hour} | more


def test_prices_are_held_against_the_cost_and_the_target():
    lines = {"cost_per_open_hour": 29.0, "target_per_chair_hour": 45.0, "clears_cost": True, "reaches_target": False}
    rows = frame(
        "prices",
        priced("Cut", 61.0, **lines | {"reaches_target": True}),
        priced("Curls", 20.5, **lines | {"clears_cost": False}),
        priced("Toner", 41.0, **lines),
    )
    assert sentences.prices_sentence(rows, PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, 1 of 3 services does not cover its own open time (€29.00 an open "
        "chair hour) and 2 of 3 services do not reach what you aim for (€45.00 a chair hour). "
        "Curls brings least for its time: €20.50 an hour, product paid."
    )
    assert sentences.lines_say(rows.row(0, named=True), PLAIN) == (
        "The line is the €29.00 an open chair hour costs, the dashed line the €45.00 you aim for."
    )


def test_prices_without_costs_or_without_time_are_said():
    assert sentences.prices_sentence(frame("prices", priced("Cut", 61.0)), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, salon.toml names no costs per month, so no service is compared with "
        "them. Cut brings least for its time: €61.00 an hour, product paid."
    )
    assert sentences.prices_sentence(frame("prices", priced("Mix", None)), PLAIN, "2026-10") == (
        "No service took a chair in the twelve months up to October 2026, so there is nothing to price."
    )
    cleared = frame("prices", priced("Cut", 61.0, cost_per_open_hour=20.0, clears_cost=True))
    assert "the one service covers its own open time (€20.00" in sentences.prices_sentence(cleared, PLAIN, "2026-10")


NOW = {
    "service_id": "ROOTS", "service": "Roots", "price": Decimal(60), "minutes_per_line": 80.0, "lines_per_month": 100.0,
    "net_per_line": 50.0, "product_cost_per_line": 5.0,
}  # fmt: skip
OTHERS = {"service_id": "CUT", "lines_per_month": 300.0, "net_per_line": 50.0}


def tried(price: float = 60, minutes: float = 80, away: float = 0) -> str:
    """100 times a month at 50 net and 5 of product."""
    trial = tried_price(frame("prices", NOW, OTHERS), "ROOTS", price, minutes, away)
    return sentences.trial_sentence(NOW, sentences.TriedPrice(price, minutes, away), trial, PLAIN)


def test_another_price_is_told_with_what_it_may_cost():
    """At 72, a fifth more: 60 net and 55 after product; 90 of 100 come: 4,950 against 4,500. 1 − 45/55 is 18.2 %."""
    assert tried(72, 70, 0.1) == (
        "At €72.00 in place of €60.00, in 70 minutes in place of 80, with 10% of its clients gone, a month of Roots "
        "leaves €4,950 net after product in place of €4,500: €450 more. "
        "It brings as much as now until 18% of these clients stay away."
    )


@pytest.mark.parametrize(
    ("asked", "ending"),
    [
        ((60, 80, 0), "leaves €4,500 net after product as it is; move a slider to try something else."),
        ((60, 80, 0.05), "€225 less. The price is as now, so not one client may be lost for it to bring as much."),
        ((48, 80, 0), "€1,000 less. It brings as much as now only with 29% more of these clients."),
        ((6, 80, 0), "€4,500 less. At that price a time leaves nothing after its product."),
        ((60, 70, 0), "in place of €4,500: the same. The price is as now, so not one client may be lost for it to "
         "bring as much."),
    ],
)  # fmt: skip
def test_a_trial_says_where_it_breaks_even(asked: tuple[float, float, float], ending: str):
    """48 leaves 35 after product: 45/35 − 1 is 28.6 % more clients."""
    assert tried(*asked).endswith(ending)


def test_a_trial_stands_beside_what_is_now():
    """Cuts bring 300 × 50 = 15,000 beside the 5,000 of roots."""
    trial = tried_price(frame("prices", NOW, OTHERS), "ROOTS", 72, 70, 0.1)
    assert sentences.trial_numbers(trial, PLAIN) == [
        ("Net", "€5,000.00", "€5,400.00"),
        ("Net after product", "€4,500.00", "€4,950.00"),
        ("Chair hours", "133 h", "105 h"),
        ("Net per chair hour", "€37.50", "€51.43"),
        ("All services, net", "€20,000.00", "€20,400.00"),
    ]


def test_the_fullest_and_the_emptiest_hour_are_named():
    hour = {"open_hours": 40.0, "net_per_open_hour": 44.6}
    rows = frame(
        "hours_of_week",
        hour | {"weekday": "thu", "hour": 18, "taken_share": 0.84},
        hour | {"weekday": "wed", "hour": 9, "taken_share": 0.26, "net_per_open_hour": 14.2},
        hour | {"weekday": "fri", "hour": 7, "taken_share": 1.0, "open_hours": 3.0},
    )
    assert sentences.week_sentence(rows, PLAIN) == (
        "Over the twelve months, the chairs were fullest on Thursday from 18:00 (84% taken, €44.60 an open chair "
        "hour), and emptiest on Wednesday from 9:00 (26% taken, €14.20 an open chair hour)."
    )
    assert sentences.week_sentence(rows.head(1), PLAIN) == ""
    assert sentences.weekday_name("sun", settings_of(locale="nl_NL")) == "zondag"
    assert sentences.weekday_name("sun", PLAIN, short=True) == "Sun"


def test_empty_hours_are_told_with_what_they_cost():
    row = {"month": "2026-10", "split": "salon", "open_hours": 802.0, "empty_hours": 323.0}
    priced = frame("economics", row | {"empty_cost": Decimal(7039), "cost_per_open_hour": 21.82})
    assert sentences.empty_sentence(priced, PLAIN, "2026-10") == (
        "In October 2026, 323 h of 802 h open stood empty; at €21.82 an open chair hour that is €7,039."
    )
    assert sentences.empty_sentence(frame("economics", row), PLAIN, "2026-10").endswith("to value them at.")
    assert sentences.empty_sentence(frame("economics"), PLAIN, "2026-10") == ""


def lasting(service: str, median: float, menu: float | None, lines: int = 30) -> dict[str, Any]:
    over = None if menu is None else median - menu
    row = {"service_id": service, "service": service, "lines": lines, "menu_minutes": menu}
    off = None if over is None or lines < 10 else abs(over) >= 5
    return row | {"median_minutes": median, "median_over_menu": over, "menu_off": off}


def test_services_whose_menu_minutes_are_off_are_named():
    rows = [lasting("Cut", 42, 40), lasting("Curls", 61, 75), lasting("Foils", 118, 110), lasting("Odd", 90, 10, 9)]
    assert sentences.minutes_sentence(frame("durations", *rows), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, 2 services want other minutes on the menu, by their typical "
        "time: Curls (61 minutes, 75 on the menu) and Foils (118 minutes, 110 on the menu)."
    )
    four = [lasting(name, 60, 40) for name in "ABCD"]
    assert sentences.minutes_sentence(frame("durations", *four), PLAIN, "2026-10").endswith("and 1 more.")
    assert sentences.minutes_sentence(frame("durations", rows[0]), PLAIN, "2026-10") == (
        "In the twelve months up to October 2026, the typical time of every service was within 5 minutes of the menu."
    )
    for none in (frame("durations"), frame("durations", lasting("Cut", 42, None))):
        assert sentences.minutes_sentence(none, PLAIN, "2026-10").startswith("Too little was done")


def test_developing_hours_are_told_with_who_else_sat_there():
    salon = {"salon_processing_hours": 40.0, "salon_second_client_hours": 12.0, "salon_second_client_share": 0.3}
    rows = frame(
        "processing",
        salon | {"month": "2026-10", "stylist": "A", "processing_hours": 30.0},
        salon | {"month": "2026-10", "stylist": "B", "processing_hours": 10.0},
        {"month": "2026-09", "stylist": "B", "salon_processing_hours": 0.0},
    )
    assert sentences.processing_sentence(rows, PLAIN, "2026-10") == (
        "Of 40.0 h in which colour developed in October 2026, 12.0 h (30%) held a second client of the same stylist in "
        "another chair."
    )
    assert sentences.processing_sentence(rows, PLAIN, "2026-09") == "Nothing developed in September 2026."
    assert sentences.processing_sentence(rows, PLAIN, "2026-08") == "Nothing developed in August 2026."


def test_stylists_with_little_like_work_are_not_compared():
    rows = frame("stylists", {"stylist": "A", "compared": True}, {"stylist": "B", "compared": False})
    assert sentences.stylists_sentence(rows).endswith("too few to say anything: B.")
    assert sentences.stylists_sentence(rows.head(1)).endswith("would have taken and brought colleagues.")
    assert sentences.stylists_sentence(rows.tail(1)).endswith("so nobody is compared.")


@pytest.mark.parametrize(("value", "text"), [("119.6", "+€120"), ("-900", "−€900"), ("0.4", "±€0"), (None, "–")])
def test_a_difference_has_its_sign(value: str | None, text: str):
    assert wording.signed(None if value is None else Decimal(value), PLAIN) == text


def service(name: str, hour: float | None, lines: int = 1) -> dict[str, Any]:
    return {
        "month": "2026-10",
        "service_id": name,
        "service": name,
        "lines": lines,
        "after_product_per_chair_hour": hour,
    }


def services_at(cost: float | None) -> pl.DataFrame:
    """Four services, one without an hour of its own, where an open chair hour costs so much."""
    rows = (service("Toner", 28.10), service("Cut", 61.0), service("Curls", 20.5), service("Mix", None, 0))
    clears = pl.col("after_product_per_chair_hour") >= pl.col("cost_per_open_hour")
    costed = frame("chairs", *rows).with_columns(cost_per_open_hour=pl.lit(cost, pl.Float64))
    return costed.with_columns(clears_cost=clears)


HOUR = measure("net_per_chair_hour", "41.20", "EUR/h", usual_low="38", usual_high="44")


def test_services_that_do_not_cover_their_open_time():
    assert sentences.chairs_sentence(services_at(29.0), frame("month", HOUR), PLAIN, "2026-10") == (
        "An hour in the chair brought €41.20 net in October 2026, inside its usual €38.00–€44.00 an hour; "
        "2 services do not cover their own open time (€29.00 an open chair hour), product paid."
    )
    assert sentences.under_sentence(services_at(29.0), PLAIN, "2026-10") == (
        "Less than it costs, after product and per chair hour: Curls (€20.50) and Toner (€28.10)."
    )


def test_every_service_covers_its_open_time_or_no_costs_are_known():
    month = frame("month", HOUR | {"part_month": True})
    assert sentences.chairs_sentence(services_at(20.0), month, PLAIN, "2026-10") == (
        "So far in October 2026, an hour in the chair has brought €41.20 net; the month is not over; "
        "every service covers its own open time (€20.00 an open chair hour), product paid."
    )
    assert sentences.chairs_sentence(services_at(None), month, PLAIN, "2026-10").endswith(
        "salon.toml names no costs per month, so no service is compared with them."
    )
    assert sentences.under_sentence(services_at(None), PLAIN, "2026-10") == ""
    assert sentences.chairs_sentence(frame("chairs"), frame("month"), PLAIN, "2026-10") == (
        "No chair was taken in October 2026, so there is nothing to divide."
    )


TODAY = date(2026, 10, 31)


def client(state: str, ready_by: date = date(2026, 12, 1)) -> dict[str, Any]:
    return {"client_id": "c", "state": state, "ready_by": ready_by}


def test_roots_count_who_is_due_and_who_soon_passes_one_application():
    rows = frame(
        "roots",
        client("ready", date(2026, 11, 7)),
        client("ready", date(2026, 11, 8)),
        client("nearing"),
        client("long_past"),
        client("booked"),
    )
    assert sentences.roots_sentence(rows, PLAIN, TODAY) == (
        "On 31 October 2026, 2 clients are ready for a root touch-up and not booked; 1 of them passes one application "
        "within a week, 1 more gets there within two weeks and 1 is past one application, a longer booking."
    )
    assert sentences.roots_sentence(frame("roots", client("resting")), PLAIN, TODAY) == (
        "On 31 October 2026, no client is ready for a root touch-up and not booked."
    )
    assert sentences.roots_sentence(frame("roots"), PLAIN, TODAY) == (
        "Up to 31 October 2026 no service that colours the roots is on record, so nobody is due."
    )


def test_a_later_week_says_what_happens_in_it():
    monday = date(2026, 11, 9)
    days = {"ready_from": date(2026, 9, 1), "ready_by": date(2026, 12, 1), "expected_on": date(2026, 11, 15)}
    rows = frame(
        "roots",
        client("nearing") | days | {"ready_from": monday},
        client("ready") | days | {"ready_by": date(2026, 11, 15)},
        client("ready") | days | {"ready_by": monday, "expected_on": date(2026, 11, 16)},
    )
    assert sentences.then_sentence(rows, monday, PLAIN, TODAY) == (
        "In the week of 9–15 November, 1 becomes ready, 2 pass one application and 2 are likely to come unasked."
    )
    nobody = sentences.then_sentence(rows.clear(), monday, PLAIN, TODAY)
    assert nobody == "In the week of 9–15 November nobody falls due."


def test_the_cautions_name_the_salons_own_hours():
    text = sentences.roots_cautions(settings_of("[roots]\npatch_test_hours = 72"))
    assert "72 hours ahead" in text
    for words in ("maker's instructions", "local rules", "broken skin", "earlier reaction", "not overlapped"):
        assert words in text


def test_coverage_is_that_of_the_log():
    rows = frame("bowls", {"month": "2026-09", "logged_share": None}, {"month": "2026-10", "logged_share": 0.61})
    assert sentences.coverage_sentence(rows, PLAIN, "2026-10") == (
        "Product cost counts what was logged: 61% of the month's colour services have a bowl in the log."
    )
    assert sentences.coverage_sentence(rows, PLAIN, "2026-09") == ""
    assert sentences.coverage_sentence(rows, PLAIN, "2026-08") == ""


TAX = frame(
    "tax",
    {"month": "2026-09", "tax_rate": Decimal(9), "month_gross": Decimal(109), "month_tax": Decimal(9)},
    {"month": "2026-10", "tax_rate": Decimal(9), "month_gross": Decimal(339), "month_tax": Decimal(39)},
    {"month": "2026-10", "tax_rate": Decimal(21), "month_gross": Decimal(339), "month_tax": Decimal(39)},
)
PAID = frame("takings", {"month": "2026-10", "method": "card", "amount": Decimal(339)})


@pytest.mark.parametrize(
    ("difference", "ending"),
    [
        ("0", "what was taken agrees with it exactly."),
        ("-12.50", "what was taken is €12.50 less than was due."),
        ("3", "what was taken is €3.00 more than was due."),
    ],
)
def test_what_was_taken_is_held_against_what_was_charged(difference: str, ending: str):
    tie = frame("tieout", {"month": "2026-10", "difference": Decimal(difference)})
    assert sentences.accountant_sentence(TAX, PAID, tie, PLAIN, "2026-10") == (
        f"October 2026: €339.00 was charged, €39.00 of it tax; {ending}"
    )


def test_a_salon_without_payments_and_a_month_without_charges():
    tie = frame("tieout", {"month": "2026-10", "difference": Decimal(0)})
    assert sentences.accountant_sentence(TAX, frame("takings"), tie, PLAIN, "2026-10").endswith(
        "there are no payments on record, so what was taken cannot be compared with it."
    )
    assert sentences.accountant_sentence(frame("tax"), PAID, tie, PLAIN, "2026-10") == (
        "Nothing was charged in October 2026, so there is no tax to report."
    )
    assert sentences.charged_before(TAX, PLAIN, "2026-10") == (
        "Before that, in September 2026 it was €109.00, €9.00 of it tax."
    )
    assert sentences.charged_before(TAX, PLAIN, "2026-09") == ""


def test_narrowing_says_what_it_means():
    assert sentences.narrowed(None, None) == []
    site, chair = sentences.narrowed("North", "North: Chair 1")
    assert site.startswith("Only North: opening hours are the settings'") and "costs are shared" in site
    assert chair.startswith("Only North: Chair 1: its visits")
    assert sentences.narrowed("", None)[0].startswith("What names no salon: opening hours")
    assert [sentences.site_name(site) for site in (None, "North", "")] == ["All salons", "North", "No salon named"]


def test_every_row_read_is_accounted_for():
    files = pl.DataFrame(
        {
            "rows_read": [1200, 34], "rows_used": [1100, 34], "repeats": [90, 0], "superseded": [8, 0],
            "set_aside": [2, 0],
        }
    )  # fmt: skip
    assert sentences.exports_sentence(files, pl.DataFrame({"code": ["a", "b"]}), PLAIN) == (
        "2 files with 1,234 rows were read; 1,134 are used, 98 are repeats or older versions and 2 set aside; "
        "2 findings want a look."
    )
    assert sentences.exports_sentence(files.tail(1), pl.DataFrame(), PLAIN) == (
        "1 file with 34 rows was read; 34 are used and 0 set aside; nothing was found wrong."
    )
    assert sentences.exports_sentence(files.clear(), pl.DataFrame(), PLAIN) == sentences.NOTHING_YET


def test_dates_are_ranges_with_the_likely_day():
    low, middle, high = date(2026, 10, 3), date(2026, 10, 9), date(2026, 10, 17)
    assert wording.likely(low, middle, high, PLAIN, TODAY) == "3–17 October, likely the 9th"
    assert (
        wording.likely(date(2026, 9, 28), middle, high, PLAIN, TODAY) == "28 September – 17 October, likely 9 October"
    )
    assert wording.likely(low, middle, high, settings_of(locale="en_US"), TODAY) == "October 3–17, likely the 9th"
    assert wording.days(date(2026, 12, 28), date(2027, 1, 4), PLAIN, TODAY) == "28 December 2026 – 4 January 2027"
    assert wording.days(low, low, PLAIN, TODAY) == "3 October"
    assert wording.days(None, high, PLAIN, TODAY) == "–"


def test_money_has_the_digits_of_its_currency_and_the_signs_of_its_locale():
    assert wording.money(Decimal("1241.205"), PLAIN) == "€1,241.21"
    assert wording.money(Decimal("-0.001"), PLAIN) == "€0.00"
    assert wording.money(Decimal("1241.205"), settings_of(locale="nl_NL")) == "€\u00a01.241,21"
    assert wording.money(1241.4, settings_of(locale="ja_JP", currency="JPY")) == "￥1,241"
    assert wording.money(Decimal("1.5"), settings_of(currency="KWD")) == "KWD1.500"
    assert wording.share(0.0994, PLAIN) == "9.9%"
    assert wording.share(0.0996, PLAIN) == "10%"
    assert wording.share(0.614, settings_of(locale="de_DE")) == "61\u00a0%"
    assert wording.quantities(Decimal(-3), Decimal("12.4"), "clients", PLAIN) == "0–12 clients"
    assert wording.quantity(Decimal(1), "visits", PLAIN) == "1 visit"
