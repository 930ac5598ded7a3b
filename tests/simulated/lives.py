"""Invented salons with a known future: each client's visits are drawn from a habit that the test knows.

The demo is not made from these, nor these from the demo: a life here is a chain of gaps, without a diary to fill.
`Habits` says how a salon's clients behave; `live` draws every visit up to a year past the last day that is exported,
so that what happened next is known for each day a figure is asked on.
"""

from dataclasses import dataclass, field
from datetime import date, timedelta
from math import exp, log

import numpy as np
import polars as pl

from analytics.definitions.tables import TABLES

END = date(2026, 6, 30)  # the last day that an export of a simulated salon knows
YEAR = 365
MENU = (
    ("ROOTS", "root_touch_up", 45, 35, True),
    ("ALLOVER", "full_colour", 60, 40, True),
    ("FOILS", "lightening", 90, 40, False),
    ("CUT", "cut", 40, 0, False),
)
MINUTES = {"ROOTS": 95, "ALLOVER": 130, "FOILS": 190, "CUT": 45}
SERVICE = {"root_touch_up": "ROOTS", "full_colour": "ALLOVER", "lightening": "FOILS", "cut": "CUT"}


@dataclass(frozen=True)
class Habits:
    """How the clients of one salon behave; gaps in days, spreads as standard deviations of log gaps.

    kinds: kind -> (share of clients, typical gap, how far clients' own gaps differ).
    noise: how far a client's gaps scatter around her own. noise_differs: how far that differs between clients.
    skip: chance that a visit is skipped, which adds a second gap. stop: chance that a visit was the last.
    rebooks: share of clients who book the next visit on leaving, the same number of weeks and weekday each time.
    dip: chance that a visit due in January, February or August is put off by one to three weeks.
    """

    clients: int = 600
    years: float = 3.0
    kinds: dict[str, tuple[float, float, float]] = field(
        default_factory=lambda: {"root_touch_up": (0.7, 38, 0.2), "full_colour": (0.3, 55, 0.2)}
    )
    noise: float = 0.15
    noise_differs: float = 0.3
    skip: float = 0.05
    stop: float = 0.01
    first_stop: float = 0.1
    rebooks: float = 0.0
    weekday_bound: float = 0.0
    switches: float = 0.0
    dip: float = 0.0
    new_per_year: float = 0.15
    closed_weekdays: tuple[int, ...] = (6, 0)
    holidays: tuple[tuple[date, date], ...] = ()


HOLIDAYS = tuple(
    span
    for year in range(2022, 2028)
    for span in ((date(year, 8, 1), date(year, 8, 14)), (date(year, 12, 24), date(year, 12, 31)))
)
STEADY = Habits(noise=0.08, weekday_bound=0.3)
LOOSE = Habits(noise=0.3, stop=0.02, kinds={"root_touch_up": (0.6, 42, 0.3), "full_colour": (0.4, 63, 0.3)})
REBOOKED = Habits(
    rebooks=0.7, noise=0.18, holidays=HOLIDAYS, kinds={"root_touch_up": (0.5, 40, 0.2), "full_colour": (0.5, 50, 0.15)}
)
CROWD = Habits(clients=3000, years=4.0, noise=0.2, rebooks=0.3, stop=0.015, holidays=HOLIDAYS, dip=0.3)
SMALL = Habits(clients=60, noise=0.2, stop=0.005)
YOUNG = Habits(clients=500, years=1.7, noise=0.2, new_per_year=0.6, stop=0.02)
MIXED = Habits(
    noise=0.12,
    switches=0.25,
    dip=0.4,
    stop=0.03,
    rebooks=0.4,
    holidays=HOLIDAYS,
    closed_weekdays=(6,),
    kinds={
        "root_touch_up": (0.4, 33, 0.15),
        "full_colour": (0.35, 60, 0.25),
        "lightening": (0.15, 85, 0.3),
        "cut": (0.1, 50, 0.3),
    },
)
FAITHFUL = Habits(noise=0.05, noise_differs=0.1, stop=0.0, first_stop=0.0, skip=0.05, rebooks=0.2)
WILD = Habits(noise=0.5, stop=0.03, kinds={"root_touch_up": (1.0, 45, 0.4)})
SALONS = {
    "steady": STEADY,
    "loose": LOOSE,
    "rebooked": REBOOKED,
    "crowd": CROWD,
    "small": SMALL,
    "young": YOUNG,
    "mixed": MIXED,
    "faithful": FAITHFUL,
    "wild": WILD,
}


