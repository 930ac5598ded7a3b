"""Who reads the page that runs now: known from the gate's header, never from what a browser says."""

from datetime import datetime
from html import escape
from pathlib import Path

import streamlit as st

from dashboard.access.people import Reader
from dashboard.access.vault import read_vault

ALONE: Reader | None = None
"""Who reads where pages run in a process of their own, without a server: set by whoever runs them so, in tests."""
NOBODY = "Nobody is signed in here. Start the pages with salon-figures dashboard, and open the link that it shows."


def signed_in_as(reader: Reader) -> str:
    """Who this is, and the way out."""
    return f'<p class="note">Signed in as {escape(reader.name)}. <a href="/sign-out" target="_self">Sign out</a></p>'


def last_seen(now: datetime) -> str:
    """What stands above a page whose connection is gone, where the style sheet shows it: a phone left the salon."""
    return (
        f'<p class="unconnected" role="status">Not connected: this is what stood here at {now:%H:%M}. It stays to be '
        "read; nothing can be marked until the connection is back.</p>"
    )


def reader(salon: Path) -> Reader | None:
    """The person as the salon knows them at this moment; None where there is none."""
    if ALONE is not None:
        return ALONE
    key = st.context.headers.get("X-Salon-Person")
    person = read_vault(salon).person(key) if key else None
    return person.reader if person else None
