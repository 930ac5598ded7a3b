"""Periods that were handed over for good, and what later exports change in them.

Each has a record in handover/closed/: its days, the SHA-256 of its manifest, what the journal said of every day, and
the corrections of earlier periods that it told. What was handed over of a period is its own postings and all
corrections told of it since; a change against that is a correction of the next handover.
"""

import json
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import polars as pl

from analytics.definitions.results import MONEY
from analytics.handover.accountant.period_names import period_name
from analytics.handover.accountant.period_rows import Gathered
from analytics.periods import Period
from analytics.records.money.postings import KEY, POSTING, POSTING_KEY, changed_postings
from analytics.salon import Salon
from analytics.stops import WorkStopped

FOLDER = Path("handover", "closed")
OF_A_PERIOD: dict[str, pl.DataType] = {"period": pl.String(), **{name: POSTING[name] for name in (*KEY, "account")}}
CORRECTION: dict[str, pl.DataType] = {**OF_A_PERIOD, "difference": MONEY.dtype}
CORRECTIONS: dict[str, pl.DataType] = {
    **OF_A_PERIOD,
    "original": MONEY.dtype,
    "new": MONEY.dtype,
    "difference": MONEY.dtype,
}


@dataclass(frozen=True)
class Closed:
    """One closed period. manifest: SHA-256 of the manifest that was written for it."""

    period: Period
    manifest: str
    postings: pl.DataFrame
    corrections: pl.DataFrame

    @property
    def name(self) -> str:
        return period_name(self.period)


def read_closed(folder: Path) -> list[Closed]:
    """The closed periods of the salon, oldest first. Raises WorkStopped where a record cannot be read."""
    paths = sorted(folder.joinpath(FOLDER).glob("*.json"))
    return sorted((_read(path) for path in paths), key=lambda closed: closed.period.start)


def _read(path: Path) -> Closed:
    try:
        record = json.loads(path.read_text(encoding="utf-8"))
        period = Period(*(date.fromisoformat(record["period"][end]) for end in ("from", "to")))
        told = (_frame(record["postings"], POSTING), _frame(record["corrections"], CORRECTION))
        return Closed(period, record["manifest_sha256"], *told)
    except (ValueError, KeyError, TypeError, OSError, ArithmeticError, pl.exceptions.PolarsError):
        raise WorkStopped(f"{path} cannot be read as a closed period; put back the file that --close wrote.") from None


def _frame(rows: list[list[Any]], schema: dict[str, pl.DataType]) -> pl.DataFrame:
    typed = [[_typed(cell, kind) for cell, kind in zip(row, schema.values(), strict=True)] for row in rows]
    return pl.DataFrame(typed, schema=schema, orient="row")


def _typed(cell: str, kind: pl.DataType) -> Any:
    if isinstance(kind, pl.Decimal):
        return Decimal(cell)
    return date.fromisoformat(cell) if isinstance(kind, pl.Date) else cell


def corrections(gathered: Gathered, period: Period, closed: Iterable[Closed]) -> pl.DataFrame:
    """What the book says otherwise than was handed over, in periods closed before this one: columns of CORRECTIONS."""
    before = [one for one in closed if one.period.start < period.start]
    told = pl.concat([_frame([], CORRECTION), *(one.corrections for one in before)])
    changed = [changes(gathered, one, told) for one in before]
    return pl.concat([_frame([], CORRECTIONS), *changed])


def changes(gathered: Gathered, closed: Closed, told: pl.DataFrame) -> pl.DataFrame:
    """Of one closed period: original (with the corrections told of it), new, difference; rows that differ only."""
    was = [closed.postings, told.filter(period=closed.name).select(*POSTING_KEY, amount="difference")]
    found = changed_postings(pl.concat(was), gathered.figure("journal", closed.period))
    return found.with_columns(period=pl.lit(closed.name)).select(
        pl.col(name).cast(kind) for name, kind in CORRECTIONS.items()
    )


def may_close(salon: Salon, period: Period, closed: list[Closed]) -> None:
    """Raises WorkStopped where the period is not over, not covered, overlaps a closed one or lies before one."""
    name = period_name(period)
    if period.end > salon.as_of:
        raise WorkStopped(f"{name} is not over on {salon.as_of}; close it from {period.end} on.")
    if salon.cover.end < period.end or salon.cover.start > period.start:
        months = salon.cover.months()
        raise WorkStopped(
            f"The book covers {months[0]} to {months[-1]}, not all of {name}; load the exports that are missing first."
        )
    later = [one for one in closed if one.period.end > period.start and one.period != period]
    if later:
        raise WorkStopped(f"{later[0].name} is closed already, and {name} does not come after it; close what follows.")


def record_of(folder: Path, closed: Closed) -> dict[Path, bytes]:
    """The record of a closed period, and where it lies."""
    record = {
        "period": {"from": closed.period.start.isoformat(), "to": closed.period.end.isoformat()},
        "manifest_sha256": closed.manifest,
        "postings": [[str(cell) for cell in row] for row in closed.postings.iter_rows()],
        "corrections": [[str(cell) for cell in row] for row in closed.corrections.iter_rows()],
    }
    text = json.dumps(record, ensure_ascii=False, indent=0)
    return {folder.joinpath(FOLDER, f"{closed.name}.json"): text.encode()}
