"""Minutes: how long services take against the menu, what developing time held, and stylists on like work."""

from analytics import sentences
from dashboard import parts, spans
from dashboard.data import reading

read = reading()
settings, month = read.settings, read.month or ""
durations, stylists = read.year("durations"), read.year("stylists")

parts.answer(sentences.minutes_sentence(durations, settings, month))
if not durations.is_empty():
    parts.head("Minutes in the chair, service by service")
    parts.html(spans.drawn(read.timed(), settings))
    parts.note(
        "The band holds eight of ten times, the dot is the middle one, the mark what the menu says. Those furthest "
        "from the menu come first. Shared: a visit with several services has its time shared over them by the menu, so "
        "that it says such visits run over, not which of their services does."
    )
    parts.head("While colour develops")
    parts.said(sentences.processing_sentence(read.figure("processing"), settings, month))
    parts.head("Stylists on like work")
    parts.said(sentences.stylists_sentence(stylists))
    parts.table(
        stylists,
        {
            "stylist": "Stylist",
            "like_lines": parts.number_column("Like work, times"),
            "others_lines": parts.number_column("Colleagues, times"),
            "minutes_per_line": parts.number_column("Minutes each"),
            "colleagues_minutes_per_line": parts.number_column("colleagues, for the same"),
            "like_net_per_chair_hour": parts.money_column("Net per chair hour", settings),
            "colleagues_net_per_chair_hour": parts.money_column("colleagues, for the same", settings),
            "lines": parts.number_column("All work, times"),
            "chair_hours": parts.number_column("Chair hours", 1),
            "hands_on_hours": parts.number_column("Hands-on hours", 1),
        },
        f"Stylists on like work, twelve months up to {month}",
        "stylists",
    )
    parts.note("In order of name, over the twelve months. Who takes longer may have the harder heads.")
parts.worked_out("durations", "processing", "stylists")
parts.show_rows(lambda: read.year("durations", rows=True), "durations_rows")
