"""What the page about coming back shows of the figures returns and return_curves."""

from analytics import wording
from analytics.definitions.rows import Row
from analytics.sentences import returns as said
from analytics.settings import Settings
from dashboard.frames import Frame, of_rows

SPLITS = {"kind": "By kind of first visit", "stylist": "By stylist", "cohort": "By quarter"}
WEEKS = (6, 8, 12)


def splits(curves: Frame) -> list[str]:
    """How clients are split here: by quarter alone where nobody is likely to have been new when first seen."""
    return [split for split in SPLITS if groups(curves, split)]


def groups(curves: Frame, split: str) -> list[str]:
    """The groups of one split, the most clients first; quarters with the last one first."""
    start = curves.filter(split=split, week=0)
    order, descending = (["name"], [True]) if split == "cohort" else (["clients", "name"], [True, False])
    return start.sort(order, descending=descending)["name"].to_list()


def table(curves: Frame, split: str, settings: Settings) -> Frame:
    """One row per group: name, clients, shares returned within WEEKS, still waited for at the last, and the median."""
    names = groups(curves, split)
    rows = []
    for name in names:
        start = said.row_at(curves, split, name, 0) or {}
        row = {"group": said.name_of(split, name), "clients": start.get("clients")}
        for weeks in WEEKS:
            at = said.row_at(curves, split, name, weeks) or {}
            row[f"returned_{weeks}w"], row["at_risk"] = at.get("returned"), at.get("at_risk")
        rows.append(row | {"median": said.median_words(start.get("median_days"), settings)})
    return of_rows(rows)


def quarters(returns: Frame, settings: Settings) -> Frame:
    """The figure returns with kinds and medians in words, the last quarter first."""
    rows = returns.sort("cohort", "kind", descending=[True, False]).to_dicts()
    return of_rows([row | _in_words(row, settings) for row in rows])


def _in_words(row: Row, settings: Settings) -> Row:
    kind = row["kind"] if row["kind"] is None else wording.word(row["kind"])
    return {"kind": kind, "median": said.median_words(row["median_days"], settings)}
