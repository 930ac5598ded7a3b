"""One section of the settings as a form: each key with its value, its meaning and what changes with it."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, Literal, get_args, get_origin

import streamlit as st
from pydantic.fields import FieldInfo

from analytics.sentences import settings as said
from analytics.settings import Section
from dashboard.parts import layout
from dashboard.parts.about_salon import chosen, currencies, currency_name, locale_name, locales, zone_name, zones

NAMED: dict[str, tuple[Callable[[], list[str]], Callable[[str], str]]] = {
    "currency": (currencies, currency_name),
    "locale": (locales, locale_name),
    "timezone": (zones, zone_name),
}
WIDTH = 300


def fields(section: str, at: Section, key: str) -> dict[str, Any]:
    """A widget for each key; answers the lines that were changed."""
    changed: dict[str, Any] = {}
    for name, field in type(at).model_fields.items():
        before = getattr(at, name)
        if isinstance(before, Mapping):
            continue  # by stylist, or by kind: shown by themselves
        now = _field(name, field, before, f"{key}-{name}")
        if now != before:
            changed[name] = list(now) if isinstance(now, tuple) else now
        mark = "" if name in at.model_fields_set else " assumed"
        meaning = f"{(field.description or '').rstrip('.')}. {said.changes(section, name)}"
        layout.said_small(meaning[:1].upper() + meaning[1:], mark)
    return changed


def _field(name: str, field: FieldInfo, before: Any, key: str) -> Any:
    label, words = said.label(name), _words(field.annotation)
    if name in NAMED:
        options, named = NAMED[name]
        return chosen(label, options(), before, named, key=key, width=WIDTH)
    if words:
        options_, index = [*words], words.index(before) if before in words else None
        return st.selectbox(
            label, options_, index=index, format_func=_word, key=key, width=WIDTH, placeholder="as files show"
        )
    if isinstance(before, tuple):
        text = st.text_input(label, ", ".join(before), key=key, width=WIDTH, placeholder="none, or several with commas")
        return tuple(part.strip() for part in text.split(",") if part.strip())
    if isinstance(before, str):
        return st.text_input(label, before, key=key, width=WIDTH).strip()
    return _number(label, before, key)


def _word(word: str) -> str:
    return word.replace("_", " ")


def _words(annotation: Any) -> tuple[str, ...]:
    """The words of a Literal, also of one that may be left open."""
    for one in (annotation, *get_args(annotation)):
        if get_origin(one) is Literal:
            return get_args(one)
    return ()


def _number(label: str, before: Decimal | float | int | None, key: str) -> Decimal | float | int | None:
    """In steps that fit its size; exact where it is exact."""
    if isinstance(before, int):
        return st.number_input(label, value=before, step=1, key=key, width=WIDTH)
    small = before is not None and 0 < before < 1
    value = None if before is None else float(before)
    now = st.number_input(label, value=value, step=0.01 if small else 1.0, format="%g", key=key, width=WIDTH)
    if now is None or isinstance(before, float):
        return now
    return Decimal(str(now)).normalize() if Decimal(str(now)) != before else before


def by_name(label: str, names: list[str], before: Mapping[str, Decimal], key: str) -> dict[str, Decimal | None]:
    """A number for each name, empty for none; answers what was changed. Names are data, so they stand beside."""
    changed: dict[str, Decimal | None] = {}
    for number, name in enumerate(names):
        with st.container(horizontal=True, vertical_alignment="center", gap="small", key=f"{key}-{number}"):
            layout.said_small(name, "", width=160)
            at = before.get(name)
            now = st.number_input(
                f"{label}, {number + 1}", value=None if at is None else float(at), min_value=0.0, format="%g",
                key=f"{key}-{number}-value", width=200, label_visibility="collapsed", placeholder="none",
            )  # fmt: skip
        exact = None if now is None else Decimal(str(now))
        if exact != at:
            changed[name] = exact
    return changed
