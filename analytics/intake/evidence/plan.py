"""The plan of a load: what every sheet is read as, what is said about it, and what has to be asked."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import PurePosixPath

import polars as pl

from analytics.definitions import findings
from analytics.definitions.tables import TABLES
from analytics.intake.cells.casts import folded_word
from analytics.intake.evidence.cents import MONEY, in_cents
from analytics.intake.evidence.decide import Decided, decide
from analytics.intake.evidence.points import MOST_STYLISTS
from analytics.intake.evidence.profile import Profile, included
from analytics.intake.evidence.reading import NEEDS, Reading
from analytics.intake.meaning.headings import _hinted
from analytics.intake.meaning.match import Match
from analytics.intake.meaning.sheets import Sheet
from analytics.intake.meaning.table_rules import constants_for, told_table
from analytics.intake.meaning.words import VALUES
from analytics.intake.meaning.words.spelling import folded
from analytics.settings import Settings
from analytics.stops import Asked, Question

TERMINAL = ("terminal", "pinapparaat", "pin", "betaalautomaat", "kartenterminal", "ec", "tpe", "pos", "datafono")
"""General words of six languages for a card terminal in the name of its statement."""
SHOWN = 3  # values beside a question
MOST_QUESTIONS = 8
MOSTLY_LISTED = 0.8  # share of a diary's lines whose services a menu lists
NEEDED = ("bookings", "services")  # tables of which nothing is left out unasked
BY_KIND = {"moment": "starts_at", "day": "day", "clock": "start_time"}
"""What a heading of moments, days or times of day would be, of the columns that say when a visit begins."""


@dataclass(frozen=True)
class SheetPlan:
    """at: the place of the heading record. constants: by column, one value for all rows. cents: columns in cents."""

    at: int
    match: Match
    constants: dict[str, str] = field(default_factory=dict)
    cents: tuple[str, ...] = ()


@dataclass(frozen=True)
class Plan:
    """sheets: by name. passed_by: names of sheets that are no table, or lack what it needs. noted: hits."""

    sheets: dict[str, SheetPlan] = field(default_factory=dict)
    passed_by: frozenset[str] = frozenset()
    noted: pl.DataFrame = field(default_factory=lambda: findings.hits([]))


def make_plan(sheets: list[Sheet], settings: Settings) -> Plan:
    """Raises Asked with everything that has to be said of all files."""
    decided = decide(sheets, settings)
    planned: dict[str, SheetPlan] = {}
    passed: dict[str, str] = {}
    questions: list[Question] = []
    bookings = any(one.whole and one.reading.table.name == "bookings" for one in decided.values())
    for name, one in decided.items():
        constants = constants_of(name, one.reading.table.name, settings)
        lacking = [] if one.by_words else _lacking(one, constants)
        lacking = [] if lacking == ["price"] and not one.rivals and priced_by_menu(one, decided) else lacking
        if lacking or one.rivals or not (one.whole or one.reading.told):
            told = told_table(name, settings) is not None
            asked = _asked_for(one, lacking, not bookings, told)
            questions += asked
            passed |= {} if asked else {name: ", ".join(lacking)}
            continue
        cents = in_cents(one.reading, decided, settings)
        if cents is None and one.reading.table.name in NEEDED:
            questions.append(_asked_of_cents(one.reading))
        elif cents is None:
            passed[name] = "whole amounts or cents, which nothing tells"
            continue
        questions += _in_doubt_of_words(one)
        questions += [] if one.by_words else _doubts(one.reading)
        planned[name] = SheetPlan(one.reading.view.at, one.reading.match, constants, cents or ())
    questions = _once_per_heading(questions)
    if questions:
        raise Asked(tuple(questions))
    return Plan(planned, frozenset(passed), _said(decided, planned, passed))


def constants_of(name: str, table: str, settings: Settings) -> dict[str, str]:
    """What salon.toml says stands in every row of the file; of a terminal's statement, that cards were paid with."""
    base = PurePosixPath(name.partition("#")[0]).name
    said = {column: value for column, value in constants_for(name, settings).items() if column in TABLES[table].names}
    if table == "stock_moves" and "movement" not in said and (movement := _movement_named(name.partition("#")[2])):
        said["movement"] = movement
    if table == "payments" and "method" not in said and (method := _method_named(base)):
        said["method"] = method
    return said


