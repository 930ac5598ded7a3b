"""What one sheet is read as: for each table the best assignment of its headings, and what it lacks for that."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from analytics.definitions.columns import CORRECTS, Table
from analytics.definitions.tables import TABLES
from analytics.intake.evidence.assign import MARGIN, assign
from analytics.intake.evidence.points import FAINT, SOME, Points, Sheets
from analytics.intake.evidence.values_say import said_by_values
from analytics.intake.evidence.view import View
from analytics.intake.evidence.words_say import LISTED, OWN_NAME, closed, said_by_words
from analytics.intake.meaning.headings import _hinted, _match
from analytics.intake.meaning.match import Match, Meaning
from analytics.settings import Settings

NEEDS: dict[str, tuple[tuple[str, ...], ...]] = {
    "bookings": (("starts_at", "day+start_time"), ("client_id", "client"), ("service_id", "service"), ("price",)),
    "services": (("service", "service_id"), ("price", "hands_on_min")),
    "product_log": (("logged_at",), ("product_id", "product"), ("mixed_g",)),
    "products": (("product_id", "product"), ("kind",), ("pack_g",), ("pack_cost",)),
    "clients": (("client_id", "client"), ("phone", "email", "may_contact", "patch_tested_on", "natural_level")),
    "payments": (("paid_at",), ("amount",)),
    "sales": (("sold_at",), ("product_id", "product"), ("quantity",), ("price",)),
    "stock_moves": (("moved_at",), ("product_id", "product"), ("movement",), ("packs", "grams")),
    "vouchers": (("number",), ("sold_on",), ("face",)),
}
"""By table: what nothing else can make; of each group one must be there."""

TELLING: dict[str, tuple[str, ...]] = {
    "bookings": ("service", "service_id"),
    "services": ("service", "service_id", "kind"),
    "product_log": ("left_g", "product", "product_id"),
    "products": ("kind",),
    "clients": ("phone", "email"),
    "payments": ("method",),
    "sales": ("product", "product_id"),
    "stock_moves": ("movement",),
    "vouchers": ("number",),
}
"""By table: columns whose values show that it is this table and no other that looks like it."""
FIRM = {"services": 5.5}
"""Points of a telling column, where it is not USUALLY_FIRM: names of services must be referred to as well."""
USUALLY_FIRM = 4.0
FEWEST_WORDS = 2  # headings whose words say columns of the table

MOST = 16.0  # points of one pair, where tables are compared
HINT, WHOLE, LACKING = 6.0, 12.0, 6.0
"""Points of a sheet whose name says the table, of one that shows to be it and has all it needs, and for each
thing that is lacking."""


@dataclass(frozen=True)
class Reading:
    """A sheet as one table. places: by column, which cell. reasons: by column, why, where values decided.

    doubtful: by place, the columns it may be, best first, where no reading is clear enough to be used. told: whether
    words, or values that only this table has, say that it is this table.
    """

    view: View
    table: Table
    places: Mapping[str, int]
    points: float
    reasons: Mapping[str, str] = field(default_factory=dict)
    doubtful: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    words: Match | None = None
    told: bool = True

    @property
    def lacking(self) -> list[tuple[str, ...]]:
        return [group for group in NEEDS[self.table.name] if not any(self._has(name) for name in group)]

    def _has(self, names: str) -> bool:
        return all(name in self.places for name in names.split("+"))

    @property
    def match(self) -> Match:
        """The same as headings.Match, with the reason of each heading."""
        by_place = {place: column for column, place in self.places.items()}
        known = self.words.why if self.words else ()
        why = [
            known[place]
            if place < len(known) and known[place].column == by_place.get(place)
            else Meaning(heading, by_place.get(place), self._by(place, by_place.get(place)))
            for place, heading in enumerate(self.view.headings)
        ]
        twice = self.words.twice if self.words else ()
        return Match(self.table, dict(self.places), tuple(why), twice)

    def _by(self, place: int, column: str | None) -> str:
        if column is None:
            return "not used: in doubt" if place in self.doubtful else "not used"
        return f"values: {self.reasons[column]}" if self.reasons.get(column) else "values"


def read_as(view: View, table: Table, settings: Settings, sheets: Sheets, fixed: Match | None = None) -> Reading:
    """The best reading of the sheet as this table. fixed: what words alone decided, which stays as it is."""
    match = fixed or _match(table, view.headings, view.name, settings)
    columns = [name for name in table.headings if name not in CORRECTS]
    said = said_by_words(match, settings)
    shut = closed(match)
    held = dict(match.places) if fixed else {}
    points: dict[tuple[int, str], float] = {}
    reasons: dict[tuple[int, str], str] = {}
    for place in range(len(view.headings)):
        if place in shut or place in held.values():
            continue
        for column in columns:
            if column in held:
                continue
            values = said_by_values(view, table, place, column, sheets)
            found = _points(said.get((place, column)), values, SOME if fixed else FAINT)
            if found and found[0] > 0:
                points[place, column], reasons[place, column] = found
    _leave_one_way(points, table.name, held)
    margins = assign(points)
    clear = {pair: margin for pair, margin in margins.items() if margin >= MARGIN}
    places = held | {column: place for place, column in clear}
    total = sum(min(points[pair], MOST) for pair in clear) + LISTED * len(held)
    because = {column: reasons[place, column] for place, column in clear if said.get((place, column), (0,))[0] < 10}
    reading = Reading(view, table, places, total, because, _doubtful(points, places, view), match)
    hinted = _hinted(table, view.name)
    by_words = sum(said.get((place, column), (0.0, ""))[0] >= LISTED / 2 for column, place in places.items())
    firm = FIRM.get(table.name, USUALLY_FIRM)
    telling = any(points.get((places[name], name), 0.0) >= firm for name in TELLING[table.name] if name in places)
    told = hinted or by_words >= FEWEST_WORDS or telling
    extra = HINT * hinted + WHOLE * (told and not reading.lacking) - LACKING * len(reading.lacking)
    return replace(reading, points=total + extra, told=told)


def _points(words: Points | None, values: Points | None, least: float) -> Points | None:
    """Both together; the values rule out what general words say, but nothing that salon.toml or the contract says.

    least: points of the values without which words that are only like listed ones say nothing.
    """
    if values is None:
        return words if words and words[0] >= OWN_NAME else None
    if words is None or (words[0] < LISTED and values[0] < least):
        return values
    return words[0] + values[0], values[1] or words[1]


WAYS = {"bookings": (("starts_at", "day"), ("starts_at", "start_time"), ("ends_at", "end_time"))}
"""Columns of which a sheet has one or the other."""


def _leave_one_way(points: dict[tuple[int, str], float], table: str, held: Mapping[str, int]) -> None:
    """A start is one column or two: the way with more points stays."""
    for whole, part in WAYS.get(table, ()):
        best = {
            name: max([value for (_, column), value in points.items() if column == name], default=0.0)
            for name in (whole, part)
        }
        best |= dict.fromkeys((name for name in (whole, part) if name in held), 1000.0)
        weaker = min((part, whole), key=best.__getitem__)
        if best[whole] and best[part]:
            for pair in [pair for pair in points if pair[1] == weaker]:
                del points[pair]


def _doubtful(
    points: Mapping[tuple[int, str], float], places: Mapping[str, int], view: View
) -> dict[int, tuple[str, ...]]:
    """Headings with something under them that were left without a column, and the columns they may be."""
    taken = set(places.values())
    doubtful: dict[int, tuple[str, ...]] = {}
    for place in range(len(view.headings)):
        if place in taken or not view.columns[place].filled:
            continue
        may_be = {column: value for (at, column), value in points.items() if at == place and column not in places}
        if may_be:
            doubtful[place] = tuple(sorted(may_be, key=lambda column: -may_be[column])[:3])
    return doubtful


def best_readings(view: View, settings: Settings, sheets: Sheets, told: str | None) -> list[Reading]:
    """The readings of a sheet as each table, or as the one it is said to be, best first."""
    tables = [TABLES[told]] if told else list(TABLES.values())
    readings = [read_as(view, table, settings, sheets) for table in tables]
    return sorted(readings, key=lambda reading: reading.points, reverse=True)
