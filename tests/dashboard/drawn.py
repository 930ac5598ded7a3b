"""What the tests of pictures share."""

from datetime import date
from typing import Any

import polars as pl

from analytics.catalogue import result
from analytics.settings import parse_settings

SETTINGS = parse_settings('[salon]\nname = "S"')


HOSTILE = "<img src=x onerror=alert(1)>![i](http://example.org/x)"


def frame(name: str, *rows: dict[str, Any]) -> pl.DataFrame:
    schema = result(name).schema
    return pl.DataFrame([{column: row.get(column) for column in schema} for row in rows], schema=schema)


TODAY = date(2026, 10, 31)


def luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, 1.4.3."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
