"""Who is due for a root touch-up, and the cautions that stand wherever root dates are shown."""

from collections import Counter
from datetime import date, timedelta

import polars as pl

from analytics import wording
from analytics.settings import Settings

SOON = timedelta(days=7)


def roots_sentence(roots: pl.DataFrame, settings: Settings, as_of: date) -> str:
    """How many clients are due and not booked, and how many of them soon pass one application."""
    today = wording.day(as_of, settings)
    if roots.is_empty():
        return f"Up to {today} no service that colours the roots is on record, so nobody is due."
    count = Counter(roots["state"])
    ready, soon = count["ready"], _passing(roots, as_of)
    start = f"On {today}, {_clients(ready, 'is', 'are', settings)} ready for a root touch-up and not booked"
    more = [f"{soon} of them {'passes' if soon == 1 else 'pass'} one application within a week"] if soon else []
    for state, one, many, text in (
        ("nearing", "more gets", "more get", "there within two weeks"),
        ("long_past", "is", "are", "past one application, a longer booking"),
    ):
        more += [f"{wording.counted(count[state], one, many, settings)} {text}"] if count[state] else []
    return "; ".join([start, wording.listed(more)] if more else [start]) + "."


def nobody_came(roots: pl.DataFrame, settings: Settings) -> list[str]:
    """That nobody came for four weeks or more, and what then becomes of the dates; nothing where people came."""
    return [
        f"Nobody has come since {wording.day(day, settings)}, four weeks or more. These dates count as if the salon "
        "had been open: if it was closed, list the days under closed in salon.toml; if not, load the newest exports."
        for day in roots["nobody_since"].drop_nulls().unique().sort()
    ]


def _passing(roots: pl.DataFrame, as_of: date) -> int:
    return roots.filter((pl.col("state") == "ready") & (pl.col("ready_by") <= as_of + SOON)).height


def _clients(count: int, one: str, many: str, settings: Settings) -> str:
    if not count:
        return f"no client {one}"
    return f"{wording.counted(count, 'client', 'clients', settings)} {one if count == 1 else many}"


def then_sentence(listed: pl.DataFrame, week: date, settings: Settings, today: date) -> str:
    """What happens in a later week, as things stand: who becomes ready, passes one application or may come."""
    last = week + timedelta(days=6)
    parts = [
        wording.counted(count, one, many, settings)
        for name, one, many in (
            ("ready_from", "becomes ready", "become ready"),
            ("ready_by", "passes one application", "pass one application"),
            ("expected_on", "is likely to come unasked", "are likely to come unasked"),
        )
        if (count := listed.filter(pl.col(name).is_between(week, last)).height)
    ]
    days = wording.days(week, last, settings, today)
    return f"In the week of {days}, {wording.listed(parts)}." if parts else f"In the week of {days} nobody falls due."


def order_note() -> str:
    """In which order clients stand on the list."""
    return (
        "First come those who pass one application within a week, since after it the booking is longer and dearer; "
        "then everybody by how much of the chance of return another week without a visit takes. Whoever was asked in "
        "the last seven days comes after the others. A second tap takes a mark back; marks are kept in asked.csv in "
        "the salon's folder."
    )


def ruler_note(settings: Settings) -> str:
    """How the rulers are read."""
    low, high = (
        wording.mm(length, settings) for length in (settings.roots.touch_up_from_mm, settings.roots.touch_up_by_mm)
    )
    return (
        "On each ruler the mark is the regrowth expected today, and the band where it lies for 8 clients in 10. The "
        f"dashed lines are {low}, before which colour would overlap, and {high}, after which one application no longer "
        "covers it."
    )


def roots_cautions(settings: Settings) -> str:
    """The cautions that stand wherever root dates are shown."""
    ahead = wording.number(settings.roots.patch_test_hours, settings)
    return (
        "These dates help with planning and are no instruction: the maker's instructions, local rules and licensed "
        f"practice come first. Skin-test as the maker says; this salon plans {ahead} hours ahead. No colour on "
        "irritated or broken skin, nor after an earlier reaction. Lightener is not overlapped on hair that is "
        "lightened already."
    )
