"""Which record of a sheet looks like its heading, by its shape alone."""

import re
from functools import lru_cache

import polars as pl

from analytics.intake.cells.days import ORDERS, read_day
from analytics.intake.reading.split import LEADING

MOST_ABOVE = 30
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
    fits = [at for at in range(min(MOST_ABOVE, records.height - 1)) if _may_be(records, at)]
    if not fits:
        return None
    first = fits[0]
    below = first + 1
    better = below in fits and len(_texts(records, below)) > len(_texts(records, first))
    return below if better else first


def _texts(records: pl.DataFrame, at: int) -> list[str]:
    return [str(cell).strip() for cell in records.row(at)[len(LEADING) :] if str(cell).strip()]


def _may_be(records: pl.DataFrame, at: int) -> bool:
    texts = _texts(records, at)
    if len(texts) < FEWEST or any(map(VALUE.match, texts)):
        return False
    usual = filled_cells(records.slice(at + 1, 40)).max()
    return isinstance(usual, int) and len(texts) >= 0.6 * usual
