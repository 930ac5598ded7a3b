"""The filters that pages share, kept from page to page: the site of a group, the month, the chair."""

from dataclasses import replace

import streamlit as st

from analytics import sentences, wording
from dashboard.data import Reading
from dashboard.page import Page
from dashboard.parts import layout

ALL_CHAIRS = "All chairs"


def narrowed(whole: Reading, page: Page) -> Reading:
    """What of the salon the page shows, by the filters that apply to it.

    The month stands in the address too, so that it can be marked.
    """
    if not page.filters:
        return whole
    shown = whole
    with st.container(horizontal=True, key="filters"):
        if "site" in page.filters and whole.sites:
            shown = replace(shown, site=_site(whole))
        if "month" in page.filters:
            shown = replace(shown, month=_month(whole))
        if "chair" in page.filters:
            shown = replace(shown, chair=_chair(shown))
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
