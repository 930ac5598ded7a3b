"""Coming back: how many new clients return, and how soon, with those who are still out counted as still out."""

import streamlit as st

from analytics.sentences import returns as said
from dashboard import charts, coming_back, parts
from dashboard.data import reading

read = reading()
settings, curves = read.settings, read.figure("return_curves")

sentence = said.returns_sentence(curves, settings)
parts.answer(sentence)
if curves.is_empty():
    parts.worked_out("returns")
    st.stop()

with st.container(horizontal=True):
    split = st.selectbox(
        "Groups",
        list(coming_back.SPLITS),
        format_func=coming_back.SPLITS.__getitem__,
        key="split",
        persist_state="session",
        label_visibility="collapsed",
        width=200,
    )
    name = st.selectbox(
        "Group",
        coming_back.groups(curves, split),
        format_func=lambda one: said.name_of(split, one),
        key=f"group by {split}",
        persist_state="session",
        label_visibility="collapsed",
        width=220,
    )
if name is not None:
    of_group = said.group_sentence(curves, split, name, settings)
    parts.said(of_group)
    picture = charts.return_curves(curves, split, name, said.name_of(split, name), parts.paper())
    parts.picture(picture, of_group, "return_curves")
    parts.note(said.RETURNS_NOTE)

shares = {f"returned_{weeks}w": parts.share_column(f"Within {weeks} weeks") for weeks in coming_back.WEEKS}
parts.head(coming_back.SPLITS[split])
parts.table(
    coming_back.table(curves, split, settings),
    {
        "group": "First visit",
        "clients": parts.number_column("Clients"),
        **shares,
        "at_risk": parts.number_column("Still waited for at 12 weeks"),
        "median": "Half back after",
    },
    "Share returned, group by group",
    f"groups by {split}",
    tuple(shares),
)
parts.head("By quarter and kind")
parts.table(
    coming_back.quarters(read.figure("returns"), settings),
    {
        "cohort": "Quarter",
        "kind": "First visit",
        "clients": parts.number_column("Clients"),
        **shares,
        "returned": parts.number_column("Returned so far"),
        "median": "Half back after",
    },
    "Share returned by quarter and kind of the first visit",
    "returns",
    tuple(shares),
)
parts.worked_out("returns", "return_curves")
parts.show_rows(lambda: read.rows("returns"), "returns_rows")
