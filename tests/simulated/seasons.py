"""Invented salons with seasons, closed weeks, growth and price rises, whose clients choose among days near theirs.

Nothing here is a level times a season: a client falls due after a gap of her own and picks a day near it, sooner one
when everybody comes, never one that is closed or full; strangers come by when the town is out. What a month brings
follows from that. `without` takes a share of a month's visits out at random, as a month that went badly has it.
"""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

import numpy as np
import polars as pl
from frames import settings

from analytics.definitions.tables import ROOT_KINDS, TABLES
from analytics.settings import WEEKDAYS, Settings

END = date(2026, 7, 1)  # the first day after the book
MENU = {  # kind, price, minutes of work, of waiting, share of visits
    "ROOTS": ("root_touch_up", 58, 45, 35, 0.4),
    "ALLOVER": ("full_colour", 82, 60, 40, 0.15),
    "FOILS": ("lightening", 130, 90, 40, 0.12),
    "CUT": ("cut", 42, 45, 0, 0.33),
}
BEFORE, AFTER = 210, 45  # days lived before the book begins and after it ends
NEARBY = np.arange(-12, 26)  # days around the one she falls due on
PLACES = 5  # visits a chair can take in a day


@dataclass(frozen=True)
class Town:
    """A salon and its clients. swing: how much busier than others the busy times are (0: all alike)."""

    clients: int = 300
    years: float = 3.5
    swing: float = 0.6
    arrivals: float = 0.35  # new regular clients a year, as a share of those at the start
    leaving: float = 0.04  # chance that a visit was a regular's last
    once: float = 0.4  # share of new clients who never come a second time
    strangers: float = 0.2  # share of visits by people who come when it suits them
    rise: float = 0.05  # prices, each year
    rise_month: int = 1
    weekly: float = 0.02
    shut: tuple[tuple[date, date], ...] = ()  # further days without work, listed in salon.toml
    grows_from: date | None = None  # when the clients double, as after a move


@dataclass(frozen=True)
class Book:
    """The tables of a salon, with its settings and its last day."""

    tables: dict[str, pl.DataFrame]
    settings: Settings
    first: date
    end: date


def draw(seed: int) -> Town:
    """A salon of 80 to 800 clients, growing or shrinking, with a season of its own strength."""
    rng = np.random.default_rng(seed)
    return Town(
        clients=int(np.exp(rng.uniform(np.log(80), np.log(800)))),
        years=float(rng.uniform(2.6, 4.5)),
        swing=float(rng.uniform(0.4, 1.5)),
        arrivals=float(rng.uniform(0.25, 0.55)),
        leaving=float(rng.uniform(0.03, 0.06)),
        strangers=float(rng.uniform(0.05, 0.35)),
        rise=float(rng.choice([0.0, 0.04, 0.08])),
        rise_month=int(rng.choice([1, 3, 9])),
    )


def live(town: Town, seed: int) -> Book:
    """The book of a salon up to END."""
    rng = np.random.default_rng([seed, 7])
    first = (END - timedelta(days=round(town.years * 365.25))).replace(day=1)
    born = first - timedelta(days=BEFORE)
    shut, closed_weekdays = _shut(rng, born, town), (6,) if rng.random() < 0.5 else (6, 0)
    days = [born + timedelta(days=step) for step in range((END - born).days + AFTER)]
    is_open = np.array([day.weekday() not in closed_weekdays and day not in shut for day in days])
    wish = _wish(rng, town, days)
    chairs = max(1, round(town.clients / 110))
    diary = _Diary(rng, town, is_open, wish, chairs * PLACES)
    visits = [(day - BEFORE, *rest) for day, *rest in diary.filled() if BEFORE <= day < len(days) - AFTER]
    hours = {name: "09:00-18:00" for at, name in enumerate(WEEKDAYS) if at not in closed_weekdays}
    said = settings(
        salon={"chairs": [f"Chair {n + 1}" for n in range(chairs)]},
        hours=hours | {"closed": sorted(str(day) for day in shut)},
    )
    return Book(_tables(rng, town, visits, first, chairs), said, first, END)


def without(book: Book, month: str, share: float, seed: int) -> Book:
    """The book in which so many of the month's completed visits, drawn at random, never took place."""
    rng = np.random.default_rng([seed, 13])
    bookings = book.tables["bookings"]
    of_month = (pl.col("starts_at").dt.strftime("%Y-%m") == month) & (pl.col("status") == "completed")
    came = bookings.filter(of_month)["booking_id"].unique(maintain_order=True)
    gone = came.filter(pl.Series(rng.random(len(came)) < share)).implode()
    kept = {name: book.tables[name].filter(~pl.col("booking_id").is_in(gone)) for name in ("bookings", "product_log")}
    sales = book.tables["sales"].filter(~pl.col("booking_id").is_in(gone))
    return Book(book.tables | kept | {"sales": sales}, book.settings, book.first, book.end)


