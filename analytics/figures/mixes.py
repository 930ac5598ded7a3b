"""Bowls as they were mixed, service by service: grams, ratio and strength.

A bowl is what was logged together: the same moment, visit, service and stylist; where its products stand there more
than once, each time is a bowl. The ratio is grams of developer to one gram of colour and lightener. The strength is the
hydrogen peroxide of the ready mix, by parts: Σ grams × percent of its developers ÷ all grams. Volumes are labels: 3, 6,
9 and 12 % are sold as 10, 20, 30 and 40 volume. A second bowl is one of the same products, for the same visit and
service. Everything here is what was logged, not what should be: the maker's ratios, local rules and licensed practice
come first, and what is ready for use holds 12 % at most.
"""

import polars as pl

from analytics.definitions.results import BOWLS, GRAMS_WORKED_OUT, PARTS, STRENGTH, TEXT, Column, Figure, Result
from analytics.methods.peroxide import VOLUMES
from analytics.periods import Period
from analytics.records.chairs.validity import latest_names
from analytics.records.product.bowl_rows import BowlRows
from analytics.records.product.mixes import DEVELOPER, NEED, mixed_bowls

RESULT = Result(
    "one row per service and colour or lightener",
    key=("service_id", "kind"),
    columns={
        "service_id": Column(TEXT, "line of the menu; empty where the log names none"),
        "service": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour or lightener"),
        "bowls": Column(BOWLS, "bowls mixed"),
        "second_bowls": Column(BOWLS, "of these, mixed after an equal one for the same visit and service"),
        "main_g": Column(GRAMS_WORKED_OUT, "grams of colour or lightener in a bowl, median"),
        "developer_g": Column(GRAMS_WORKED_OUT, "grams of developer in a bowl, median"),
        "ready_g": Column(GRAMS_WORKED_OUT, "all grams in a bowl, median"),
        "ready_per_visit_g": Column(GRAMS_WORKED_OUT, "all grams for a visit's service, second bowls added, mean"),
        "ratio": Column(PARTS, "parts of developer to one of colour or lightener, median"),
        "ratio_low": Column(PARTS, "nine bowls in ten have more"),
        "ratio_high": Column(PARTS, "nine bowls in ten have less"),
        "strength_percent": Column(STRENGTH, "hydrogen peroxide of the ready mix, median"),
        "strength_most_percent": Column(STRENGTH, "hydrogen peroxide of the strongest mix"),
        "developers": Column(TEXT, "strengths of developer used, as percent and volume, most used first"),
    },
)

KEY = ["service_id", "kind"]
LABELS = {percent: f"{percent:g} % ({volume} vol)" for percent, volume in VOLUMES.items()}


def mixes(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """One row per service and kind of main product; grams, parts and percent."""
    bowls = mixes_rows(mixed, period=period)
    numbers = bowls.with_columns(pl.col("main_g", "developer_g", "ready_g").cast(pl.Float64))
    with_developer = pl.col("ratio").filter(pl.col("ratio") > 0)
    first = pl.struct(NEED).is_first_distinct() | pl.col("booking_id").is_null()
    return RESULT.shape(
        numbers.with_columns(first=first)
        .group_by(KEY)
        .agg(
            pl.col("main_g", "developer_g", "ready_g").median(),
            bowls=pl.len(),
            second_bowls=(~pl.col("first")).sum(),
            ready_per_visit_g=pl.col("ready_g").sum() / pl.col("first").sum(),
            ratio=with_developer.median(),
            ratio_low=with_developer.quantile(0.1, "linear"),
            ratio_high=with_developer.quantile(0.9, "linear"),
            strength_percent=pl.col("strength_percent").filter(pl.col("developer_g") > 0).median(),
            strength_most_percent=pl.col("strength_percent").max(),
        )
        .join(_developers(bowls), on=KEY, how="left", nulls_equal=True)
        .join(latest_names(mixed.tables["services"]), on="service_id", how="left")
        .with_columns(service=pl.coalesce("service", "service_id"))
        .sort(KEY)
    )


def mixes_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """The bowls, in order of time, with grams, ratio and strength."""
    log = mixed.by_bowl.filter(period.holds(pl.col("logged_at")))
    percent = log.filter(DEVELOPER).group_by("bowl").agg(developer_percent=pl.col("strength_percent").max())
    return mixed_bowls(log).join(percent, on="bowl", how="left").sort("logged_at", "bowl")


def _developers(bowls: pl.DataFrame) -> pl.DataFrame:
    """Per service and kind the strengths used with their labels, most used first."""
    percent = pl.col("developer_percent")
    label = percent.replace_strict(LABELS, default=pl.format("{} %", percent), return_dtype=pl.String)
    counted = bowls.drop_nulls("developer_percent").group_by(*KEY, "developer_percent").len()
    by_use = counted.sort("len", "developer_percent", descending=[True, False])
    return by_use.group_by(KEY, maintain_order=True).agg(developers=label.str.join(", "))


FIGURE = Figure(mixes, mixes_rows, RESULT)
