"""What a heading, or a row of headings between semicolons, is matched to; several tests ask."""

from functools import cache

from analytics.definitions.tables import TABLES
from analytics.intake.meaning.headings import _match, best_match, match_headings
from analytics.intake.meaning.match import Match
from analytics.settings import Settings, parse_settings


@cache
def settings(more: str = "") -> Settings:
    return parse_settings(f'[salon]\nname = "Held out"\n{more}')


def best(headings: str, name: str = "sheet.csv", more: str = "") -> Match | None:
    """The match of headings that stand between semicolons, nothing raised."""
    return best_match([heading.strip() for heading in headings.split(";")], name, settings(more))


def matched(headings: str, name: str = "sheet.csv", more: str = "") -> dict[str, str]:
    """The columns matched, in the order of the headings, after the table's name."""
    match = match_headings([heading.strip() for heading in headings.split(";")], name, settings(more))
    assert match is not None
    return {"": match.table.name} | {one.heading: one.column for one in match.why if one.column}


def column_alone(table: str, heading: str) -> str | None:
    return _match(TABLES[table], [heading], "sheet.csv", settings()).why[0].column
