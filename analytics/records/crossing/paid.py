"""Payments held against the visits they name: what was due and what was paid."""

import polars as pl

from analytics.money import digits_of, with_tax
from analytics.records.crossing.judged import Crossing, Tables, money_text, number, with_lineage
from analytics.records.lines import on_the_menu
from analytics.records.retail import retail_rows
from analytics.records.stays import VISIT
from analytics.settings import Settings

MOST_PAY = 0.5  # below this share of visits with a payment, payments are not held against visits
NEARLY_ALL_PAY = 0.9  # from this share on, a visit without a payment is odd
CASH_ROUNDING = 5  # smallest units of the currency that cash may be rounded by


def visit_accounts(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit, from the first to the last day on which payments name visits: what was due and paid.

    units_off: paid less due, in the currency's smallest units, of a visit with a payment where most have one.
    units_unpaid: due of a visit without a payment where nearly all have one. Null where there is nothing to judge.
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
        .with_columns(off=pl.col("paid") - pl.col("due"), share=has_payment.mean().over("site"))
    )
    unpaid = pl.col("paid").is_null() & (pl.col("share") >= NEARLY_ALL_PAY)
    judged = accounts.with_columns(
        units_off=pl.when(pl.col("share") > MOST_PAY).then(_units("off", settings)),
        units_unpaid=pl.when(unpaid).then(_units("due", settings)),
    )
    return with_lineage(judged, tables["bookings"])


def _due(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit: due (lines, tips and retail, with tax), its start and the place of its first line."""
    sold = retail_rows(tables["sales"].drop_nulls("booking_id"), tables["products"], settings)
    retail = sold.group_by(VISIT).agg(_retail=pl.col("gross").sum())
    charged = (pl.col("gross") + pl.col("tip")).sum()
    lines = _charges(tables, settings).group_by(VISIT)
    visited = lines.agg(pl.col("place").min(), starts=pl.col("starts_at").min(), due=charged)
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


def _units(amount: str, settings: Settings) -> pl.Expr:
    """The amount in the currency's smallest units."""
    units: pl.Expr = pl.col(amount).cast(pl.Float64) * 10.0 ** digits_of(settings.salon.currency)
    return units.round(4)


def _off() -> pl.Expr:
    much = pl.when(pl.col("off") > 0).then(pl.lit("more")).otherwise(pl.lit("less"))
    return pl.format("{} {}", money_text(pl.col("off").abs()), much)


CROSSINGS = (
    Crossing(
        "paid_differs",
        "bookings",
        "price",
        number("units_off", "paid less due, in the currency's smallest units", low=-CASH_ROUNDING, high=CASH_ROUNDING),
        visit_accounts,
        expected=_off(),
    ),
    Crossing(
        "visit_unpaid",
        "bookings",
        "booking_id",
        number("units_unpaid", "due of a visit without a payment, in smallest units", high=CASH_ROUNDING),
        visit_accounts,
        expected=money_text(pl.col("due")),
    ),
)
