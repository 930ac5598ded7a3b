"""General words for tables, columns and cell values in six languages, gathered by what they mean.

Words of trade and office that any salon may use; a word that can mean two columns of one table stands for neither.
"""

from collections.abc import Mapping
from types import ModuleType

from analytics.definitions.tables import TABLES
from analytics.intake.meaning.words import dutch, english, french, german, italian, spanish
from analytics.intake.meaning.words.spelling import plain

LANGUAGES: dict[str, ModuleType] = {
    "English": english,
    "Dutch": dutch,
    "German": german,
    "French": french,
    "Spanish": spanish,
    "Italian": italian,
}


def split(words: str) -> tuple[str, ...]:
    """The alternatives of one entry."""
    return tuple(word.strip() for word in words.split("|") if word.strip())


def _joined(first: str, second: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(split(first) + split(second)))


def _headings(tables: Mapping[str, list[str]]) -> dict[str, dict[str, dict[str, tuple[str, ...]]]]:
    """By table and column: the words of each language that has any."""
    return {
        table: {
            column: {
                language: words
                for language, module in LANGUAGES.items()
                if (words := _joined(module.COMMON.get(column, ""), module.PARTICULAR[table].get(column, "")))
            }
            for column in columns
        }
        for table, columns in tables.items()
    }


def _gathered(name: str) -> dict[str, dict[str, tuple[str, ...]]]:
    """VALUES of all languages, by column and value."""
    gathered: dict[str, dict[str, tuple[str, ...]]] = {}
    for module in LANGUAGES.values():
        for column, values in getattr(module, name).items():
            for value, words in values.items():
                known = gathered.setdefault(column, {}).get(value, ())
                gathered[column][value] = tuple(dict.fromkeys(known + split(words)))
    return gathered


def _of_all(name: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word for module in LANGUAGES.values() for word in split(getattr(module, name))))


def _tables(names: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    return {
        name: tuple(dict.fromkeys(word for module in LANGUAGES.values() for word in split(module.TABLES[name])))
        for name in names
    }


HEADINGS = _headings({name: table.headings for name, table in TABLES.items()})
"""By table, column and language: what a heading that means the column may say."""

VALUES = _gathered("VALUES")
"""By column and value: what a cell that means the value may say. The two columns `kind` go by table and column."""

TABLE_WORDS = _tables(tuple(TABLES))
"""By table: what the name of a file or a sheet of it may say."""

TOTAL_WORDS = tuple(dict.fromkeys(form for word in _of_all("TOTALS") for form in (word.lower(), plain(word))))
"""What the first cell of a line of totals may say, in lower case, with its accents and without."""

STARTS, ENDS = _of_all("STARTS"), _of_all("ENDS")
"""Start and end of a booking: times where the day has a column of its own, else moments."""

STAND_INS = {
    kind: tuple(dict.fromkeys(word for module in LANGUAGES.values() for word in split(module.STAND_INS[kind])))
    for kind in ("day", "amount", "booked", "description")
}
"""By what they say: words that stand for a column only where no other heading does."""

HALF_NAMES = _of_all("HALF_NAMES")
"""Parts of a name: beside them a heading such as "Name" may mean the other part only."""

BUYING = _of_all("BUYING")
"""Of the salon's own purchases."""

BARE_NAMES = tuple(word for module in LANGUAGES.values() for word in split(module.PARTICULAR["clients"]["client"]))
"""Names of anyone: of clients only where the name of the sheet or other headings speak of clients."""

NAMED_BY_SHEET = {"services": "service_id", "products": "product_id", "clients": "client_id"}
"""What a heading that says no more than "ID" means where the name of the file or sheet says which table it is."""
