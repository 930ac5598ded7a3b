"""Which column one heading means by itself, whatever stands beside it: the column's own name or one of the general
words for it, in a unit that is the column's."""

from functools import cache, lru_cache

from analytics.definitions.columns import Table
from analytics.definitions.tables import TABLES
from analytics.intake.meaning import words
from analytics.intake.meaning.match import CONTRACT, NOT_USED, Meaning
from analytics.intake.meaning.words.spelling import Spelling, folded, spelling
from analytics.intake.meaning.words.units import SUITS, SUITS_TYPE
from analytics.settings import Settings


@cache
def _listed(table: str) -> dict[str, list[tuple[str, frozenset[str], str]]]:
    """By key of a heading: the columns it is listed for, the units it needs for that, and the language."""
    listed: dict[str, list[tuple[str, frozenset[str], str]]] = {}
    for column, languages in words.HEADINGS[table].items():
        for language, synonyms in languages.items():
            for synonym in synonyms:
                spelt = spelling(synonym)
                listed.setdefault(spelt.key, []).append((column, spelt.units, language))
    return listed


def column_meant(table: Table, heading: str, settings: Settings) -> Meaning:
    """What one heading means by itself in the table, without regard to salon.toml and the headings beside it."""
    return _meant(table.name, heading, settings.salon.currency, settings.tax.prices)


@lru_cache(maxsize=8192)
def _meant(name: str, heading: str, currency: str, prices: str) -> Meaning:
    table, spelt, own = TABLES[name], spelling(heading), folded(heading)
    if own in table.headings:
        fits = spelt.units <= suiting(table, own, currency, prices)
        return (
            Meaning(heading, own, CONTRACT) if fits else Meaning(heading, None, f"{NOT_USED}: another unit than {own}")
        )
    found = _found(table, spelt, currency, prices) if spelt.clear else {}
    if len(found) != 1:
        return Meaning(heading, None, NOT_USED)
    column, languages = next(iter(found.items()))
    return Meaning(heading, column, f"word list ({', '.join(dict.fromkeys(languages))})")


def _found(table: Table, spelt: Spelling, currency: str, prices: str) -> dict[str, list[str]]:
    """Columns the word lists give for a heading, with the languages that do."""
    found: dict[str, list[str]] = {}
    for column, units, language in _listed(table.name).get(spelt.key, []):
        if column in table.headings and units <= spelt.units <= units | suiting(table, column, currency, prices):
            found.setdefault(column, []).append(language)
    return found


def suiting(table: Table, column: str, currency: str, prices: str) -> set[str]:
    """Units and remarks behind a heading that say no more than the column does."""
    kind = next((one.type for one in table.columns if one.name == column), None)
    units = SUITS.get(column, set()) | SUITS_TYPE.get(kind or "", set())
    if kind == "money":
        units = units | {currency.upper()}
    if column in ("price", "discount"):
        units = units | {"with_tax" if prices == "included" else "without_tax"}
    return units | {"with_tax"} if column == "amount" else units
