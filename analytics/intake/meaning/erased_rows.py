"""Rows of clients who were erased, as an old export still has them: read as the rewritten exports have them.

Their visits count without them, under what stands in their place, and are repeats of those rows; their rows among the
clients are passed over. What the sheet holds beside the columns that are used is not read of them at all.
"""

from dataclasses import replace

import polars as pl

from analytics.definitions import findings
from analytics.intake.meaning.recognise import Recognised
from analytics.storage.erased import Erased

WHO = ("client_id", "client")


def without_erased(sheet: Recognised, erased: Erased | None) -> tuple[Recognised, pl.DataFrame]:
    """The sheet without them, and hits that say how many of its rows were theirs."""
    nothing = findings.hits([])
    if erased is None or sheet.match is None or not set(WHO) & set(sheet.match.places):
        return sheet, nothing
    both = [_marked(rows, sheet, erased) for rows in (sheet.rows, sheet.faulty)]
    count = sum(rows["instead"].count() for rows in both)
    if not count:
        return sheet, nothing
    rows, faulty = both
    faulty = faulty.filter(pl.col("instead").is_null()).drop("instead")
    rows = rows.filter(pl.col("instead").is_null()) if sheet.match.table.name == "clients" else rows
    hit = ("erased_client", sheet.match.table.name, sheet.name, None, None, str(count), None)
    return replace(sheet, rows=_without(rows, sheet).drop("instead"), faulty=faulty), findings.hits([hit])


def _marked(rows: pl.DataFrame, sheet: Recognised, erased: Erased) -> pl.DataFrame:
    """With `instead`: what stands in the client's place, null where she was not erased."""
    places = sheet.match.places if sheet.match else {}
    number, name = (_cell(rows, places.get(column)) for column in WHO)
    who = pl.select(pl.when(number != "").then(number).otherwise(name)).to_series()
    site = _cell(rows, places.get("site"))
    sites = site.unique().to_list()
    found = erased.instead_of(who.unique().to_list(), [one for one in sites if one])
    pairs = zip(site, who, strict=True)
    instead = [found.get((one, value)) or found.get(("", value)) for one, value in pairs] if found else []
    return rows.with_columns(pl.Series("instead", instead or [None] * rows.height, dtype=pl.String))


def _cell(rows: pl.DataFrame, place: int | None) -> pl.Series:
    name = f"c{place}"
    return rows[name].str.strip_chars() if name in rows.columns else pl.repeat("", rows.height, eager=True)


def _without(rows: pl.DataFrame, sheet: Recognised) -> pl.DataFrame:
    """Their rows with what stands in their place, and nothing in cells that no column is read from."""
    places = sheet.match.places if sheet.match else {}
    who = {f"c{places[column]}" for column in WHO if column in places}
    used = {f"c{place}" for place in places.values()}
    theirs, cells = pl.col("instead").is_not_null(), [name for name in rows.columns if name[1:].isdigit()]
    new = [
        pl.when(theirs).then(pl.col("instead") if name in who else pl.lit("")).otherwise(name).alias(name)
        for name in cells
        if name in who or name not in used
    ]
    return rows.with_columns(new)
