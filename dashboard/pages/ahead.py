"""Weeks ahead: the chair hours that this and the next twelve weeks are likely to take, what is booked and open."""

import streamlit as st

from analytics.sentences import ahead as said
from dashboard import charts
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import bars, layout

PAGE = Page(
    title="Weeks ahead",
    order=60,
    readers=("owner", "stylist"),
    filters=("site",),
    picture=(1280, 740),
)

read = reading(PAGE)
settings, today = read.settings, read.today
with st.spinner("Drawing the weeks ahead …"):
    ahead = read.figure("ahead")

sentence = said.ahead_sentence(ahead, settings, today)
layout.answer(sentence)
layout.note(said.AHEAD_NOTE)
layout.picture(charts.weeks_ahead(ahead, settings, layout.paper()), sentence, "weeks_ahead")
layout.html(bars.drawn(bars.week_bars(ahead.to_dicts(), settings, today), bars.longest_week(ahead.to_dicts())))
with st.expander("How far can these weeks be trusted?", key="trust_ahead", on_change="rerun") as opened:
    if opened.open:
        with st.spinner("Trying the weeks on the past year …"):
            tried = read.any_chair.figure("backtest")
        layout.said(said.tried_sentence(tried, settings))
layout.worked_out("ahead", "backtest")
if read.only_stylist is None:  # one stylist's rows are not what these figures add up
    layout.show_rows(lambda: read.rows("ahead"), "ahead_rows")
