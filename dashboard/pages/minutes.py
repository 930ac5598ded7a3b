"""Minutes: how long services take against the menu, what developing time held, and stylists on like work."""

from analytics import sentences
from analytics.definitions.rows import Row
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import layout, minute_bands

PAGE = Page(
    title="Minutes",
    order=30,
    readers=("owner",),
    filters=("site", "month", "chair"),
)


def furthest_first() -> list[Row]:
    """The figure `durations` over the year, the services furthest from the menu first, then those without minutes."""
    by_name = read.year("durations").sort("service_id").to_dicts()
    known = [row for row in by_name if row["median_over_menu"] is not None]
    unknown = [row for row in by_name if row["median_over_menu"] is None]
    return [*sorted(known, key=lambda row: abs(row["median_over_menu"]), reverse=True), *unknown]


read = reading(PAGE)
settings, month = read.settings, read.month or ""
durations, stylists = read.year("durations"), read.year("stylists")

untold = read.resting_on("durations") if durations.is_empty() else []
layout.answer(untold[0] if untold else sentences.minutes_sentence(durations, settings, month))
if not durations.is_empty():
    layout.head("Minutes in the chair, service by service")
    layout.html(minute_bands.drawn(furthest_first(), settings))
    layout.note(
        "The band holds eight of ten times, the dot is the middle one, the mark what the menu says. Those furthest "
        "from the menu come first. Shared: a visit with several services has its time shared over them by the menu, so "
        "that it says such visits run over, not which of their services does."
    )
    layout.head("While colour develops")
    layout.said(sentences.processing_sentence(read.figure("processing"), settings, month))
    layout.head("Stylists on like work")
    layout.said(sentences.stylists_sentence(stylists))
    layout.table(
        stylists,
        {
            "stylist": "Stylist",
            "like_lines": layout.number_column("Like work, times"),
            "others_lines": layout.number_column("Colleagues, times"),
            "minutes_per_line": layout.number_column("Minutes each"),
            "colleagues_minutes_per_line": layout.number_column("colleagues, for the same"),
            "like_net_per_chair_hour": layout.money_column("Net per chair hour", settings),
            "colleagues_net_per_chair_hour": layout.money_column("colleagues, for the same", settings),
            "lines": layout.number_column("All work, times"),
            "chair_hours": layout.number_column("Chair hours", 1),
            "hands_on_hours": layout.number_column("Hands-on hours", 1),
        },
        f"Stylists on like work, twelve months up to {month}",
        "stylists",
    )
    layout.note("In order of name, over the twelve months. Who takes longer may have the harder heads.")
layout.worked_out("durations", "processing", "stylists")
layout.show_rows(lambda: read.year("durations", rows=True), "durations_rows")
