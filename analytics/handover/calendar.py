"""A calendar file of all-day events (RFC 5545): the same events and day give the same bytes."""

from dataclasses import dataclass
from datetime import date, timedelta

MOST_OCTETS = 75
LINE_END = "\r\n"


@dataclass(frozen=True)
class AllDay:
    """An event from its first day to its last, both within it. uid: the same event has the same one in every file."""

    uid: str
    first: date
    last: date
    summary: str
    description: str


def calendar(events: list[AllDay], stamp: date, product: str) -> bytes:
    """The file; `stamp` is the day it was made for, and `product` says what made it. Events take up no time."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:-//{_text(product)}//EN", "CALSCALE:GREGORIAN"]
    for event in events:
        lines += _event(event, stamp)
    return "".join(folded(line) + LINE_END for line in [*lines, "END:VCALENDAR"]).encode()


def _event(event: AllDay, stamp: date) -> list[str]:
    after = event.last + timedelta(days=1)  # DTEND is the first day that no longer belongs to it
    return [
        "BEGIN:VEVENT",
        f"UID:{_text(event.uid)}",
        f"DTSTAMP:{stamp:%Y%m%d}T000000Z",
        f"DTSTART;VALUE=DATE:{event.first:%Y%m%d}",
        f"DTEND;VALUE=DATE:{after:%Y%m%d}",
        f"SUMMARY:{_text(event.summary)}",
        f"DESCRIPTION:{_text(event.description)}",
        "CLASS:PRIVATE",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    ]


def _text(value: str) -> str:
    """Text as RFC 5545 3.3.11 has it: backslash, semicolon, comma and line break escaped, control signs left out."""
    plain = "".join(sign for sign in value.replace("\r\n", "\n") if sign == "\n" or (sign >= " " and sign != "\x7f"))
    for sign in "\\;,":
        plain = plain.replace(sign, f"\\{sign}")
    return plain.replace("\n", "\\n")


def folded(line: str) -> str:
    """The line over lines of at most 75 octets, none cut within a sign (3.1); the ends of lines do not count."""
    parts, part, room = [], "", MOST_OCTETS
    for sign in line:
        size = len(sign.encode())
        if size > room:
            parts.append(part)
            part, room = " ", MOST_OCTETS - 1
        part, room = part + sign, room - size
    return LINE_END.join([*parts, part])
