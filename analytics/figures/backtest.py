"""How well the expected day and the chance of return did on the salon's own past, beside the rules people use.

The past is replayed at each of the last 12 month ends since which the book knows 90 days: the habits are worked out
anew from the root visits up to that day alone, nothing dated later (nor what the book held ahead), for every client who
had one. What is compared is the day of her next root visit, whenever it came; n counts clients at month ends, those
who came back. Who has not come back yet has no error, since nobody knows it; she counts in the Brier score.
Methods: habit (expected_on of `roots`); six_weeks after the last visit; kind_average, the mean gap of the kind;
own_median, her own median gap (where she has none, the median of her kind, else of all). A rule that names a day gone
by is taken to say tomorrow. Errors are in days; share_inside is the share within the 80 % range; CRPS weighs the whole
spread of days and is the absolute error for a rule, which names one day. The Brier score holds the chance of coming
within 90 days (the chance of return times the share of her days that lie within 90) against whether she came, for all
clients seen at those month ends, returned or not, beside base_rate_brier, what the plain share who came would score
(brier_gain is 1 − the one ÷ the other);
chance_brier holds the chance of return itself against the same. visits_error_share is how far each client's visits
within 90 days lay from what was expected of her, summed over clients, returned or not, ÷ all these visits. regularity
is k of Wheat and Morrison over neighbouring gaps in which month ends fell: 1 where there is no rhythm to go by, more
the more regular clients are.
Groups: all, at_most_two_gaps, and each kind of last root service.

Weeks are replayed in the same way, at the last 12 month ends that a whole week of the book follows: groups week_1 to
week_12 by how far ahead they lie, and weeks_2_to_12 together, n weeks each. Methods: ahead (what `ahead` would have
said); same_week_last_year, 364 days before, times the last 12 weeks ÷ the same 12 weeks a year before; last_12_weeks,
their mean. Errors are in chair hours; pinball_hours is the mean loss of the low end, the middle and the high end as
quantiles of 10, 50 and 90 %. mase is the mean absolute scaled error (Hyndman & Koehler 2006): each error ÷ the mean
absolute error that saying "as many hours as 364 days before" had on all whole weeks the book knew at that month end;
below 1 is better than that rule, in sample. What was booked by a month end is taken from the visits that came.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import COUNT, DAYS, FACTOR, HOURS, NUMBER, SHARE, TEXT, Column, Figure, Result
from analytics.methods.regularity import regularity
from analytics.records.clients.replayed_past import replayed
from analytics.records.clients.root_visits import CLIENT
from analytics.records.clients.week_scores import week_scores
from analytics.records.clients.weeks_said import weeks_replayed
from analytics.settings import Settings

RESULT = Result(
    "one row per group of clients and method",
    key=("group", "method"),
    columns={
        "group": Column(TEXT, "all, at_most_two_gaps, a kind of last root service; week_1 … week_12, weeks_2_to_12"),
        "method": Column(TEXT, "habit (ours), six_weeks, kind_average, own_median; ahead (ours) or a rule for weeks"),
        "n": Column(COUNT, "those who came back, over 12 month ends; weeks", "clients or weeks at month ends"),
        "mean_error_days": Column(DAYS, "mean absolute error of the day expected"),
        "median_error_days": Column(DAYS, "median absolute error of the day expected"),
        "share_inside": Column(SHARE, "share who came within their 80 % range"),
        "crps_days": Column(DAYS, "mean CRPS; for a rule, which names one day, its mean absolute error"),
        "brier": Column(SHARE, "Brier score of the chance to come within 90 days"),
        "chance_brier": Column(SHARE, "Brier score of the chance of return against coming within 90 days"),
        "base_rate_brier": Column(SHARE, "Brier score of the plain share who came within 90 days"),
        "brier_gain": Column(SHARE, "1 − brier ÷ base_rate_brier: what it is better than the plain share"),
        "n_brier": Column(COUNT, "all clients behind the Brier scores, back or not", "clients at month ends"),
        "visits_error_share": Column(SHARE, "sum of errors of each client's visits within 90 days ÷ all visits"),
        "regularity": Column(NUMBER, "k of Wheat and Morrison: 1 is no rhythm, more is regular", "k"),
        "mean_error_hours": Column(HOURS, "of weeks: mean absolute error of the chair hours expected"),
        "pinball_hours": Column(HOURS, "of weeks: mean loss of the low end, the middle and the high end"),
        "mase": Column(
            FACTOR, "of weeks: mean error ÷ that of the same week a year before, in sample; empty if unknown"
        ),
    },
)

FEW_GAPS = 2
METHODS = ("habit", "six_weeks", "kind_average", "own_median")


def backtest(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """One row per group of clients or weeks and method; days, hours and shares."""
    clients = _scores(replayed(bookings, services, settings, f"{as_of}"))
    weeks = week_scores(weeks_replayed(bookings, settings, as_of))
    return RESULT.shape(pl.concat([clients, weeks], how="diagonal_relaxed"))


def _scores(rows: pl.DataFrame) -> pl.DataFrame:
    """Of each group of clients, by method."""
    groups = [("all", pl.lit(True)), ("at_most_two_gaps", pl.col("gaps") <= FEW_GAPS)]
    groups += [(kind, pl.col("kind") == kind) for kind in rows["kind"].unique().sort()]
    chosen = [(group, rows.filter(wanted)) for group, wanted in groups]
    scored = [_scored(some, group) for group, some in chosen if len(some)]
    return RESULT.shape(pl.concat([RESULT.empty(), *scored], how="diagonal_relaxed"))


def backtest_rows(bookings: pl.DataFrame, services: pl.DataFrame, *, settings: Settings, as_of: date) -> pl.DataFrame:
    """What was said of each client at each month end, and what came: one row per month end and client."""
    return replayed(bookings, services, settings, f"{as_of}")


def _regularity(rows: pl.DataFrame) -> float | None:
    """k over neighbouring gaps that month ends fell into."""
    started = pl.col("origin") - pl.duration(days="days_since")
    gaps = (
        rows.drop_nulls("came_on")
        .with_columns(started=started)
        .unique([*CLIENT, "started"])
        .with_columns(gap=(pl.col("came_on") - pl.col("started")).dt.total_days())
        .sort(*CLIENT, "started")
    )
    later, begins = (pl.col(name).shift(-1).over(CLIENT) for name in ("gap", "started"))
    pairs = gaps.select("gap", later=pl.when(begins == pl.col("came_on")).then(later)).drop_nulls()
    k: float | None = pairs.select(regularity(pl.col("gap"), pl.col("later"))).item()
    return k


def _scored(rows: pl.DataFrame, group: str) -> pl.DataFrame:
    """One row per method."""
    parts, k = [], _regularity(rows)
    for method in METHODS:
        ours = method == "habit"
        came = pl.col("came_on")
        error = (came - pl.col("expected_on" if ours else f"{method}_on")).dt.total_days().abs().cast(pl.Float64)
        inside = came.is_between("expected_low_on", "expected_high_on").cast(pl.Float64).mean()
        outcome = pl.col("came_within_90_days").cast(pl.Float64)
        visits = pl.col("visits_90_days")
        missed = (pl.col("visits_expected_90_days") - visits).abs().sum() / visits.sum()
        share = outcome.mean()
        brier, base = ((pl.col("chance_within_90_days") - outcome) ** 2).mean(), share * (1 - share)
        gain = pl.when(base > 0).then(1 - brier / base)
        told = {
            "n": came.count(),
            "mean_error_days": error.mean(),
            "median_error_days": error.median(),
            "share_inside": inside if ours else pl.lit(None),
            "crps_days": pl.col("crps_days").mean() if ours else error.mean(),
            "brier": brier if ours else pl.lit(None),
            "chance_brier": ((pl.col("chance_of_return") - outcome) ** 2).mean() if ours else pl.lit(None),
            "base_rate_brier": base,
            "brier_gain": gain if ours else pl.lit(None),
            "n_brier": pl.len(),
            "visits_error_share": pl.when(visits.sum() > 0).then(missed) if ours else pl.lit(None),
            "regularity": pl.lit(k, pl.Float64),
        }
        parts.append(rows.select(group=pl.lit(group), method=pl.lit(method), **told))
    return pl.concat(parts, how="vertical_relaxed")


FIGURE = Figure(backtest, backtest_rows, RESULT)
