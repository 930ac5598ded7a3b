"""The menu: each service's usual prices by date, its kind and minutes, to confirm or change in one sitting."""

from decimal import Decimal
from typing import Any

import streamlit as st

from analytics.definitions.rows import Row
from analytics.definitions.tables import SERVICE_KINDS
from analytics.definitions.vocabulary import KINDS
from analytics.handover.menu import OWN_MENU, keep_menu
from analytics.intake.publishing.drafted_menu import DRAFT
from analytics.records.chairs.confirmed_menu import confirmed_menu, menu_lines
from analytics.sentences import menu as said
from analytics.stops import WorkStopped
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import layout, loading

PAGE = Page(title="The menu", order=106, readers=("owner",))


def service(line: Row, number: int) -> dict[str, Any]:
    """One service with what can be changed of it; answers what stands there now."""
    layout.html(layout.named(line["service"], said.prices(line, settings)))
    with st.container(horizontal=True, gap="small", key=f"service-{number}"):
        kind = st.selectbox(
            "Kind", SERVICE_KINDS, index=SERVICE_KINDS.index(line["kind"]), format_func=lambda one: KINDS[one],
            key=f"kind-{number}", width=180,
        )  # fmt: skip
        hands_on = minutes("Minutes at work", line["hands_on_min"], f"hands-on-{number}")
        processing = minutes("Minutes it develops", line["processing_min"], f"processing-{number}")
        before = line["price"]
        at = None if before is None else float(before)
        price = st.number_input(
            f"Price now ({settings.salon.currency})", value=at, min_value=0.0, key=f"price-{number}", width=150
        )
    changed = None if price is None else Decimal(str(price))
    return {"kind": kind, "hands_on_min": hands_on, "processing_min": processing, "price": changed}


def minutes(label: str, value: float | None, key: str) -> float:
    """A choice of minutes, in steps of five."""
    return st.number_input(label, value=float(value or 0), min_value=0.0, step=5.0, format="%g", key=key, width=150)


def joined(pairs: list[Row]) -> list[Row]:
    """The pairs that are ticked as one service."""
    if pairs:
        layout.head("One service under two names?")
    ticked = []
    for number, row in enumerate(pairs):
        layout.said(said.pair(row, settings))
        if st.checkbox(said.ONE_SERVICE, key=f"one-{number}"):
            ticked.append(row)
    return ticked


def keep(given: dict[tuple[str, str], dict[str, Any]], ones: list[Row]) -> None:
    """Write the menu among the exports and load it."""
    pairs = [(row["service_id"], row["goes_on_as_id"]) for row in ones]
    first = {row["goes_on_as_id"]: row["first_on"] for row in ones}
    try:
        keep_menu(read.folder, confirmed_menu(services, given, pairs, first), files)
    except WorkStopped as stop:
        layout.said(str(stop))
        return
    loading.load(read, f"{said.KEPT.format(file=OWN_MENU)} {loading.LOADED}")


read = reading(PAGE)
settings, book = read.settings, read.book
services, made = book.tables["services"], book.made.filter(table="services")
files = services["file"].unique(maintain_order=True).to_list()
lines = menu_lines(services)
layout.answer(said.opening(len(lines), settings, drafted=DRAFT in files, proposed=made["column"].to_list()))
loading.say()
layout.note(said.HOW)
with st.form("menu", border=False):
    ones = joined(read.figure("renamed_services").to_dicts())
    layout.head("Service by service")
    given = {(line["site"], line["service_id"]): service(line, number) for number, line in enumerate(lines)}
    if st.form_submit_button("Keep this menu", type="primary"):
        keep(given, ones)
