"""Opening hours and closed days, by clicking: what [hours] in salon.toml shall say."""

from collections import Counter
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

import streamlit as st

from analytics import wording
from analytics.settings import WEEKDAYS, Hours, Settings, Span
from dashboard.parts import layout

NAMES = dict(zip(WEEKDAYS, ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"), strict=True))
STEP_MIN = 15
EARLIEST, LATEST = 6 * 60, 24 * 60
USUAL: tuple[Span, ...] = ((9 * 60, 18 * 60),)
MOST_SPANS = 2  # that can be clicked together


def hours_choice(hours: Hours, key: str) -> dict[str, Any]:
    """The lines of the days of the week as they are chosen now; a day that is shut is taken out."""
    before = {day: getattr(hours, day) for day in WEEKDAYS}
    open_days = st.pills(
        "Open on",
        WEEKDAYS,
        selection_mode="multi",
        default=[day for day in WEEKDAYS if before[day]],
        format_func=NAMES.__getitem__,
        key=f"{key}-days",
    )
    usual = _usual(before)
    same = st.toggle("The same hours every day", all(before[day] in ((), usual) for day in WEEKDAYS), key=f"{key}-same")
    if same:
        chosen = _spans("Open", usual, f"{key}-all")
        return {day: chosen if day in open_days else None for day in WEEKDAYS}
    days = {day: _spans(NAMES[day], before[day] or usual, f"{key}-{day}") for day in WEEKDAYS if day in open_days}
    return {day: days.get(day) for day in WEEKDAYS}


def _usual(days: dict[str, tuple[Span, ...]]) -> tuple[Span, ...]:
    open_ones = Counter(spans for spans in days.values() if spans)
    return open_ones.most_common(1)[0][0] if open_ones else USUAL


def _spans(label: str, before: tuple[Span, ...], key: str) -> str:
    """One day's spans: from, to, and a break in between where there is one."""
    if len(before) > MOST_SPANS:
        layout.note(f"{label}: {as_text(before)}")
        return as_text(before)
    shuts = before[0][1] if len(before) == MOST_SPANS else None
    again = before[1][0] if len(before) == MOST_SPANS else None
    with st.container(horizontal=True, gap="small", key=f"{key}-row"):
        opens = _clock(f"{label} from", before[0][0], key=f"{key}-from")
        closes = _clock("to", before[-1][1], key=f"{key}-to")
        pause = _clock("shut from", shuts, key=f"{key}-pause", optional=True)
        until = _clock("until", again, key=f"{key}-until", optional=True)
    if pause is None or until is None:
        return as_text(((opens or 0, closes or 0),))
    return as_text(((opens or 0, pause), (until, closes or 0)))


def _clock(label: str, minutes: int | None, *, key: str, optional: bool = False) -> int | None:
    times = sorted({*range(EARLIEST, LATEST + 1, STEP_MIN), *([] if minutes is None else [minutes])})
    options: list[int | None] = [None, *times] if optional else [*times]
    found: int | None = st.selectbox(
        label, options, index=options.index(minutes), format_func=_clock_name, key=key, width=118
    )
    return found


def _clock_name(minutes: int | None) -> str:
    if minutes is None:
        return "no break"
    return _clock_text(minutes) + (" at night" if minutes > LATEST else "")


def _clock_text(minutes: int) -> str:
    """'09:00'; what lies after midnight as the clock then says."""
    within = minutes if minutes <= LATEST else minutes - LATEST
    return f"{within // 60:02}:{within % 60:02}"


def as_text(spans: tuple[Span, ...]) -> str:
    """Spans as salon.toml has them."""
    return ", ".join(f"{_clock_text(opens)}-{_clock_text(closes)}" for opens, closes in spans)


def closed_choice(closed: tuple[date, ...], settings: Settings | None, today: date, key: str) -> list[date]:
    """The closed days as they are chosen now: a first and a last day are picked and added, a tap takes them out."""
    kept: list[date] = st.session_state.setdefault(f"{key}-closed", sorted(closed))
    number = st.session_state.setdefault(f"{key}-number", 0)
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        picked: Sequence[date] = st.date_input("Closed from and to", value=[], key=f"{key}-picked-{number}", width=250)
        if st.button("Add these days", key=f"{key}-add", disabled=not picked):
            first, last = picked[0], picked[-1]
            days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
            st.session_state[f"{key}-closed"] = sorted({*kept, *days})
            st.session_state[f"{key}-number"] = number + 1
            st.rerun()
    if not kept:
        return []
    runs = _runs(kept)
    shown = st.pills(
        "Closed days; tap some to open them again",
        runs,
        selection_mode="multi",
        default=runs,
        format_func=lambda run: _run_name(run, settings, today),
        key=f"{key}-runs-{number}",
    )
    return [day for first, last in shown for day in kept if first <= day <= last]


def _run_name(run: tuple[date, date], settings: Settings | None, today: date) -> str:
    if settings is None:
        return " – ".join(dict.fromkeys(day.isoformat() for day in run))
    return wording.days(*run, settings, today)


def _runs(days: list[date]) -> list[tuple[date, date]]:
    """Days in order as first and last day of each unbroken run."""
    runs: list[tuple[date, date]] = []
    for day in days:
        follows = runs and (day - runs[-1][1]).days == 1
        runs[-1:] = [(runs[-1][0], day)] if follows else [*runs[-1:], (day, day)]
    return runs
