"""Everything that changes what stands on the shelf, in order of time: deliveries, counts, bowls, sales."""

from datetime import timedelta

import polars as pl

from analytics.money import EXACT
from analytics.records.chairs.validity import valid_that_day
from analytics.records.memo import memoised
from analytics.records.product.retail import pieces

SHELF = ["site", "product_id"]
GRAMS = pl.Decimal(38, 3)
UNTIMED = {"delivery": timedelta(0), "count": timedelta(days=1) - timedelta(microseconds=1)}
MIDDAY = timedelta(hours=12)
RANK = {"opening": 0, "delivery": 1, "sold": 2, "mixed": 3, "returned": 4, "discarded": 5, "count": 6}
OF_THE_DAY = ["product", "kind", "pack_g", "pack_cost"]


@memoised
def movements(
    stock_moves: pl.DataFrame, product_log: pl.DataFrame, sales: pl.DataFrame, products: pl.DataFrame
) -> pl.DataFrame:
    """One row per movement, in order: the product and its pack of that day, at, movement, grams, cost, expires_on.

    movement: opening, delivery, sold, mixed, returned, discarded or count. grams: as stated, else packs × grams in a
    pack of that day; a retail item is a pack, and one that comes back (refunded) is sold less than nothing. Counts of
    one moment are added up: full packs on one line, the open one on another. cost: of a delivery, at unit_cost, else
    at the pack cost of that day; of an opening, at the pack cost of its day; null where neither is known.

    Order is by time. At the same moment deliveries come first and counts last. Of what has a day and no time of day a
    delivery is taken to come at its first moment, a count at its last, and anything else at midday. Rows without grams
    (packs of a product that the products export does not know) are left out.

    What was there before the first movement nobody wrote down. A product whose first count comes later starts with what
    that count implies, count − deliveries + use, at least with what keeps its stock from falling below nothing until
    then; one that was never counted starts with what was used before its first delivery.
    Where stock_moves names no sites, the stock is that of all of them together.
    """
    moves = pl.concat([_moved(stock_moves), _mixed(product_log), _sold(sales)], how="diagonal")
    if (stock_moves["site"] == "").all():
        moves = moves.with_columns(site=pl.lit(""))
    weighed = _weighed(moves.with_columns(at=_timed()), products)
    rank = pl.col("movement").replace_strict(RANK, return_dtype=pl.Int64)
    ordered = weighed.sort("site", "product_id", "at", rank, "cost", "grams", "file", "row", nulls_last=True)
    counts = _counts(ordered)
    others = ordered.filter(pl.col("movement") != "count")
    both = pl.concat([others, counts], how="diagonal").sort("site", "product_id", "at", rank, maintain_order=True)
    return pl.concat([both, _openings(both)], how="diagonal_relaxed").sort(
        "site", "product_id", "at", rank, maintain_order=True
    )


def _timed() -> pl.Expr:
    """The moment; where only the day is known, one that suits the movement."""
    at = pl.col("at")
    late = pl.col("movement").replace_strict(UNTIMED, default=MIDDAY, return_dtype=pl.Duration("us"))
    return pl.when(at.dt.truncate("1d") == at).then(at + late).otherwise(at)


def _moved(stock_moves: pl.DataFrame) -> pl.DataFrame:
    against = pl.col("movement").is_in(["returned", "discarded"])  # a minus there only repeats what the word says
    grams, packs = pl.col("grams").cast(GRAMS), pl.col("packs").round(6).cast(EXACT)
    return stock_moves.select(
        *SHELF,
        "movement",
        "unit_cost",
        "expires_on",
        "file",
        "row",
        named="product",
        at="moved_at",
        grams=pl.when(against).then(grams.abs()).otherwise(grams),
        packs=pl.when(against).then(packs.abs()).otherwise(packs),
    )


def _mixed(product_log: pl.DataFrame) -> pl.DataFrame:
    return product_log.select(
        *SHELF,
        "file",
        "row",
        movement=pl.lit("mixed"),
        named="product",
        at="logged_at",
        grams=pl.col("mixed_g").cast(GRAMS),
    )


def _sold(sales: pl.DataFrame) -> pl.DataFrame:
    return sales.select(
        *SHELF,
        "file",
        "row",
        movement=pl.lit("sold"),
        named="product",
        at="sold_at",
        packs=pieces().cast(EXACT),
    )


def _weighed(moves: pl.DataFrame, products: pl.DataFrame) -> pl.DataFrame:
    priced = valid_that_day(moves, products.select(*SHELF, *OF_THE_DAY, "valid_from"), "product_id", pl.col("at"))
    holds = pl.when(pl.col("pack_g") > 0).then(pl.col("pack_g").cast(EXACT))
    each = pl.coalesce("unit_cost", "pack_cost").cast(EXACT)
    weighed_cost = pl.col("grams").cast(EXACT) * each / holds
    cost = pl.when(pl.col("grams").is_null()).then(pl.col("packs") * each).otherwise(weighed_cost)
    return (
        priced.with_columns(
            product=pl.coalesce("product", "named", "product_id"),
            grams=pl.coalesce(pl.col("grams"), (pl.col("packs") * holds).round(3).cast(GRAMS)),
            cost=pl.when(pl.col("movement") == "delivery").then(cost),
        )
        .drop_nulls("grams")
        .select(*SHELF, *OF_THE_DAY, "at", "movement", "grams", "cost", "expires_on", "file", "row")
    )


def _counts(moves: pl.DataFrame) -> pl.DataFrame:
    first = [name for name in moves.columns if name not in (*SHELF, "at", "grams")]
    return (
        moves.filter(pl.col("movement") == "count")
        .group_by(*SHELF, "at", maintain_order=True)
        .agg(pl.col("grams").sum(), pl.col(first).first())
        .select(moves.columns)
    )


def _openings(moves: pl.DataFrame) -> pl.DataFrame:
    """What was there before the first movement, where a later count implies that something was."""
    count = pl.col("movement") == "count"
    delivery = pl.col("movement") == "delivery"
    change = pl.when(delivery).then("grams").otherwise(-pl.col("grams"))
    others = [name for name in moves.columns if name not in (*SHELF, "movement", "grams", "cost")]
    uncounted = moves.filter((count.cum_sum() - count).over(SHELF) == 0).with_columns(
        _level=pl.when(~count).then(change).cum_sum().over(SHELF),
        _delivered=delivery.cum_sum().over(SHELF) > 0,
    )
    counted = pl.col("grams").filter(count).first()
    started = (
        uncounted.group_by(SHELF, maintain_order=True)
        .agg(
            pl.col(others).first(),
            _implied=counted - pl.col("_level").drop_nulls().last(),
            _lowest=pl.col("_level").filter(counted.is_not_null() | ~pl.col("_delivered")).min(),
        )
        .with_columns(grams=pl.max_horizontal("_implied", -pl.col("_lowest")))
        .filter(pl.col("grams") > 0)
    )
    holds = pl.when(pl.col("pack_g") > 0).then(pl.col("pack_g").cast(EXACT))
    cost = pl.col("grams").cast(EXACT) * pl.col("pack_cost").cast(EXACT) / holds
    return started.with_columns(movement=pl.lit("opening"), cost=cost).select(moves.columns)
