"""The month: what it brought, whether that is news, and why it changed."""

import streamlit as st

from analytics import sentences
from dashboard import bridge, charts, lists, parts, ranges
from dashboard.data import reading

read = reading()
frame, settings, month = read.figure("month"), read.settings, read.month or ""
changes, clientele = read.figure("changes"), read.figure("clientele")
part, against = read.is_part(month), sentences.comparisons(changes, month)
sentence = sentences.month_sentence(frame, settings, month)

parts.answer(sentence)
parts.said(sentences.outside_sentence(frame, settings, month))
parts.html(ranges.drawn(sentences.first_figures(frame, month), settings, month))
parts.note(sentences.RANGES_SAY)

parts.head("Why it changed")
if not against:
    parts.said(sentences.NOTHING_BEFORE)
else:
    others = {name: sentences.other_month(month, name, settings) for name in against}
    compared = parts.choice("Held against", others, "compared")
    done = sentences.bridge(changes, month, compared)
    came = sentences.clients_bridge(clientele, month, compared, settings)
    parts.said(sentences.change_sentence(changes, settings, month, compared, part))
    left, right = st.columns(2, gap="medium")
    with left:
        parts.head("By what was done")
        parts.html(bridge.drawn(done, settings))
    with right:
        parts.head("By who came")
        parts.html(bridge.drawn(came, settings))
    parts.note(sentences.BRIDGE_SAYS)
    parts.html(lists.said_list(sentences.movers(changes, settings, month, compared, part)))

parts.head("Month by month")
parts.picture(charts.revenue_months(frame, month, settings, parts.paper()), sentence, "revenue")
parts.note(
    "Each dot is a month's net revenue; a hollow one is not over. The band is where the twelve months before it say it "
    "usually lies, and a dot outside it is coloured."
)
if read.sites and read.site is None:
    parts.when_opened("Salon by salon", lambda: lists.sites_list(read.by_site(), settings), "sites")
for title, lines in sentences.statement(frame, settings, month).items():
    parts.head(title)
    parts.html(lists.statement_list(lines))
parts.note(sentences.coverage_sentence(read.bowl_months(), settings, month))
parts.file_button("The month on paper (PDF)", read.month_on_paper, f"month-{month}.pdf")
parts.worked_out("month", "changes", "clientele")
parts.show_rows(lambda: read.rows("month", month), "month_rows")
parts.show_rows(lambda: read.rows("clientele", month), "clientele_rows", "Show what each client bought")
