"""Payments held against the visits they name: what was due and what was paid."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, money_text, number, with_lineage
from analytics.checks.cross_checks.silent_months import silent
from analytics.money import cash_rounding, digits_of, with_tax
from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import VISIT
from analytics.records.product.retail import retail_rows
from analytics.settings import Settings

MOST_PAY = 0.5  # below this share of visits with a payment, payments are not held against visits
NEARLY_ALL_PAY = 0.9  # from this share on, a visit without a payment is odd


def visit_accounts(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit, from the first to the last day on which payments name visits: what was due and paid.

    off: paid less due; a tip that did not go through the till is not missing. As times of what cash may be rounded by:
    times_off of a visit with a payment where most have one, times_unpaid the due of a visit without a payment where
    nearly all have one and its month is not `silent`. Null where there is nothing to judge.
    """
    paid = tables["payments"].drop_nulls("booking_id")
    paid_at, day = pl.col("paid_at").dt.date(), pl.col("starts").dt.date()
    reach = paid.group_by("site").agg(_from=paid_at.min(), _until=paid_at.max())
    has_payment = pl.col("paid").is_not_null().filter(pl.col("due") > 0)
    accounts = (
        _due(tables, settings)
        .join(reach, on="site")
        .filter(day.is_between("_from", "_until"))
        .join(paid.group_by(VISIT).agg(paid=pl.col("amount").sum()), on=VISIT, how="left")
        .with_columns(off=_off(), share=has_payment.mean().over("site"), month=day.dt.truncate("1mo"))
        .join(silent(tables, "payments").with_columns(silent=True), on=["site", "month"], how="left")
    )
    unpaid = pl.col("paid").is_null() & (pl.col("share") >= NEARLY_ALL_PAY) & pl.col("silent").is_null()
    judged = accounts.with_columns(
        times_off=pl.when(pl.col("share") > MOST_PAY).then(_times("off", settings)),
        times_unpaid=pl.when(unpaid).then(_times("due", settings)),
    )
    return with_lineage(judged, tables["bookings"])


def _due(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit: due (lines, tips, retail, with tax), its tips, its start, the place of its first line."""
    sold = retail_rows(tables["sales"].drop_nulls("booking_id"), tables["products"], settings)
    retail = sold.group_by(VISIT).agg(_retail=pl.col("gross").sum())
    charged = (pl.col("gross") + pl.col("tip")).sum()
    lines = _charges(tables, settings).group_by(VISIT)
    visited = lines.agg(pl.col("place").min(), starts=pl.col("starts_at").min(), due=charged, tips=pl.col("tip").sum())
    return visited.join(retail, on=VISIT, how="left").with_columns(due=pl.col("due") + pl.col("_retail").fill_null(0))


def _charges(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Completed lines with gross; where tax is added to prices it has to be worked out as for the figures."""
    columns = [*VISIT, "line", "service_id", "service", "starts_at", "status", "tip"]
    charged = tables["bookings"].select(*columns, charged=pl.col("price") - pl.col("discount")).with_row_index("place")
    done = charged.filter(pl.col("status") == "completed")
    if settings.tax.prices == "included":
        return done.with_columns(gross="charged")
    rate = pl.col("tax_rate").fill_null(settings.tax.default_rate)
    lines = on_the_menu(done.sort(*VISIT, "line"), tables["services"]).with_columns(tax_rate=rate)
    group = VISIT if settings.tax.round_per == "booking" else [*VISIT, "line"]
    return with_tax(lines, prices="added", digits=digits_of(settings.salon.currency), group=group)


def _off() -> pl.Expr:
    over = pl.col("paid") - pl.col("due")
    return pl.when(over < 0).then(pl.min_horizontal(over + pl.col("tips"), pl.lit(0))).otherwise(over)


def _times(amount: str, settings: Settings) -> pl.Expr:
    """The amount as times of what cash may be rounded by."""
    times: pl.Expr = pl.col(amount).cast(pl.Float64) / float(cash_rounding(settings.salon.currency))
    return times.round(6)


def _more_or_less(settings: Settings) -> pl.Expr:
    much = pl.when(pl.col("off") > 0).then(pl.lit("more")).otherwise(pl.lit("less"))
    return pl.format("{} {}", money_text(pl.col("off").abs(), settings), much)


def _due_text(settings: Settings) -> pl.Expr:
    return money_text(pl.col("due"), settings)


CROSS_CHECKS = (
    CrossCheck(
        "paid_differs",
        "bookings",
        "price",
        number("times_off", "paid less due, as times of what cash may be rounded by", low=-1, high=1),
        visit_accounts,
        expected=_more_or_less,
    ),
    CrossCheck(
        "visit_unpaid",
        "bookings",
        "booking_id",
        number("times_unpaid", "due of a visit without a payment, as times of what cash may be rounded by", high=1),
        visit_accounts,
        expected=_due_text,
    ),
)
