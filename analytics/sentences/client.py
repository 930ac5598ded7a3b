"""What the stylist's list says of one client, line by line: when, what waiting costs, what is usual, what was mixed.

Rows are those of analytics.due.everybody. Nothing here is more certain than its row: what is not known is left out.
"""

from datetime import date

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

LEAST_LOST = 0.005  # less than half a point of the chance of return decides nothing


def when_she_is_due(row: Row, settings: Settings, today: date) -> str:
    """Between which days a touch-up makes sense and when she may come, or for when she is booked."""
    if row["booked_on"]:
        return f"Booked on {_day(row['booked_on'], settings, today)}"
    comes = wording.likely(row["expected_low_on"], row["expected_on"], row["expected_high_on"], settings, today)
    may = "" if comes == wording.NOTHING else f"; may come {comes}"
    if row["state"] == "long_past":
        length = wording.mm(settings.roots.of(row["kind"]).touch_up_by_mm, settings)
        return f"Past {length} since {_day(row['ready_by'], settings, today)}: a longer, dearer booking{may}"
    return f"Makes sense {wording.days(row['ready_from'], row['ready_by'], settings, today)}{may}"


def what_waiting_costs(row: Row, settings: Settings, today: date) -> str:
    """What another week without a visit costs; nothing for whom it costs nothing that can be told."""
    if row["booked_on"]:
        return ""
    parts = []
    if row.get("passes_soon"):
        days = _day(row["ready_by"], settings, today)
        parts += [f"more growth than one application covers from {days}, then longer and dearer"]
    if (row.get("chance_lost") or 0) >= LEAST_LOST:
        now, later = (wording.share(row[name], settings) for name in ("chance_of_return", "chance_next_week"))
        parts += [f"chance of return from {now} to {later}"]
    return f"If they wait another week: {'; '.join(parts)}" if parts else ""


def how_long_since(row: Row, settings: Settings) -> str:
    """How long ago, what, and by whom."""
    weeks = wording.weeks(row["days_since"], settings)
    stylist = f" with {row['stylist']}" if row["stylist"] else ""
    return f"{weeks} since {wording.word(row['kind'])}{stylist}"


def what_is_usual(row: Row, settings: Settings) -> str:
    """What she usually has done, and how long it takes."""
    time = wording.minutes(row.get("usual_chair_minutes"), settings)
    usual = ", ".join(part for part in (row.get("usual_services"), time if time != wording.NOTHING else "") if part)
    return f"Usually {usual}" if usual else ""


def what_was_mixed(row: Row, settings: Settings, today: date) -> str:
    """The last bowl for her roots, with what was weighed as left of it."""
    if not row.get("last_mixed"):
        return "No bowl of theirs is in the log"
    left = row["last_left_g"]
    rest = (
        ""
        if left is None
        else f"; {wording.grams(left, settings)} of {wording.grams(row['last_mixed_g'], settings)} left"
    )
    return f"Mixed on {_day(row['last_mixed_on'], settings, today)}: {row['last_mixed']}{rest}"


def about_the_skin_test(row: Row, settings: Settings, today: date) -> str:
    """When the skin test before a colour visit in the diary is due, and the last one on record."""
    hours = settings.roots.of(row["kind"]).patch_test_hours
    tested = row.get("patch_tested_on")
    record = f"last on record {_day(tested, settings, today)}" if tested else "none on record"
    if hours and row.get("skin_test_by"):
        return f"Skin test due by {wording.moment(row['skin_test_by'], settings, today)}; {record}"
    return f"Skin test: {record}"


def next_in_the_book(row: Row, settings: Settings, today: date) -> str:
    """The next visit, where there is one: a client who comes for a cut can be asked then."""
    if not row.get("next_visit_on"):
        return ""
    what = f" for {row['next_services']}" if row["next_services"] else ""
    return f"In the diary on {_day(row['next_visit_on'], settings, today)}{what}"


def what_she_said(row: Row, settings: Settings, today: date) -> str:
    """The last mark since her last root visit."""
    if not row.get("answer"):
        return ""
    who = f" ({row['asked_by']})" if row["asked_by"] else ""
    return f"{wording.word(row['answer']).capitalize()}: {_day(row['asked_on'], settings, today)}{who}"


def _day(value: date, settings: Settings, today: date) -> str:
    return wording.day(value, settings, value.year != today.year)