def _method_named(name: str) -> str | None:
    tokens = set(re.split(r"[\W\d_]+", folded(PurePosixPath(name).stem)))
    if tokens & set(TERMINAL):
        return "card"
    return _named_in(tokens, "method")


def _movement_named(title: str) -> str | None:
    return _named_in(set(re.split(r"[\W\d_]+", folded(title))), "movement")


def _named_in(tokens: set[str], column: str) -> str | None:
    """The one value of the column that the words speak of."""
    said = {value for value, words in VALUES[column].items() for word in words if folded_word(word) in tokens}
    return said.pop() if len(said) == 1 else None


def _lacking(one: Decided, constants: dict[str, str]) -> list[str]:
    reading = one.reading
    groups = [names for names in reading.lacking if not set(names) & set(constants)]
    lacking = [" or ".join(names).replace("+", " and ") for names in groups]
    if reading.table.name == "payments" and "method" not in (*reading.places, *constants):
        lacking.append("method")
    return lacking


def _asked_for(one: Decided, lacking: list[str], alone: bool, told: bool) -> list[Question]:
    """What an owner has to say so that a sheet can be read; nothing of a sheet that may be left out. alone: no other
    sheet is a diary. told: salon.toml says which table it is."""
    reading = one.reading
    enough = len(reading.places) >= (2 if alone else 3) and 2 * len(reading.lacking) <= len(NEEDS["bookings"]) + alone
    if not told and (reading.table.name != "bookings" or not (enough or one.rivals)):
        return []
    view = reading.view
    open_places = [place for place in range(len(view.headings)) if place not in reading.places.values()]
    open_places = [place for place in open_places if view.headings[place].strip() and view.columns[place].filled]
    asked = []
    for names in lacking:
        columns = tuple(re.split(r" or | and ", names))
        fitting = [place for place in open_places if set(reading.doubtful.get(place, ())) & set(columns)]
        amounts = [place for place in open_places if view.columns[place].kind == "number"]
        others = amounts if columns == ("price",) else open_places  # a name is no amount, whatever else it is
        places = (fitting or others)[:SHOWN]
        shown = tuple((view.headings[place].strip(), _first_values(view.columns[place])) for place in places)
        fits = tuple(_fits(reading, place, columns) for place in places)
        asked.append(Question(view.name, reading.table.name, columns, shown, fits))
    return asked


def priced_by_menu(one: Decided, decided: dict[str, Decided]) -> bool:
    """Whether a diary without prices can have the menu's: its services are those of a menu whose prices are all there,
    and no column of it may hold any."""
    diary = one.reading
    open_places = set(range(len(diary.view.headings))) - set(diary.places.values())
    said = {place for place, meaning in enumerate(diary.match.why) if meaning.by.startswith("[columns")}
    if not diary.told or any(diary.view.columns[place].kind == "number" for place in open_places - said):
        return False
    menus = [other.reading for other in decided.values() if other.whole and other.reading.table.name == "services"]
    return any(_same_services(diary, menu) and _all_priced(menu) for menu in menus)


def _same_services(diary: Reading, menu: Reading) -> bool:
    keys = [key for key in ("service_id", "service") if key in diary.places and key in menu.places]
    columns = [(diary.view.columns[diary.places[key]], menu.view.columns[menu.places[key]]) for key in keys]
    return any(included(done, listed) > MOSTLY_LISTED for done, listed in columns)


