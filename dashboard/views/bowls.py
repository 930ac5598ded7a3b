"""Bowls: what is mixed, and what is left over."""

from analytics import sentences
from dashboard import bars, parts
from dashboard.data import reading

read = reading()
settings, month = read.settings, read.month or ""
bowls = read.figure("bowls", month)

parts.answer(sentences.bowls_sentence(read.bowl_months(), settings, month))
parts.said(sentences.weighed_sentence(bowls, settings))
if not bowls.is_empty():
    parts.head("What was left over, by product, at what it cost")
    parts.html(bars.drawn(bars.bowl_bars(read.costliest_left(), settings)))
    parts.note(
        "Only bowls that were weighed after the service count here; one that was not weighed may have held more."
    )
    parts.head("Product by product")
    parts.table(
        read.compared("bowls", "product_id", "left_share").sort("mixed_g", descending=True),
        {
            "product": "Product",
            "bowls": parts.number_column("Bowls"),
            "mixed_g": parts.number_column("Mixed (g)"),
            "weighed_mixed_g": parts.number_column("Of it weighed (g)"),
            "left_g": parts.number_column("Left over (g)"),
            "left_share": parts.share_column("Left over, of weighed"),
            "previous": parts.share_column("month before"),
            "year_ago": parts.share_column("a year before"),
            "left_cost": parts.money_column("Left over", settings),
        },
        f"Bowls by product, {month}",
        "bowls",
        ("left_share", "previous", "year_ago"),
    )
parts.worked_out("bowls")
parts.show_rows(lambda: read.rows("bowls", month), "bowls_rows")
