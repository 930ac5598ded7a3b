"""For the accountant: tax, takings, and whether the two tie. No client stands on this page."""

import streamlit as st

from analytics import sentences, wording
from dashboard import bars, parts
from dashboard.data import ACCOUNTANT, reading

THIS, EVERY = "This month", "All months"

read = reading(ACCOUNTANT)
settings, month = read.settings, read.month or ""
tax, takings, tieout = (read.figure(name, month) for name in ("tax", "takings", "tieout"))
money = {name: parts.money_column(label, settings) for name, label in bars.SUMS.items()}

parts.answer(sentences.accountant_sentence(tax, takings, tieout, settings, month))
parts.said(sentences.charged_before(read.figure("tax"), settings, month))
parts.caution(sentences.FOR_THE_ACCOUNTANT)

due, paid = bars.due_total(tieout.to_dicts()), bars.paid_total(takings.to_dicts())
longest = float(max(due, paid))
left, right = st.columns(2, gap="medium")
with left:
    parts.head(f"What was due: {wording.money(due, settings)}")
    parts.html(bars.drawn(bars.due_bars(tieout.to_dicts(), settings), longest))
with right:
    parts.head(f"What came in: {wording.money(paid, settings)}")
    parts.html(bars.drawn(bars.paid_bars(takings.to_dicts(), settings), longest))

every = st.segmented_control(
    "Months", [THIS, EVERY], default=THIS, key="every", required=True, label_visibility="collapsed"
)
shown = None if every == EVERY else month
for name, title, short, columns in (
    ("tax", "Tax by rate", "Tax", {"tax_rate": parts.number_column("Rate (%)", 1), **money}),
    ("takings", "Takings by way of payment", "Takings", {"method": "Method", **money}),
    ("tieout", "Does it tie?", "Tie-out", money),
):
    parts.head(title)
    parts.table(
        read.methods_in_words(read.figure(name, shown)), {"month": "Month", **columns}, f"{title}, {month}", name
    )
    parts.downloads(name, short, read, settings)
parts.worked_out("tax", "takings", "tieout")
parts.show_rows(lambda: read.rows("tax", month), "tax_rows", "Show the rows of tax")
parts.show_rows(lambda: read.rows("takings", month), "takings_rows", "Show the rows of takings")
parts.show_rows(lambda: read.rows("tieout", month), "tieout_rows", "Show what ties, day by day")
