"""Exports with one row per visit: several services in one cell, one price for all of them.

The cell is taken apart at + , ; / & and line breaks, but only where every piece is a service of the menu; a service
whose own name holds such a sign survives. The price is shared over the services by their list prices of that day, with
largest remainder, and is said to be shared.
"""

import re

import polars as pl

from analytics.definitions.columns import MONEY
from analytics.money import SCALE, largest_remainder
from analytics.records.chairs.validity import valid_that_day

SIGNS = re.compile(r"\s*[+,;/&\n]\s*")
MOST_CHARACTERS = 2_000  # of a cell that is looked at: a run of blanks would take the square of its length
BETWEEN = "\x1f"
SHARED = ("price", "discount", "tip")


def service_names(services: pl.DataFrame) -> dict[str, str]:
    """Folded name -> service_id, of names that belong to one service only."""
    names = services.select(name=_folded(pl.col("service")), service_id="service_id").unique()
    single = names.filter(pl.len().over("name") == 1)
    return dict(single.iter_rows())


def several_services(cells: pl.Series, names: dict[str, str]) -> dict[str, str]:
    """Cells that name several services -> their ids joined by BETWEEN; other cells are left out."""
    found = {}
    for cell in cells.unique().drop_nulls().to_list():
        if len(cell) <= MOST_CHARACTERS and fold(cell) not in names and SIGNS.search(cell):
            ids = _taken_apart(cell, names)
            if ids:
                found[cell] = BETWEEN.join(ids)
    return found


def fold(name: str) -> str:
    return re.sub(r"\s+", " ", name).strip().lower()


def _folded(name: pl.Expr) -> pl.Expr:
    return name.str.replace_all(r"\s+", " ").str.strip_chars().str.to_lowercase()


def _taken_apart(cell: str, names: dict[str, str]) -> list[str] | None:
    """The services of the cell from left to right, the longest name first; None where a piece is no service."""
    cuts = [(0, 0), *((sign.start(), sign.end()) for sign in SIGNS.finditer(cell)), (len(cell), len(cell))]
    if len(cuts) > 40:
        return None
    starts = [end for _, end in cuts[:-1]]
    ids, at = [], 0
    while at < len(starts):
        ends = [(later, cuts[later][0]) for later in range(len(cuts) - 1, at, -1)]
        match = next(
            ((later, names[name]) for later, end in ends if (name := fold(cell[starts[at] : end])) in names), None
        )
        if match is None:
            return None
        at, service_id = match
        ids.append(service_id)
    return ids


def in_lines(bookings: pl.DataFrame, services: pl.DataFrame, digits: int) -> pl.DataFrame:
    """Rows with `services` (ids joined by BETWEEN, "" where the row is one line) as one row per line, price shared."""
    several = bookings.filter(pl.col("services") != "")
    if several.is_empty():
        return bookings.drop("services")
    lines = (
        several.with_row_index("_row")
        .with_columns(service_id=pl.col("services").str.split(BETWEEN))
        .explode("service_id")
    )
    listed = services.select("service_id", "valid_from", list_price="price")
    weighed = valid_that_day(lines, listed, "service_id", pl.col("starts_at")).with_columns(_weight=_weights())
    shared = weighed.with_columns(
        **{name: _shared(name, 10 ** (SCALE - digits)) for name in SHARED}, line=pl.lit(None, pl.Int64), service=None
    )
    return pl.concat(
        [bookings.filter(pl.col("services") == "").drop("services"), shared.select(bookings.drop("services").columns)],
        how="vertical_relaxed",
    )


def _weights() -> pl.Expr:
    """List prices in ten-thousandths; equal where a service of the row has none."""
    prices = (pl.col("list_price") * 10**SCALE).cast(pl.Int64)
    usable = prices.is_not_null().all().over("_row") & (prices.sum().over("_row") > 0)
    return pl.when(usable).then(prices).otherwise(1)


def _shared(name: str, minor_unit: int) -> pl.Expr:
    """The row's amount over its lines in minor units (ten-thousandths where it has a fraction of one), adding up."""
    amount = (pl.col(name) * 10**SCALE).cast(pl.Int64)
    unit = pl.when(amount % minor_unit == 0).then(minor_unit).otherwise(1)
    units = largest_remainder((amount // unit) * pl.col("_weight"), pl.col("_weight").sum().over("_row"), ["_row"])
    share: pl.Expr = (units * unit).cast(pl.Decimal(38, SCALE)) / 10**SCALE
    return share.cast(MONEY).alias(name)
