"""The menu or price list row that is valid on a day."""

from datetime import date

import polars as pl


def valid_that_day(rows: pl.DataFrame, listed: pl.DataFrame, key: str, day: pl.Expr) -> pl.DataFrame:
    """Rows with the columns of the listed row of their key whose validity began last on or before the day.

    listed: one row per key and `valid_from` (null: always), and per `site` where it names sites. A day before the
    first row of its key takes that first row; `before_first` is true there. Rows whose key is not listed get nulls.
    """
    by_site = "site" in rows.columns and "site" in listed.columns and (listed["site"] != "").any()
    by = ["site", key] if by_site else [key]
    first = pl.col("valid_from") == pl.col("valid_from").min().over(by)
    starts = (
        listed.with_columns(pl.col("valid_from").fill_null(date.min))
        .with_columns(_first_day=pl.col("valid_from").min().over(by))
        .with_columns(_from=pl.when(first).then(date.min).otherwise("valid_from"))
        .drop("valid_from", *([] if by_site else ["site"]), strict=False)
        .sort("_from")
    )
    dated = rows.with_columns(_day=day.dt.date())
    days = (
        dated.select(*by, "_day")
        .unique()
        .sort("_day")
        .join_asof(starts, left_on="_day", right_on="_from", by=by, strategy="backward", check_sortedness=False)
        .with_columns(before_first=(pl.col("_day") < pl.col("_first_day")).fill_null(False))
        .drop("_from", "_first_day")
    )
    return dated.join(days, on=[*by, "_day"], how="left", nulls_equal=True, maintain_order="left").drop("_day")


def latest_names(services: pl.DataFrame) -> pl.DataFrame:
    """service_id and its newest name on the menu, as `service`."""
    by_start = services.sort("valid_from", "site", "service", nulls_last=False)
    return by_start.group_by("service_id", maintain_order=True).agg(pl.col("service").last())
