"""Rows of figures to be worded, in a plain salon."""

from decimal import Decimal
from typing import Any

import polars as pl

from analytics.catalogue import result
from analytics.settings import Settings, parse_settings


def settings_of(more: str = "", locale: str = "en_GB", currency: str = "EUR") -> Settings:
    return parse_settings(f'[salon]\nname = "S"\nlocale = "{locale}"\ncurrency = "{currency}"\n{more}')


PLAIN = settings_of()


def frame(name: str, *rows: dict[str, Any]) -> pl.DataFrame:
    """Rows of a result, with nothing under the columns not named."""
    schema = result(name).schema
    return pl.DataFrame([{column: row.get(column) for column in schema} for row in rows], schema=schema)


def measure(figure: str, value: str | None, unit: str = "EUR", **more: Any) -> dict[str, Any]:
    """A row of the figure `month` in October 2026, amounts as text; how far they are apart and judged as it has it."""
    amounts = {name: Decimal(text) for name, text in more.items() if isinstance(text, str) and name != "one_side"}
    part = bool(more.get("part_month", False))
    given = None if value is None else Decimal(value)
    apart = {f"from_{name}": given - amounts[name] for name in ("previous", "year_ago") if given and name in amounts}
    judged = {"part_month": part, "judged": not part and "usual_low" in amounts}
    if judged["judged"] and given is not None and not amounts["usual_low"] <= given <= amounts["usual_high"]:
        judged |= {"flag": "below" if given < amounts["usual_low"] else "above"}
    row = {"month": "2026-10", "figure": figure, "value": given, "unit": unit}
    return row | more | amounts | apart | judged


def lasting(service: str, median: float, menu: float | None, lines: int = 30) -> dict[str, Any]:
    over = None if menu is None else median - menu
    row = {"service_id": service, "service": service, "lines": lines, "menu_minutes": menu}
    off = None if over is None or lines < 10 else abs(over) >= 5
    return row | {"median_minutes": median, "median_over_menu": over, "menu_off": off}


def service(name: str, hour: float | None, lines: int = 1) -> dict[str, Any]:
    return {
        "month": "2026-10",
        "service_id": name,
        "service": name,
        "lines": lines,
        "after_product_per_chair_hour": hour,
    }
