"""The rulers: one line of text per client, with her regrowth drawn to scale under it.

They are plain HTML that any width can hold and any reader can read aloud. Every text from data is escaped here.
"""

from datetime import date
from html import escape
from typing import Any

from analytics import wording
from analytics.settings import Settings
from dashboard.bars import at, part

Row = dict[str, Any]
BEYOND = 1.5  # the ruler ends that much past the longest length of the settings


def ruler(row: Row, settings: Settings) -> str:
    """The regrowth of one client on a ruler: the 80 % range as a band, the expected length as a mark."""
    lengths, top = settings.roots.of(row["kind"]), ruler_end(settings)
    low, high = at(row["regrowth_low_mm"], top), at(row["regrowth_high_mm"], top)
    marks = "".join(
        f'<b style="left:{at(length, top):.2f}%"></b>' for length in (lengths.touch_up_from_mm, lengths.touch_up_by_mm)
    )
    mark = f'<u style="left:{at(row["regrowth_mm"], top):.2f}%"></u>'
    return f'<div class="ruler" aria-hidden="true">{part(low, high - low, "band")}{marks}{mark}</div>'


def ruler_end(settings: Settings) -> float:
    """Where the rulers end, in millimetres."""
    return BEYOND * max(kind.touch_up_by_mm for kind in (settings.roots, *settings.roots.by_kind.values()))


def scale(settings: Settings) -> str:
    """The head of the rulers: its millimetres, the two lengths of the settings by name; what is longer ends there."""
    lengths, top = settings.roots, ruler_end(settings)
    more = f"{wording.mm(top, settings)} +"
    ends = ((0, "0"), (lengths.touch_up_from_mm, ""), (lengths.touch_up_by_mm, ""), (top, more))
    names = "".join(
        f'<b style="left:{at(value, top):.2f}%">{escape(text or wording.mm(value, settings))}</b>'
        for value, text in ends
    )
    return f'<div class="ruler scale" aria-hidden="true">{names}</div>'


def client_line(row: Row, settings: Settings, today: date) -> str:
    """One client: who, how long the roots are, between which days it makes sense, and how to reach her."""
    low, high = wording.number(row["regrowth_low_mm"], settings), wording.mm(row["regrowth_high_mm"], settings)
    weeks = wording.counted(round(row["days_since"] / 7), "week", "weeks", settings)
    stylist = f" with {row['stylist']}" if row["stylist"] else ""
    since = f"{weeks} since {wording.word(row['kind'])}{stylist}"
    length = escape(wording.mm(row["regrowth_mm"], settings))
    return (
        f'<li class="client"><div><strong>{escape(row["client"] or row["client_id"])}</strong>'
        f"<span>{length} <small>({escape(low)}–{escape(high)})</small></span></div>"
        f"{ruler(row, settings)}<p>{escape(_when(row, settings, today))}</p>"
        f'<p class="quiet">{escape(since)}</p>{_contact(row)}</li>'
    )


def _when(row: Row, settings: Settings, today: date) -> str:
    if row["booked_on"]:
        return f"Booked on {_day(row['booked_on'], settings, today)}"
    comes = wording.likely(row["expected_low_on"], row["expected_on"], row["expected_high_on"], settings, today)
    if row["state"] == "long_past":
        length = wording.mm(settings.roots.of(row["kind"]).touch_up_by_mm, settings)
        return f"Past {length} since {_day(row['ready_by'], settings, today)}: plan a longer booking"
    return f"Makes sense {wording.days(row['ready_from'], row['ready_by'], settings, today)}; may come {comes}"


def _day(value: date, settings: Settings, today: date) -> str:
    return wording.day(value, settings, value.year != today.year)


def _contact(row: Row) -> str:
    """Phone and mail as links to tap; only where the client may be contacted."""
    if not row["may_contact"]:
        return '<p class="quiet">May not be called or written to.</p>'
    links = []
    if row.get("phone"):
        digits = "".join(sign for sign in row["phone"] if sign in "+0123456789")
        links.append(f'<a href="tel:{digits}">{escape(row["phone"])}</a>')
    if row.get("email"):
        links.append(f'<a href="mailto:{escape(row["email"], quote=True)}">{escape(row["email"])}</a>')
    return f'<p class="reach">{"".join(links)}</p>' if links else '<p class="quiet">No phone or mail on record.</p>'


def client_list(rows: list[Row], settings: Settings, today: date) -> str:
    """The list of clients with their rulers, the scale at its head."""
    lines = "".join(client_line(row, settings, today) for row in rows)
    return f'<ul class="clients">{scale(settings)}{lines}</ul>'
