"""A grid of takings by day, a column or row for each way of paying: each cell becomes a row of day, way and amount."""

import polars as pl

from analytics.intake.cells.casts import folded_word
from analytics.intake.meaning.words import TOTAL_WORDS, VALUES
from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import MOST_ABOVE, VALUE, cell_names, heading_at, is_day

FEWEST_WAYS, FEWEST_DAYS = 2, 3
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


def grid_with_days_across(records: pl.DataFrame) -> pl.DataFrame:
    """The same of a grid whose days stand side by side and whose ways of paying one below the other."""
    at = next((at for at in range(min(MOST_ABOVE, records.height)) if len(_days(records, at)) >= FEWEST_DAYS), None)
    if at is None:
        return records
    days = _days(records, at)
    below = records.slice(at + 1)
    label = next((name for name in cell_names(records) if name not in days), None)
    if label is None or below.is_empty():
        return records
    said = below[label].map_elements(folded_word, return_dtype=pl.String)
    ways = said.is_in(list(WAYS))
    others = below.filter(~ways)[label].str.to_lowercase().str.strip_chars(" :")
    if ways.sum() < FEWEST_WAYS or not (others.is_in(list(TOTAL_WORDS)) | (others == "")).all():
        return records
    rows = pl.concat(
        below.filter(ways).select("row", pl.lit(3, pl.Int64).alias("count"), "spoilt",
                                  c0=pl.lit(day), c1=label, c2=name)
        for name, day in days.items()
    ).filter(pl.col("c2").str.strip_chars() != "").sort("row", maintain_order=True)  # fmt: skip
    if not _amounts(rows["c2"]):
        return records
    titles = ("day", "method", "amount")
    head = records.slice(at, 1).select(
        "row", pl.lit(3, pl.Int64).alias("count"), "spoilt",
        *(pl.lit(title).alias(f"c{place}") for place, title in enumerate(titles)),
    )  # fmt: skip
    return pl.concat([head.select(rows.columns), rows])


def _days(records: pl.DataFrame, at: int) -> dict[str, str]:
    """By cell name: the days that stand in this record."""
    cells = {name: str(records[name][at]).strip() for name in cell_names(records)}
    return {name: cell for name, cell in cells.items() if is_day(cell)}


def _amounts(cells: pl.Series) -> bool:
    filled = [cell for cell in cells.head(200).to_list() if cell and cell.strip()]
    return bool(filled) and sum(bool(VALUE.match(cell)) for cell in filled) >= 0.95 * len(filled)
