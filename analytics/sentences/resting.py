"""What a figure rests on that no export held: said under it wherever it is shown."""

from collections.abc import Iterable

import polars as pl

from analytics.definitions.resting import CIRCULAR, RESTING
from analytics.plain_text import visible

MOST_FILES = 2
UNTOLD = {
    "durations": "How long the work of {} took beside the menu's minutes cannot be told, since one was made of the "
    "other; it is in no row here.",
    "prices": "What the services of {} were charged beside the menu's prices cannot be told, since one was made of the "
    "other; it is left empty.",
}
"""By figure; of the files."""


def resting_on(made: pl.DataFrame, names: Iterable[str]) -> list[str]:
    """A sentence for each way in which something these figures rest on was made.

    made: those of the book, a row per file and column.
    """
    names = list(names)
    said = [sentence for name in names if (sentence := _untold(made, name))]
    ways: dict[tuple[str, str, str], list[str]] = {}
    for row in made.iter_rows(named=True):
        ways.setdefault((row["table"], row["column"], row["how"]), []).append(row["file"])
    for (table, column, how), files in sorted(ways.items()):
        resting = RESTING.get((table, column))
        if resting and set(resting.figures) & set(names):
            said.append(f"No export says {resting.what}: {how} ({_named(files)}).")
    return said


def _untold(made: pl.DataFrame, name: str) -> str | None:
    """What cannot be told, as it would be told of itself."""
    circular = pl.DataFrame(CIRCULAR.get(name, ()), schema=["table", "column"], orient="row").cast(pl.String)
    files = made.join(circular, on=["table", "column"], how="semi")["file"].unique().sort().to_list()
    return UNTOLD[name].format(_named(files)) if files else None


def _named(files: list[str]) -> str:
    rest = files[MOST_FILES:]
    more = f" and {len(rest)} more" if rest else ""
    return ", ".join(map(visible, files[:MOST_FILES])) + more
