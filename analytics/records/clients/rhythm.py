"""When each client is likely to come again, and whether she still will: root visits -> habits of the clients.

Rhythms (methods/return_times over methods/gap_table) and stopping (dropping_out) are fitted in turn until they agree,
in half plain and half clock time (gaps.Book), which did better on tests/simulated than either; a due client then
chooses a day as the clock and her weekdays have it, or goes around a closed spell. Who came once fits a long gap as
well as having stopped: shapes are told by clients with a gap, and fitting starts from one in three.
"""

from dataclasses import replace
from datetime import date

import numpy as np
import polars as pl

from analytics.methods import gap_table, range_levels
from analytics.methods.renewal import Waiting
from analytics.records.clients.around_closed import learnt
from analytics.records.clients.fitted_rhythms import days_ahead, fitted, nodes_of
from analytics.records.clients.gaps import Book, seen_on
from analytics.records.clients.habits import AHEAD_DAYS, Future, Habits
from analytics.records.clients.range_cuts import levels
from analytics.records.clock import Clock

LEAST_REACH = 182


def habits(visits: pl.DataFrame, as_of: date, clock: Clock | None = None, *, ranges: bool = True) -> Habits:
    """visits: site, client_id, kind and day of each visit up to `as_of`, one per client and day.

    clock: what gaps are measured on; without one on plain days. ranges: look at the past year for where to cut ranges,
    which takes time.
    """
    known = visits.filter(pl.col("day") <= as_of)
    opened = known.select(pl.col("day").min()).fill_null(as_of).item()
    book = Book(known["kind"].unique().sort(), opened, clock)
    now = seen_on(known, as_of, book)
    if not len(now.clients):
        return Habits(as_of, now.clients, np.zeros(0), np.zeros((0, AHEAD_DAYS)), range_levels.ENDS)
    reach = int(np.clip((as_of - opened).days, LEAST_REACH, AHEAD_DAYS - 1))
    model = fitted(now)
    nodes = nodes_of(now, model)
    around = learnt(now, nodes, model.longer, book)
    ahead = days_ahead(now, nodes, model.longer, book, around)
    outlasts = gap_table.beyond(model.longer, now.away)
    chance = model.stopping.still(now.waits.gaps, now.later, (nodes * outlasts).sum(axis=1, dtype=np.float64))
    stopping = model.stopping
    waiting = Waiting(nodes, outlasts, now.away, chance, stopping.a, stopping.b + now.waits.gaps.astype(np.float64))
    future = Future(waiting, model.longer, book.passed(as_of, AHEAD_DAYS))
    said = Habits(as_of, now.clients, chance, ahead, range_levels.ENDS, reach, future)
    return replace(said, levels=levels(known, said, model, book, around)) if ranges else said
