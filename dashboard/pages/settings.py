"""Settings: every setting with its meaning, its value and what changes with it, kept in salon.toml."""

from typing import Any

import streamlit as st

from analytics.definitions.tables import SERVICE_KINDS
from analytics.definitions.vocabulary import KINDS
from analytics.sentences import settings as said
from analytics.settings import Settings
from dashboard.data import reading
from dashboard.for_stylists import stylists
from dashboard.page import Page
from dashboard.parts import layout, loading, opening_hours, setting_fields

PAGE = Page(title="Settings", order=107, readers=("owner",), needs="settings")


def form(section: str, path: tuple[str, ...], at: Any) -> None:
    """The keys of one section, with the button that keeps them."""
    key = "-".join(path)
    with st.form(f"form-{key}", border=False):
        lines: dict[tuple[str, ...], dict[str, Any]] = {path: setting_fields.fields(section, at, key)}
        if section == "wages":
            names = sorted({*(stylists(read) if read.loaded else []), *at.per_hour, *at.share_percent})
            for name in ("per_hour", "share_percent"):
                layout.note(said.label(name))
                lines[path[0], name] = setting_fields.by_name(
                    said.label(name), names, getattr(at, name), f"{key}-{name}"
                )
            layout.note(said.changes(section, ""))
        if st.form_submit_button("Keep"):
            loading.keep_settings(read, {place: own for place, own in lines.items() if own}, said.KEPT)


def hours(settings: Settings) -> None:
    """Opening hours and closed days."""
    layout.note(said.changes("hours", ""))
    days = opening_hours.hours_choice(settings.hours, "hours")
    closed = opening_hours.closed_choice(settings.hours.closed, settings, read.today, "hours")
    if st.button("Keep", key="keep-hours"):
        loading.keep_settings(read, {("hours",): days | {"closed": closed or None}}, said.KEPT)


def roots(settings: Settings) -> None:
    """For all kinds of work, or for one of them."""
    options = ["", *SERVICE_KINDS[:4]]
    kind = st.segmented_control(
        "For", options, default="", format_func=lambda one: KINDS.get(one, "all kinds"), key="roots-kind", required=True
    )
    form("roots", ("roots", kind) if kind else ("roots",), settings.roots.of(kind or "") if kind else settings.roots)


def usual_again(section: str) -> None:
    """The button that takes out what was set."""
    if section == "salon" or section not in settings.model_fields_set:
        return
    if st.button("What is usual again", key=f"usual-{section}", type="tertiary"):
        own = getattr(settings, section)
        keys = {*own.model_fields_set, *getattr(own, "by_kind", ())}
        loading.keep_settings(read, {(section,): dict.fromkeys(keys)}, said.TAKEN_BACK)


def choices(section: str, own: dict[str, Any]) -> None:
    """What was chosen for files, each line with a button that takes it out again."""
    nested = {name: lines for name, lines in own.items() if isinstance(lines, dict)}
    paths: dict[tuple[str, ...], dict[str, str]] = {(section, name): lines for name, lines in nested.items()}
    paths = paths or {(section,): own}
    for path, lines in paths.items():
        for number, (name, value) in enumerate(lines.items()):
            with st.container(horizontal=True, vertical_alignment="center", gap="small"):
                where = f"{path[1]}: " if len(path) > 1 else ""
                layout.said_small(f"{where}{name} = {value or 'left out'}", "", width=420)
                if st.button("Take out", key=f"out-{'-'.join(path)}-{number}"):
                    loading.keep_settings(read, {path: {name: None}}, said.KEPT)


read = reading(PAGE)
settings = read.settings
layout.answer(said.opening(settings))
loading.say()
for section, title in said.TITLES.items():
    with st.expander(title, expanded=section in ("hours", "costs") and section not in settings.model_fields_set):
        if section == "hours":
            hours(settings)
        elif section == "roots":
            roots(settings)
        else:
            form(section, (section,), getattr(settings, section))
        usual_again(section)
for section, title in said.CHOICES.items():
    if own := getattr(settings, section):
        with st.expander(title):
            choices(section, own)
layout.note("A usual value that you never set is marked ≈.")
