"""The salons of a group: which there are, and the tables of one of them."""

import polars as pl

from analytics.definitions.tables import TABLES

NO_SITE = ""
LISTS = ("services", "products", "clients")  # a list that names no salon is every salon's
OF_A_VISIT = ("product_log", "payments", "sales")
EVENTS = ("bookings", *OF_A_VISIT, "stock_moves", "vouchers")

Tables = dict[str, pl.DataFrame]


def names_sites(table: pl.DataFrame) -> bool:
    """True where a row of the table names a salon of the group."""
    return bool((table["site"] != NO_SITE).any())


def site_names(tables: Tables) -> list[str]:
    """The salons of the group in order of name, "" for rows that name none; empty where the book names no salon."""
    if not any(names_sites(tables[name]) for name in EVENTS):
        return []
    return sorted(set().union(*(tables[name]["site"].unique() for name in EVENTS)))


def placed(tables: Tables) -> Tables:
    """The tables with the salon of the visit wherever bookings name salons and the log, payments or sales name none.

    A visit number that two salons have says nothing, and such a row, like one without a visit, stays without a salon.
    """
    if not names_sites(tables["bookings"]):
        return tables
    visits = tables["bookings"].select("site", "booking_id").unique()
    only_there = visits.filter(pl.len().over("booking_id") == 1).rename({"site": "_site"})
    unplaced = [name for name in OF_A_VISIT if not names_sites(tables[name])]
    return {**tables, **{name: _with_site(tables[name], only_there, name) for name in unplaced}}


def _with_site(table: pl.DataFrame, visits: pl.DataFrame, name: str) -> pl.DataFrame:
    joined = table.join(visits, on="booking_id", how="left", maintain_order="left")
    return joined.with_columns(site=pl.coalesce("_site", "site")).select(list(TABLES[name].schema))


def tables_of(tables: Tables, site: str) -> Tables:
    """What happened in one salon of the group, and the lists that are its own or, naming no salon, everybody's."""
    own = {name: tables[name].filter(pl.col("site") == site) for name in EVENTS}
    lists = {name: tables[name].filter(pl.col("site") == site) for name in LISTS if names_sites(tables[name])}
    return {**tables, **own, **lists}
