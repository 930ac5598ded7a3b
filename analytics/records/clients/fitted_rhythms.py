"""Rhythms of clients and their chances to stop, fitted together, and the chance of each day ahead that follows."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from analytics.methods import dropping_out, gap_table, return_times, weekdays
from analytics.records.clients.around_closed import Moved, moved, pending
from analytics.records.clients.gaps import Book, Seen
from analytics.records.clients.habits import AHEAD_DAYS
from analytics.records.salon_days import EPOCH

ROUNDS, AGREED = 6, 0.003  # of fitting rhythms and stopping in turn, until the chances to stop move no more than that
Array = NDArray[np.float64]
Whole = NDArray[np.int64]


class Model(NamedTuple):
    """prior: of rhythms. longer: of methods.gap_table, usual and other gaps taken together."""

    rhythms: return_times.Rhythms
    longer: Array
    stopping: dropping_out.Stopping


def fitted(now: Seen) -> Model:
    """Rhythms and stopping in turn, each in the light of the other, until they agree."""
    stopping = dropping_out.Stopping()
    rhythms = return_times.start(_grid(), int(now.waits.kind.max()) + 1)
    for _ in range(ROUNDS):
        gone, before = stopping.gone(now.waits.gaps, now.later), stopping
        rhythms, outlasts = return_times.closer(rhythms, now.waits, _grid(), gone)
        stopping = stopping.fitted(now.waits.gaps, now.later, outlasts)
        if stopping.moved(before) <= AGREED:
            break
    return Model(rhythms, rhythms.mixed(gap_table.table().longer), stopping)


def nodes_of(seen: Seen, model: Model) -> Array:
    """Each client's weight on each sort of client; rows add up to 1."""
    return model.rhythms.nodes(seen.waits, _grid())


def _grid() -> return_times.Grid:
    table = gap_table.table()
    return return_times.Grid(gap_table.LENGTHS, table.node_of, table.cells)


def days_ahead(seen: Seen, nodes: Array, longer: Array, book: Book, around: Moved) -> Array:
    """Probability of each day ahead: her rhythm on the salon's clock, days that suit everybody, and her weekdays."""
    today = (seen.as_of - EPOCH).days
    back = pending(book.clock, today) if book.clock else 0
    days = today - back + np.arange(AHEAD_DAYS + back + 1)
    time = book.read(days)
    cell, part = gap_table.place(np.maximum(seen.away[:, None] + time - time[back], 0))
    at_edges = nodes @ longer.T
    begin, end = (np.take_along_axis(at_edges, at, axis=1) for at in (cell, cell + 1))
    outlasts = begin + (end - begin) * part
    ahead = np.maximum(outlasts[:, :-1] - outlasts[:, 1:], 0)
    favoured = weekdays.leanings(seen.weekdays, relative=book.clock is not None)
    ahead *= favoured[:, (days[1:] + 3) % 7] * book.chosen(days[1:])
    if book.clock:
        ahead = moved(ahead, int(days[0]), book.clock, around)[:, back:]
    ahead[:, -1] = outlasts[:, -1]
    total = ahead.sum(axis=1, keepdims=True)
    return np.where(total > 0, ahead / np.maximum(total, 1e-30), 0.0)
