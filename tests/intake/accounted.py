"""Exports of a small salon and the accounts of their rows."""

from pathlib import Path

from salons import load_unchecked

LOG = "logged_at,booking_id,stylist,product_id,mixed_g\n"


BOWL = "2026-03-03 10:10,B1,Mirre,P1,30\n"


Counts = tuple[int, int, int, int, int]
"""rows read, used, repeats, superseded, set aside"""


def line(visit: str, number: int, day: str, status: str = "completed", price: str = "60.00") -> str:
    """One row under BOOKINGS: a visit from 10:00 to 11:30 of that day."""
    return f"{visit},{number},C1,Chair 1,{day} 10:00,{day} 11:30,{status},S1,{price}\n"


def accounts(folder: Path) -> dict[str, Counts]:
    """Load the salon; its counts per file."""
    names = ("rows_read", "rows_used", "repeats", "superseded", "set_aside")
    files = load_unchecked(folder).files.rows(named=True)
    return {row["file"]: tuple(row[name] for name in names) for row in files}
