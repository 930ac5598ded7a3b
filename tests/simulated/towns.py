"""Invented salons with seasons, lived day by day: people wish, call, book ahead, put off, give up, and chairs run full.

Nothing here is drawn from rates per day or from a clock: a salon is its clients, each with a gap of her own, and what
they do about January, the summer, the weeks before Christmas and a closed door. Every visit knows the day it was booked
and the day it was cancelled, so that an export can be made as it was on any evening, and what came later is known.
"""

import heapq
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, timedelta
from math import exp
from random import Random

import polars as pl
from frames import settings

from analytics.definitions.tables import TABLES
from analytics.settings import Settings

FIRST, END = date(2023, 1, 3), date(2026, 6, 28)
OPEN_DAYS, OPEN_HOURS = ("tue", "wed", "thu", "fri", "sat"), 9.0
SUNDAY_AND_MONDAY = (6, 0)
BOOKS_AHEAD_DAYS, PRICES_RISE_ON = 90, date(2025, 2, 1)
# kind: share of clients, typical gap in days, chair hours, price
KINDS = {
    "root_touch_up": (0.45, 38, 1.6, 62.0),
    "full_colour": (0.2, 54, 2.2, 95.0),
    "lightening": (0.15, 84, 3.2, 150.0),
    "cut": (0.2, 46, 0.75, 38.0),
}
SERVICE = {"root_touch_up": "ROOTS", "full_colour": "ALLOVER", "lightening": "FOILS", "cut": "CUT"}


@dataclass(frozen=True)
class Town:
    """How a salon and its clients are.

    clients: on the first day. new: clients a year, as a share of those. puts_off: chance that a wish in January,
    February or the summer is put off. brings_forward: that one around the New Year is for before Christmas. rebooks:
    share of clients who book on leaving. once: chance that a first visit was the last. stops: that a later one was.
    shut_weeks: in summer, each year others. lost: chance that a wish on a closed day waits for the next gap. raised: by
    how much prices go up on PRICES_RISE_ON. chairs: as many as leave a third free on the first day.
    """

    clients: int = 220
    new: float = 0.5
    puts_off: float = 0.4
    brings_forward: float = 0.6
    rebooks: float = 0.35
    once: float = 0.4
    stops: float = 0.03
    shut_weeks: int = 2
    lost: float = 0.25
    raised: float = 0.06
    noise: float = 0.2
    first: date = FIRST
    end: date = END

    @classmethod
    def drawn(cls, seed: int) -> "Town":
        draw = Random(seed * 7919)
        return cls(
            clients=draw.randint(120, 320),
            new=draw.uniform(0.3, 0.8),
            puts_off=draw.uniform(0.25, 0.55),
            brings_forward=draw.uniform(0.4, 0.8),
            rebooks=draw.uniform(0.1, 0.6),
            once=draw.uniform(0.2, 0.5),
            stops=draw.uniform(0.02, 0.05),
            shut_weeks=draw.choice((1, 2, 2, 3)),
            lost=draw.uniform(0.1, 0.4),
            noise=draw.uniform(0.12, 0.3),
        )


