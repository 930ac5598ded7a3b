"""The month: what it brought, whether that is news, and why it changed."""

from analytics import sentences
from analytics.definitions.rows import Row
from analytics.handover.month import statement
from analytics.periods import Period
from dashboard import charts
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import bridge, layout, lists, usual_ranges

PAGE = Page(
    title="The month",
    order=10,
    readers=("owner",),
    filters=("site", "month", "chair"),
    picture=(1280, 860),
)


def by_site() -> dict[str, list[Row]]:
    """The first figures of the month for each salon of a group; a salon that had no such month is left out."""
    figures = read.by_site("month")
    found = {site: sentences.first_figures(figures.filter(site=site), month) for site in read.sites}
    return {site: rows for site, rows in found.items() if rows}


read = reading(PAGE)
frame, settings, month = read.figure("month"), read.settings, read.month or ""
changes, clientele = read.figure("changes"), read.figure("clientele")
part, against = read.is_part(month), sentences.comparisons(changes, month)
sentence = sentences.month_sentence(frame, settings, month)

layout.answer(sentence)
layout.said(sentences.outside_sentence(frame, settings, month))
layout.html(usual_ranges.drawn(sentences.first_figures(frame, month), settings, month))
layout.note(sentences.RANGES_SAY)

layout.head("Why it changed")
if not against:
    layout.said(sentences.NOTHING_BEFORE)
else:
    others = {name: sentences.other_month(month, name, settings) for name in against}
    compared = layout.choice("Held against", others, "compared")
    layout.said(sentences.change_sentence(clientele, settings, month, compared, part))
    layout.html(bridge.drawn(sentences.bridge(clientele, month, compared, settings), settings))
    layout.note(sentences.BRIDGE_SAYS)
    layout.html(lists.said_list(sentences.movers(changes, settings, month, compared, part)))

layout.head("Month by month")
layout.picture(charts.revenue_months(frame, month, settings, layout.paper()), sentence, "revenue")
layout.note(
    "Each dot is a month's net revenue; a hollow one is not over. The band is what was to be expected of each month "
    "from those before it, give or take what such expectations miss by; a dot outside it is coloured."
)
if read.sites and read.site is None:
    layout.when_opened("Salon by salon", lambda: lists.sites_list(by_site(), settings), "sites")
for title, lines in sentences.statement(frame, settings, month).items():
    layout.head(title)
    layout.html(lists.statement_list(lines))
layout.note(sentences.coverage_sentence(read.figure("bowls"), settings, month))
layout.file_button("The month on paper (PDF)", lambda: statement(read.salon, Period.month(month)), f"month-{month}.pdf")
layout.worked_out("month", "changes", "clientele")
layout.show_rows(lambda: read.rows("month", month), "month_rows")
layout.show_rows(lambda: read.rows("clientele", month), "clientele_rows", "Show what each client bought")
