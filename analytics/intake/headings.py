"""Which table a sheet is, and which column each of its headings means."""

import re
from dataclasses import dataclass

from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.tables import TABLES, Table


@dataclass(frozen=True)
class Match:
    """table, and for each column of the contract that was found its place among the cells."""

    table: Table
    places: dict[str, int]

    @property
    def missing(self) -> list[str]:
        """What the table needs and the headings do not have, alternatives joined by 'or'."""
        needed = [(column.name,) for column in self.table.columns if column.required] + list(self.table.either)
        return [" or ".join(group) for group in needed if not any(name in self.places for name in group)]


UNIT = re.compile(r"[(\[][^)\]]*[)\]]\s*$")
BLANKS = re.compile(r"[\s\-]+")


def folded(heading: str) -> str:
    """A heading without case, outer blanks and bracketed units; blanks and hyphens as underscores."""
    return BLANKS.sub("_", UNIT.sub("", heading).strip().casefold())


def match_headings(headings: list[str], name: str, settings: Settings) -> Match | None:
    """The table whose columns the headings fit best, the file's name deciding between equals; None if none fits.

    Raises WorkStopped where the best table lacks a column it needs, or one of its columns stands twice.
    """
    matches = [match for table in TABLES.values() if (match := _match(table, headings, name, settings)).places]
    best = max(matches, key=lambda match: _fit(match, name), default=None)
    if best is None or (len(best.places) < 2 and best.missing):
        return None
    if best.missing:
        raise WorkStopped(
            f"{name} looks like {best.table.name} but has no column {' and no '.join(best.missing)}; add it to the "
            f"export, or name the heading that means it under [columns.{best.table.name}] in salon.toml."
        )
    return best


def _match(table: Table, headings: list[str], name: str, settings: Settings) -> Match:
    own = {folded(heading): column for heading, column in settings.columns.get(table.name, {}).items()}
    places: dict[str, int] = {}
    for place, heading in enumerate(headings):
        column = own.get(folded(heading), folded(heading))
        if column in places:
            raise WorkStopped(
                f"{name} has two columns that mean {column}; take one out, or rename it under [columns.{table.name}]."
            )
        if column in table.names:
            places[column] = place
    return Match(table, places)


def _fit(match: Match, name: str) -> tuple[int, bool, bool]:
    return len(match.places), not match.missing, match.table.name in folded(name)
