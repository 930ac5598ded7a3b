"""The menu as somebody looked it over: what they confirmed or changed of each service, and which services are one."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

import polars as pl

from analytics.definitions.columns import LINEAGE
from analytics.definitions.tables import TABLES
from analytics.records.chairs.renamed_services import joined_menu

OF_ALL_ROWS = ("kind", "hands_on_min", "processing_min")
"""What holds for a service from its first day on; its price is of its last row."""


def menu_lines(services: pl.DataFrame) -> list[dict[str, Any]]:
    """One dict per service of the menu, by kind and name: what its newest row says, and `prices`, each with the day
    from which it holds (None: always)."""
    in_order = services.sort("site", "service_id", "valid_from", nulls_last=False)
    prices = in_order.group_by("site", "service_id", maintain_order=True).agg(prices=pl.struct("valid_from", "price"))
    newest = in_order.unique(["site", "service_id"], keep="last", maintain_order=True)
    lines = newest.join(prices, on=["site", "service_id"]).sort("kind", "service", "site", "service_id")
    return lines.to_dicts()


def confirmed_menu(
    services: pl.DataFrame,
    given: Mapping[tuple[str, str], Mapping[str, Any]],
    pairs: Iterable[tuple[str, str]],
    first: Mapping[str, date],
) -> pl.DataFrame:
    """The rows of the menu as an export of its own has them.

    given: by site and service_id the kind, hands_on_min, processing_min and price that were confirmed. pairs, first: as
    joined_menu takes them.
    """
    rows = []
    in_order = services.sort("site", "service_id", "valid_from", nulls_last=False)
    last = in_order.select(pl.struct("site", "service_id").is_last_distinct()).to_series()
    for row, is_last in zip(in_order.to_dicts(), last, strict=True):
        said = given.get((row["site"], row["service_id"]), {})
        own = {name: said[name] for name in OF_ALL_ROWS if name in said}
        if own.get("kind", row["kind"]) != row["kind"]:
            own["resets_roots"] = None  # by the new kind
        rows.append(row | own | ({"price": said["price"]} if is_last and "price" in said else {}))
    changed = pl.DataFrame(rows, schema=TABLES["services"].schema)
    joined = joined_menu(changed, pairs, first).sort("service_id", "valid_from", nulls_last=False)
    one_salon = (joined["site"] == "").all()
    return joined.drop(*LINEAGE, *(["site"] if one_salon else []))
