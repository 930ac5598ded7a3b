"""Weeks ahead: how many chair hours the next twelve weeks are likely to take, what is booked, and what is open."""

import streamlit as st

from analytics.sentences import ahead as said
from dashboard import bars, charts, parts, trust
from dashboard.data import reading

read = reading()
settings, today = read.settings, read.today
with st.spinner("Drawing the weeks ahead …"):
    ahead = read.figure("ahead")

sentence = said.ahead_sentence(ahead, settings, today)
parts.answer(sentence)
parts.note(said.AHEAD_NOTE)
parts.picture(charts.weeks_ahead(ahead, settings, parts.paper()), sentence, "weeks_ahead")
parts.html(bars.drawn(bars.week_bars(ahead.to_dicts(), settings, today), bars.longest_week(ahead.to_dicts())))
with st.expander("How far can the dates behind it be trusted?", key="trust_ahead", on_change="rerun") as opened:
    if opened.open:
        trust.show(read)
parts.worked_out("ahead", "backtest")
parts.show_rows(lambda: read.rows("ahead"), "ahead_rows")
