"""A grid of takings by day, a column for each way of paying: each cell becomes a row of day, way and amount."""

import polars as pl

from analytics.intake.cells.casts import folded_word
from analytics.intake.meaning.words import TOTAL_WORDS, VALUES
from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import VALUE, cell_names, heading_at

FEWEST_WAYS = 2
WAYS = frozenset(folded_word(word) for words in VALUES["method"].values() for word in words) - {"other", "bank"}


def grid_of_takings(records: pl.DataFrame) -> pl.DataFrame:
    """As payments under the contract's headings; as it is where the headings are not one of days and ways of paying."""
    at = heading_at(records)
    if at is None:
        return records
    headings = [str(records[name][at]).strip() for name in cell_names(records)]
    ways = [place for place, heading in enumerate(headings) if folded_word(heading) in WAYS]
    others = [place for place, heading in enumerate(headings) if heading and place not in ways]
    others = [place for place in others if headings[place].lower().strip(" :") not in TOTAL_WORDS]
    if len(ways) < FEWEST_WAYS or len(others) != 1:
        return records
    below = records.slice(at + 1)
    if not all(_amounts(below[f"c{place}"]) for place in ways):
        return records
    parts = [
        below.select("row", pl.lit(3, pl.Int64).alias("count"), "spoilt",
                     c0=f"c{others[0]}", c1=pl.lit(headings[place]), c2=f"c{place}")
        for place in ways
    ]  # fmt: skip
    rows = pl.concat(parts).filter(pl.col("c2").str.strip_chars() != "").sort("row", maintain_order=True)
    titles = (headings[others[0]], "method", "amount")
    head = records.slice(at, 1).select(
        *(pl.col(name) for name in LEADING if name != "count"),
        pl.lit(3, pl.Int64).alias("count"),
        *(pl.lit(title).alias(f"c{place}") for place, title in enumerate(titles)),
    )
    return pl.concat([head.select(rows.columns), rows])


def _amounts(cells: pl.Series) -> bool:
    filled = [cell for cell in cells.head(200).to_list() if cell and cell.strip()]
    return bool(filled) and sum(bool(VALUE.match(cell)) for cell in filled) >= 0.95 * len(filled)
