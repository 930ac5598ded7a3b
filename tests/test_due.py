"""Whom to ask, and in which order."""

from datetime import date, timedelta
from typing import Any

import polars as pl
from frames import clients
from hypothesis import given
from hypothesis import settings as effort
from hypothesis import strategies as st

from analytics.catalogue import result
from analytics.due import due, everybody, to_call
from analytics.storage.asked import NO_ANSWER, NOT_NOW, Mark

TODAY = date(2026, 11, 1)  # a Sunday
NEXT_MONDAY = date(2026, 11, 2)


def client(client_id: str, state: str = "ready", **more: Any) -> dict[str, Any]:
    row = {
        "client_id": client_id,
        "site": "",
        "state": state,
        "last_root_on": date(2026, 9, 1),
        "ready_from": date(2026, 9, 30),
        "ready_by": date(2026, 11, 26),
        "expected_on": date(2026, 11, 20),
        "chance_of_return": 0.8,
        "chance_next_week": 0.7,
        "may_contact": True,
    }
    return row | more


def listed(*rows: dict[str, Any], marks: list[Mark] = [], table: pl.DataFrame | None = None) -> pl.DataFrame:  # noqa: B006
    schema = result("roots").schema
    roots = pl.DataFrame([{name: row.get(name) for name in schema} for row in rows], schema=schema)
    cards = pl.DataFrame(schema=result("cards").schema)
    return everybody(roots, cards, clients() if table is None else table, marks, as_of=TODAY)


def names(frame: pl.DataFrame) -> list[str]:
    return frame["client_id"].to_list()


def test_this_weeks_list_holds_ready_past_and_nearing_and_nobody_else() -> None:
    states = ("ready", "long_past", "nearing", "booked", "quiet", "resting")
    assert sorted(names(due(listed(*[client(state, state) for state in states])))) == ["long_past", "nearing", "ready"]


def test_who_passes_one_application_within_a_week_comes_first_then_the_chance_lost() -> None:
    frame = listed(
        client("little", chance_next_week=0.79),
        client("much", chance_next_week=0.5),
        client("next week", ready_by=NEXT_MONDAY + timedelta(days=6)),  # on the seventh day she no longer is within it
        client("passes", chance_next_week=0.8, ready_by=date(2026, 11, 7)),
        client("unknown", chance_of_return=None, chance_next_week=None),
    )
    assert names(due(frame)) == ["passes", "much", "next week", "little", "unknown"]


def test_who_was_just_asked_comes_after_the_others_and_a_week_later_no_longer() -> None:
    marks = [Mark(TODAY, "A", NO_ANSWER, "Mila"), Mark(TODAY - timedelta(days=7), "B", NOT_NOW)]
    frame = listed(client("A", chance_next_week=0.1), client("B", chance_next_week=0.2), client("C"), marks=marks)
    assert names(due(frame)) == ["B", "C", "A"]
    assert due(frame).filter(client_id="A").select("asked_on", "answer", "asked_by").row(0) == (
        TODAY,
        NO_ANSWER,
        "Mila",
    )


def test_a_mark_from_before_her_last_root_visit_is_over() -> None:
    row = listed(client("A"), marks=[Mark(date(2026, 9, 1), "A", NOT_NOW)]).row(0, named=True)
    assert (row["asked_on"], row["answer"], row["just_asked"]) == (None, None, False)


def test_a_later_weeks_list_holds_those_for_whom_something_happens_in_it() -> None:
    week = date(2026, 11, 9)
    far = {"ready_from": date(2026, 12, 1), "ready_by": date(2027, 1, 1), "expected_on": date(2026, 12, 24)}
    frame = listed(
        client("becomes ready", "resting", **far | {"ready_from": week}),
        client("passes", **far | {"ready_by": week + timedelta(days=6)}),
        client("may come", "nearing", **far | {"expected_on": week}),
        client("the week after", "resting", **far | {"ready_from": week + timedelta(days=7)}),
        client("booked", "booked", **far | {"ready_from": week}),
        client("quiet", "quiet", **far | {"ready_from": week}),
    )
    assert sorted(names(due(frame, week))) == ["becomes ready", "may come", "passes"]


def test_a_client_who_may_not_be_contacted_has_no_phone_and_is_not_called() -> None:
    table = clients(*[{"client_id": name, "phone": "1", "email": "a@example.org"} for name in "AB"])
    frame = listed(client("A"), client("B", may_contact=False), table=table)
    assert frame.select("client_id", "phone", "email").rows() == [("A", "1", "a@example.org"), ("B", None, None)]
    assert names(to_call(frame)) == ["A"]


@effort(max_examples=20, deadline=None)
@given(
    st.lists(
        st.tuples(st.sampled_from(["ready", "long_past", "nearing", "booked", "quiet", "resting"]), st.booleans()),
        max_size=8,
    )
)
def test_booked_quiet_and_those_who_said_no_are_never_called(rows: list[tuple[str, bool]]) -> None:
    frame = listed(*[client(f"C{n}", state, may_contact=may) for n, (state, may) in enumerate(rows)])
    called = to_call(frame)
    assert called["may_contact"].all()
    assert not set(called["state"]) & {"booked", "quiet", "resting"}


def test_clients_of_two_salons_with_one_number_are_two() -> None:
    marks = [Mark(TODAY, "C1", NOT_NOW, site="north")]
    table = clients(
        {"client_id": "C1", "site": "north", "phone": "1"}, {"client_id": "C1", "site": "south", "phone": "2"}
    )
    frame = listed(client("C1", site="north"), client("C1", site="south"), marks=marks, table=table)
    assert frame.select("site", "phone", "answer").rows() == [("north", "1", NOT_NOW), ("south", "2", None)]
