"""What all sheets of a salon are, decided together: which table each is and which column each heading means.

Words come first: a sheet of which the word lists know all that its table needs is read so, and values are asked of its
open headings alone. What other sheets hold is known better once they have been read, so that all are read three times.
"""

from dataclasses import dataclass, replace

import polars as pl

from analytics.definitions.columns import CORRECTS
from analytics.intake.evidence.exchanged import exchanged
from analytics.intake.evidence.months import fullest_of_months
from analytics.intake.evidence.points import Sheets
from analytics.intake.evidence.profile import Profile, included
from analytics.intake.evidence.reading import Reading, best_readings, read_as
from analytics.intake.evidence.view import Place, View, view_of
from analytics.intake.meaning.heading_row import AMOUNT, MOST_ABOVE, cells_of, shortened
from analytics.intake.meaning.headings import best_match
from analytics.intake.meaning.match import Match
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.meaning.table_rules import LEFT_OUT, told_table
from analytics.intake.meaning.words.spelling import folded
from analytics.settings import Settings

ROUNDS = 3
FEWEST_DIFFERENT = 3  # values of a column that others refer to
CLEAR = 4.0  # points by which one table must fit a sheet better than another


@dataclass(frozen=True)
class Decided:
    """What a sheet is read as; whole: nothing it needs is lacking. rivals: other tables that fit it
    as well. by_words: the word lists alone know all that the table needs. exchanged: pairs of its columns whose values
    speak for the other one."""

    reading: Reading
    whole: bool
    rivals: tuple[Reading, ...] = ()
    by_words: bool = False
    exchanged: tuple[tuple[str, str], ...] = ()


def decide(sheets: list[Sheet], settings: Settings) -> dict[str, Decided]:
    """By name of the sheet: what it is read as; what is left out, corrects rows or is empty is passed by."""
    views: dict[str, View] = {}
    fixed: dict[str, Match] = {}
    for sheet in sheets:
        if told_table(sheet.name, settings) == LEFT_OUT or sheet.records.is_empty():
            continue
        found = _heading(sheet, settings)
        if found is None:
            continue
        at, headings, match = found
        views[sheet.name] = view_of(sheet.name, at, headings, sheet.records.slice(at + 1))
        if match is not None:
            fixed[sheet.name] = match
    fullest = fullest_of_months(views, fixed)
    chosen = {name: views[name] for name in dict.fromkeys(fullest.values())}
    if any(_open(view, fixed.get(name)) for name, view in chosen.items()):
        chosen = _related(chosen)
    decided: dict[str, Decided] = {}
    known = Sheets(chosen, {})
    for _ in range(ROUNDS):
        roles = {
            (name, place): (one.reading.table.name, column)
            for name, one in decided.items()
            if not one.reading.lacking
            for column, place in one.reading.places.items()
        }
        known = Sheets(chosen, roles)
        decided = {name: _decided(view, fixed.get(name), settings, known) for name, view in chosen.items()}
    decided = {
        name: replace(one, exchanged=tuple(exchanged(one.reading, known))) if one.whole else one
        for name, one in decided.items()
    }
    return {name: _same_as(decided[fullest[name]], view) for name, view in views.items()}


def _open(view: View, fixed: Match | None) -> bool:
    """Whether words leave anything of the sheet to its values."""
    if fixed is None:
        return True
    known = set(fixed.places.values())
    return any(place not in known and column.filled for place, column in enumerate(view.columns))


def _same_as(one: Decided, view: View) -> Decided:
    return one if one.reading.view.name == view.name else replace(one, reading=replace(one.reading, view=view))


def _decided(view: View, fixed: Match | None, settings: Settings, known: Sheets) -> Decided:
    if fixed is not None:
        reading = read_as(view, fixed.table, settings, known, fixed)
        return Decided(reading, True, by_words=True)
    ranked = best_readings(view, settings, known, told_table(view.name, settings))
    best = ranked[0]
    rivals = tuple(one for one in ranked[1:] if best.points - one.points < CLEAR and (best.lacking or not one.lacking))
    told = best.told or told_table(view.name, settings) is not None
    return Decided(best, not best.lacking and not rivals and told, () if best.lacking else rivals)


def _heading(sheet: Sheet, settings: Settings) -> tuple[int, list[str], Match | None] | None:
    """Place of the heading record, its cells, and what words alone make of it where they know all that is needed."""
    records = sheet.records
    above = [shortened(cells_of(records, at)) for at in range(min(MOST_ABOVE, records.height))]
    plausible = [at for at, cells in enumerate(above) if not any(map(AMOUNT.match, cells))]
    matches = {at: best_match(above[at], sheet.name, settings) for at in plausible}
    twice = any(match and match.twice for match in matches.values())
    if twice or any(CORRECTS[0] in map(folded, cells) for cells in above):
        return None
    whole = [at for at, match in matches.items() if match and not match.missing and not match.twice]
    if whole:
        return whole[0], above[whole[0]], matches[whole[0]]
    fits = {at: _fit(above[at], matches[at], records, at) for at in plausible}
    at = max(fits, key=lambda at: (fits[at], -at), default=None)
    return (at, above[at], None) if at is not None and fits[at] > 0 else None


def _fit(cells: list[str], match: Match | None, records: pl.DataFrame, at: int) -> float:
    """How well a record is a heading: its words, and as many different texts as rows below have cells."""
    filled = [cell.strip() for cell in cells if cell.strip()]
    below = records.slice(at + 1, 20)
    if below.is_empty() or len(filled) < 2 or len(set(filled)) < len(filled):
        return 0.0
    usual = max(len([cell for cell in cells_of(below, row) if cell.strip()]) for row in range(below.height))
    words = len(match.places) if match else 0
    return words + (1.0 if len(filled) >= 0.7 * usual else -1.0 if not words else 0.0)


def _related(views: dict[str, View]) -> dict[str, View]:
    """The views with what their columns have in common."""
    keys = [
        (name, place, column)
        for name, view in views.items()
        for place, column in enumerate(view.columns)
        if _identifies(column)
    ]
    lies: dict[str, dict[int, list[Place]]] = {name: {} for name in views}
    referred: dict[str, dict[int, list[Place]]] = {name: {} for name in views}
    for name, view in views.items():
        for place, column in enumerate(view.columns):
            if column.kind not in ("text", "number", "phone") or column.filled < 2:
                continue
            for other, there, key in keys:
                if other != name and _same_sort(column, key) and included(column, key) >= 0.9:
                    lies[name].setdefault(place, []).append((other, there))
                    referred[other].setdefault(there, []).append((name, place))
    return {name: replace(view, lies_in=lies[name], referred=referred[name]) for name, view in views.items()}


def _identifies(column: Profile) -> bool:
    return (
        column.different >= FEWEST_DIFFERENT
        and column.unique
        and column.fill > 0.9
        and column.kind in ("text", "number", "phone")
    )


def _same_sort(part: Profile, whole: Profile) -> bool:
    """Whether values of one are of the sort of the other: amounts and small numbers refer to nothing."""
    if part.different < min(FEWEST_DIFFERENT, whole.different):
        return False
    if part.kind == "number":
        return whole.kind in ("number", "phone") and part.whole and part.median > 100 and part.different > 5
    return part.kind == whole.kind
