"""Which table a sheet is, and which column each of its headings means.

A heading means a column because salon.toml says so, because it is the column's own name, or because it is one of the
general words for it. A heading that could mean two columns, or whose unit is not the column's, is left open.
"""

from collections import Counter
from collections.abc import Set
from dataclasses import replace
from functools import cache, lru_cache

from analytics.definitions.columns import Table
from analytics.definitions.tables import TABLES
from analytics.intake.meaning import words
from analytics.intake.meaning.match import MOST_NAMED, NOT_USED, Match, Meaning
from analytics.intake.meaning.one_heading import column_meant, suiting
from analytics.intake.meaning.table_rules import told_table
from analytics.intake.meaning.words.spelling import folded, spelling
from analytics.settings import Settings
from analytics.stops import WorkStopped

HINT = 2  # as many headings as the name of the file or sheet counts for
ABOUT_CLIENTS = ("client_id", "may_contact", "natural_level", "target_level", "grey_share", "patch_tested_on")
WITH_DAY = (("starts_at", "start_time", words.STARTS), ("ends_at", "end_time", words.ENDS))
STAND_INS = (
    ("bookings", "day", "day", (), ("starts_at",)),
    ("bookings", "amount", "price", (), ("discount",)),
    ("bookings", "booked", "booked_on", ("day", "starts_at"), ()),
    ("services", "description", "service", (), ()),
    ("products", "description", "product", (), ()),
    ("product_log", "day", "logged_at", (), ()),
    ("payments", "day", "paid_at", (), ()),
    ("sales", "day", "sold_at", (), ()),
    ("stock_moves", "day", "moved_at", (), ()),
)
"""Table, words, the column they stand for; one of the columns that must be there as well, and none of these may be."""


def match_headings(headings: list[str], name: str, settings: Settings) -> Match | None:
    """The table whose columns the headings fit best, with the file's name as a hint; None if none fits.

    Raises WorkStopped where the best table lacks a column it needs, or one of its columns stands twice.
    """
    best = best_match(headings, name, settings)
    if best is None:
        return None
    if best.missing and told_table(name, settings) is not None:
        raise WorkStopped(
            f"{name} is to be read as {best.table.name}, as [tables] in salon.toml says, but has no column "
            f"{' and no '.join(best.missing)}; name the heading that means it under [columns.{best.table.name}], or "
            "change what [tables] says."
        )
    if best.twice:
        raise WorkStopped(
            f"{name} has two columns that mean {best.twice[0]}; take one out, or rename it under "
            f"[columns.{best.table.name}]."
        )
    if best.missing:
        raise WorkStopped(
            f"{name} looks like {best.table.name} but has no column {' and no '.join(best.missing)}; add it to the "
            f"export, or name the heading that means it{_unused(best)} under [columns.{best.table.name}] in salon.toml."
        )
    return best


def _unused(match: Match) -> str:
    """The first headings that nothing stands for, among which the lacking one may be."""
    unused = [meaning.heading.strip() for meaning in match.why if _open(meaning) and meaning.heading.strip()]
    return f" (perhaps {', '.join(map(repr, unused[:MOST_NAMED]))})" if unused else ""


def best_match(headings: list[str], name: str, settings: Settings) -> Match | None:
    """The match of the best table, whatever it lacks; None where the sheet may as well be none of the tables.

    Where the best is doubtful, the next that has all it needs is taken. What salon.toml says the file is, goes first.
    """
    told = told_table(name, settings)
    if told is not None:
        return _match(TABLES[told], headings, name, settings) if told else None
    matches = [match for table in TABLES.values() if (match := _match(table, headings, name, settings)).places]
    ranked = sorted(matches, key=lambda match: _fit(match, name), reverse=True)
    fitting = (match for match in ranked if (match is ranked[0] or not match.missing) and _believed(match, name))
    return next(fitting, None)


def _believed(match: Match, name: str) -> bool:
    """Whether enough of the table is there; general words alone need more than the salon's or the contract's own."""
    general = all(meaning.general for meaning in match.why if meaning.column)
    if len(match.places) < 2 and (match.missing or general):
        return False
    if _hinted(match.table, name):
        return True
    return not (general and _about_buying(match, name)) and (match.likely or not match.missing)


def best_fit(headings: list[str], name: str, settings: Settings) -> int:
    """How many of the headings the best table can use; 0 where the sheet may as well be none of the tables."""
    best = best_match(headings, name, settings)
    return len(best.places) if best else 0


def _fit(match: Match, name: str) -> tuple[int, bool, bool]:
    complete = not match.missing
    hinted = _hinted(match.table, name)
    return len(match.places) + HINT * hinted + complete, hinted, complete


def _hinted(table: Table, name: str) -> bool:
    """Whether the name of the file or sheet holds a word for the table; short words must stand alone."""
    return _named_in(table.name, folded(name))


@lru_cache(maxsize=4096)
def _named_in(table: str, text: str) -> bool:
    return table in text or any(_stands_in(word, text) for word in _folded_words("tables", table))


def _about_buying(match: Match, name: str) -> bool:
    """Whether a sheet that looks like clients, sales or payments speaks of suppliers or orders."""
    text, said = folded(name), {folded(meaning.heading) for meaning in match.why}
    return match.table.name in ("clients", "sales", "payments") and any(
        _stands_in(word, text) or word in said for word in _folded_words("buying")
    )


def _stands_in(word: str, text: str) -> bool:
    return f"_{word}_" in f"_{text}_" or (len(word) >= 5 and word in text)


