"""For the accountant: a period, whether it ties, what is missing, the folder to hand over. No client stands here."""

import streamlit as st

from analytics import sentences, wording
from dashboard import bars, handed, lists, parts
from dashboard.data import ACCOUNTANT, reading

read = reading(ACCOUNTANT)
settings, periods = read.settings, handed.names(read)
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
        format_func=lambda name: handed.words(name, read),
        key=f"period {kind}",
        persist_state="session",
        label_visibility="collapsed",
        width=196,
    )
shown = handed.Handed(read, name)

parts.answer(shown.sentence)
if kind == "Month":
    parts.said(sentences.charged_before(read.figure("tax"), settings, name))
parts.caution(sentences.FOR_THE_ACCOUNTANT)

left, right = st.columns(2, gap="medium")
with left:
    parts.head(f"What was due: {wording.money(bars.due_total(shown.due), settings)}")
    parts.html(bars.drawn(bars.due_bars(shown.due, settings), handed.longest(shown)))
with right:
    parts.head(f"What came in: {wording.money(bars.paid_total(shown.paid), settings)}")
    parts.html(bars.drawn(bars.paid_bars(shown.paid, settings), handed.longest(shown)))

parts.head("What is missing")
parts.html(lists.said_list(shown.missing))

parts.head("Hand it over")
parts.note(handed.HOW)
if shown.closed:
    parts.said(f"{name} is closed: what is handed over here is what was handed over then.")
if shown.why_not:
    parts.said(shown.why_not)
else:
    st.download_button(
        f"All files of {handed.words(name, read)} (.zip)",
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

parts.head("What is in it")
title = st.selectbox("Sheet", shown.titles, key="sheet", index=1, persist_state="session")
frame, columns, note = shown.preview(title)
parts.note(note)
parts.table(frame, columns, f"{title}, {shown.made.words}", "preview")
parts.worked_out("tax", "takings", "tieout")
