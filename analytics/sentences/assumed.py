"""What is assumed because salon.toml never said it, beside every figure that rests on it.

Hours also say which days the salon was open, and with that what was to be expected of a month and how clients count
their days; costs say what an open chair hour costs.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from analytics.settings import Settings


@dataclass(frozen=True)
class Assumed:
    """key: section and, where one line of it counts, its key. figures: those that would be others if it were set."""

    key: tuple[str, ...]
    says: str
    figures: tuple[str, ...]

    def is_set(self, settings: Settings) -> bool:
        """Whether salon.toml says it."""
        section, *rest = self.key
        said = section in settings.model_fields_set
        return said and all(name in getattr(settings, section).model_fields_set for name in rest)


HOURS = Assumed(
    ("hours",),
    "Opening hours were never set: Monday to Saturday 9:00 to 18:00 is assumed.",
    (
        "ahead", "backtest", "calibration", "chairs", "changes", "clientele", "economics", "hours_of_week", "mixing",
        "mixing_clients", "month", "occupancy", "prices", "reorder", "roots", "shelf",
    ),
)  # fmt: skip
COSTS = Assumed(
    ("costs", "per_month"),
    "The costs of a month were never set: 0 is assumed, so nothing is held against them.",
    ("chairs", "economics", "mixing", "mixing_clients", "month", "prices"),
)
EVERY = (HOURS, COSTS)


def never_set(settings: Settings, figures: Iterable[str] | None = None) -> list[str]:
    """A sentence for each thing that is assumed, of all of them or of those on which one of the figures rests."""
    asked = None if figures is None else set(figures)
    return [
        one.says for one in EVERY if not one.is_set(settings) and (asked is None or not asked.isdisjoint(one.figures))
    ]
