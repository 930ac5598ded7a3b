"""The pages and the filters they share. Started by dashboard.start, which passes the salon's folder and the day."""

import argparse
from dataclasses import replace
from datetime import date
from pathlib import Path

import streamlit as st
from streamlit.navigation.page import StreamlitPage

from analytics import sentences, wording
from analytics.stops import WorkStopped
from dashboard.access import who
from dashboard.data import Reading
from dashboard.parts import layout

PAGES_FOLDER = Path(__file__).resolve().parent / "pages"
PAGES = (  # file and address, title, whether the month and chair filters apply
    ("month", "The month", True),
    ("chairs", "Chair hours", True),
    ("minutes", "Minutes", True),
    ("prices", "Prices", True),
    ("roots", "Roots due", False),
    ("ahead", "Weeks ahead", False),
    ("returns", "Coming back", False),
    ("bowls", "Bowls", True),
    ("stock", "Stock and retail", True),
    ("accountant", "For the accountant", False),
    ("exports", "Exports and findings", False),
)
ALL_CHAIRS = "All chairs"


def asked() -> Reading:
    """The folder and the day of the command line."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--salon", type=Path, default=Path())
    parser.add_argument("--today", type=date.fromisoformat, default=None)
    found, _ = parser.parse_known_args()
    return Reading(found.salon, found.today or date.today())


def filters(whole: Reading, dated: bool) -> Reading:
    """The site of a group, and where they apply the month and the chair, kept from page to page.

    The month stands in the address too, so that it can be marked.
    """
    with st.container(horizontal=True, key="filters"):
        shown = replace(whole, site=_site(whole)) if whole.sites else whole
        if dated:
            shown = replace(shown, month=_month(whole), chair=_chair(shown))
    for text in sentences.narrowed(shown.site, shown.chair):
        layout.note(text)
    return shown


def _site(whole: Reading) -> str | None:
    site: str | None = st.selectbox(
        "Salon",
        [None, *whole.sites],
        format_func=sentences.site_name,
        key="site",
        persist_state="session",
        label_visibility="collapsed",
        width=180,
    )
    return site


def _month(whole: Reading) -> str:
    months = whole.months[::-1]
    month: str = st.selectbox(
        "Month",
        months,
        index=months.index(whole.last_whole_month or months[0]),
        format_func=lambda name: _month_name(name, whole),
        key="month",
        bind="query-params",
        label_visibility="collapsed",
        width=196,
    )
    return month


def _chair(shown: Reading) -> str | None:
    """The chairs of each salon of a group are a choice of their own."""
    chair: str = st.selectbox(
        "Chair",
        [ALL_CHAIRS, *shown.chairs],
        key="chair" if shown.site is None else f"chair in {shown.site}",
        persist_state="session",
        label_visibility="collapsed",
        width=146,
    )
    return None if chair == ALL_CHAIRS else chair


def _month_name(month: str, whole: Reading) -> str:
    return wording.month_title(month, whole.settings) + (", so far" if whole.is_part(month) else "")


def foot(whole: Reading, pages: list[StreamlitPage]) -> None:
    """Whose figures these are, and on a phone the other pages, under the thumb."""
    try:
        if whole.loaded and whole.stale:
            layout.said(sentences.STALE)
        layout.note(sentences.foot(whole.settings, whole.months, whole.today))
    except WorkStopped:
        pass  # the page itself says it
    with st.container(horizontal=True, key="foot"):
        for page in pages:
            st.page_link(page)


def body(whole: Reading, page: StreamlitPage, dated: bool) -> None:
    """The filters where they apply, then the page; or the one sentence that says why there is none."""
    try:
        missing = _missing(whole, page)
    except WorkStopped as stopped:
        missing = str(stopped)
    if missing:
        layout.answer(missing)
        return
    st.session_state["reading"] = whole if page.url_path == "exports" else filters(whole, dated)
    page.run()


def _missing(whole: Reading, page: StreamlitPage) -> str:
    """What there is nothing to show without. The page that loads exports needs no book, only settings."""
    if whole.settings and page.url_path == "exports":
        return ""
    if not whole.loaded:
        return sentences.WHERE_TO_LOAD
    return "" if whole.months else sentences.NOTHING_YET


def show() -> None:
    """The page that was asked for, over its foot."""
    st.set_page_config(page_title="Salon figures", layout="wide")
    whole = asked()
    if who.reader(whole.folder) is None:
        st.html(f"<p>{who.NOBODY}</p>")
        return
    pages = {st.Page(PAGES_FOLDER / f"{file}.py", title=title, url_path=file): dated for file, title, dated in PAGES}
    page = st.navigation(list(pages), position="top")
    layout.style()
    above, below = st.container(), st.container()
    with below:  # first, since a page may stop before its end
        foot(whole, list(pages))
    with above:
        body(whole, page, pages[page])


show()
