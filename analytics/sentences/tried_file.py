"""How a file would be read, before it is kept."""

from analytics import wording
from analytics.definitions.findings import CATALOGUE
from analytics.definitions.tables import TABLES
from analytics.definitions.vocabulary import TABLE_NAMES
from analytics.intake.meaning.match import CONTRACT, NOT_USED
from analytics.intake.preview import Counts, TriedFile
from analytics.settings import Settings

OPEN_WAYS = {
    "dates": "Its dates do not show which number is the day and which the month; choose how they are written.",
    "numbers": "Its numbers do not show whether they have thousands or decimals; choose how they are written.",
}


def tried_sentence(tried: TriedFile, settings: Settings, *, here: bool = False) -> str:
    """Which table it was taken for and why, and what its rows would become or what stops that.

    here: where the columns can be chosen beside it.
    """
    taken = taken_for(tried, here=here)
    if here and tried.missing:
        lacking = " and no ".join(_with_meaning(name, tried.table or "") for name in tried.missing)
        return f"{taken} It has no column {lacking} yet; choose the heading that means it, or add it to the export."
    if here and tried.waits_for:
        return f"{taken} {waiting_sentence(tried.waits_for)}".strip()
    if here and tried.leaves_open:
        return f"{taken} {OPEN_WAYS[tried.leaves_open]}"
    if tried.stopped:
        return f"{taken} {tried.stopped}".strip()
    counts = f" {counts_sentence(tried.counts, settings)}" if tried.counts else ""
    return taken + counts


def waiting_sentence(tables: tuple[str, ...]) -> str:
    """What has to be there before there are figures."""
    return f"Figures start once there is an export of {' and one of '.join(TABLE_NAMES[table] for table in tables)}."


def taken_for(tried: TriedFile, *, here: bool = False) -> str:
    """Which table and why; what to do where there is none."""
    if tried.left_out:
        by = "by your choice" if here else f"as {tried.rule!r} under [tables] in salon.toml says"
        return f"{tried.name} is left out, {by}: nothing of it would be read."
    if not tried.headings:
        return ""
    if tried.table is None:
        fault = CATALOGUE["unknown_table"]
        way_out = "choose what it should be read as, and what its headings mean" if here else fault.what_to_do
        return f"{fault.says.format(file=tried.name)}; {way_out}."
    fitting, all_of_them = len([one for one in tried.headings if one.column]), len(tried.headings)
    many = f"all its {all_of_them}" if fitting == all_of_them else f"{fitting} of its {all_of_them}"
    if tried.rule is not None:
        by = "by your choice" if here else f"as {tried.rule!r} under [tables] in salon.toml says"
        return f"{tried.name} is read as {_said(tried.table)}, {by}; {many} headings name columns of that table."
    return f"{tried.name} was taken for {_said(tried.table)}, because {many} headings name columns of that table."


def _with_meaning(name: str, table: str) -> str:
    meaning = next((column.meaning for column in TABLES[table].columns if column.name == name), "")
    return f"{name} ({meaning})" if meaning else name


def _said(table: str) -> str:
    return TABLE_NAMES[table].partition(" (")[0]


def counts_sentence(counts: Counts, settings: Settings) -> str:
    """What the rows would become among the exports that are there."""
    if counts.rows_read == 0:
        return "There are no rows under the headings."
    used, repeats, superseded, aside = (
        wording.number(count, settings)
        for count in (counts.rows_used, counts.repeats, counts.superseded, counts.set_aside)
    )
    one = counts.rows_read == 1
    many = f"Its {'one row' if one else wording.counted(counts.rows_read, 'row', 'rows', settings)}"
    if one or counts.rows_read in (counts.rows_used, counts.repeats, counts.superseded, counts.set_aside):
        return f"{many} would {_all_one(counts)}."
    return f"Of its {wording.number(counts.rows_read, settings)} rows {used} would be used, {repeats} are repeats, " + (
        f"{superseded} superseded and {aside} set aside."
    )


def _all_one(counts: Counts) -> str:
    if counts.rows_used:
        return "be used"
    if counts.repeats:
        return "be there already, a repeat" if counts.rows_read == 1 else "all be there already, as repeats"
    return "be superseded by newer exports" if counts.superseded else "be set aside"


def matched_by(by: str) -> str:
    """By what a heading was matched, as people say it."""
    said = {CONTRACT: "named as in the reference", NOT_USED: "no word we know"}
    if by.startswith("[columns"):
        return "as salon.toml says"
    return said.get(by, by.replace("word list", "known word", 1))
