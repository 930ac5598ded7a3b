"""How many usual days a month is open: each open day counts as much as its weekday brought before that month."""

from collections.abc import Mapping
from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.periods import Period, in_spans
from analytics.settings import Hours

Floats = NDArray[np.float64]

WEEKDAYS = 7
BELIEVED_AFTER = 40.0  # visits on a weekday: with so many expected, half of how it differs is believed


def usual_days(visits: pl.DataFrame, hours: Hours, spans: Mapping[str, Period]) -> Floats:
    """One number per span, in order; nought where nothing is open.

    visits: starts_at and came. spans: in order of time. In its first month a salon's weekdays all count the same, and
    days before its first visit do not count.
    """
    first: date | None = visits.filter("came")["starts_at"].dt.date().min()  # type: ignore[assignment]
    opened = np.array([_open_days(hours, span, first) for span in spans.values()]).reshape(-1, WEEKDAYS)
    came = _visits(visits, hours, spans)
    days_before, visits_before = (np.cumsum(part, axis=0) - part for part in (opened, came))
    total = visits_before.sum(axis=1, keepdims=True)
    usual = total / np.maximum(days_before.sum(axis=1, keepdims=True), 1)
    brought = (visits_before + BELIEVED_AFTER) / (days_before * usual + BELIEVED_AFTER)
    out: Floats = (opened * brought).sum(axis=1)
    return out


def _open_days(hours: Hours, span: Period, first: date | None) -> list[int]:
    """How many of each weekday are open, Monday first, from the first visit on."""
    days = (span.start + timedelta(days=step) for step in range((span.end - span.start).days))
    seen = [day.weekday() for day in days if hours.of(day) and (first is None or day >= first)]
    return [seen.count(weekday) for weekday in range(WEEKDAYS)]


def _visits(visits: pl.DataFrame, hours: Hours, spans: Mapping[str, Period]) -> Floats:
    """Per span and weekday: visits on open days."""
    names = {name: place for place, name in enumerate(spans)}
    counted = np.zeros((len(spans), WEEKDAYS))
    inside = in_spans(
        visits.filter("came"), "starts_at", {name: span for name, span in spans.items() if not span.empty}
    )
    days = inside.group_by("month", day=pl.col("starts_at").dt.date()).len()
    for month, day, number in days.iter_rows():
        counted[names[month], day.weekday()] += number if hours.of(day) else 0
    return counted
