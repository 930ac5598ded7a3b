"""Which record of a sheet looks like its heading, by its shape alone."""

import re
from functools import lru_cache

import polars as pl

from analytics.intake.cells.days import ORDERS, read_day
from analytics.intake.reading.split import LEADING

MOST_ABOVE, MOST_BELOW = 30, 40
VALUE = re.compile(r"\s*[-+(]?[€$£]?\s*\d[\d.,:/\-\s]*\)?\s*[€$£%]?\s*$")
FEWEST = 2  # filled cells of a heading
SHORTEST_DAY = 6  # characters


def cell_names(records: pl.DataFrame) -> list[str]:
    return records.columns[len(LEADING) :]


@lru_cache(maxsize=4096)
def is_day(text: str) -> bool:
    """Whether a cell says a day, in whatever order of its numbers."""
    return len(text) >= SHORTEST_DAY and any(read_day(text, order, "UTC") is not None for order in ORDERS)


def filled_cells(records: pl.DataFrame) -> pl.Series:
    """How many cells of each record have something in them."""
    counted = [(pl.col(name).str.strip_chars() != "").cast(pl.Int32) for name in cell_names(records)]
    return records.select(pl.sum_horizontal(counted).alias("filled"))["filled"]


def heading_at(records: pl.DataFrame) -> int | None:
    """The first record of texts, all different, that has as many as most records below; None where there is none.

    The record right below such a one is taken instead where it is a heading too and has more cells: above it stands
    what several columns have in common.
    """
    rows = records.head(MOST_ABOVE + MOST_BELOW).rows()
    places = range(min(MOST_ABOVE, records.height - 1))
    first = next((at for at in places if _may_be(rows, at)), None)
    if first is None:
        return None
    below = first + 1
    better = below in places and len(_texts(rows[below])) > len(_texts(rows[first])) and _may_be(rows, below)
    return below if better else first


def _texts(record: tuple[object, ...]) -> list[str]:
    return [text for cell in record[len(LEADING) :] if cell is not None and (text := str(cell).strip())]


def _may_be(rows: list[tuple[object, ...]], at: int) -> bool:
    texts, below = _texts(rows[at]), rows[at + 1 : at + 1 + MOST_BELOW]
    if len(texts) < FEWEST or not below or any(map(VALUE.match, texts)):
        return False
    widest = len(rows[at]) - len(LEADING)
    return len(texts) >= 0.6 * widest or len(texts) >= 0.6 * max(len(_texts(row)) for row in below)