@dataclass(frozen=True)
class Story:
    """visits: client, kind, day, hours, booked_on, cancelled_on, missed, for every visit ever booked."""

    town: Town
    salon: Settings
    visits: pl.DataFrame

    def bookings(self, as_of: date) -> pl.DataFrame:
        """The bookings table as an export made in the evening of `as_of` has it."""
        gone = pl.col("day") <= as_of
        status = (
            pl.when(pl.col("cancelled_on") <= as_of)
            .then(pl.lit("cancelled"))
            .when(~gone)
            .then(pl.lit("booked"))
            .when("missed")
            .then(pl.lit("no_show"))
            .otherwise(pl.lit("completed"))
        )
        raised = pl.when(pl.col("day") >= PRICES_RISE_ON).then(1 + self.town.raised).otherwise(1.0)
        number, chairs = pl.int_range(pl.len()), len(self.salon.salon.chairs)
        known = {
            "site": pl.lit(""),
            "booking_id": pl.format("V{}", number),
            "line": pl.lit(1),
            "client_id": pl.format("C{}", "client"),
            "stylist": pl.lit("Mila"),
            "chair": pl.format("Chair {}", number % chairs + 1),
            "starts_at": pl.col("day").cast(pl.Datetime("us")) + pl.duration(hours=10),
            "minutes": pl.col("hours") * 60,
            "status": status,
            "service_id": pl.col("kind").replace_strict(SERVICE),
            "service": pl.col("kind").replace_strict(SERVICE),
            "price": (pl.col("kind").replace_strict({kind: row[3] for kind, row in KINDS.items()}) * raised).round(2),
            "discount": pl.lit(0),
            "tip": pl.lit(0),
            "booked_on": pl.col("booked_on"),
            "file": pl.lit("bookings.csv"),
            "row": number + 2,
        }
        schema = TABLES["bookings"].schema
        columns = (known.get(name, pl.lit(None)).cast(kind).alias(name) for name, kind in schema.items())
        return self.visits.with_columns(number=number).filter(pl.col("booked_on") <= as_of).select(*columns)

    def hours_by_week(self) -> pl.DataFrame:
        """What came, of all weeks: week_start, hours."""
        came = self.visits.filter(pl.col("cancelled_on").is_null() & ~pl.col("missed"))
        return came.group_by(week_start=pl.col("day").dt.truncate("1w")).agg(pl.col("hours").sum()).sort("week_start")


def lived(town: Town, seed: int) -> Story:
    life = _Life(town, seed)
    life.run()
    schema = {
        "client": pl.Int64(),
        "kind": pl.String(),
        "day": pl.Date(),
        "hours": pl.Float64(),
        "booked_on": pl.Date(),
        "cancelled_on": pl.Date(),
        "missed": pl.Boolean(),
    }
    visits = pl.DataFrame([tuple(vars(each).values()) for each in life.visits], schema=schema, orient="row")
    hours: dict[str, object] = dict.fromkeys(OPEN_DAYS, "09:00-18:00")
    chairs = [f"Chair {number + 1}" for number in range(life.chairs)]
    closed = {"closed": [f"{day}" for day in sorted(life.shut)]}
    return Story(town, settings(hours=hours | closed, salon={"chairs": chairs}), visits)


@dataclass
class _Visit:
    client: int
    kind: str
    day: date
    hours: float
    booked_on: date
    cancelled_on: date | None = None
    missed: bool = False


