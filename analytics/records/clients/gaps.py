"""What was known of clients on a day: their gaps on the salon's clock, and how long they have been away."""

from datetime import date
from typing import NamedTuple

import numpy as np
import polars as pl
from numpy.typing import NDArray

from analytics.methods import gap_table, return_times
from analytics.records.clients.root_visits import CLIENT
from analytics.records.clock import Clock
from analytics.records.salon_days import EPOCH

CLOCK_SHARE = 0.5  # of what makes days thick or thin, that makes gaps longer or shorter
SETTLED_DAYS = 120  # who is first seen in the first months of a book is mostly an old client
Array = NDArray[np.float64]
Whole = NDArray[np.int64]


class Book(NamedTuple):
    """What is the same on each day of the past that is looked at: the kinds there are, the day of the first visit, and
    the salon's clock, if gaps are not to be measured in plain days.

    What makes a day thick is half that clients' time runs faster before it and half that they choose it when they are
    due: a regular client due in thin weeks comes a little later and not as much later as the clock has it. The half was
    found on the invented salons of tests/simulated, where it does better than either alone. What is closed stops
    nobody's time: who falls due then comes before it or after it (around_closed), and others keep to their days.
    """

    kinds: pl.Series
    opened: date
    clock: Clock | None

    def read(self, days: Whole) -> Array:
        """days: since 1970. The time at the end of each."""
        if self.clock is None:
            return days.astype(np.float64)
        out: Array = CLOCK_SHARE * self.clock.wished(days) + (1 - CLOCK_SHARE) * days
        return out

    def passed(self, as_of: date, days: int) -> Array:
        """The time from the end of `as_of` until 0, 1, … days after it."""
        time = self.read((as_of - EPOCH).days + np.arange(days + 1))
        out: Array = time - time[0]
        return out

    def middle(self, days: Whole) -> Array:
        """The time in the middle of each."""
        passed = CLOCK_SHARE * self.clock.wishes(days) + 1 - CLOCK_SHARE if self.clock else 1.0
        out: Array = self.read(days) - passed / 2
        return out

    def chosen(self, days: Whole) -> Array:
        """days: since 1970. How gladly each is chosen by who is due, if nothing were closed."""
        if self.clock is None:
            return np.ones(len(days))
        out: Array = self.clock.wishes(days) ** (1 - CLOCK_SHARE)
        return out


class Seen(NamedTuple):
    """What was known on a day: the clients, their gaps, and how their visits fell on weekdays. away: time since the
    last visit of each. later: 1 where she was first seen later than as the book opened. ends: the days, since 1970, on
    which each completed gap began and ended."""

    as_of: date
    clients: pl.DataFrame
    waits: return_times.Waits
    away: Array
    later: Whole
    weekdays: Array
    ends: Whole


def seen_on(visits: pl.DataFrame, as_of: date, book: Book, some: int | None = None) -> Seen:
    """some: of no more clients than that, evenly through their numbers."""
    clients = _clients(visits.filter(pl.col("day") <= as_of), as_of)
    if some:
        clients = clients.gather_every(max(1, -(-len(clients) // some))).drop("who").with_row_index("who")
    rows = visits.filter(pl.col("day") <= as_of).join(clients.select("who", *CLIENT), on=CLIENT).sort("who", "day")
    who, day = rows["who"].to_numpy().astype(np.int64), number(rows["day"])
    counts = np.zeros((len(clients), 7))
    np.add.at(counts, (who, (day + 3) % 7), 1)
    waits, away = _waits(who, day, clients, as_of, book)
    first = number(clients["first_on"]) if len(clients) else np.zeros(0, np.int64)
    later = first - (book.opened - EPOCH).days > SETTLED_DAYS if len(clients) else first > 0
    again = who[1:] == who[:-1]
    ends = np.stack([day[:-1][again], day[1:][again]])
    return Seen(as_of, clients, waits, away, later.astype(np.int64), counts, ends)


def number(days: pl.Series) -> Whole:
    return days.to_physical().to_numpy().astype(np.int64)


def _clients(visits: pl.DataFrame, as_of: date) -> pl.DataFrame:
    """One row per client, numbered by her history, so that sums don't depend on names or on the order of rows."""
    day = pl.col("day")
    back = (day.max() - day).dt.total_days()
    return (
        visits.sort("day")
        .group_by(CLIENT, maintain_order=True)
        .agg(
            pl.col("kind").last(),
            first_on=day.first(),
            last_on=day.last(),
            gaps=pl.len().cast(pl.Int64) - 1,
            reach=back.max(),
            sum=(back**2).sum(),
        )
        .sort("last_on", "gaps", "reach", "sum", "kind", *CLIENT)
        .with_columns(days_since=(pl.lit(as_of) - pl.col("last_on")).dt.total_days())
        .with_row_index("who")
        .drop("reach", "sum")
    )


def _waits(who: Whole, day: Whole, clients: pl.DataFrame, as_of: date, book: Book) -> tuple[return_times.Waits, Array]:
    """Gaps between visits, and the time since the last, by the middle of a visit's day and the end of `as_of`."""
    time = book.middle(day)
    same = who[1:] == who[:-1]
    cells, _ = gap_table.place((time[1:] - time[:-1])[same])
    kind = clients["kind"].replace_strict(book.kinds, range(len(book.kinds)), return_dtype=pl.Int64)
    last = number(clients["last_on"])
    away = float(book.read(np.array([(as_of - EPOCH).days]))[0]) - book.middle(last)
    longer = gap_table.table().longer
    beyond = np.stack([gap_table.beyond(part, away) for part in longer])
    return return_times.Waits(who[1:][same], cells, kind.to_numpy(), beyond), away
