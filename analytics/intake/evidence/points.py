"""Points that values give to a reading, and the sheets they are held against."""

from collections.abc import Callable
from dataclasses import dataclass

from analytics.intake.evidence.profile import Profile
from analytics.intake.evidence.view import Roles, View

SURE, STRONG, SOME, FAINT = 6.0, 4.0, 2.0, 1.0


RULED_OUT = None
FEWEST = 5  # rows from which values are evidence at all
DAY_KINDS = ("moment", "day")
MOST_STYLISTS = 15


Points = tuple[float, str]


@dataclass(frozen=True)
class Sheets:
    """All views by name, and what their columns were read as before (empty the first time)."""

    views: dict[str, View]
    roles: Roles


NEARLY = 0.95
EARLIEST = "06:00"


Rule = Callable[[View, int, Sheets], Points]


def times_of_day(column: Profile) -> bool:
    """Whether times such as 1:15 may be those of a day's work: none lies before it."""
    return column.kind == "clock" and min(column.clocks.values()) >= EARLIEST
