"""The stylist's list on the pages: whom to ask, and what came of it. Marks go into the salon's folder at once."""

from collections import Counter
from datetime import date, timedelta
from typing import Any

import streamlit as st

from analytics import wording
from analytics.definitions.vocabulary import STATES
from analytics.due import due, everybody
from analytics.periods import week_start
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.asked import ANSWERS, TAKEN_BACK, Mark, latest, read_marks, write_mark
from dashboard.data import Reading
from dashboard.for_stylists import contacts
from dashboard.frames import Frame

LIST = "list"
WEEKS_AHEAD = 12
FAILED = "mark_failed"
BUTTONS = {answer: wording.word(answer).removeprefix("asked, ") for answer in ANSWERS if answer != TAKEN_BACK}


def listed(read: Reading, stylist: str | None) -> Frame:
    """Every client whose roots were done here, with her card and mark; a stylist's, where one is chosen."""
    whole = read.any_chair
    marks = latest(read_marks(read.folder), read.today)
    frame = everybody(whole.figure("roots"), whole.figure("cards"), contacts(whole), marks, as_of=read.today)
    return frame if stylist is None else frame.filter(stylist=stylist)


def weeks(today: date) -> list[date | None]:
    """This week (None) and the Mondays of those that follow."""
    monday = week_start(today)
    return [None, *(monday + timedelta(weeks=number) for number in range(1, WEEKS_AHEAD + 1))]


def week_name(week: date | None, settings: Settings, today: date) -> str:
    """'This week', '9–15 November'."""
    return "This week" if week is None else wording.days(week, week + timedelta(days=6), settings, today)


def choices(everyone: Frame, week: date | None) -> dict[str, int]:
    """What can be shown, with how many clients: the week's list, and of this week each state."""
    found = Counter(everyone["state"])
    states = {} if week else {state: found[state] for state in STATES if state in found}
    return {LIST: due(everyone, week).height} | states


def choice_name(choice: str, count: int, week: date | None) -> str:
    """'To ask · 24', 'booked · 111'."""
    name = wording.word(choice) if choice != LIST else "to ask" if week is None else "then"
    return f"{name} · {count}"


def shown(everyone: Frame, choice: str, week: date | None) -> list[dict[str, Any]]:
    """The clients of one choice, what costs most by waiting first; the booked by their day."""
    if choice == LIST:
        return due(everyone, week).to_dicts()
    order = ["booked_on"] if choice == "booked" else ["just_asked", "passes_soon", "chance_lost", "ready_by"]
    descending = [name in ("passes_soon", "chance_lost") for name in order]
    rows = everyone.filter(state=choice)
    return rows.sort(*order, "client_id", descending=[*descending, False], nulls_last=True).to_dicts()


def to_print(everyone: Frame, week: date | None) -> Frame:
    """The week's list."""
    return due(everyone, week)


def damaged(read: Reading) -> str:
    """The sentence about lines of asked.csv that cannot be read; empty where all can."""
    lines = read_marks(read.folder).damaged
    if not lines:
        return ""
    named = wording.listed([str(number) for number in lines[:5]]) + (" and more" if len(lines) > 5 else "")
    return f"Line {named} of asked.csv cannot be read and is passed over; the others count. Correct it in an editor."


def may_be_asked(row: dict[str, Any]) -> bool:
    """Somebody to mark: not booked for her roots, and to be reached, or in the book for something else."""
    return not row["booked_on"] and (row["may_contact"] or row["next_visit_on"] is not None)


def mark_buttons(read: Reading, row: dict[str, Any], number: int, stylist: str | None) -> None:
    """What came of asking her, to tap; a second tap takes it back. number: her place in the list."""
    said = row["answer"]
    key = f"asked {row['site']} {row['client_id']} {row['asked_on']} {said}"  # another mark is another set of buttons
    st.segmented_control(
        f"What came of asking, client {number}",
        list(BUTTONS),
        default=said,
        format_func=BUTTONS.__getitem__,
        key=key,
        on_change=_mark,
        args=(read, row["site"], row["client_id"], stylist or "", key),
        label_visibility="collapsed",
    )


def _mark(read: Reading, site: str, client_id: str, stylist: str, key: str) -> None:
    """Keep the answer, once: a run that another tap cuts short is started again with the same answer."""
    answer = st.session_state.get(key) or TAKEN_BACK
    try:
        if answer == _standing(read, site, client_id):
            return
        write_mark(read.folder, Mark(read.today, client_id, answer, stylist, site))
    except WorkStopped as stopped:
        st.session_state[FAILED] = str(stopped)


def _standing(read: Reading, site: str, client_id: str) -> str | None:
    """What was marked today and counts; TAKEN_BACK where nothing ever counted, None where only an older mark does."""
    marks = {(mark.site, mark.client_id): mark for mark in latest(read_marks(read.folder), read.today)}
    mark = marks.get((site, client_id))
    if mark is None:
        return TAKEN_BACK
    return mark.answer if mark.day == read.today else None


def failed() -> str:
    """Why the last mark was not kept, said once."""
    return str(st.session_state.pop(FAILED, ""))
