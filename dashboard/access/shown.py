"""What of a figure goes to whom. It is taken out before a page has it, so that no page can show it by mistake.

What is kept in memory for all readers is what the owner sees; it is cut for the reader each time it is read.
"""

from dashboard.access.people import ACCOUNTANT, OWNER, STYLIST, Reader
from dashboard.frames import Frame

FIGURES = {
    STYLIST: ("roots", "cards", "ahead", "backtest", "calibration", "mixing", "mixing_clients", "mixes"),
    ACCOUNTANT: ("tax", "takings", "reconciliation", "due_and_paid"),
}
OF_ALL_CLIENTS = ("backtest", "calibration")  # said of all clients together, by no page one by one
OF_A_CLIENT = ("client_id", "client", "phone", "email", "regrowth_mm", "cells")
OF_MONEY = frozenset(("cost", "costs", "saving", "spent", "price", "net", "gross", "revenue", "amount", "margin"))


class NotShownError(Exception):
    """A page asked for what its reader may not see: a fault in the page, which ends it."""


def need(reader: Reader, *roles: str) -> None:
    """Raises NotShownError where the reader has none of these roles."""
    if reader.role not in (OWNER, *roles):
        raise NotShownError(reader.role)


def may_read(reader: Reader, figure: str) -> None:
    """Raises NotShownError where the figure is not for this reader."""
    if reader.role != OWNER and figure not in FIGURES.get(reader.role, ()):
        raise NotShownError(f"{figure}: {reader.role}")


def without_clients(frame: Frame) -> Frame:
    """No column that tells of a client."""
    return frame.drop(OF_A_CLIENT, strict=False)


def without_money(frame: Frame) -> Frame:
    """No column of money."""
    return frame.drop([name for name in frame.columns if OF_MONEY & set(name.split("_"))])


def of_clients(frame: Frame, theirs: Frame) -> Frame:
    """The rows of these clients. theirs: site, client_id; a frame that tells of no client stays as it is."""
    if "client_id" not in frame.columns:
        return frame
    on = ["site", "client_id"] if "site" in frame.columns else ["client_id"]
    return frame.join(theirs.select(on).unique(), on=on, how="semi", nulls_equal=True, maintain_order="left")
