"""What the menu tells of lines where no export says it: the price, and when a visit ends, by the menu's minutes, else
when the next client on that chair begins, else after the usual length of the visits that do end."""

import polars as pl

from analytics.definitions.columns import LINEAGE
from analytics.definitions.tables import TABLES
from analytics.records.chairs.validity import valid_that_day

VISIT = ["site", "booking_id"]
USUAL_MIN = 45.0  # common practice, no source: where nothing else tells how long any visit took


def with_prices(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Used lines; those of a diary without prices have the menu's of their day. What the list of a salon of a group
    does not have is looked up in the list that names no salon, else in the first of the others."""
    unpriced = pl.col("price").is_null()
    if not bookings.select(unpriced.any()).item():
        return bookings
    listed = services.select("site", "service_id", "valid_from", _listed="price")
    in_order = services.sort("site", "valid_from", "price")
    anywhere = in_order.unique("service_id", keep="first").select("service_id", _ever="price")
    lines = valid_that_day(bookings, listed, "service_id", pl.col("starts_at"))
    lines = lines.join(anywhere, on="service_id", how="left", maintain_order="left")
    price = pl.coalesce("price", "_listed", "_ever")
    return lines.with_columns(price=price).select(bookings.columns)


def with_ends(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    """Used lines, each with ends_at or minutes; lines that have either stay as they are."""
    open_ended = pl.col("ends_at").is_null() & pl.col("minutes").is_null()
    if not bookings.select(open_ended.any()).item():
        return bookings
    listed = services.select(
        "service_id", "valid_from", menu_min=pl.col("hands_on_min") + pl.col("processing_min").fill_null(0)
    )
    lines = bookings.with_row_index("_place").filter(open_ended)
    lines = valid_that_day(lines, listed, "service_id", pl.col("starts_at"))
    visits = lines.group_by(VISIT, maintain_order=True).agg(
        pl.col("starts_at").min().alias("_start"), pl.col("chair").first(),
        _menu=pl.when(pl.col("menu_min").min() > 0).then(pl.col("menu_min").sum()),
    ).sort("chair", "_start")  # fmt: skip
    day = pl.col("_start").dt.date()
    until = (pl.col("_start").shift(-1).over("chair", day) - pl.col("_start")).dt.total_seconds() / 60
    visits = visits.with_columns(until.replace(0, None).alias("_until"))
    usual = visits.select(pl.coalesce("_menu", "_until").median()).item() or USUAL_MIN
    visits = visits.select(*VISIT, "_start", _length=pl.coalesce("_menu", "_until", pl.lit(float(usual))))
    ends = lines.select("_place", *VISIT).join(visits, on=VISIT, how="left")
    ends = ends.select(
        "_place", _end=pl.col("_start") + pl.duration(seconds=(pl.col("_length") * 60).round().cast(pl.Int64))
    )
    joined = bookings.with_row_index("_place").join(ends, on="_place", how="left", maintain_order="left")
    kind = TABLES["bookings"].schema["ends_at"]
    made = joined.with_columns(ends_at=pl.coalesce("ends_at", pl.col("_end").cast(kind)))
    return made.drop("_place", "_end").select([*TABLES["bookings"].names, *LINEAGE])
