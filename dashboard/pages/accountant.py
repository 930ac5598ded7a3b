"""For the accountant: a period, whether it agrees, what is in no sum, the folder to hand over. No client is here."""

import streamlit as st

from analytics import sentences
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import accountant_preview, bars, layout, lists

PAGE = Page(
    title="For the accountant",
    order=100,
    readers=("owner", "accountant"),
    filters=("site",),
    picture=(1280, 860),
)

read = reading(PAGE)
settings, periods = read.settings, accountant_preview.names(read)
with st.container(horizontal=True, key="period"):
    kind = st.segmented_control(
        "Kind of period",
        list(periods),
        default="Month",
        key="kind_of_period",
        required=True,
        persist_state="session",
        label_visibility="collapsed",
    )
    first = periods["Month"].index(read.last_whole_month or periods["Month"][0]) if kind == "Month" else 0
    name = st.selectbox(
        "Period",
        periods[kind],
        index=first,
        format_func=lambda name: accountant_preview.words(name, read),
        key=f"period {kind}",
        persist_state="session",
        label_visibility="collapsed",
        width=196,
    )
shown = accountant_preview.Handed(read, name)

layout.answer(shown.sentence)
if kind == "Month":
    layout.said(sentences.charged_before(read.figure("tax"), settings, name))
layout.caution(sentences.FOR_THE_ACCOUNTANT)

left, right = st.columns(2, gap="medium")
with left:
    layout.head(f"What was due: {shown.side_words('due')}")
    layout.html(bars.drawn(bars.side_bars(shown.side("due"), settings), shown.scale))
with right:
    layout.head(f"Payments by method: {shown.side_words('paid')}")
    layout.html(bars.drawn(bars.side_bars(shown.side("paid"), settings), shown.scale))

layout.head("What needs a decision")
layout.html(lists.said_list(shown.decisions))

layout.head("What changed since the last handover")
layout.html(lists.said_list(shown.changed))

layout.head("Hand it over")
layout.note(accountant_preview.HOW)
if shown.closed:
    layout.said(f"{name} is closed: what is handed over here is what was handed over then.")
if shown.why_not:
    layout.said(shown.why_not)
else:
    st.download_button(
        f"All files of {accountant_preview.words(name, read)} (.zip)",
        shown.archive,
        f"{name}.zip",
        "application/zip",
        key="archive",
        on_click="ignore",
    )
    with st.expander("One file at a time", key="files", on_change="rerun") as opened:
        if opened.open:
            for file, content in shown.files().items():
                st.download_button(file, content, file, key=f"file {file}", on_click="ignore")

layout.head("What is in it")
title = st.selectbox("Sheet", shown.titles, key="sheet", index=1, persist_state="session")
frame, columns, note = shown.preview(title)
layout.note(note)
layout.table(frame, columns, f"{title}, {shown.made.words}", "preview")
layout.worked_out("tax", "takings", "reconciliation", "due_and_paid")
