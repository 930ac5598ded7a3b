"""Roots due: who is ready for a root touch-up, between which days it makes sense, and how to reach her."""

import streamlit as st

from analytics import sentences, wording
from dashboard import parts, rulers
from dashboard.data import reading

FIRST = 12  # what fits into a minute between two clients; the rest is one tap away
EVERYBODY = "All stylists"

read = reading()
settings, today = read.settings, read.today
names = [EVERYBODY, *read.stylists()]

with st.container(horizontal=True, key="roots_filters"):
    chosen = st.selectbox(
        "Stylist", names, key="stylist", persist_state="session", label_visibility="collapsed", width=200
    )
stylist = None if chosen == EVERYBODY else chosen
everybody = read.roots(stylist)

parts.answer(sentences.roots_sentence(everybody, settings, today))
if everybody.is_empty():
    parts.worked_out("roots")
    st.stop()

count = read.states(stylist)
state = st.pills(
    "Who to show",
    list(count),
    default=next(iter(count)),
    format_func=lambda name: f"{wording.word(name)} · {count[name]}",
    key="state",
    required=True,
    label_visibility="collapsed",
)
due = read.due(state, stylist)
everyone = st.session_state.get("all_shown", False)
parts.html(rulers.client_list(due if everyone else due[:FIRST], settings, today))
if len(due) > FIRST:
    st.toggle(f"Show all {len(due)}", key="all_shown")
parts.note(sentences.ruler_note(settings))
parts.caution(sentences.roots_cautions(settings))

parts.head("Everybody whose roots were done here")
parts.table(
    read.in_words(everybody),
    {
        "client": "Client",
        "client_id": "Number",
        "stylist": "Stylist",
        "state": "State",
        "last_root_on": parts.day_column("Last done"),
        "regrowth_mm": parts.number_column("Regrowth (mm)"),
        "regrowth_low_mm": parts.number_column("from (mm)"),
        "regrowth_high_mm": parts.number_column("to (mm)"),
        "ready_from": parts.day_column("Ready from"),
        "ready_by": parts.day_column("Ready by"),
        "expected_on": parts.day_column("May come on"),
        "chance_of_return": parts.share_column("Chance she is still a client"),
        "booked_on": parts.day_column("Booked on"),
    },
    "Roots of every client",
    "roots",
    ("chance_of_return",),
)
parts.worked_out("roots")
parts.show_rows(lambda: read.rows("roots"), "roots_rows")