@cache
def _folded_words(group: str, table: str = "") -> frozenset[str]:
    listed = words.TABLE_WORDS[table] if group == "tables" else words.BUYING
    return frozenset(map(folded, listed))


@cache
def _keys(listed: tuple[str, ...]) -> frozenset[str]:
    return frozenset(spelling(word).key for word in listed)


def _match(table: Table, headings: list[str], name: str, settings: Settings) -> Match:
    """Every heading's meaning in the table, salon.toml first, then by itself, then beside the others."""
    own = _own(headings, settings.columns.get(table.name, {}))
    by = f"[columns.{table.name}] in salon.toml"
    why = [
        Meaning(heading, own[place] or None, by) if place in own else column_meant(table, heading, settings)
        for place, heading in enumerate(headings)
    ]
    named = told_table(name, settings) == table.name or _hinted(table, name)
    why = _stand_ins(why, table, settings)
    for beside in (_with_day, _names, _ids):
        why = beside(why, table, named)
    why = _stand_ins(why, table, settings)  # again: by now the start of a booking is known
    firm = Counter(meaning.column for meaning in why if meaning.column and not meaning.general)
    why = _once(why, set(firm))
    places = {meaning.column: place for place, meaning in reversed([*enumerate(why)]) if meaning.column}
    return Match(table, places, tuple(why), tuple(column for column, count in firm.items() if column and count > 1))


def _own(headings: list[str], overrides: dict[str, str]) -> dict[int, str]:
    """By place: the column salon.toml names for a heading ("" for none), spelt as it stands, or else as folded."""
    exact = {heading.strip().casefold(): column for heading, column in overrides.items()}
    spelt = {heading.strip().casefold() for heading in headings}
    loose = {folded(key): column for key, column in exact.items() if key not in spelt and folded(key)}
    own = {
        place: exact.get(heading.strip().casefold(), loose.get(folded(heading)))
        for place, heading in enumerate(headings)
    }
    return {place: column for place, column in own.items() if column is not None}


def _open(meaning: Meaning) -> bool:
    """Whether nothing stands for the heading yet, and salon.toml does not say that nothing shall."""
    return meaning.column is None and not meaning.by.startswith("[columns")


def _stand_ins(why: list[Meaning], table: Table, settings: Settings) -> list[Meaning]:
    """Words such as "Day", "Amount" and "Description" mean a column where nothing else stands for it."""
    for name, kind, column, with_one_of, without in STAND_INS:
        columns = {meaning.column for meaning in why}
        alone = not columns & {column, *without} and (not with_one_of or columns & {*with_one_of})
        if name != table.name or not alone:
            continue
        units, listed = suiting(table, column, settings.salon.currency, settings.tax.prices), words.STAND_INS[kind]
        said = [place for place, one in enumerate(why) if _open(one) and _says(one.heading, listed, units)]
        if len(said) == 1:
            why = [*why]
            why[said[0]] = replace(why[said[0]], column=column, by="word list (nothing else stands for it)")
    return why


def _with_day(why: list[Meaning], table: Table, _: bool) -> list[Meaning]:
    """Words for start and end are times where the day has a column of its own, and moments where it has none."""
    if table.name != "bookings":
        return why
    columns = {meaning.column for meaning in why}
    for moment, time, listed in WITH_DAY:
        column, said = (time, "beside the day") if "day" in columns else (moment, "no day beside it")
        if column in columns or column not in table.headings:
            continue
        why = [
            replace(meaning, column=column, by=f"word list ({said})")
            if _open(meaning) and _says(meaning.heading, listed)
            else meaning
            for meaning in why
        ]
    return why


def _says(heading: str, listed: tuple[str, ...], suiting: Set[str] = frozenset({"clock", "date_format"})) -> bool:
    """Whether the heading is one of these words and has no unit but these, of a clock or a date if none are named."""
    spelt = spelling(heading)
    return spelt.clear and spelt.key in _keys(listed) and spelt.units <= suiting


def _names(why: list[Meaning], table: Table, named: bool) -> list[Meaning]:
    """A name is no client's where its parts stand apart, nor a bare one where nothing else says whose it is."""
    if any(spelling(meaning.heading).key in _keys(words.HALF_NAMES) for meaning in why):
        return _without_client(why, "the parts of the name stand apart")
    bare = {one.heading for one in why if spelling(one.heading).key in _keys(words.BARE_NAMES)}
    known = named or any(one.column in ABOUT_CLIENTS for one in why)
    if table.name != "clients" or known or not bare:
        return why
    return _without_client(why, "nothing else says that these are clients")


def _without_client(why: list[Meaning], because: str) -> list[Meaning]:
    unused = f"{NOT_USED}: {because}"
    return [replace(one, column=None, by=unused) if one.general and one.column == "client" else one for one in why]


def _ids(why: list[Meaning], table: Table, named: bool) -> list[Meaning]:
    """A heading that says only "ID" is the table's own where the name of the sheet says which table it is."""
    column = words.NAMED_BY_SHEET.get(table.name)
    if column is None or any(meaning.column == column for meaning in why) or not named:
        return why
    by = "word list (with the name of the sheet)"
    return [replace(one, column=column, by=by) if _open(one) and folded(one.heading) == "id" else one for one in why]


def _once(why: list[Meaning], firm: set[str]) -> list[Meaning]:
    """General words give way to a firm match of their column, and to each other where several stand for one column."""
    general = Counter(meaning.column for meaning in why if meaning.column and meaning.general)
    taken = firm | {column for column, count in general.items() if count > 1}
    return [
        replace(one, column=None, by=f"{NOT_USED}: another heading stands for {one.column} too")
        if one.general and one.column in taken
        else one
        for one in why
    ]