@dataclass(frozen=True)
class Lives:
    """visits: client_id, kind, day, booked_on (null where she walked in), for every visit that ever happens."""

    habits: Habits
    visits: pl.DataFrame

    def bookings(self, as_of: date) -> pl.DataFrame:
        """The bookings table as an export made in the evening of `as_of` has it."""
        known = self.visits.with_row_index("number").filter((pl.col("day") <= as_of) | (pl.col("booked_on") <= as_of))
        service = pl.col("kind").replace_strict(SERVICE)
        columns = known.select(
            booking_id=pl.format("V{}", "number"),
            line=pl.lit(1, pl.Int64),
            client_id="client_id",
            stylist=pl.lit("Mila"),
            chair=pl.lit("Chair 1"),
            starts_at=pl.col("day").cast(pl.Datetime("us")) + pl.duration(hours=10),
            minutes=service.replace_strict(MINUTES).cast(pl.Float64) + pl.col("number") % 4 * 5,
            status=pl.when(pl.col("day") <= as_of).then(pl.lit("completed")).otherwise(pl.lit("booked")),
            service_id=service,
            service=service,
            booked_on=pl.coalesce("booked_on", "day"),
            row=pl.col("number").cast(pl.Int64) + 2,
        )
        fixed = {"site": "", "file": "bookings.csv"}
        money = {
            name: pl.lit(value).cast(TABLES["bookings"].schema[name])
            for name, value in (("price", 60), ("discount", 0), ("tip", 0))
        }
        missing = {
            name: pl.lit(None, dtype)
            for name, dtype in TABLES["bookings"].schema.items()
            if name not in {*columns.columns, *fixed, *money}
        }
        made = columns.with_columns(**money, **missing, **{name: pl.lit(value) for name, value in fixed.items()})
        return made.select(pl.col(name).cast(dtype) for name, dtype in TABLES["bookings"].schema.items())

    def next_root(self, after: date) -> pl.DataFrame:
        """client_id, came_on: the first root visit after the day, for clients who ever have one."""
        roots = self.visits.filter((pl.col("day") > after) & pl.col("kind").is_in(["root_touch_up", "full_colour"]))
        return roots.group_by("client_id").agg(came_on=pl.col("day").min())


def services() -> pl.DataFrame:
    rows = [
        {
            "service_id": name,
            "service": name,
            "kind": kind,
            "hands_on_min": hands,
            "processing_min": rest,
            "resets_roots": resets,
            "site": "",
            "file": "menu.csv",
            "row": place,
        }
        for place, (name, kind, hands, rest, resets) in enumerate(MENU, start=2)
    ]
    schema = TABLES["services"].schema
    return pl.DataFrame([{name: row.get(name) for name in schema} for row in rows], schema=schema)


def live(habits: Habits, seed: int, end: date = END) -> Lives:
    """Every visit of every client from the opening of the book to a year and a half after its last day."""
    draw = np.random.default_rng(seed)
    first = end - timedelta(days=round(habits.years * YEAR))
    arrivals = round(habits.clients * habits.new_per_year * (habits.years + 1.5))
    rows: list[tuple[str, str, date, date | None]] = []
    for number in range(habits.clients + arrivals):
        new = number >= habits.clients
        day = first + timedelta(days=int(draw.uniform(0, (habits.years + 1.5) * YEAR if new else 60)))
        rows += _Life(habits, draw, f"C{number:05}", new).until(day, end + timedelta(days=round(1.5 * YEAR)))
    schema = {"client_id": pl.String(), "kind": pl.String(), "day": pl.Date(), "booked_on": pl.Date()}
    return Lives(habits, pl.DataFrame(rows, schema=schema, orient="row").sort("day", "client_id"))


class _Life:
    """One client: her gap, her scatter, whether she books ahead."""

    def __init__(self, habits: Habits, draw: np.random.Generator, client_id: str, new: bool) -> None:
        self.habits, self.draw, self.client_id, self.new = habits, draw, client_id, new
        names = list(habits.kinds)
        self.kind = names[draw.choice(len(names), p=[habits.kinds[name][0] for name in names])]
        _, typical, between = habits.kinds[self.kind]
        self.gap = typical * exp(draw.normal(0, between))
        self.noise = habits.noise * exp(draw.normal(0, habits.noise_differs))
        self.stop = habits.stop * draw.gamma(2.0, 0.5)
        self.rebooks = draw.random() < habits.rebooks
        self.bound = draw.random() < habits.weekday_bound

    def until(self, day: date, last: date) -> list[tuple[str, str, date, date | None]]:
        rows: list[tuple[str, str, date, date | None]] = []
        booked: date | None = None
        day = self._open(day)
        while day <= last:
            rows.append((self.client_id, self._kind(), day, booked))
            if self.draw.random() < (self.habits.first_stop if self.new and len(rows) == 1 else self.stop):
                break
            day, booked = self._next(day)
        return rows

    def _next(self, day: date) -> tuple[date, date | None]:
        if self.rebooks and self.draw.random() > 0.1:
            weeks = max(2, round(self.gap / 7)) * (2 if self.draw.random() < self.habits.skip else 1)
            return self._open(day + timedelta(weeks=weeks)), day
        gap = self._gap() + (self._gap() if self.draw.random() < self.habits.skip else 0)
        wanted = day + timedelta(days=max(5, round(gap)))
        if wanted.month in (1, 2, 8) and self.draw.random() < self.habits.dip:
            wanted += timedelta(days=int(self.draw.integers(7, 22)))
        if self.bound:
            wanted += timedelta(days=(day.weekday() - wanted.weekday() + 3) % 7 - 3)
        return self._open(wanted), None

    def _gap(self) -> float:
        return exp(self.draw.normal(log(self.gap), self.noise))

    def _kind(self) -> str:
        if self.draw.random() < self.habits.switches:
            return str(self.draw.choice(["root_touch_up", "full_colour"]))
        return self.kind

    def _open(self, day: date) -> date:
        while day.weekday() in self.habits.closed_weekdays or any(a <= day <= b for a, b in self.habits.holidays):
            day += timedelta(days=1)
        return day
