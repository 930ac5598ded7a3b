"""How many of sixty-one ways of writing a small salon's exports are read right:
python -m dialects.measure_ways [seed or name of a way ...].

Each is loaded with a salon.toml that holds the salon's name alone. Where the load stops with a question, what an
owner would answer is written, and it is loaded once more. Seeds 1 to 3 were looked at while the reading was built;
others report only.
"""

import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import polars as pl

from analytics.definitions import findings
from analytics.intake.load import load
from analytics.salon import open_salon
from analytics.settings import read_settings
from analytics.stops import WorkStopped
from analytics.storage.book import read_book
from dialects.small import TODAY, Salon, Truth, small_salon, truth
from dialects.way import Way
from dialects.ways_full import FULL
from dialects.ways_further import FURTHER
from dialects.ways_laid_out import LAID_OUT
from dialects.ways_other import OTHER
from dialects.ways_other_layouts import OTHER_LAYOUTS
from dialects.ways_thin import THIN

FORTY = [*THIN, *LAID_OUT, *FULL, *FURTHER]
WAYS = [*FORTY, *OTHER, *OTHER_LAYOUTS]
NAME = '[salon]\nname = "Salon Proefdraad (invented)"\n'
MONTH = pl.col("starts_at").dt.strftime("%Y-%m")


@dataclass(frozen=True)
class Outcome:
    """kind: right, answered (right after one answer), refused, wrong_said (rows set aside say so) or wrong."""

    way: str
    kind: str
    says: str


def outcome(way: Way, seed: int) -> Outcome:
    salon = way.of(small_salon(seed, way.language))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        way.write(folder, salon)
        settings = f'{NAME}currency = "{way.currency}"\n'
        (folder / "salon.toml").write_text(settings, encoding="utf-8")
        try:
            return _judged(way, salon, folder, "right")
        except WorkStopped as stop:
            says = str(stop)
        (folder / "salon.toml").write_text(settings + _answered(way), encoding="utf-8")
        try:
            after = _judged(way, salon, folder, "answered")
        except WorkStopped as stop:
            return Outcome(way.name, "refused", f"{says} || {stop}" if str(stop) != says else says)
        return Outcome(way.name, after.kind, f"{says} || {after.says}")


def _judged(way: Way, salon: Salon, folder: Path, right: str) -> Outcome:
    def no_hits(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
        return findings.hits([])

    load(folder, read_settings(folder), no_hits, lambda *_: None)
    book = read_book(folder)
    true = truth(salon, salon.visits if way.everything else salon.kept)
    told = _told(open_salon(folder, TODAY).book.tables)
    wrong = [check for check in way.checks if true[check] != told[check]]
    if not wrong:
        return Outcome(way.name, right, "")
    says = "; ".join(f"{check}: {_differs(true[check], told[check])}" for check in wrong)
    aside = book.set_aside.height
    return Outcome(way.name, "wrong_said" if aside else "wrong", f"{says}; {aside} rows set aside")


def _differs(true: Any, told: Any) -> str:
    if not isinstance(true, dict):
        return f"{true} is told as {told}"
    keys = [key for key in {**true, **told} if true.get(key) != told.get(key)]
    return f"{len(keys)} differ, such as {keys[0]}: {true.get(keys[0])} is told as {told.get(keys[0])}"


def _answered(way: Way) -> str:
    """What an owner would say, as salon.toml."""
    parts = []
    for section, said in (("columns", way.answers), ("words", way.words)):
        for name, pairs in said.items():
            parts.append(f"[{section}.{name}]")
            parts += [f'"{heading}" = "{meant}"' for heading, meant in pairs.items()]
    return "\n".join(parts) + "\n"


def _told(tables: dict[str, pl.DataFrame]) -> Truth:
    """What the book says, by the same questions as small.truth."""
    bookings = tables["bookings"].join(
        tables["services"].select("service_id", menu="service", kind="kind").unique("service_id"), "service_id", "left"
    )
    bookings = bookings.with_columns(service=pl.coalesce("menu", "service"), month=MONTH)
    done = bookings.filter(pl.col("status") == "completed")
    visits = bookings.group_by("booking_id", maintain_order=True).agg(pl.exclude("booking_id").first())
    ends = pl.coalesce("ends_at", pl.col("starts_at") + pl.duration(seconds=pl.col("minutes") * 60))
    by_visit = bookings.group_by("booking_id").agg(starts=pl.col("starts_at").min(), ends=ends.max())
    paid = tables["payments"].with_columns(month=pl.col("paid_at").dt.strftime("%Y-%m"))
    return {
        "gross": _sums(done, ("month", "service"), "price"),
        "net": _sums(
            done.with_columns(net=pl.col("price") - pl.col("discount").fill_null(0)), ("month", "service"), "net"
        ),
        "lines": dict(done["month"].value_counts().rows()),
        "stylists": _sums(done, ("month", "stylist"), "price"),
        "sites": _sums(done, ("month", "site"), "price"),
        "visits": dict(done.unique("booking_id")["month"].value_counts().rows()),
        "starts": _moments(by_visit["starts"]),
        "ends": _moments(by_visit["ends"]),
        "clients": done["client_id"].n_unique(),
        "statuses": dict(visits["status"].value_counts().rows()),
        "tips": done["tip"].sum(),
        "payments": _sums(paid, ("month", "method"), "amount"),
        "bowls": _grams(tables["product_log"], ("mixed", "left")),
        "mixed": _grams(tables["product_log"], ("mixed",)),
        "kinds": dict(tables["services"].unique("service").select("service", "kind").rows()),
        "booked_on": {f"{day}": count for day, count in visits["booked_on"].value_counts().rows()},
    }


def _sums(frame: pl.DataFrame, by: tuple[str, str], column: str) -> dict[tuple[str, str], Any]:
    rows = frame.group_by(by).agg(pl.col(column).sum()).rows()
    return {(first, second): value for first, second, value in rows}


def _moments(moments: pl.Series) -> dict[str, int]:
    return dict(moments.dt.strftime("%Y-%m-%d %H:%M").value_counts().rows())


def _grams(log: pl.DataFrame, which: tuple[str, ...]) -> dict[tuple[str, str], Any]:
    sums = log.group_by("product").agg(mixed=pl.col("mixed_g").sum(), left=pl.col("left_g").sum())
    return {(name, row["product"]): row[name] for row in sums.to_dicts() for name in which}


def main() -> None:
    names = {word for word in sys.argv[1:] if not word.isdigit()}
    ways = [way for way in WAYS if not names or way.name in names]
    for seed in [int(word) for word in sys.argv[1:] if word.isdigit()] or [1]:
        outcomes = []
        for way in ways:
            one = outcome(way, seed)
            outcomes.append(one)
            print(f"{one.kind:10} {one.way:22} {one.says[:600]}", flush=True)
        print(f"seed {seed}: {dict(Counter(one.kind for one in outcomes))} of {len(ways)}\n", flush=True)


if __name__ == "__main__":
    main()
