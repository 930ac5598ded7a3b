"""What is mixed and what is left in the bowl.

Grams are those of the mixing log in the month they were logged. Left over is only known of bowls that were weighed
after the service: the share left is grams left ÷ grams mixed of those bowls, and a bowl that was not weighed is not
counted as empty. Its cost is grams left × pack cost ÷ grams in a pack, at the pack cost valid that day. Colour lines
and colour lines logged say how far the log covers the work of the month (root touch-ups, all-over colour, lightening
and toners of all products together; a line is logged where the log has a bowl for its visit and service, or for its
visit where the log names no service); logged share is the second ÷ the first, the same in every row of a month.
"""

import polars as pl

from analytics.definitions.results import BOWLS, GRAMS, LINES, MONEY, MONTH_KEY, SHARE, TEXT, Column, Figure, Result
from analytics.methods.quotient import per
from analytics.money import digits_of, rounded
from analytics.periods import Period
from analytics.records.product.bowl_rows import BowlRows

RESULT = Result(
    "one row per month and product",
    key=("month", "product_id"),
    columns={
        **MONTH_KEY,
        "product_id": Column(TEXT, "the product"),
        "product": Column(TEXT, "its name"),
        "kind": Column(TEXT, "colour, developer, lightener, additive"),
        "bowls": Column(BOWLS, "bowls it went into"),
        "mixed_g": Column(GRAMS, "grams mixed"),
        "weighed_mixed_g": Column(GRAMS, "grams mixed in bowls that were weighed afterwards"),
        "left_g": Column(GRAMS, "grams left in those bowls"),
        "left_share": Column(SHARE, "left ÷ mixed of the weighed bowls"),
        "left_cost": Column(MONEY, "what the grams left cost, at the pack cost of their day"),
        "colour_lines": Column(LINES, "completed colour lines of the month, all products"),
        "colour_lines_logged": Column(LINES, "of these, lines with a bowl in the log"),
        "logged_share": Column(SHARE, "colour lines logged ÷ colour lines of the month, all products"),
    },
)


def bowls(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """One row per month and product of the log; grams, money in the currency."""
    weighed = pl.col("left_g").is_not_null()
    logged = mixed.colour_lines.group_by("month")
    cover = logged.agg(colour_lines=pl.len(), colour_lines_logged=pl.col("logged").sum())
    return RESULT.shape(
        bowls_rows(mixed, period=period)
        .sort("logged_at", "file", "row")
        .group_by("month", "product_id")
        .agg(
            pl.col("product", "kind").last(),
            pl.len().alias("bowls"),
            pl.col("mixed_g").sum(),
            pl.col("mixed_g").filter(weighed).sum().alias("weighed_mixed_g"),
            pl.when(weighed.any()).then(pl.col("left_g").sum()).alias("left_g"),
            rounded(_left_cost(), digits_of(mixed.settings.salon.currency)).alias("left_cost"),
        )
        .with_columns(left_share=per("left_g", "weighed_mixed_g"))
        .join(cover, on="month", how="left")
        .with_columns(pl.col("colour_lines", "colour_lines_logged").fill_null(0))
        .with_columns(logged_share=per("colour_lines_logged", "colour_lines"))
        .sort("month", "product_id")
    )


def _left_cost() -> pl.Expr:
    """Nothing to say where no bowl was weighed, or the grams left have no known cost."""
    return pl.when(pl.col("left_cost").is_not_null().any()).then(pl.col("left_cost").sum())


def bowls_rows(mixed: BowlRows, *, period: Period) -> pl.DataFrame:
    """The log rows the figure adds up, with product, kind, mixed_cost and left_cost."""
    return mixed.priced.filter(period.holds(pl.col("logged_at")))


FIGURE = Figure(bowls, bowls_rows, RESULT)
