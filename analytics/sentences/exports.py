"""What became of the exports, and how far the records reach."""

from datetime import date

import polars as pl

from analytics import wording
from analytics.settings import Settings
from analytics.storage.book import rows_in_all

NOTHING_YET = "There are no records yet; put exports in the folder exports/, or drop them on the page Start."
NOT_LOADED = (
    "Nothing is loaded yet. Drop your exports here one after the other: figures start with the bookings and the menu."
)
WHERE_TO_LOAD = "Nothing is loaded yet. The page Start takes your exports and loads them."
STALE = (
    "The exports, or how salon.toml reads them, have changed since they were loaded; the page Exports and findings "
    "loads them again."
)


def exports_sentence(files: pl.DataFrame, findings: pl.DataFrame, settings: Settings) -> str:
    """How many rows were read, used and set aside, and how many findings want a look."""
    if files.is_empty():
        return NOTHING_YET
    counts = rows_in_all(files)
    used, older, aside = (wording.number(counts[name], settings) for name in ("rows_used", "older", "set_aside"))
    more = f", {older} are repeats or older versions" if counts["older"] else ""
    start = (
        f"{wording.counted(files.height, 'file', 'files', settings)} with "
        f"{wording.counted(counts['rows_read'], 'row', 'rows', settings)} {'was' if files.height == 1 else 'were'} "
        f"read; {used} are used{more} and {aside} set aside"
    )
    if findings.is_empty():
        return f"{start}; nothing was found wrong."
    return f"{start}; {wording.counted(findings.height, 'finding wants', 'findings want', settings)} a look."


def foot(settings: Settings, months: list[str], today: date) -> str:
    """Whose figures these are, for which day, and how far the records reach."""
    covers = f"records cover {wording.month_range(months, settings)}" if months else "there are no records yet"
    return f"{settings.salon.name} · worked out for {wording.day(today, settings)} · {covers}"


def site_name(site: str | None) -> str:
    """A salon of a group by name; None is all of them."""
    return "All salons" if site is None else site or "No salon named"


def narrowed(site: str | None, chair: str | None) -> list[str]:
    """What narrowing to one salon of a group or to one chair means; nothing where neither is chosen."""
    said = []
    if site is not None:
        said.append(
            f"{'What names no salon' if site == '' else f'Only {site}'}: opening hours are the settings', the same for "
            "every salon, and costs are shared by the number of chairs."
        )
    if chair is not None:
        said.append(f"Only {chair}: its visits, and the payments, retail and bowls that belong to them.")
    return said
