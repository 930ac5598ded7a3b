"""A small invented salon folder for tests, written from texts that the test itself shows."""

from pathlib import Path

import polars as pl

from analytics.definitions import findings
from analytics.intake.load import load
from analytics.intake.publishing.report import Report
from analytics.settings import read_settings

SETTINGS = '[salon]\nname = "Salon Proefdraad (invented)"\n'
MENU = """service_id,service,kind,price,tax_rate,hands_on_min
S1,Root touch-up,root_touch_up,60.00,21,45
S2,Cut,cut,30.00,21,30
"""
BOOKINGS = "booking_id,line,client_id,chair,starts_at,ends_at,status,service_id,price\n"
ONE_VISIT = BOOKINGS + "B1,1,C1,Chair 1,2026-03-03 10:00,2026-03-03 11:30,completed,S1,60.00\n"


def write_salon(folder: Path, exports: dict[str, str | bytes] | None = None, settings: str = SETTINGS) -> Path:
    """Write salon.toml, a menu, one visit and these exports (name -> content); an export of the same name replaces."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "salon.toml").write_text(settings, encoding="utf-8")
    for name, content in {"menu.csv": MENU, "bookings.csv": ONE_VISIT, **(exports or {})}.items():
        write_export(folder, name, content)
    return folder


def write_export(folder: Path, name: str, content: str | bytes) -> None:
    path = folder / "exports" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))


def load_unchecked(folder: Path) -> Report:
    """Load without Great Expectations, whose import takes seconds and which changes nothing that is loaded."""

    def no_hits(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
        return findings.hits([])

    def no_bar(step: str, done: int, steps: int) -> None:
        pass

    return load(folder, read_settings(folder), no_hits, no_bar)
