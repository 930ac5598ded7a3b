"""What is odd about bowls and packs: ratios and strengths that hair should not meet, and grams that are kilograms.

Rows are used as they stand. Nothing here tells what to mix: the maker's instructions do.
"""

import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import LINEAGE
from analytics.definitions.findings import hits_in
from analytics.methods.peroxide import too_strong
from analytics.records.chairs.stays import VISIT
from analytics.records.product.mixes import TOGETHER, bowls_of, log_by_bowl

FEWEST_BOWLS = 8  # with fewer, a service has no usual ratio
TIMES_BEYOND = 1.5  # how far beyond what nine bowls in ten have a ratio is odd
LEAST_PACK_G, LEAST_MIXED_G, LEAST_ADDITIVE_G = 5, 1, 0.1  # less than this is kilograms or litres, not grams

NEED = ["site", "service_id", "kind", "developer_g", "strength_percent", "ratio", *LINEAGE]


def odd_mixes(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """Hits (findings.HITS) of bowls, log rows and packs."""
    log = _log(tables)
    bowls = bowls_of(log.lazy()).select(NEED).collect()
    dry = bowls.filter((pl.col("kind") == "lightener") & (pl.col("developer_g") == 0))
    strong = bowls.filter(too_strong(pl.col("strength_percent")))
    strength = pl.format("{} %", _digit("strength_percent"))
    parts = [
        _ratios_far_off(bowls),
        hits_in(strong, "mix_too_strong", "product_log", "mixed_g", expected=strength),
        hits_in(dry, "lightener_without_developer", "product_log", "mixed_g"),
        *_kilograms(log, tables["products"]),
    ]
    return pl.concat([findings.hits([]), *parts])


def _log(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """log_by_bowl, from no more than it needs: of the bookings the lines of visits that were mixed for.

    The selected log is a frame of its own, so that what is kept for it goes with it.
    """
    log = tables["product_log"].select(*TOGETHER, "product_id", "product", "mixed_g", "left_g", *LINEAGE)
    lines = tables["bookings"].select(*VISIT, "line", "service_id", "service", "starts_at", "stylist", "chair")
    mixed_for = lines.join(log, on=VISIT, how="semi", maintain_order="left")
    return log_by_bowl(log, tables["products"], mixed_for, tables["services"])


def _digit(name: str) -> pl.Expr:
    return pl.col(name).round(1).cast(pl.String)


def _ratios_far_off(bowls: pl.DataFrame) -> pl.DataFrame:
    """Bowls with developer whose ratio lies far from what nine in ten bowls of the service have."""
    service, ratio = ["site", "service_id", "kind"], pl.col("ratio")
    usual = (
        bowls.filter((ratio > 0) & pl.col("service_id").is_not_null())
        .filter(pl.len().over(service) >= FEWEST_BOWLS)
        .with_columns(
            middle=ratio.median().over(service),
            low=ratio.quantile(0.1).over(service) / TIMES_BEYOND,
            high=ratio.quantile(0.9).over(service) * TIMES_BEYOND,
        )
    )
    far_off = usual.filter(~ratio.is_between("low", "high"))
    says = pl.format("1 : {}, where 1 : {} is usual", _digit("ratio"), _digit("middle"))
    return hits_in(far_off, "ratio_far_off", "product_log", "mixed_g", expected=says)


def _kilograms(log: pl.DataFrame, products: pl.DataFrame) -> list[pl.DataFrame]:
    """Packs and log rows of so few grams that they are kilograms or litres; millilitres pass for grams."""
    least = pl.when(pl.col("kind") == "additive").then(LEAST_ADDITIVE_G).otherwise(LEAST_MIXED_G)
    mixed, pack = pl.col("mixed_g").cast(pl.Float64), pl.col("pack_g").cast(pl.Float64)
    small = log.filter((mixed > 0) & (mixed < least))
    packs = products.filter((pack > 0) & (pack < LEAST_PACK_G))
    return [
        hits_in(small, "not_grams", "product_log", "mixed_g", expected=pl.format("{} g", mixed)),
        hits_in(packs, "not_grams", "products", "pack_g", expected=pl.format("{} g", pack)),
    ]
