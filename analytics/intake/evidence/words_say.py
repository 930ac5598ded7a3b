"""What the words of a heading say of the columns it may mean, in points."""

from collections import defaultdict
from functools import cache

from analytics.definitions.columns import Table
from analytics.intake.meaning import words
from analytics.intake.meaning.match import CONTRACT, Match
from analytics.intake.meaning.one_heading import column_meant
from analytics.intake.meaning.words.spelling import BETWEEN, plain
from analytics.intake.meaning.words.units import FILLERS
from analytics.intake.shapes.two_names import bare_name, half_name, is_whole_name
from analytics.settings import Settings

SAID, OWN_NAME, LISTED, ALIKE = 100.0, 50.0, 10.0, 3.0
"""Points of a heading that salon.toml explains, that is a column's own name, that the lists know, that shares words."""
SHORTEST = 3  # letters of a word that counts by itself
SHORT_WORDS = {"at", "om", "um", "no"}
AGENTS = {"by", "door", "von", "durch", "bei", "par", "chez", "por", "da", "con", "with", "met", "mit", "avec"}
"""Words of six languages that say in front of a name who did something."""

Said = dict[tuple[int, str], tuple[float, str]]
"""By place and column: points, and the reason in words."""


def said_by_words(match: Match, settings: Settings) -> Said:
    """match: what the headings mean in one table by their words alone."""
    said: Said = {}
    for place, meaning in enumerate(match.why):
        if meaning.by.startswith("[columns"):
            if meaning.column:
                said[place, meaning.column] = (SAID, meaning.by)
            continue
        if meaning.column:
            points = OWN_NAME if meaning.by == CONTRACT else LISTED
            said[place, meaning.column] = (points, meaning.by)
            continue
        if is_whole_name(meaning.heading):
            said[place, "client"] = (LISTED, "both parts of the name")
            continue
        alone = column_meant(match.table, meaning.heading, settings)
        if alone.column:
            said[place, alone.column] = (LISTED, alone.by)
        for column, share in alike(match.table, meaning.heading).items():
            if (place, column) not in said:
                said[place, column] = (ALIKE * share, "its words")
        if "stylist" in match.table.names and set(BETWEEN.split(plain(meaning.heading))) & AGENTS:
            points = said.get((place, "stylist"), (0.0, ""))[0]
            said[place, "stylist"] = (points + ALIKE / 2, "it says by whom")
    return said


def closed(match: Match) -> set[int]:
    """Places of headings that mean nothing by themselves: salon.toml says so, their unit is another, or they are a part
    of a name."""
    whole = any(is_whole_name(meaning.heading) for meaning in match.why)
    return {
        place
        for place, meaning in enumerate(match.why)
        if (meaning.column is None and (meaning.by.startswith("[columns") or "another unit" in meaning.by))
        or (meaning.by.startswith("[columns") is False and half_name(meaning.heading))
        or (whole and bare_name(meaning.heading))
    }


def alike(table: Table, heading: str) -> dict[str, float]:
    """By column: how much of the heading's words stand in headings listed for it and for no other column, 0 to 1."""
    tokens = _tokens(heading)
    known = _columns_of_words(table.name)
    shares: dict[str, float] = defaultdict(float)
    for token in tokens:
        for column, share in known.get(token, {}).items():
            shares[column] += share / len(tokens)
    return dict(shares)


@cache
def _columns_of_words(table: str) -> dict[str, dict[str, float]]:
    """By word: the columns in whose listed headings it stands, and how much of its use is theirs."""
    counts: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for column, languages in words.HEADINGS[table].items():
        for listed in languages.values():
            for token in {token for heading in listed for token in _tokens(heading)}:
                counts[token][column] += 1
    return {
        token: {column: count / sum(columns.values()) for column, count in columns.items()}
        for token, columns in counts.items()
    }


def _tokens(heading: str) -> list[str]:
    tokens = [token for token in BETWEEN.split(plain(heading)) if token and token not in FILLERS]
    return [token for token in tokens if len(token) >= SHORTEST or token in SHORT_WORDS]
