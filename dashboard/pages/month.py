"""The month: what it left, against what was to be expected, why, and what stood empty or was lost."""

from analytics import sentences
from analytics.definitions.rows import Row
from analytics.handover.month import statement
from analytics.periods import Period
from dashboard import charts
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import all_figures, bridge, layout, lists

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


def step_by_step() -> None:
    """From what was to be expected, or another month, to what came in."""
    others = {name: sentences.other_month(month, name, settings) for name in against}
    compared = layout.choice("Held against", others, "compared")
    layout.said(sentences.change_sentence(clientele, settings, month, compared, part))
    layout.html(bridge.drawn(sentences.bridge(clientele, month, compared, settings), settings))
    layout.note(sentences.BRIDGE_SAYS)
    layout.html(lists.said_list(sentences.movers(changes, settings, month, compared, part)))


read = reading(PAGE)
frame, settings, month = read.figure("month"), read.settings, read.month or ""
changes, clientele, hours = read.figure("changes"), read.figure("clientele"), read.figure("economics", month)
part, against = read.is_part(month), sentences.comparisons(changes, month)
opening = sentences.verdict(frame, settings, month)

layout.answer(opening)
if against:
    layout.head(sentences.causes_head(clientele, settings, month, part))
    layout.html(lists.cause_list(sentences.causes(clientele, settings, month), settings))
    layout.page_line(*sentences.next_page(clientele, month))
else:
    layout.note(sentences.NOTHING_BEFORE)
layout.picture(charts.verdict_months(frame, month, settings, layout.paper()), opening, "months")
layout.note(sentences.TREND_SAYS)

if against:
    with layout.fold("Why, step by step", "why"):
        step_by_step()
with layout.fold(sentences.empty_title(hours, settings, month), "empty"):
    layout.said(sentences.empty_sentence(hours, settings, month))
    layout.note(sentences.open_says(settings))
    layout.page_line(*sentences.FULL)
with layout.fold(sentences.lost_title(frame, settings, month), "lost"):
    layout.said(sentences.lost_sentence(frame, settings, month))
with layout.fold("All figures of the month", "figures"):
    layout.said(sentences.outside_sentence(frame, settings, month))
    layout.html(all_figures.drawn(frame, settings, month))
    layout.note(sentences.coverage_sentence(read.figure("bowls"), settings, month))
    layout.file_button(
        "The month on paper (PDF)", lambda: statement(read.salon, Period.month(month)), f"month-{month}.pdf"
    )
if read.sites and read.site is None:
    layout.when_opened("Salon by salon", lambda: lists.sites_list(by_site(), settings), "sites")
layout.worked_out("month", "changes", "clientele", "economics")
layout.show_rows(lambda: read.rows("month", month), "month_rows")
layout.show_rows(lambda: read.rows("clientele", month), "clientele_rows", "Show what each client bought")
