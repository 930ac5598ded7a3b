"""Where the ranges of clients' days are cut, so that they would have held 80 % over the salon's past year."""

from datetime import date, timedelta

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods import range_levels
from analytics.methods.range_levels import Outcomes, first_step
from analytics.records.clients.around_closed import Moved
from analytics.records.clients.fitted_rhythms import Model, days_ahead, nodes_of
from analytics.records.clients.gaps import Book, seen_on
from analytics.records.clients.habits import Habits, within_reach
from analytics.records.clients.root_visits import CLIENT

REPLAYS, REPLAY_DAYS, REPLAYED = 4, 91, 600  # days of the past looked at, how far apart, of how many clients each
NEAR = (7, 14, 28, 56)  # days ahead, by which ranges are cut apart
Array = NDArray[np.float64]
Whole = NDArray[np.int64]


def levels(visits: pl.DataFrame, said: Habits, model: Model, book: Book, around: Moved) -> Array:
    """Where to cut ranges, one row per client, so that 8 in 10 came within theirs when the past is looked at alike.

    A day holds a lump of probability, so that ranges of whole days hold 80 % only on average over clients; and drifts
    that no rhythm explains show in what came. A few days of the past year are replayed, with each client's gaps up to
    then; how gaps spread over clients is taken as known now. Ranges are cut apart by how far ahead the expected day
    lies, and within that by kind; the expected day is cut alike for all.
    """
    outcomes, kinds, bands = _replayed(visits, said, model, book, around)
    reached = np.cumsum(said.soon(), axis=1)
    kind, band = _kinds(said.clients, book), _bands(reached)
    usual = range_levels.if_right(reached)
    everybody = range_levels.learnt(outcomes, usual)
    out = np.empty((len(band), 3))
    for each in np.unique(band):
        some = bands == each
        lumps = range_levels.if_right(reached[band == each]) - usual
        near = range_levels.learnt(outcomes.some(some), everybody + lumps)
        for one in np.unique(kind[band == each]):
            out[(band == each) & (kind == one)] = range_levels.learnt(outcomes.some(some & (kinds == one)), near)
    out[:, 1] = everybody[1]
    return out


def _kinds(clients: pl.DataFrame, book: Book) -> Whole:
    kind = clients["kind"].replace_strict(book.kinds, range(len(book.kinds)), return_dtype=pl.Int64)
    return kind.to_numpy()


def _bands(reached: Array) -> Whole:
    """How far ahead the expected day lies, as the number of its band."""
    return np.searchsorted(NEAR, first_step(reached, 0.5) + 1)


def _replayed(
    visits: pl.DataFrame, said: Habits, model: Model, book: Book, around: Moved
) -> tuple[Outcomes, Whole, Whole]:
    """Outcomes of what would have been said on days of the past, with the kinds and bands they are of."""
    still = said.clients.select(*CLIENT, "last_on", row=pl.int_range(pl.len()))
    parts: list[tuple[Outcomes, Whole, Whole]] = []
    for number in range(1, REPLAYS + 1):
        day = said.as_of - timedelta(days=REPLAY_DAYS * number)
        seen = seen_on(visits, day, book, REPLAYED)
        if not len(seen.clients):
            continue
        nodes = nodes_of(seen, model)
        reached = np.cumsum(within_reach(days_ahead(seen, nodes, model.longer, book, around), said.reach), axis=1)
        after = visits.filter(pl.col("day") > day).group_by(CLIENT).agg(came_on=pl.col("day").min())
        rows = seen.clients.join(after, on=CLIENT, how="left", maintain_order="left")
        rows = rows.join(still, on=CLIENT, how="left", maintain_order="left")
        parts.append((_outcomes(rows, reached, said, day), _kinds(seen.clients, book), _bands(reached)))
    if not parts:
        return Outcomes(*(np.zeros(0),) * 3, np.zeros(0, np.bool_)), np.zeros(0, np.int64), np.zeros(0, np.int64)
    each, kinds, bands = zip(*parts, strict=True)
    joined = Outcomes(*(np.concatenate(some) for some in zip(*each, strict=True)))
    return joined, np.concatenate(kinds), np.concatenate(bands)


def _outcomes(rows: pl.DataFrame, reached: Array, said: Habits, day: date) -> Outcomes:
    """rows: came_on after `day`, and row of `said`. Only who came within reach, or may yet, counts."""
    passed = (said.as_of - day).days
    after = rows.select((pl.col("came_on") - pl.lit(day)).dt.total_days())["came_on"]
    came = (after <= said.reach).fill_null(False).to_numpy()
    place = np.minimum(after.fill_null(passed).to_numpy(), said.reach) - 1
    number = np.arange(len(reached))
    by_then = reached[number, place].astype(np.float64)
    before = np.where(came & (place > 0), reached[number, np.maximum(place - 1, 0)], by_then * ~came)
    left = max(said.reach - passed, 0)
    may_yet = said.within(left)[rows["row"].to_numpy()] * after.is_null().to_numpy()
    return Outcomes(before, by_then, np.where(came, 1.0, may_yet), came)
