"""The few things that are asked of a salon before its first file, with what the browser proposes for them."""

from collections.abc import Callable
from decimal import Decimal
from functools import cache
from typing import Any
from zoneinfo import available_timezones

import streamlit as st
from babel import Locale, UnknownLocaleError
from babel.localedata import exists
from babel.numbers import get_currency_name, get_territory_currencies

from analytics.money import is_currency
from analytics.sentences.start import COSTS_SAY, HOURS_SAY, PROPOSED
from analytics.settings import Hours, SalonSection, Settings
from analytics.stops import WorkStopped
from analytics.storage.settings_file import Sections, write_settings
from dashboard.data import Reading
from dashboard.parts import layout
from dashboard.parts.opening_hours import closed_choice, hours_choice

LANGUAGES = ("en", "nl", "de", "fr", "es", "it", "pt", "da", "sv", "nb", "fi", "pl", "cs", "hu", "ro", "el", "tr")


def about_salon(read: Reading) -> None:
    """The form; kept, it becomes salon.toml, and the page goes on."""
    usual = SalonSection(name="-")
    name = st.text_input("What is your salon called?", max_chars=80, key="about-name", width=420)
    with st.container(horizontal=True, gap="small"):
        at = _own_currency() or usual.currency
        currency = chosen("Currency", currencies(), at, currency_name, key="about-currency")
        at = _own_locale() or usual.locale
        locale = chosen("Numbers and dates as in", locales(), at, locale_name, key="about-locale")
        zone = chosen("Clock of", zones(), _own_zone() or usual.timezone, zone_name, key="about-zone")
    layout.note(PROPOSED)
    layout.head("When are you open?")
    layout.note(HOURS_SAY)
    hours: dict[str, Any] = hours_choice(_usual_hours(), "about-hours")
    closed = closed_choice((), None, read.today, "about-hours")
    layout.head("What does a month cost you?")
    costs = st.number_input(
        f"Costs of a month ({currency})", min_value=0.0, value=None, step=50.0, key="about-costs", width=260
    )
    layout.note(COSTS_SAY)
    if st.button("Go on", type="primary", key="about-keep"):
        if not name.strip():
            layout.said("Give your salon a name first; it stands at the foot of every page.")
            return
        own = {"name": name.strip(), "currency": currency, "locale": locale, "timezone": zone}
        _keep(read, {("salon",): own, ("hours",): hours | ({"closed": closed} if closed else {}), **_costs(costs)})


def _usual_hours() -> Hours:
    hours: Hours = Settings(salon=SalonSection(name="-")).hours
    return hours


def _costs(costs: float | None) -> Sections:
    return {} if costs is None else {("costs",): {"per_month": Decimal(f"{costs:.2f}")}}


def _keep(read: Reading, sections: Sections) -> None:
    try:
        write_settings(read.folder, sections)
    except WorkStopped as stop:
        layout.said(str(stop))
        return
    st.rerun()


def chosen(label: str, options: list[str], at: str, named: Callable[[str], str], *, key: str, width: int = 250) -> str:
    """One of many, by name; what it stands at is among them whatever it is."""
    options = options if at in options else [at, *options]
    found: str = st.selectbox(label, options, index=options.index(at), format_func=named, key=key, width=width)
    return found


@cache
def currencies() -> list[str]:
    """The currencies in use, by code."""
    return sorted({code for land in _lands() for code in get_territory_currencies(land) if is_currency(code)})


def currency_name(code: str) -> str:
    """'EUR, Euro'."""
    return f"{code}, {get_currency_name(code, locale='en')}"


@cache
def locales() -> list[str]:
    """The ways of writing there are in these languages, by name."""
    found = [f"{language}_{land}" for language in LANGUAGES for land in _lands() if exists(f"{language}_{land}")]
    return sorted(found, key=locale_name)


def _lands() -> list[str]:
    return [land for land in map(str, Locale("en").territories) if len(land) == 2]


@cache
def locale_name(name: str) -> str:
    """'Netherlands (Dutch)'."""
    locale, english = Locale.parse(name), Locale("en")
    return f"{english.territories.get(locale.territory, name)} ({english.languages.get(locale.language, name)})"


@cache
def zones() -> list[str]:
    """The zones of places."""
    return sorted(name for name in available_timezones() if "/" in name and not name.startswith(("Etc/", "posix/")))


def zone_name(name: str) -> str:
    """'Amsterdam (Europe)'."""
    land, _, place = name.partition("/")
    return f"{place.replace('_', ' ')} ({land})" if place else name


def _own_zone() -> str | None:
    zone = st.context.timezone
    return zone if zone in available_timezones() else None


def _own_locale() -> str | None:
    try:
        locale = Locale.parse(st.context.locale or "", sep="-")
    except (UnknownLocaleError, ValueError, TypeError):
        return None
    name = f"{locale.language}_{locale.territory}"
    return name if locale.territory and exists(name) else None


def _own_currency() -> str | None:
    locale = _own_locale()
    found = get_territory_currencies(locale.partition("_")[2]) if locale else []
    return next((code for code in found if is_currency(code)), None)