def _shut(rng: np.random.Generator, first: date, town: Town) -> set[date]:
    """A week or two in summer, often the days between the years, some public holidays."""
    summer, weeks, between = int(rng.integers(0, 30)), int(rng.integers(0, 3)), rng.random() < 0.6
    shut: set[date] = set()
    for year in range(first.year, END.year + 1):
        start = date(year, 7, 15) + timedelta(days=summer + int(rng.integers(-4, 5)))
        shut |= {start + timedelta(days=step) for step in range(7 * weeks)}
        shut |= {date(year, 12, 24) + timedelta(days=step) for step in range(9)} if between else set()
        shut |= {date(year, 1, 1), date(year, 4, 27), date(year, 5, 14), date(year, 12, 25), date(year, 12, 26)}
    return shut | {a + timedelta(days=n) for a, b in town.shut for n in range((b - a).days + 1)}


def _wish(rng: np.random.Generator, town: Town, days: list[date]) -> np.ndarray:
    """How much the town wants to come on each day: by week of the year, weekday, and luck of the day and the week."""
    bumps = [(rng.uniform(0, 52), rng.uniform(2, 6), rng.normal(0, 0.35)) for _ in range(3)]
    bumps += [(50.0, 2.0, 0.9), (4.0, 3.5, -0.5), (22.0, 3.0, 0.4), (32.0, 3.0, -0.45)]
    week = np.array([day.timetuple().tm_yday / 7 for day in days])
    apart = np.abs(week[:, None] - np.array([bump[0] for bump in bumps]))
    apart = np.minimum(apart, 52.2 - apart)
    season = (np.exp(-((apart / [bump[1] for bump in bumps]) ** 2)) * [bump[2] for bump in bumps]).sum(axis=1)
    weekday = np.array([0.7, 0.85, 0.9, 1.1, 1.35, 1.3, 0.6])[[day.weekday() for day in days]]
    luck = rng.gamma(30, 1 / 30, len(days)) * np.repeat(rng.gamma(120, 1 / 120, len(days) // 7 + 1), 7)[: len(days)]
    return np.exp(town.swing * season) * weekday * luck


class _Diary:
    """Who comes on which day."""

    def __init__(
        self, rng: np.random.Generator, town: Town, is_open: np.ndarray, wish: np.ndarray, places: int
    ) -> None:
        self.rng, self.town, self.wish = rng, town, wish * is_open
        self.left = np.where(is_open, places, 0)
        self.near = np.exp(-np.abs(NEARBY) / np.where(NEARBY < 0, 5, 8))
        self.visits: list[tuple[int, str, int]] = []  # day, client, day it was made

    def filled(self) -> list[tuple[int, str, int]]:
        length, town, draw = len(self.wish), self.town, self.rng
        doubled = (END - town.grows_from).days + AFTER if town.grows_from else 0
        arrivals = draw.poisson(town.clients * town.arrivals / (1 - town.once) * length / 365)
        starts = [*draw.integers(-60, 0, town.clients), *draw.integers(0, length, arrivals)]
        starts += [*draw.integers(length - doubled, length - doubled + 60, town.clients if doubled else 0)]
        plans = [(int(start), f"C{n:05}", n >= town.clients) for n, start in enumerate(starts)]
        regular = [visit for start, client, new in plans for visit in self._life(start, client, new)]
        mean = len(regular) * town.strangers / (1 - town.strangers) * self.wish / self.wish.sum()
        for day in np.flatnonzero(self.wish):
            for _ in range(int(draw.poisson(mean[day]))):
                regular.append((int(day), f"S{draw.integers(0, max(1, len(regular) // 12)):05}", int(day)))
        return sorted(visit for visit in regular if 0 <= visit[0] < length)

    def _life(self, start: int, client: str, new: bool) -> list[tuple[int, str, int]]:
        draw, town = self.rng, self.town
        gap = 7.0 if draw.random() < town.weekly else float(np.exp(draw.normal(np.log(42), 0.35)))
        noise, rebooks = 0.15 * float(np.exp(draw.normal(0, 0.4))), draw.random() < 0.35
        rows: list[tuple[int, str, int]] = []
        due = float(start)
        while (day := self._day(round(due), gap)) is not None:
            made = rows[-1][0] if rows and rebooks else day - int(draw.integers(0, 15))
            rows.append((day, client, made))
            last = town.once if new and len(rows) == 1 else town.leaving
            if draw.random() < last:
                break
            due = day + gap * float(np.exp(draw.normal(0, noise)))
        return rows

    def _day(self, due: int, gap: float) -> int | None:
        """The day she takes: near the one she falls due on, open, not full, and rather when everybody comes."""
        around = due + np.round(NEARBY * min(1.0, gap / 30)).astype(int)
        if around[-1] >= len(self.wish):
            return None
        if around[-1] < 0:
            return max(-400, due)
        at = around.clip(0)
        sums = np.cumsum(self.near * self.wish[at] * (self.left[at] > 0) * (around >= 0))
        if sums[-1] <= 0:
            return self._day(due + 7, gap)
        day = int(at[np.searchsorted(sums, self.rng.random() * sums[-1], side="right")])
        self.left[day] -= 1
        return day


def _tables(
    rng: np.random.Generator, town: Town, visits: list[tuple[int, str, int]], first: date, chairs: int
) -> dict[str, pl.DataFrame]:
    names, seen = list(MENU), {}  # type: ignore[var-annotated]
    lines: list[dict[str, Any]] = []
    sold: list[dict[str, Any]] = []
    mixed: list[dict[str, Any]] = []
    shares, fate = [row[4] for row in MENU.values()], rng.random(len(visits))
    usual, own = rng.choice(len(names), 6 * len(visits) + 9, p=shares), rng.random((len(visits), 4))
    for n, (at, client, made) in enumerate(visits):
        day, seen[at] = first + timedelta(days=at), seen.get(at, -1) + 1
        service = names[usual[int(client[1:]) if client[0] == "C" else n]]
        status = "no_show" if fate[n] < 0.03 else "cancelled" if fate[n] < 0.08 else "completed"
        steps = (day.year - first.year) + (day.month >= town.rise_month) - (first.month >= town.rise_month)
        dear = (1 + town.rise) ** steps
        begins = datetime(day.year, day.month, day.day, 9) + timedelta(minutes=100 * (seen[at] // chairs % PLACES))
        done = [service, *(["CUT"] if service != "CUT" and own[n, 0] < 0.4 else [])]
        for line, name in enumerate(done, start=1):
            price = round(MENU[name][1] * dear, 2)
            lines.append(
                {
                    "booking_id": f"V{n}", "line": line, "client_id": client, "stylist": "Mila", "status": status,
                    "chair": f"Chair {seen[at] % chairs + 1}", "starts_at": begins, "service_id": name,
                    "minutes": 60.0 + 40 * (service == "FOILS") + 15 * len(done), "price": f"{price:.2f}",
                    "discount": f"{price / 10 if own[n, 1] < 0.06 else 0:.2f}",
                    "tip": "2" if own[n, 1] > 0.8 else "0", "booked_on": first + timedelta(days=made),
                }
            )  # fmt: skip
        if status == "completed" and own[n, 2] < 0.12 * (2 if day.month == 12 else 1):
            sold.append({"booking_id": f"V{n}", "sold_at": begins, "client_id": client, "price": f"{18 * dear:.2f}"})
        if status == "completed" and service != "CUT":
            grams = round(40 + 40 * own[n, 3])
            left = grams // 8 if own[n, 1] < 0.8 else None
            mixed.append({"booking_id": f"V{n}", "logged_at": begins, "mixed_g": grams, "left_g": left})
    return {
        "bookings": _table("bookings", lines, {"line": 1}),
        "services": _menu(),
        "sales": _table("sales", sold, {"product_id": "SHAMPOO", "quantity": "1", "discount": "0", "tax_rate": "21"}),
        "product_log": _table("product_log", mixed, {"product_id": "TINT", "service_id": None}),
        "products": _table(
            "products", [{"product_id": "TINT", "product": "Tint", "kind": "colour", "pack_g": 60, "pack_cost": "9"}]
        ),
    }


def _menu() -> pl.DataFrame:
    rows = [
        {
            "service_id": name, "service": name.title(), "kind": kind, "price": str(price), "tax_rate": "21",
            "hands_on_min": work, "processing_min": rest, "resets_roots": kind in ROOT_KINDS,
        }
        for name, (kind, price, work, rest, _) in MENU.items()
    ]  # fmt: skip
    return _table("services", rows)


def _table(name: str, rows: list[dict[str, Any]], same: dict[str, Any] | None = None) -> pl.DataFrame:
    """The rows in the types of the loaded table; texts stand for money."""
    schema = TABLES[name].schema
    numbered = [{"site": "", "file": f"{name}.csv", "row": n + 2, **(same or {}), **row} for n, row in enumerate(rows)]
    loose = {key: pl.String() if isinstance(kind, pl.Decimal) else kind for key, kind in schema.items()}
    return pl.DataFrame(numbered, schema=loose, strict=False).cast(dict(schema))  # type: ignore[arg-type]
