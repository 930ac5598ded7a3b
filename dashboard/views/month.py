"""The month: what it brought, and whether that is news."""

from analytics import sentences
from dashboard import charts, lists, parts
from dashboard.data import reading

read = reading()
frame, settings, month = read.figure("month"), read.settings, read.month or ""
sentence = sentences.month_sentence(frame, settings, month)

parts.answer(sentence)
parts.said(sentences.outside_sentence(frame, settings, month))
parts.picture(charts.revenue_months(frame, month, settings, parts.paper()), sentence, "revenue")
parts.note(
    "Each dot is a month's net revenue; a hollow one is not over. The band is where the twelve months before it say it "
    "usually lies, and a dot outside it is coloured."
)
parts.head("The month in figures")
parts.note(sentences.coverage_sentence(read.bowl_months(), settings, month))
parts.html(lists.figure_list(sentences.figure_lines(frame, settings, month)))
parts.worked_out("month")
parts.show_rows(lambda: read.rows("month", month), "month_rows")