@dataclass
class _Life:
    town: Town
    seed: int
    visits: list[_Visit] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.draw = Random(self.seed)
        self.taken: dict[date, float] = defaultdict(float)
        self.clients: list[tuple[str, float, bool]] = []
        self.came: dict[int, int] = defaultdict(int)
        self.calls: list[tuple[date, int, int, date]] = []  # day of the call, order, client, day she wishes for
        self.shut = self._shut()
        week = sum(share / gap * 7 * hours for share, gap, hours, _ in KINDS.values()) * self.town.clients
        self.chairs = max(2, round(week / (len(OPEN_DAYS) * OPEN_HOURS) * 1.5 + 0.5))

    def _shut(self) -> set[date]:
        shut: set[date] = set()
        for year in range(self.town.first.year, self.town.end.year + 2):
            monday = date(year, 7, 18) + timedelta(days=self.draw.randint(0, 20))
            monday -= timedelta(days=monday.weekday())
            spring = date(year, 4, 15) + timedelta(days=self.draw.randint(0, 30))
            shut |= {monday + timedelta(days=step) for step in range(7 * self.town.shut_weeks)}
            shut |= {date(year, 12, 25) + timedelta(days=step) for step in range(8)}
            shut |= {date(year, 12, 24), date(year, 1, 1), date(year, 1, 2), spring, date(year, 5, 1)}
        return shut

    def run(self) -> None:
        arrivals = self.town.clients * self.town.new / 365
        for _ in range(self.town.clients):
            self._arrive(self.town.first + timedelta(days=round(self.draw.uniform(0, 60))), old=True)
        for step in range((self.town.end - self.town.first).days):
            day = self.town.first + timedelta(days=step)
            busy = 1.5 if day.month in (11, 12, 5) else 0.6 if day.month in (1, 2, 7, 8) else 1.0
            for _ in range(int(arrivals * busy + self.draw.random())):
                self._arrive(day, old=False)
        while self.calls and self.calls[0][0] <= self.town.end:
            day, _, client, wish = heapq.heappop(self.calls)
            self._book(client, day, wish)

    def _arrive(self, day: date, old: bool) -> None:
        names = list(KINDS)
        kind = self.draw.choices(names, [KINDS[name][0] for name in names])[0]
        gap = KINDS[kind][1] * exp(self.draw.gauss(0, 0.25))
        self.clients.append((kind, gap, self.draw.random() < self.town.rebooks))
        self.came[len(self.clients) - 1] = 3 if old else 0
        self._plan(len(self.clients) - 1, day, day - timedelta(days=1))

    def _plan(self, client: int, wish: date, today: date) -> None:
        """She calls some days before the day she wishes for; some walk in."""
        lead = 0 if self.draw.random() < 0.15 else int(self.draw.triangular(0, 24, 5))
        call = max(today + timedelta(days=1), wish - timedelta(days=lead))
        heapq.heappush(self.calls, (call, len(self.visits) + len(self.calls), client, max(wish, call)))

    def _book(self, client: int, today: date, wish: date) -> None:
        kind, gap, _ = self.clients[client]
        wished = self._around_shut(wish, gap)
        day = self._free(wished, today, KINDS[kind][2])
        if day is None:
            self._plan(client, wish + timedelta(days=7), today)
            return
        hours = round(KINDS[kind][2] * self.draw.uniform(0.85, 1.2), 2)
        visit = _Visit(client, kind, day, hours, today)
        self.visits.append(visit)
        if self.draw.random() < 0.06:
            visit.cancelled_on = max(today, day - timedelta(days=self.draw.choice((0, 0, 1, 1, 3, 7))))
            self._plan(client, day + timedelta(days=self.draw.randint(3, 14)), visit.cancelled_on)
            return
        visit.missed = self.draw.random() < 0.02
        self.taken[day] += hours
        self._afterwards(client, day)

    def _afterwards(self, client: int, day: date) -> None:
        _, gap, rebooks = self.clients[client]
        self.came[client] += 1
        if self.draw.random() < (self.town.once if self.came[client] == 1 else self.town.stops):
            return
        if rebooks and self.draw.random() < 0.85 and gap < BOOKS_AHEAD_DAYS - 14:
            wish = day + timedelta(weeks=max(2, round(gap / 7)))
            heapq.heappush(self.calls, (day, len(self.visits) + len(self.calls), client, self._minded(wish, 0.5)))
            return
        waits = gap * exp(self.draw.gauss(0, self.town.noise)) * (1.9 if self.draw.random() < 0.05 else 1)
        self._plan(client, self._minded(day + timedelta(days=max(10, round(waits))), 1.0), day)

    def _minded(self, wish: date, share: float) -> date:
        """What the time of the year makes of a wish."""
        turn = (wish.month, wish.day)
        if (turn >= (12, 22) or turn <= (1, 14)) and self.draw.random() < self.town.brings_forward * share:
            year = wish.year - (wish.month == 1)
            return date(year, 12, 22) - timedelta(days=self.draw.randint(0, 17))
        if ((1, 2) <= turn <= (2, 20) or (7, 5) <= turn <= (8, 20)) and self.draw.random() < self.town.puts_off * share:
            return wish + timedelta(days=self.draw.randint(8, 32))
        return wish

    def _around_shut(self, wish: date, gap: float) -> date:
        """A wish for a closed day: lost until the next gap, or some days earlier, or once the door is open again."""
        if wish not in self.shut:
            return wish
        if self.draw.random() < self.town.lost:
            return wish + timedelta(days=round(gap * self.draw.uniform(0.5, 1.1)))
        step = -1 if self.draw.random() < 0.4 else 1
        while wish in self.shut:
            wish += timedelta(days=step)
        return wish + step * timedelta(days=int(self.draw.triangular(0, 16, 2)))

    def _free(self, wish: date, today: date, hours: float) -> date | None:
        most = min(today + timedelta(days=BOOKS_AHEAD_DAYS), wish + timedelta(days=16))
        for step in (0, 1, -1, 2, -2, 3, -3, *range(4, 16)):
            day = wish + timedelta(days=step)
            if not today <= day <= most or day.weekday() in SUNDAY_AND_MONDAY or day in self.shut:
                continue
            if self.taken[day] + hours <= self.chairs * OPEN_HOURS * 0.97:
                return day
        return None
