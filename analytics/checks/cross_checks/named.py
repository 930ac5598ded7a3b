"""Visits that payments, bowls and sales name but the bookings have not, and services that are not on the menu."""

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Rows, Tables, number
from analytics.definitions.columns import LINEAGE
from analytics.records.chairs.stays import VISIT
from analytics.settings import Settings


def named_visits(table: str) -> Rows:
    """Per row of the table that names a visit which the bookings have not: visits, 0."""

    def rows(tables: Tables, _: Settings) -> pl.DataFrame:
        naming = tables[table].drop_nulls("booking_id").select(*VISIT, *LINEAGE)
        return naming.join(tables["bookings"].select(VISIT), on=VISIT, how="anti").select(*LINEAGE, visits=0)

    return rows


def named_services(table: str) -> Rows:
    """Per row of the table that names a service: menu_rows, 1 where the menu has it, else 0."""

    def rows(tables: Tables, _: Settings) -> pl.DataFrame:
        known = tables["services"].select("service_id").unique().with_columns(menu_rows=1)
        naming = tables[table].drop_nulls("service_id").select("service_id", *LINEAGE)
        return naming.join(known, on="service_id", how="left").with_columns(pl.col("menu_rows").fill_null(0))

    return rows


KNOWN_VISIT = number("visits", "visits of that name in the bookings", low=1)
KNOWN_SERVICE = number("menu_rows", "lines of that name on the menu", low=1)

CROSS_CHECKS = (
    CrossCheck("unknown_visit", "payments", "booking_id", KNOWN_VISIT, named_visits("payments")),
    CrossCheck("unknown_visit", "product_log", "booking_id", KNOWN_VISIT, named_visits("product_log")),
    CrossCheck("unknown_visit", "sales", "booking_id", KNOWN_VISIT, named_visits("sales")),
    *(
        CrossCheck(
            "service_not_listed",
            table,
            "service_id",
            KNOWN_SERVICE,
            named_services(table),
            value=pl.col("service_id"),
        )
        for table in ("bookings", "product_log")
    ),
)
