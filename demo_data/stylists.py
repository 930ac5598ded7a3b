"""The five stylists: when they are there, and how they mix and keep records."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Stylist:
    name: str
    weekdays: tuple[int, ...]
    home_chair: int
    days_off: tuple[tuple[date, date], ...]
    weight: float
    extra_mix: float  # how far "to be safe" goes in this person's bowls
    logs: float  # share of colour visits that reach the log
    weighs: float  # share of those bowls weighed afterwards


def _off(*spans: str) -> tuple[tuple[date, date], ...]:
    return tuple((date.fromisoformat(span[:10]), date.fromisoformat(span[11:])) for span in spans)


STYLISTS = (
    # The owner cuts four days a week and keeps the books on the fifth.
    Stylist(
        "Marit",
        (1, 3, 4, 5),
        0,
        _off(
            "2024-07-16/2024-08-03",
            "2025-02-18/2025-02-22",
            "2025-07-15/2025-08-02",
            "2026-02-17/2026-02-21",
            "2026-07-14/2026-08-01",
        ),
        1.2,
        1.32,
        0.95,
        0.85,
    ),
    Stylist(
        "Joris",
        (1, 2, 3, 5),
        1,
        _off(
            "2024-02-20/2024-03-02",
            "2024-08-13/2024-08-31",
            "2025-08-12/2025-08-30",
            "2026-04-28/2026-05-09",
            "2026-08-11/2026-08-22",
        ),
        1.0,
        1.42,
        0.75,
        0.65,
    ),
    Stylist(
        "Samira",
        (2, 3, 4, 5),
        2,
        _off("2024-04-09/2024-04-20", "2024-07-09/2024-07-20", "2025-03-04/2025-05-31", "2026-07-07/2026-07-25"),
        1.1,
        1.36,
        0.88,
        0.75,
    ),
    Stylist(
        "Wende",
        (1, 2, 4, 5),
        3,
        _off("2024-05-14/2024-05-25", "2024-09-03/2024-09-14", "2025-06-24/2025-07-12", "2026-06-23/2026-07-11"),
        1.0,
        1.55,
        0.70,
        0.55,
    ),
    Stylist(
        "Odile",
        (1, 2, 3, 4),
        1,
        _off(
            "2024-07-23/2024-08-03",
            "2025-01-21/2025-02-01",
            "2025-07-22/2025-08-02",
            "2026-01-20/2026-01-31",
            "2026-09-01/2026-09-12",
        ),
        0.9,
        1.40,
        0.80,
        0.75,
    ),
)


def at_work(stylist: Stylist, day: date) -> bool:
    return day.weekday() in stylist.weekdays and not any(first <= day <= last for first, last in stylist.days_off)
