"""Roots due: whom to ask this week, when a touch-up makes sense, what was mixed last, how to reach her."""

import streamlit as st

from analytics import sentences
from analytics.definitions.vocabulary import STATES
from analytics.handover.roots import call_sheet, list_paper
from dashboard.data import reading
from dashboard.for_stylists import calendar, stylists
from dashboard.frames import in_words
from dashboard.page import Page
from dashboard.parts import asking, layout, root_date_trust, rulers

PAGE = Page(
    title="Roots due",
    order=50,
    readers=("owner", "stylist"),
    filters=("site",),
    picture=(390, 844),
)

FIRST = 12  # what fits into a minute between two clients; the rest is one tap away
EVERYBODY = "All stylists"

read = reading(PAGE)
settings, today = read.settings, read.today

with st.container(horizontal=True, key="roots_filters"):
    chosen = st.selectbox(
        "Stylist",
        [*([EVERYBODY] if read.only_stylist is None else []), *(stylists(read) or [EVERYBODY])],
        key="stylist",
        persist_state="session",
        label_visibility="collapsed",
        width=158,
    )
    week = st.selectbox(
        "Week",
        asking.weeks(today),
        format_func=lambda monday: asking.week_name(monday, settings, today),
        key="week",
        label_visibility="collapsed",
        width=184,
    )
stylist = None if chosen == EVERYBODY else chosen
everybody = asking.listed(read, stylist)

layout.answer(sentences.roots_sentence(everybody, settings, today))
if everybody.is_empty():
    layout.worked_out("roots")
    st.stop()
for sentence in sentences.nobody_came(everybody, settings):
    layout.said(sentence)
if week is not None:
    layout.said(sentences.then_sentence(asking.to_print(everybody, week), week, settings, today))
layout.said(asking.failed())
layout.said(asking.damaged(read))

count = asking.choices(everybody, week)
choice = st.pills(
    "Who to show",
    list(count),
    default=asking.LIST,
    format_func=lambda name: asking.choice_name(name, count[name], week),
    key="state" if week is None else "state_then",
    required=True,
    label_visibility="collapsed",
)
rows = asking.shown(everybody, choice or asking.LIST, week)
everyone = st.session_state.get("all_shown", False)
layout.html(rulers.ruler_head(settings))
with st.container(key="clients", gap=None):
    for number, row in enumerate(rows if everyone else rows[:FIRST], start=1):
        layout.html(rulers.client_item(row, settings, today))
        if asking.may_be_asked(row):
            asking.mark_buttons(read, row, number, stylist)
if len(rows) > FIRST:
    st.toggle(f"Show all {len(rows)}", key="all_shown")

with st.container(horizontal=True):
    layout.file_button(
        "List to print (PDF)",
        lambda: list_paper(asking.to_print(everybody, week), settings, today, week, stylist),
        "roots-due.pdf",
    )
    layout.file_button("Days as a calendar, no names", lambda: calendar(read, stylist), "roots.ics")
    layout.file_button("Call sheet (CSV)", lambda: call_sheet(everybody, bool(read.sites)), "call-sheet.csv")
layout.note(sentences.order_note())
layout.note(sentences.ruler_note(settings))
layout.caution(sentences.roots_cautions(settings))

with st.expander("How far can these dates be trusted?", key="trust", on_change="rerun") as opened:
    if opened.open:
        root_date_trust.show(read)

layout.head("Everybody whose roots were done here")
layout.table(
    in_words(everybody, "state", STATES),
    {
        "client": "Client",
        "client_id": "Number",
        "stylist": "Stylist",
        "state": "State",
        "last_root_on": layout.day_column("Last done"),
        "regrowth_mm": layout.number_column("Regrowth (mm)"),
        "regrowth_low_mm": layout.number_column("from (mm)"),
        "regrowth_high_mm": layout.number_column("to (mm)"),
        "ready_from": layout.day_column("Ready from"),
        "ready_by": layout.day_column("Ready by"),
        "expected_on": layout.day_column("May come on"),
        "chance_of_return": layout.share_column("Chance she is still a client"),
        "booked_on": layout.day_column("Booked on"),
        "usual_chair_minutes": layout.number_column("Usual time (min)"),
    },
    "Roots of every client",
    "roots",
    ("chance_of_return",),
)
layout.worked_out("roots", "cards", "backtest", "calibration")
layout.show_rows(lambda: read.rows("roots"), "roots_rows")
