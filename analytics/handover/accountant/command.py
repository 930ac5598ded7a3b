"""`salon-figures handover`: what it asks for, and what it says."""

import argparse
import sys
from datetime import date
from pathlib import Path

from analytics.handover.accountant.folder import hand_over, verified
from analytics.handover.accountant.period_names import named_period
from analytics.handover.accountant.pseudonyms import key_file, read_key
from analytics.periods import Period
from analytics.salon import Salon, need_month
from analytics.stops import WorkStopped


def check_folder(folder: Path) -> int:
    """Exit status 1 where something is not as it was sent."""
    manifest, *wrong = verified(folder)
    print(manifest)
    for sentence in wrong:
        print(sentence, file=sys.stderr)
    if not wrong:
        print("Every file is as it was handed over.")
    return 1 if wrong else 0


def write_folder(salon: Salon, period: Period, asked: argparse.Namespace) -> None:
    """Write the folder and say what people must know. Raises WorkStopped."""
    need_month(salon, period)
    key = read_key(asked.key or key_file(), salon.folder) if asked.clients else None
    written = hand_over(salon, period, key=key, close_it=asked.close)
    for path in written.files:
        print(path)
    for sentence in written.said:
        print(sentence, file=sys.stderr)


def asked_days(name: str | None, start: date | None, end: date | None) -> Period:
    """The period by its name or by its days. Raises WorkStopped."""
    if name and (start or end):
        raise WorkStopped("A period and --from or --to exclude each other; use one of them.")
    if name:
        return named_period(name)
    if not start or not end:
        raise WorkStopped("Name a period such as 2026-Q3, 2026-09 or 2026, or both --from and --to.")
    if end <= start:
        raise WorkStopped(f"--to {end} is not after --from {start}; --to is the day after the last.")
    return Period(start, end)
