"""What a sheet is taken for: its table, and what each of its headings was matched to and why."""

from dataclasses import dataclass

from analytics.definitions.columns import Table

CONTRACT, NOT_USED = "contract name", "not used"


MOST_NAMED = 3  # headings in one sentence


@dataclass(frozen=True)
class Meaning:
    """A heading of the sheet, the column it was matched to (None: to none) and by what, in words."""

    heading: str
    column: str | None
    by: str

    @property
    def general(self) -> bool:
        """Matched by general words alone, which nobody of this salon has confirmed."""
        return self.by.startswith("word list")


@dataclass(frozen=True)
class Match:
    """table; for each column that was found its place among the cells; why, heading by heading; columns found twice."""

    table: Table
    places: dict[str, int]
    why: tuple[Meaning, ...] = ()
    twice: tuple[str, ...] = ()

    @property
    def missing(self) -> list[str]:
        """What the table needs and the headings do not have, alternatives joined by 'or'."""
        lacking = [group for group in _needs(self.table) if not self._has(group)]
        return [" or ".join(" and ".join(names) for names in group) for group in lacking]

    def _has(self, group: list[tuple[str, ...]]) -> bool:
        return any(all(name in self.places for name in names) for names in group)

    @property
    def likely(self) -> bool:
        """Whether what is missing should stop the work: too much of the table is there for it to be another."""
        firm = sum(1 for meaning in self.why if meaning.column and not meaning.general)
        needs = _needs(self.table)
        return firm >= 2 or (len(self.places) >= 3 and 2 * len(self.missing) <= len(needs))


def _needs(table: Table) -> list[list[tuple[str, ...]]]:
    """Groups of which one alternative must be there; an alternative is one or several columns together."""
    groups = [(column.name,) for column in table.columns if column.required] + list(table.either)
    return [[names for column in group for names in _ways(table, column)] for group in groups]


def _ways(table: Table, column: str) -> list[tuple[str, ...]]:
    """The column itself, and the columns it can be made from without it."""
    parts = table.made_from.get(column, (column,))
    return [(column,)] if column in parts else [(column,), parts]
