"""What changed a month in words: the bridge from the month before, and against what was to be expected."""

from decimal import Decimal
from typing import Any

import polars as pl
from said_of import PLAIN, frame, measure

from analytics import sentences
from analytics.catalogue import result

VISITS = measure("visits", "294", "visits")


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
        "The records hold nothing"
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
