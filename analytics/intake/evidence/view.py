"""A sheet as meaning is found in it: its headings, the values below each, and who else holds the same values."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import polars as pl

from analytics.intake.evidence.profile import Profile, determines
from analytics.intake.meaning.words import TOTAL_WORDS
from analytics.intake.reading.split import LEADING

MOST_ROWS = 2_000  # of a sheet that are looked at

Place = tuple[str, int]
"""A sheet by name, and a column of it by its place."""


@dataclass(frozen=True)
class View:
    """headings: the cells of the heading record, which stands at `at` among the records. columns: what stands below.

    lies_in: by place, the columns of other sheets in which nearly all its values lie, each value once there.
    refers: by place, in how many other sheets columns of many rows hold values of this one.
    """

    name: str
    at: int
    headings: list[str]
    columns: list[Profile]
    lies_in: dict[int, list[Place]] = field(default_factory=dict)
    referred: dict[int, list[Place]] = field(default_factory=dict)

    @property
    def rows(self) -> int:
        return len(self.columns[0].cells) if self.columns else 0

    def determines(self, given: int, told: int) -> float:
        """profile.determines of two columns by their places."""
        return determines(self.columns[given], self.columns[told])

    def pairs(self, first: int, second: int) -> list[tuple[str, str]]:
        """The cells of two columns side by side, of rows that have both."""
        both = zip(self.columns[first].cells, self.columns[second].cells, strict=True)
        return [(one, other) for one, other in both if one and other]

    def smaller(self, first: int, second: int) -> float:
        """In which share of rows the number of the first is not above that of the second."""
        ones, others = self.columns[first].numbers, self.columns[second].numbers
        pairs = [
            (ones[one], others[other]) for one, other in self.pairs(first, second) if one in ones and other in others
        ]
        return sum(one <= other for one, other in pairs) / len(pairs) if pairs else 0.0

    def of_kind(self, *kinds: str) -> list[int]:
        return [at for at, column in enumerate(self.columns) if column.kind in kinds]


def view_of(name: str, at: int, headings: list[str], below: pl.DataFrame) -> View:
    """below: the records under the heading, as split_records gives them."""
    looked_at = below.head(MOST_ROWS).filter(~pl.col("spoilt"))
    if headings and not looked_at.is_empty():
        first = pl.coalesce(pl.all().exclude(*LEADING).str.strip_chars().replace("", None)).fill_null("")
        total = first.str.strip_chars_end(":").str.to_lowercase().is_in(sorted(TOTAL_WORDS))
        looked_at = looked_at.filter(~total)
    cells = {
        place: looked_at[f"c{place}"].str.strip_chars().to_list() if f"c{place}" in looked_at.columns else []
        for place in range(len(headings))
    }
    rows = looked_at.height
    return View(name, at, headings, [Profile(tuple(cells[place] or [""] * rows)) for place in range(len(headings))])


Roles = Mapping[Place, tuple[str, str]]
"""By sheet and place: the table and column it was read as."""
