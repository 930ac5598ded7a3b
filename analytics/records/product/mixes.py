"""Bowls as they were mixed: products of the log brought together, and what each visit's hair took of them.

A bowl is what was logged together: the same moment, visit, service and stylist. Where its colour or lightener stands
there more than once, and so does its developer if it has one, each time is a bowl of its own: some logs know the day
only. The rest of what is known of a bowl:

main_g: grams of colour and lightener; the bowl's kind is lightener where there is any, else colour.
ratio: grams of developer to one gram of those. strength_percent: of the ready mix, by parts.
left_g: of main_g, null where not all of it was weighed; more left than was mixed is a slip, and not known either.
"""

import polars as pl

from analytics.definitions.columns import LINEAGE
from analytics.methods.peroxide import strength
from analytics.records.chairs.stays import VISIT
from analytics.records.memo import memoised
from analytics.records.product.bowls import placed_log

TOGETHER = ["site", "logged_at", "booking_id", "service_id", "stylist"]
MAIN_KINDS = ("colour", "lightener")
MAIN = pl.col("kind").is_in(MAIN_KINDS).fill_null(False)
DEVELOPER = (pl.col("kind") == "developer").fill_null(False)
NEED = [*VISIT, "service_id", "kind", "main_products"]


@memoised
def log_by_bowl(
    product_log: pl.DataFrame, products: pl.DataFrame, bookings: pl.DataFrame, services: pl.DataFrame
) -> pl.DataFrame:
    """Priced log rows, each with its service and the number of its `bowl`; bowls are numbered in order of time."""
    log = placed_log(product_log, products, bookings, services)
    same = ["_together", "product_id", "product"]
    place = pl.when(pl.struct(same).is_duplicated()).then(pl.int_range(pl.len()).over(same)).otherwise(0)
    mains = (pl.when(MAIN).then(pl.col("_place")).max() + 1).over("_together")
    developers = (pl.when(DEVELOPER).then(pl.col("_place")).max() + 1).over("_together")
    most = pl.min_horizontal(mains, developers).fill_null(1)
    return (
        log.sort("logged_at", *LINEAGE)
        .with_columns(_together=pl.struct(TOGETHER).rank("dense"))
        .with_columns(_place=place)
        .with_columns(_nth=pl.min_horizontal(pl.col("_place"), most - 1))
        .with_columns(bowl=pl.struct("_together", "_nth").rank("dense").cast(pl.Int64))
        .drop("_together", "_place", "_nth")
    )


def mixed_bowls(log: pl.DataFrame) -> pl.DataFrame:
    """One row per bowl with colour or lightener in it, from log_by_bowl; file and row are those of its first row.

    Beside what the module says: main_products and product (the one of which most was taken), developer_g, ready_g (all
    grams), cost (of all of them; null where one is not known), weighed.
    """
    return bowls_of(log.lazy()).collect()


def bowls_of(log: pl.LazyFrame) -> pl.LazyFrame:
    """mixed_bowls, of which only the columns that are asked for need to be worked out."""
    main_g = pl.col("mixed_g").filter(MAIN).sum()
    left_g = pl.col("left_g").filter(MAIN)
    most = pl.col("mixed_g").filter(MAIN).arg_max()
    bowls = log.group_by("bowl", maintain_order=True).agg(
        pl.col(*TOGETHER, "month", *LINEAGE).first(),
        kind=pl.when((pl.col("kind") == "lightener").any()).then(pl.lit("lightener")).otherwise(pl.lit("colour")),
        main_products=pl.col("product").filter(MAIN).unique().sort().str.join(" + "),
        product=pl.col("product").filter(MAIN).get(most, null_on_oob=True),
        main_g=main_g,
        left_g=pl.when(left_g.null_count() == 0).then(left_g.sum()),
        developer_g=pl.col("mixed_g").filter(DEVELOPER).sum(),
        ready_g=pl.col("mixed_g").sum(),
        strength_percent=strength(
            pl.col("mixed_g").filter(DEVELOPER), pl.col("strength_percent").filter(DEVELOPER), pl.col("mixed_g").sum()
        ),
        cost=pl.when(pl.col("mixed_cost").null_count() == 0).then(pl.col("mixed_cost").sum()),
    )
    mixed = bowls.filter(pl.col("main_g") > 0).with_columns(
        left_g=pl.when(pl.col("left_g") <= pl.col("main_g")).then("left_g"),
        ratio=pl.col("developer_g").cast(pl.Float64) / pl.col("main_g").cast(pl.Float64),
    )
    return mixed.with_columns(weighed=pl.col("left_g").is_not_null())


def needs(bowls: pl.DataFrame, bookings: pl.DataFrame) -> pl.DataFrame:
    """What the hair took, one row per visit, service and colour or lightener (the same products), from mixed_bowls.

    A later bowl of the same products is a second one: the one before it ran out, so that all of it was used where it
    was not weighed. A bowl of another colour is another need. A bowl without a visit is a need of its own.

    first_g: grams in the first bowl. low_g, high_g: limits of what was used (low < used <= high; equal where known: the
    last bowl was weighed). bowls, weighed: how many. spent, spent_g: cost and grams of those with a cost. at, month,
    stylist, product: of the first. client_id: of the visit.
    """
    left = pl.col("left_g").fill_null(0)
    last_known = pl.col("weighed").last()
    before = pl.col("main_g").sum() - pl.col("main_g").last() - left.head(pl.len() - 1).sum()
    clients = bookings.group_by(VISIT).agg(pl.col("client_id").min())
    alone = pl.when(pl.col("booking_id").is_null()).then("bowl")
    return (
        bowls.sort("logged_at", "bowl")
        .group_by(*NEED, alone.alias("_alone"), maintain_order=True)
        .agg(
            pl.col("month", "stylist", "product").first(),
            at=pl.col("logged_at").first(),
            first_g=pl.col("main_g").first(),
            low_g=pl.when(last_known).then(before + pl.col("main_g").last() - left.last()).otherwise(before),
            high_g=before + pl.col("main_g").last() - left.last(),
            bowls=pl.len(),
            weighed=pl.col("weighed").sum(),
            spent=pl.col("cost").sum(),
            spent_g=pl.col("main_g").filter(pl.col("cost").is_not_null()).sum(),
        )
        .drop("_alone")
        .join(clients, on=VISIT, how="left", maintain_order="left")
    )
