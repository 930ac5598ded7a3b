"""What was handed over, from what, and by which versions: the SHA-256 of every export and every file.

Nothing in it depends on the day or the folder, so that the same book gives the same manifest.
"""

import json
from collections.abc import Iterable
from decimal import Decimal
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from typing import Any

import polars as pl

from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_rows import within
from analytics.intake.reading.find import Export, find_exports
from analytics.stops import WorkStopped
from analytics.storage.book import COUNTS, by_export

NAME = "manifest.json"
VERSIONS = ("salon-figures", "polars", "duckdb", "xlsxwriter", "typst")
SECTIONS = ("tax", "accounting", "accounts", "stock")  # of salon.toml; names of chairs and stylists stay


def manifest(handover: Handover) -> bytes:
    """The manifest of these files as JSON. Raises WorkStopped where the exports are not those of the book."""
    salon, period = handover.salon, handover.period
    if salon.stale:
        raise WorkStopped(
            "The exports, or how salon.toml reads them, have changed since the book was made; run salon-figures "
            "load first."
        )
    record = {
        "salon": salon.settings.salon.name,
        "period": {"name": handover.name, "from": str(period.start), "to": str(period.end)},
        "agrees": handover.verdict.agrees,
        "counts": _counts(handover),
        "control_totals": _control_totals(handover),
        "settings": _settings(handover),
        "versions": {part: version(part) for part in VERSIONS},
        "exports": _exports(handover, find_exports(salon.folder)),
        "files": {name: fingerprint(content) for name, content in handover.files.items()},
    }
    return (json.dumps(record, ensure_ascii=False, indent=1, default=_plain) + "\n").encode()


def fingerprint(content: bytes) -> str:
    """SHA-256 in hexadecimal digits."""
    return sha256(content).hexdigest()


def _plain(value: Any) -> str:
    return f"{value.normalize():f}" if isinstance(value, Decimal) else str(value)


def _settings(handover: Handover) -> dict[str, Any]:
    settings = handover.salon.settings
    chosen: dict[str, Any] = {name: getattr(settings, name).model_dump() for name in SECTIONS}
    salon = {key: getattr(settings.salon, key) for key in ("currency", "locale", "timezone")}
    return {"salon": salon, **chosen, "costs": {"card_fee_percent": settings.costs.card_fee_percent}}


def _counts(handover: Handover) -> dict[str, int]:
    """Rows of the period, and how many clients and visits they are."""
    given, period = handover.gathered, handover.period
    lines = within(given.money.lines, period)
    taxed = within(given.money.taxed, period)
    return {
        "visits": lines.select("site", "booking_id").n_unique(),
        "lines": lines.height,
        "clients": lines.select("site", "client_id").n_unique(),
        "retail_items": taxed.filter(pl.col("supply") == "retail").height,
        "payments": within(given.money.paid, period).height,
        "differences": within(given.money.differences, period).height,
        "corrections": handover.corrections.height,
        "rows_set_aside": handover.salon.book.set_aside.height,
    }


def _control_totals(handover: Handover) -> dict[str, Any]:
    """Of the journal, under the names of the OECD's audit file, and how many lines it rests on."""
    journal = next(sheet for sheet in handover.sheets if sheet.name == "journal")
    return {
        "NumberOfEntries": handover.journal["entry"].n_unique(),
        "TotalDebit": journal.total("debit"),
        "TotalCredit": journal.total("credit"),
        "lines": handover.trail.height,
    }


def _exports(handover: Handover, exports: Iterable[Export]) -> list[dict[str, Any]]:
    """Every export with its fingerprint and what became of its rows; a workbook's sheets are added up."""
    files = by_export(handover.salon.book.files)
    known = {row["export"]: row for row in files.iter_rows(named=True)}
    return [
        {
            "name": export.name,
            "sha256": known[export.name]["sha256"] or export.fingerprinted().sha256,
            "tables": [name for name in known[export.name]["table"] if name],
            **{count: known[export.name][count] for count in COUNTS},
        }
        for export in exports
        if export.name in known
    ]


def verify(folder: Path) -> tuple[str, list[str]]:
    """(the manifest's own SHA-256, what is not as it was sent, one sentence each). Raises WorkStopped without one."""
    path = folder.joinpath(NAME)
    try:
        content = path.read_bytes()
        files: dict[str, str] = dict(json.loads(content)["files"])
    except (OSError, ValueError, KeyError, TypeError):
        raise WorkStopped(f"{path} is missing or no manifest; name the folder that handover wrote.") from None
    wrong = []
    for name, expected in sorted(files.items()):
        there = folder.joinpath(name)
        if not there.is_file():
            wrong.append(f"{name} is missing.")
        elif fingerprint(there.read_bytes()) != expected:
            wrong.append(f"{name} is not the file that was written.")
    more = {entry.name for entry in folder.iterdir()}.difference({NAME, *files})
    return fingerprint(content), wrong + [f"{name} was not part of it." for name in sorted(more)]
