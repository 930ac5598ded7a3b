"""Coming back: how many new clients return, and how soon, with those who are still out counted as still out."""

import streamlit as st

from analytics.sentences import returns as said
from dashboard import charts
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import layout, return_rows

PAGE = Page(
    title="Coming back",
    order=70,
    readers=("owner",),
    filters=("site",),
)

read = reading(PAGE)
settings, curves = read.settings, read.figure("return_curves")

sentence = said.returns_sentence(curves, settings)
layout.answer(sentence)
if curves.is_empty():
    layout.worked_out("returns")
    st.stop()

with st.container(horizontal=True):
    split = st.selectbox(
        "Groups",
        return_rows.splits(curves),
        format_func=return_rows.SPLITS.__getitem__,
        key="split",
        persist_state="session",
        label_visibility="collapsed",
        width=200,
    )
    name = st.selectbox(
        "Group",
        return_rows.groups(curves, split),
        format_func=lambda one: said.name_of(split, one),
        key=f"group by {split}",
        persist_state="session",
        label_visibility="collapsed",
        width=220,
    )
if name is not None:
    of_group = said.group_sentence(curves, split, name, settings)
    layout.said(of_group)
    picture = charts.return_curves(curves, split, name, said.name_of(split, name), layout.paper())
    layout.picture(picture, of_group, "return_curves")
    layout.note(said.RETURNS_NOTE)

shares = {f"returned_{weeks}w": layout.share_column(f"Within {weeks} weeks") for weeks in return_rows.WEEKS}
layout.head(return_rows.SPLITS[split])
layout.table(
    return_rows.table(curves, split, settings),
    {
        "group": "First visit",
        "clients": layout.number_column("Clients"),
        **shares,
        "at_risk": layout.number_column("Still waited for at 12 weeks"),
        "median": "Half back after",
    },
    "Share returned, group by group",
    f"groups by {split}",
    tuple(shares),
)
layout.head("By quarter and kind")
layout.table(
    return_rows.quarters(read.figure("returns"), settings),
    {
        "cohort": "Quarter",
        "kind": "First visit",
        "clients": layout.number_column("Clients"),
        **shares,
        "returned": layout.number_column("Returned so far"),
        "median": "Half back after",
    },
    "Share returned by quarter and kind of the first visit",
    "returns",
    tuple(shares),
)
layout.head("Days between root visits")
layout.table(
    read.figure("rebooking_gap").sort("month", descending=True),
    {
        "month": "Month of the later visit",
        "median_gap_days": layout.number_column("Days, median", 1),
        "gaps": layout.number_column("Gaps that ended"),
        "clients": layout.number_column("Clients"),
    },
    "Days between a client's root visits, by month of the later visit, the last month first",
    "rebooking_gap",
)
layout.worked_out("returns", "return_curves", "rebooking_gap")
layout.show_rows(lambda: read.rows("returns"), "returns_rows")
