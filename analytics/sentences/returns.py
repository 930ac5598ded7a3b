"""Who comes back: the sentence over the curves, and medians that were not reached yet said so."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

WEEKS = 8  # what the sentence holds: two months are long enough for most rhythms
EVERYBODY = "everybody"
QUARTERS = {"1": "first", "2": "second", "3": "third", "4": "fourth"}
NOBODY_YET = "No visit that happened is on record yet, so nobody can have come back."
NOBODY_NEW = (
    "Whether new clients come back cannot be said yet: all were first seen in the first half year on record, and most "
    "of those had come before it begins. By quarter they stand below."
)


def returns_sentence(curves: pl.DataFrame, settings: Settings) -> str:
    """The share of new clients back within eight weeks, its band, the median, and whether the last quarter is usual.

    curves: the figure return_curves.
    """
    row = row_at(curves, EVERYBODY, EVERYBODY, WEEKS)
    start = row_at(curves, EVERYBODY, EVERYBODY, 0)
    if start is None:
        return NOBODY_NEW if curves.height else NOBODY_YET
    if row is None:
        return (
            f"Nobody of the {wording.counted(start['clients'], 'new client', 'new clients', settings)} was followed "
            f"for {WEEKS} weeks yet, so it is too early to say how many come back."
        )
    band = wording.band(row["returned_low"], row["returned_high"], settings)
    share = f"{wording.share(row['returned'], settings)} of new clients are back within {WEEKS} weeks{band}"
    return f"{share}; {half_back(row['median_days'], settings)}.{_last_quarter(curves, settings)}"


def row_at(curves: pl.DataFrame, split: str, name: str, week: int) -> Row | None:
    """The row of one group after so many weeks; None where nobody of it was followed for so long."""
    found = curves.filter(split=split, name=name, week=week)
    return found.row(0, named=True) if found.height else None


def half_back(median_days: int | None, settings: Settings) -> str:
    """'half have returned after 63 days', or that this was not reached yet."""
    if median_days is None:
        return "half of them have not returned yet"
    return f"half have returned after {wording.counted(median_days, 'day', 'days', settings)}"


def median_words(median_days: int | None, settings: Settings) -> str:
    """'63 days', 'not reached yet'."""
    return "not reached yet" if median_days is None else wording.counted(median_days, "day", "days", settings)


def _last_quarter(curves: pl.DataFrame, settings: Settings) -> str:
    """The last quarter that was followed for so long, compared with everybody."""
    quarters = curves.filter(split="cohort", week=WEEKS).drop_nulls("differs")
    if quarters.is_empty():
        return ""
    last = quarters.sort("name").row(-1, named=True)
    band = wording.band(last["returned_low"], last["returned_high"], settings)
    share = f" Of those of {quarter(last['name'])} it is {wording.share(last['returned'], settings)}{band}"
    return f"{share}: {'unusual' if last['differs'] else 'as usual'}."


def quarter(name: str) -> str:
    """'2026-Q3' -> 'the third quarter of 2026'."""
    year, _, number = name.partition("-Q")
    return f"the {QUARTERS[number]} quarter of {year}"


def group_sentence(curves: pl.DataFrame, split: str, name: str, settings: Settings) -> str:
    """One group at eight weeks, with how many clients it rests on."""
    start, row = (row_at(curves, split, name, week) for week in (0, WEEKS))
    if start is None:
        return ""
    who = f"{name_of(split, name)}, {wording.counted(start['clients'], 'client', 'clients', settings)}"
    if row is None:
        return f"{who}: nobody was followed for {WEEKS} weeks yet."
    band = wording.band(row["returned_low"], row["returned_high"], settings)
    waited = wording.counted(row["at_risk"], "is", "are", settings)
    return (
        f"{who}: {wording.share(row['returned'], settings)} back within {WEEKS} weeks{band}; "
        f"{half_back(row['median_days'], settings)}; {waited} still waited for at {WEEKS} weeks."
    )


def name_of(split: str, name: str) -> str:
    """A group as people say it."""
    if split == "cohort":
        return quarter(name).capitalize()
    return wording.word(name).capitalize() if split == "kind" else wording.plain_cell(name)


RETURNS_NOTE = (
    "The line is the share that has returned by then, the band where it lies with a confidence of 95 %, and under the "
    "picture stands how many clients are still waited for: the fewer, the less the line says. Who came last week "
    "counts as still out."
)
