"""Whether salon.toml names tables, columns and words that there are; each answers the first mistake, or nothing."""

from analytics.definitions.tables import TABLES

AMOUNTS = "amounts"  # under [constants.<file>]: "cents" where a file writes its amounts in cents


def wrong_table(tables: dict[str, str]) -> str:
    """Of [tables]: name of an export -> table, "" to leave it out."""
    for file, table in tables.items():
        if table and table not in TABLES:
            return (
                f'[tables] {file!r} = {table!r} is not a table; the tables are {", ".join(TABLES)}, and "" leaves the '
                "file out"
            )
    return ""


def wrong_column(columns: dict[str, dict[str, str]]) -> str:
    """Of [columns.<table>]: heading -> column, "" for one that is not to be used."""
    for table, headings in columns.items():
        if table not in TABLES:
            return f"[columns.{table}] is not a table; the tables are {', '.join(TABLES)}"
        for heading, column in headings.items():
            if column and column not in TABLES[table].headings:
                return f"[columns.{table}] {heading!r} = {column!r} is not a column of {table}"
    return ""


def wrong_word(words: dict[str, dict[str, str]]) -> str:
    """Of [words.<column>]: word in the exports -> word of the column, where the column has words of its own."""
    every_column = {name for table in TABLES.values() for name in table.names}
    for column, own in words.items():
        if column not in every_column:
            return f"[words.{column}] is not a column of any table"
        known = _words_of(column)
        wrong = next((value for value in own.values() if known and value not in known), None)
        if wrong is not None:
            return f"[words.{column}] {wrong!r} is none of the words of {column}: {', '.join(known)}"
    return ""


def wrong_constant(constants: dict[str, dict[str, str]]) -> str:
    """Of [constants.<file>]: column -> what its rows all say; AMOUNTS: whether amounts stand in cents."""
    every_column = {name for table in TABLES.values() for name in table.names}
    for file, values in constants.items():
        unknown = next((column for column in values if column not in every_column and column != AMOUNTS), None)
        if unknown is not None:
            return f"[constants.{file!r}] {unknown!r} is not a column of any table"
        if values.get(AMOUNTS, "whole") not in ("cents", "whole"):
            return f'[constants.{file!r}] {AMOUNTS} = {values[AMOUNTS]!r} is neither "cents" nor "whole"'
    return ""


def _words_of(column: str) -> tuple[str, ...]:
    """The words a column of this name may hold, in any table; empty where it holds anything."""
    columns = [one for table in TABLES.values() for one in table.columns if one.name == column]
    yes_no = ("yes", "no") if any(one.type == "yes_no" for one in columns) else ()
    return (*yes_no, *dict.fromkeys(word for one in columns for word in one.words))
