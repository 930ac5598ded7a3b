"""Roots: the growth rate of each client, her regrowth on the day and the days her roots are ready.

The rate is a normal prior updated by measured regrowths with a normal error of 1.5 mm:
precision = 1/prior_sd² + Σ days²/1.5², mean = (prior_mean/prior_sd² + Σ days × measured/1.5²) ÷ precision.
"""

from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from math import ceil, sqrt
from typing import Any

from plain_book import resets_roots

Row = dict[str, Any]

MEASUREMENT_ERROR_MM = Fraction("1.5")
# What grew faster than this was measured somewhere else or written down wrongly.
FASTEST_MM_PER_DAY = Fraction("0.8")
FARTHEST_ERROR_MM = Fraction("4.5")
EIGHTY_PERCENT_Z = 1.2815515655
NEARING_DAYS = 14
DEFAULTS = {
    "touch_up_from_mm": Decimal(10), "touch_up_by_mm": Decimal(30),
    "growth_mm_per_day": Decimal("0.35"), "growth_sd": Decimal("0.075"),
}  # fmt: skip


def root_setting(name: str, kind: str, roots: Row) -> Fraction:
    """The kind's own setting, else the salon's, else the default."""
    return Fraction(roots.get(kind, {}).get(name, roots.get(name, DEFAULTS[name])))


def is_root_work(line: Row) -> bool:
    """A line that colours the roots; a refund colours nothing."""
    return line["price"] >= 0 and resets_roots(line["menu"])


def measured_regrowths(lines: list[Row]) -> list[tuple[Fraction, Fraction]]:
    """(days, mm) of every visit with a measurement and an earlier root-resetting visit; one value per visit."""
    root_days = {line["day"] for line in lines if is_root_work(line)}
    pairs = []
    seen_visits = set()
    for line in sorted(lines, key=lambda line: (line["starts_at"], line["booking_id"], line["line"])):
        if line.get("regrowth_mm") is None or line["booking_id"] in seen_visits:
            continue
        seen_visits.add(line["booking_id"])
        earlier = [day for day in root_days if day < line["day"]]
        if not earlier:
            continue
        days = Fraction((line["day"] - max(earlier)).days)
        measured_mm = Fraction(line["regrowth_mm"])
        if measured_mm <= FASTEST_MM_PER_DAY * days + FARTHEST_ERROR_MM:
            pairs.append((days, measured_mm))
    return pairs


def growth(pairs: list[tuple[Fraction, Fraction]], prior_mean: Fraction, prior_sd: Fraction) -> tuple[Fraction, float]:
    """Posterior mean and standard deviation of mm per day."""
    if prior_sd == 0:
        return prior_mean, 0.0
    precision = 1 / prior_sd**2
    weighted = prior_mean / prior_sd**2
    for days, measured_mm in pairs:
        precision += days**2 / MEASUREMENT_ERROR_MM**2
        weighted += days * measured_mm / MEASUREMENT_ERROR_MM**2
    return weighted / precision, sqrt(1 / precision)


def state_of(today: date, ready_from: date, ready_by: date, booked_on: date | None) -> str:
    if booked_on is not None:
        return "booked"
    if today < ready_from - timedelta(days=NEARING_DAYS):
        return "resting"
    if today < ready_from:
        return "nearing"
    return "ready" if today <= ready_by else "long_past"


def client_row(client_id: str, lines: list[Row], booked_days: list[date], book: Row, today: date) -> Row:
    root_lines = [line for line in lines if is_root_work(line)]
    last_start = max(line["starts_at"] for line in root_lines)
    # Of the last root visit, the line with the lowest number says kind and stylist.
    last = min(
        (line for line in root_lines if line["starts_at"] == last_start),
        key=lambda line: (line["line"], line["booking_id"]),
    )
    same_visit = [line for line in root_lines if line["booking_id"] == last["booking_id"]]
    last = min(same_visit, key=lambda line: line["line"])
    last_root_on = max(line["day"] for line in same_visit)
    roots = book["settings"]["roots"]
    prior_mean = root_setting("growth_mm_per_day", last["kind"], roots)
    prior_sd = root_setting("growth_sd", last["kind"], roots)
    rate, rate_sd = growth(measured_regrowths(lines), prior_mean, prior_sd)
    days_since = (today - last_root_on).days
    ready_from = last_root_on + timedelta(days=ceil(root_setting("touch_up_from_mm", last["kind"], roots) / rate))
    ready_by = last_root_on + timedelta(days=ceil(root_setting("touch_up_by_mm", last["kind"], roots) / rate))
    booked_on = min(booked_days) if booked_days else None
    contact = book["clients"].get(client_id, {})
    return {
        "client_id": client_id,
        "client": contact.get("client"),
        "kind": last["kind"],
        "stylist": last.get("stylist"),
        "last_root_on": last_root_on,
        "days_since": days_since,
        "growth_mm_per_day": float(rate),
        "regrowth_mm": float(rate * days_since),
        "regrowth_low_mm": max(0.0, (float(rate) - EIGHTY_PERCENT_Z * rate_sd) * days_since),
        "regrowth_high_mm": (float(rate) + EIGHTY_PERCENT_Z * rate_sd) * days_since,
        "ready_from": ready_from,
        "ready_by": ready_by,
        "state": state_of(today, ready_from, ready_by, booked_on),
        "booked_on": booked_on,
        "may_contact": contact.get("may_contact") or False,  # empty means no
    }


def roots_table(book: Row, today: date) -> list[Row]:
    """One row per client with a completed root-resetting line up to today; what is dated later is not known yet."""
    lines_of_client: dict[str, list[Row]] = {}
    for line in book["completed"]:
        if line["day"] <= today:
            lines_of_client.setdefault(line["client_id"], []).append(line)
    booked_days: dict[str, list[date]] = {}
    for line in book["lines"]:
        # A visit booked for today still lies ahead.
        if line["status"] == "booked" and line["day"] >= today and is_root_work(line):
            booked_days.setdefault(line["client_id"], []).append(line["day"])
    rows = []
    for client_id, lines in sorted(lines_of_client.items()):
        if any(is_root_work(line) for line in lines):
            rows.append(client_row(client_id, lines, booked_days.get(client_id, []), book, today))
    return rows
