"""Closed spells of a salon and where its clients go who would have come on one of their days.

Nobody's time stops while the salon is shut: a client who falls due then comes before it or after it, as clients have
done around the salon's own past spells, long ones and short ones (methods/moved_visits), or at another time. Spells
of more than four weeks are a time by themselves (records/clock): nobody is taken to wait for their end.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from analytics.methods import gap_table, moved_visits
from analytics.methods.moved_visits import FAR, Near
from analytics.records.clients.gaps import Book, Seen
from analytics.records.clock import Clock

Array = NDArray[np.float64]
Whole = NDArray[np.int64]
LOOKED_AT = 700  # visits, evenly through those near closed spells
SHORT = 3  # closed days of a short spell, such as a public holiday
LEAST = 0.2  # of a usual day, that an open one brings to count as one
LONGEST = 70  # days of a spell that are looked back at
LEAST_LEFT = 1e-9
Moved = dict[bool, Array]


class Spell(NamedTuple):
    """days: closed ones. before and after: the FAR open days nearest to them, nearest first."""

    days: Whole
    before: Whole
    after: Whole

    @property
    def short(self) -> bool:
        return len(self.days) <= SHORT


def spells(clock: Clock, first: int, last: int) -> list[Spell]:
    """Those with a closed day from `first` to `last`, both since 1970."""
    number = clock.first + np.arange(len(clock.weight))
    shut, opened = number[clock.shut], number[(clock.weight > 0) & (clock.wish >= LEAST)]
    if not len(shut) or not len(opened):
        return []
    follows = np.searchsorted(opened, shut)
    starts = np.flatnonzero(np.diff(follows, prepend=-1))
    found = []
    for days, at in zip(np.split(shut, starts[1:]), follows[starts], strict=True):
        if days[-1] >= first and days[0] <= last:
            found.append(Spell(days, opened[max(at - FAR, 0) : at][::-1], opened[at : at + FAR]))
    return found


def learnt(seen: Seen, nodes: Array, longer: Array, book: Book) -> Moved:
    """By whether a spell is short, where visits go that would have fallen into it."""
    if book.clock is None:
        return {}
    today = int(seen.ends[1].max(initial=book.clock.first))
    near: dict[bool, list[Array]] = {True: [], False: []}
    for spell in spells(book.clock, book.clock.first, today):
        if len(spell.before) and spell.days[-1] < today:
            near[spell.short].append(_near(spell, seen, book))
    return {short: _shares(np.concatenate(rows), nodes, longer) for short, rows in near.items() if rows}


def _near(spell: Spell, seen: Seen, book: Book) -> Array:
    """One row per gap that went on into the days before the spell: whose, where it ended, and times since it began: by
    the evening before those days, before the spell, at its end, and around the day of the visit."""
    opens, (begun, ended) = int(spell.before[-1]), seen.ends
    some = (begun < opens) & (ended >= opens) & ~np.isin(ended, spell.days)
    began, ended = book.middle(begun[some]), ended[some]
    after = np.searchsorted(spell.after, ended, side="left") + 1
    before = np.searchsorted(-spell.before, -ended, side="left") + 1
    place = moved_visits.place_of(np.where(ended > spell.days[-1], after, -before))
    edges = np.array([opens - 1, spell.days[0] - 1, spell.days[-1]])
    times = book.read(edges)[:, None] - began
    around = book.read(np.stack([ended - 1, ended])) - began
    return np.stack([seen.waits.whose[some], place, *times, *around], axis=1)


def _shares(near: Array, nodes: Array, longer: Array) -> Array:
    """near: rows of _near."""
    near = near[:: max(1, -(-len(near) // LOOKED_AT))]
    whose, place, times = near[:, 0].astype(np.int64), near[:, 1].astype(np.int64), np.maximum(near[:, 2:], 0)
    weights = nodes[whose]
    left, into, out, begins, ends = ((weights * gap_table.beyond(longer, time)).sum(axis=1) for time in times.T)
    left = np.maximum(left, LEAST_LEFT)
    return moved_visits.shares(Near((begins - ends) / left, (into - out) / left, place))


def moved(ahead: Array, start: int, clock: Clock, around: Moved) -> Array:
    """ahead: chances of the days after `start`, one column each, as if nothing were closed; those of closed days go
    where visits go. What goes to another time, or to days before, is left out."""
    last = start + ahead.shape[1] - 1
    for spell in spells(clock, start + 1, last):
        days = spell.days[(spell.days > start) & (spell.days <= last)]
        fallen = ahead[:, days - start - 1].sum(axis=1)
        ahead[:, days - start - 1] = 0
        before, after = moved_visits.each_day(around.get(spell.short, moved_visits.PRIOR))
        for where, share in ((spell.before, before), (spell.after, after)):
            within = (where > start) & (where <= last)
            ahead[:, where[within] - start - 1] += fallen[:, None] * share[: len(where)][within]
    return ahead


def pending(clock: Clock, as_of: int) -> int:
    """Days up to and with `as_of` to begin from: those since the first of a spell whose visits are still to come."""
    near = [spell for spell in spells(clock, as_of - LONGEST, as_of) if (spell.after > as_of).any()]
    return max((as_of + 1 - int(spell.days[spell.days > as_of - LONGEST][0]) for spell in near), default=0)