def _all_priced(menu: Reading) -> bool:
    prices = menu.view.columns[menu.places["price"]] if "price" in menu.places else None
    return prices is not None and prices.fill == 1 and prices.share(prices.numbers.__contains__) == 1


def _fits(reading: Reading, place: int, columns: tuple[str, ...]) -> str:
    """Which of the columns a heading would be: as its values make likely, else the first."""
    likely = [column for column in reading.doubtful.get(place, ()) if column in columns]
    values = reading.view.columns[place]
    named = [column for column in columns if values.names and f"{column}_id" in columns]
    by_kind = [column for column in columns if column == BY_KIND.get(values.kind)]
    return next(iter((*named, *by_kind, *likely, *columns)))


def _doubts(reading: Reading) -> list[Question]:
    """Headings of a diary that may be either of two columns which change what a stylist or a month is said to have."""
    if reading.table.name != "bookings":
        return []
    asked = []
    for place, columns in reading.doubtful.items():
        column = reading.view.columns[place]
        people = column.names and 2 <= column.different <= MOST_STYLISTS and column.fill > 0.5 and "stylist" in columns
        amounts = column.kind == "number" and column.nought > 0.5 and column.different > 1
        pair = ("stylist", "chair") if people else ("discount", "tip") if amounts else ()
        open_ones = tuple(name for name in pair if name in columns)
        if open_ones:
            heading = (reading.view.headings[place].strip(), _first_values(column))
            asked.append(Question(reading.view.name, "bookings", open_ones, (heading,)))
    return asked


def _first_values(column: Profile) -> tuple[str, ...]:
    often = sorted(column.counts, key=lambda text: (column.numbers.get(text) == 0, -column.counts[text]))
    return tuple(often[:SHOWN])


def _once_per_heading(questions: Iterable[Question]) -> list[Question]:
    """One question for all sheets with the same headings."""
    first: dict[tuple[object, ...], Question] = {}
    for one in questions:
        first.setdefault((one.table, one.columns, tuple(heading for heading, _ in one.headings)), one)
    return list(first.values())[:MOST_QUESTIONS]


def _in_doubt_of_words(one: Decided) -> list[Question]:
    """Headings whose values fit each other's columns better."""
    view, asked = one.reading.view, []
    for pair in one.exchanged:
        for column, other in (pair, pair[::-1]):
            place = one.reading.places[column]
            heading = (view.headings[place].strip(), _first_values(view.columns[place]))
            asked.append(Question(view.name, one.reading.table.name, (other, column), (heading,)))
    return asked


def _asked_of_cents(reading: Reading) -> Question:
    place = reading.places[MONEY[reading.table.name][0]]
    shown = ((reading.view.headings[place].strip(), _first_values(reading.view.columns[place])),)
    return Question(reading.view.name, reading.table.name, ("cents", "whole amounts"), shown)


def _said(decided: dict[str, Decided], planned: dict[str, SheetPlan], passed: dict[str, str]) -> pl.DataFrame:
    """Hits of what values decided, of the first of the sheets that say the same, and of tables that were left out."""
    rows: list[tuple[str, str, str, int | None, str | None, str | None, str | None]] = []
    said: set[tuple[str, str, str]] = set()
    for name, plan in planned.items():
        reading = decided[name].reading
        for column, reason in reading.reasons.items():
            heading = reading.view.headings[reading.places[column]].strip()
            if (reading.table.name, heading, column) not in said:
                said.add((reading.table.name, heading, column))
                rows.append(("read_by_values", reading.table.name, name, None, column, heading, reason))
        cents = [reading.view.headings[reading.places[column]].strip() for column in plan.cents]
        rows += [("read_as_cents", reading.table.name, name, None, None, heading, None) for heading in cents]
    for name, lacking in passed.items():
        reading = decided[name].reading
        if reading.places and (len(reading.places) >= 2 or _hinted(reading.table, name)):
            rows.append(("table_left_out", reading.table.name, name, None, None, lacking.replace("_", " "), None))
    return findings.hits(rows)
