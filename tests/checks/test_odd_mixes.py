"""What is odd about bowls and packs."""

from typing import Any

import polars as pl
import pytest
from frames import product_log, products, services

from analytics.checks.odd_mixes import odd_mixes
from analytics.definitions.findings import summarise
from analytics.definitions.tables import TABLES

SHELF = (
    {"product_id": "DYE"},
    {"product_id": "POWDER", "kind": "lightener", "pack_g": "500"},
    {"product_id": "DEV", "kind": "developer", "pack_g": "1000", "strength_percent": "6"},
    {"product_id": "STRONG", "kind": "developer", "pack_g": "1000", "strength_percent": "18"},
    {"product_id": "BOND", "kind": "additive", "pack_g": "250"},
)
Pour = tuple[str, float]


def found(*bowls: tuple[Pour, ...], shelf: tuple[dict[str, Any], ...] = SHELF) -> pl.DataFrame:
    """One bowl a day for roots, each of products and grams."""
    rows = [
        {"logged_at": f"2026-03-{day:02}", "booking_id": f"V{day}", "service_id": "ROOTS"}
        | {"product_id": product_id, "mixed_g": str(grams)}
        for day, pours in enumerate(bowls, start=1)
        for product_id, grams in pours
    ]
    tables = {name: table.empty() for name, table in TABLES.items()}
    tables |= {"product_log": product_log(*rows), "products": products(*shelf)}
    return odd_mixes(tables | {"services": services({"service_id": "ROOTS", "kind": "root_touch_up"})})


USUAL = [(("DYE", 20), ("DEV", 30))] * 9


def test_ordinary_bowls_are_not_odd() -> None:
    assert found(*USUAL, (("DYE", 20), ("DEV", 40)), (("POWDER", 30), ("DEV", 45), ("BOND", 0.5))).is_empty()


@pytest.mark.parametrize(("developer_g", "says"), [(60, "1 : 3.0"), (10, "1 : 0.5")])
def test_a_ratio_far_from_the_usual_one(developer_g: float, says: str) -> None:
    hit = found(*USUAL, (("DYE", 20), ("DEV", developer_g))).row(0, named=True)
    assert (hit["code"], hit["table"], hit["row"]) == ("ratio_far_off", "product_log", 20)
    assert hit["expected"] == f"{says}, where 1 : 1.5 is usual"


def test_eight_bowls_make_a_ratio_usual() -> None:
    far = (("DYE", 20), ("DEV", 90))
    assert found(*USUAL[:6], far).is_empty()
    assert found(*USUAL[:7], far).height == 1


def test_colour_without_developer_has_no_ratio() -> None:
    assert found(*USUAL, (("DYE", 20),)).is_empty()


@pytest.mark.parametrize(("strong_g", "codes"), [(60, ["mix_too_strong"]), (40, [])])
def test_more_than_twelve_percent_when_ready(strong_g: float, codes: list[str]) -> None:
    """20 g with 60 g of 18 % are 13.5 %; with 40 g they are 12.0 %, which is within the limit."""
    hits = found((("DYE", 20), ("STRONG", strong_g)))
    assert hits["code"].to_list() == codes
    assert hits["expected"].to_list() == ["13.5 %"] * len(codes)


def test_lightener_without_developer() -> None:
    hits = found((("POWDER", 30),), (("POWDER", 30), ("DEV", 45)))
    assert hits.select("code", "row").rows() == [("lightener_without_developer", 2)]


@pytest.mark.parametrize(("pack_g", "odd"), [("60", False), ("0.06", True), ("1", True), ("1000", False), ("7", False)])
def test_a_pack_in_kilograms(pack_g: str, odd: bool) -> None:
    """60 for a tube of 60 ml is fine; 0.06 is kilograms, and 1 a litre."""
    hits = found(shelf=({"product_id": "DYE", "pack_g": pack_g},))
    assert hits.select("code", "table", "column").rows() == [("not_grams", "products", "pack_g")] * odd


@pytest.mark.parametrize(("product_id", "grams", "odd"), [("DYE", 0.03, True), ("DYE", 1, False), ("BOND", 0.5, False)])
def test_a_bowl_in_kilograms(product_id: str, grams: float, odd: bool) -> None:
    assert found(((product_id, grams),))["code"].to_list() == ["not_grams"] * odd


def test_findings_send_to_the_maker_and_tell_no_amount() -> None:
    hits = found(*USUAL, *USUAL, (("DYE", 20), ("DEV", 90)), (("POWDER", 30),), (("DYE", 20), ("STRONG", 60)))
    found_out = summarise(hits)
    assert set(found_out["code"]) == {"ratio_far_off", "lightener_without_developer", "mix_too_strong"}
    assert all("maker" in text for text in found_out["what_to_do"])
