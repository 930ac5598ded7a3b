"""Whole small salons of every dialect, to be spoilt."""

import random
import tempfile
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from dialects.dialects import CONTRACT, DIALECTS
from dialects.invented import salon
from dialects.writer import Dialect, write_salon

WORKBOOKS = 0.03
"""The part of the salons that are workbooks: each is read in a process of its own, which takes a while."""
ROWS = 14
Salon = dict[str, bytes]
"""Files by their names, the settings among them."""


def cut_to(tables: dict[str, list[dict[str, object]]], count: int) -> dict[str, list[dict[str, object]]]:
    return {name: rows if name == "services" else rows[:count] for name, rows in tables.items()}


@cache
def whole_salon(name: str) -> Salon:
    """The files of the invented salon in this dialect, with few rows."""
    dialect = next(one for one in (CONTRACT, *DIALECTS) if one.name == name)
    order = "mdy" if "/" in str(dialect.day(date(2026, 3, 14)))[:2] else "dmy"
    if "[dates]" not in dialect.settings:  # so few days may leave open what many would decide
        dialect = replace(dialect, settings=f'{dialect.settings}[dates]\norder = "{order}"\n')
    with tempfile.TemporaryDirectory() as folder:
        root = write_salon(Path(folder) / "salon", cut_to(salon(), ROWS), dialect)
        return {path.relative_to(root).as_posix(): path.read_bytes() for path in sorted(root.rglob("*.*"))}


def a_whole_salon(drawn: random.Random) -> tuple[Dialect, Salon]:
    """Any dialect and the files of its salon."""
    books = drawn.random() < WORKBOOKS
    kinds = [one for one in (CONTRACT, *DIALECTS) if (one.container in ("xlsx", "ods")) is books]
    dialect = drawn.choice(kinds)
    return dialect, dict(whole_salon(dialect.name))
