"""A grid of takings by day, a column or row for each way of paying: each cell becomes a row of day, way and amount."""

import polars as pl

from analytics.intake.cells.casts import folded_word
from analytics.intake.meaning.words import TOTAL_WORDS, VALUES
from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import MOST_ABOVE, VALUE, cell_names, heading_at, is_day

FEWEST_WAYS, FEWEST_DAYS, LOOKED_AT = 2, 3, 50
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
    first = enumerate(records.head(MOST_ABOVE).rows())
    at, days = next(((at, days) for at, row in first if len(days := _days(records, row)) >= FEWEST_DAYS), (0, {}))
    label = next((name for name in cell_names(records) if name not in days), None)
    if not days or label is None or at + 1 >= records.height:
        return records
    below = records.slice(at + 1)
    if not _all_say_ways(below[label].head(LOOKED_AT)) or not _all_say_ways(below[label]):
        return records
    ways = below[label].map_elements(folded_word, return_dtype=pl.String).is_in(list(WAYS))
    if ways.sum() < FEWEST_WAYS:
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


def _days(records: pl.DataFrame, row: tuple[object, ...]) -> dict[str, str]:
    """By cell name: the days that stand in this record."""
    cells = dict(zip(cell_names(records), (str(cell).strip() for cell in row[len(LEADING) :]), strict=True))
    return {name: cell for name, cell in cells.items() if is_day(cell)}


def _all_say_ways(labels: pl.Series) -> bool:
    """Whether each is a way of paying, a total or nothing."""
    others = [label for label in labels.unique().to_list() if folded_word(label) not in WAYS]
    return all(label.lower().strip(" :") in {*TOTAL_WORDS, ""} for label in others)


def _amounts(cells: pl.Series) -> bool:
    filled = [cell for cell in cells.head(200).to_list() if cell and cell.strip()]
    return bool(filled) and sum(bool(VALUE.match(cell)) for cell in filled) >= 0.95 * len(filled)
