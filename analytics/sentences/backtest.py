"""How far the dates can be trusted: the backtest in a sentence, which says so where a plain rule does better."""

import polars as pl

from analytics import wording
from analytics.definitions.rows import Row
from analytics.settings import Settings

RULES = {
    "six_weeks": "the six-week rule",
    "kind_average": "the average of the kind",
    "own_median": "each client's own median gap",
}
MEANT, LEAST, MOST = 8, 0.7, 0.9  # of ten within the range; a share outside these misses what is meant
FEW = 20  # fewer comings than this say nothing


def backtest_sentence(backtest: pl.DataFrame, settings: Settings) -> str:
    """How many came within their range, how far off the day was, and how far off the rules people use are."""
    rows = {row["method"]: row for row in backtest.filter(group="all").to_dicts()}
    ours = rows.get("habit")
    if ours is None or (ours["n"] or 0) < FEW:
        return (
            "There is not enough on record yet to try these dates on the salon's own past: that needs root visits of "
            "many clients and three months after them."
        )
    inside = ours["share_inside"]
    start = (
        f"In the last twelve months {wording.of_ten(inside)} clients came within their range{_range(inside)}; "
        f"typically {_days(ours, settings)} off"
    )
    return f"{start}; {_rules(rows, settings)}.{_few_gaps(backtest, settings)}"


def _few_gaps(backtest: pl.DataFrame, settings: Settings) -> str:
    """How far off it was for those of whom least is known, where enough of them came."""
    row = next(iter(backtest.filter(group="at_most_two_gaps", method="habit").to_dicts()), None)
    if row is None or (row["n"] or 0) < FEW:
        return ""
    return f" For clients with at most two gaps so far it was typically {_days(row, settings)}."


def _range(share: float) -> str:
    """Where ranges hold far more or less than they are meant to."""
    if LEAST <= share <= MOST:
        return ""
    return f" ({MEANT} are meant, so the ranges are too {'narrow' if share < LEAST else 'wide'})"


def _days(row: Row, settings: Settings) -> str:
    return wording.counted_whole(row["median_error_days"], "day", "days", settings)


def _rules(rows: dict[str, Row], settings: Settings) -> str:
    """The six-week rule beside ours; every rule that does better, by the typical or the mean error, is named."""
    ours = rows["habit"]
    better = [
        f"{RULES[name]} (typically {_days(rows[name], settings)}, {_mean(rows[name], settings)} on average)"
        for name in RULES
        if any(rows[name][error] < ours[error] for error in ("median_error_days", "mean_error_days"))
    ]
    six = f"{RULES['six_weeks']} is {wording.number(rows['six_weeks']['median_error_days'], settings)} off"
    if not better:
        return six
    does = "does" if len(better) == 1 else "do"
    return f"{six}, but {wording.listed(better)} {does} better than ours ({_mean(ours, settings)} on average)"


def _mean(row: Row, settings: Settings) -> str:
    return f"{wording.number(row['mean_error_days'], settings, 1)} days"


def chance_sentence(backtest: pl.DataFrame, settings: Settings) -> str:
    """How much better the chance of coming within 90 days is than the plain share of those who came (Brier scores)."""
    rows = backtest.filter(group="all", method="habit")
    row = rows.row(0, named=True) if rows.height else {}
    gain = row.get("brier_gain")
    if gain is None or row["n_brier"] < FEW:
        return ""
    if gain <= 0:
        return "The chance to come within 90 days was no better than the plain share of clients who came."
    return (
        f"The chance to come within 90 days was {wording.share(gain, settings)} better than the plain share of clients "
        "who came (Brier score)."
    )


CALIBRATION_NOTE = (
    "Left: how many came within their range, by how wide the range was; 80 % is meant at any width. Right: how many "
    "came within 90 days, by the chance that was said; on the line both are the same. Each dot is about a sixth of the "
    "clients at the month ends that were replayed."
)
