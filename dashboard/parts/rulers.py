"""The rulers: one line of text per client, with her regrowth drawn to scale under it.

They are plain HTML that any width can hold and any reader can read aloud. Every text from data is escaped here.
"""

from datetime import date
from html import escape

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences import client as said
from analytics.settings import Settings
from dashboard.parts.bars import at, part

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
    """One client: who, how long the roots are, when a touch-up makes sense, what waiting costs, how to reach her."""
    low, high = wording.number(row["regrowth_low_mm"], settings), wording.mm(row["regrowth_high_mm"], settings)
    length = escape(wording.mm(row["regrowth_mm"], settings))
    return (
        f'<li class="client"><div><strong>{escape(row["client"] or row["client_id"])}</strong>'
        f"<span>{length} <small>({escape(low)}–{escape(high)})</small></span></div>"
        f"{ruler(row, settings)}{_wants(row, settings, today)}{_facts(row, settings, today)}{_contact(row)}</li>"
    )


def _wants(row: Row, settings: Settings, today: date) -> str:
    """What decides whether she is asked today."""
    return (
        _line("", said.when_she_is_due(row, settings, today))
        + _line("costs" if row.get("passes_soon") else "", said.what_waiting_costs(row, settings, today))
        + _line("", said.what_she_said(row, settings, today))
    )


def _facts(row: Row, settings: Settings, today: date) -> str:
    """What is good to know once she comes."""
    since = ". ".join(filter(None, (said.how_long_since(row, settings), said.what_is_usual(row, settings))))
    texts = (
        since,
        said.what_was_mixed(row, settings, today),
        said.next_in_the_book(row, settings, today),
        said.about_the_skin_test(row, settings, today),
    )
    return '<div class="facts">' + "".join(_line("quiet", text) for text in texts) + "</div>"


def _line(name: str, text: str) -> str:
    return f'<p class="{name}">{escape(text)}</p>' if text else ""


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


def client_item(row: Row, settings: Settings, today: date) -> str:
    """One client as a list of her own, so that what can be tapped stands between her and the next."""
    return f'<ul class="clients">{client_line(row, settings, today)}</ul>'


def ruler_head(settings: Settings) -> str:
    """The scale over the rulers."""
    return f'<div class="clients-head">{scale(settings)}</div>'
