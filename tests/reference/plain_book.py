"""A salon's used rows put together: menu and prices valid on a day, completed lines, stays and their minutes."""

import tomllib
from datetime import date, timedelta
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from plain_rows import read_exports
from plain_tax import minor_unit, tax_lines
from plain_time import month_of, real_seconds

Row = dict[str, Any]

ROOT_KINDS = {"root_touch_up", "full_colour"}

COLOUR_KINDS = {"root_touch_up", "full_colour", "lightening", "toner"}


def read_settings(folder: Path) -> Row:
    """salon.toml with the contract's defaults, every number exact."""
    given = tomllib.loads((folder / "salon.toml").read_text(encoding="utf-8"), parse_float=Decimal)
    salon, tax, opening = given["salon"], given.get("tax", {}), dict(given.get("hours", {}))
    closed = {date.fromisoformat(str(day)) for day in opening.pop("closed", [])}
    return {
        "minor": minor_unit(salon.get("currency", "EUR")),
        "zone": ZoneInfo(salon.get("timezone", "Europe/Amsterdam")),
        "chairs": salon.get("chairs", []),
        "prices": tax.get("prices", "included"),
        "round_per": tax.get("round_per", "booking"),
        "default_rate": Decimal(tax.get("default_rate", 21)),
        "opening": opening,
        "closed": closed,
        "roots": given.get("roots", {}),
    }


def by_key(rows: list[Row], key: str) -> dict[str, list[Row]]:
    """The rows of one service or product, the earliest validity first; without valid_from it is always valid."""
    grouped: dict[str, list[Row]] = {}
    for row in rows:
        grouped.setdefault(row[key], []).append(row)
    for versions in grouped.values():
        versions.sort(key=lambda row: row.get("valid_from") or date.min)
    return grouped


def valid_on(versions: list[Row], day: date) -> Row:
    """The latest version that began on or before the day; before all of them, the earliest."""
    valid = versions[0]
    for version in versions:
        if (version.get("valid_from") or date.min) <= day:
            valid = version
    return valid


def find_key(row: Row, key: str, name: str, versions: dict[str, list[Row]]) -> str | None:
    """The id a row means: the one it gives, else the one whose name it gives; unknown to both, what it says."""
    if row.get(key) in versions:
        return str(row[key])
    for found, rows in versions.items():
        if row.get(name) is not None and any(version[name] == row[name] for version in rows):
            return found
    return row.get(key) or row.get(name)


def resets_roots(version: Row | None) -> bool:
    if version is None:
        return False
    if version.get("resets_roots") is not None:
        return bool(version["resets_roots"])
    return version["kind"] in ROOT_KINDS


def menu_minutes(version: Row | None) -> Decimal:
    if version is None:
        return Decimal(0)
    minutes: Decimal = version["hands_on_min"] + (version.get("processing_min") or Decimal(0))
    return minutes


def place_line(row: Row, book: Row) -> Row:
    """One booked line with its menu, its day, its real time and what was charged."""
    settings, line = book["settings"], dict(row)
    line["service_id"] = find_key(row, "service_id", "service", book["menu"])
    line["menu"] = None
    if line["service_id"] in book["menu"]:
        line["menu"] = valid_on(book["menu"][line["service_id"]], row["starts_at"].date())
    # Money of a service the menu does not know is still money: it takes the default rate and has no kind.
    line["tax_rate"] = line["menu"]["tax_rate"] if line["menu"] else settings["default_rate"]
    line["kind"] = line["menu"]["kind"] if line["menu"] else None
    line["day"] = row["starts_at"].date()
    line["month"] = month_of(row["starts_at"])
    line["chair"] = row.get("chair") or row.get("stylist")
    line["charged"] = row["price"] - (row.get("discount") or Decimal(0))
    line["start_seconds"] = real_seconds(row["starts_at"], settings["zone"])
    if row.get("ends_at") is not None:
        line["end_seconds"] = real_seconds(row["ends_at"], settings["zone"])
    else:
        # Minutes in the chair are elapsed minutes, whatever the clock on the wall does meanwhile.
        line["end_seconds"] = line["start_seconds"] + round(row["minutes"] * 60)
    return line


def share_stays(lines: list[Row]) -> list[Row]:
    """The stays of completed lines, each stay's minutes shared over its lines by the menu's minutes."""
    lines_of_stay: dict[Any, list[Row]] = {}
    for line in lines:
        lines_of_stay.setdefault((line["booking_id"], line["chair"]), []).append(line)
    stays = []
    for (_, chair), members in lines_of_stay.items():
        begin = min(line["start_seconds"] for line in members)
        end = max(line["end_seconds"] for line in members)
        stay_minutes = Fraction(end - begin, 60)
        weights = [Fraction(menu_minutes(line["menu"])) for line in members]
        if sum(weights) == 0:
            weights = [Fraction(1)] * len(members)  # equally where the menu gives none
        for line, weight in zip(members, weights, strict=True):
            line["chair_minutes"] = stay_minutes * weight / sum(weights)
        stays.append({"chair": chair, "span": (begin, end)})
    return stays


def cost_per_gram(product_id: str | None, day: date, products: dict[str, list[Row]]) -> Fraction:
    if product_id not in products:
        return Fraction(0)  # a product nobody priced costs nothing that could be worked out
    version = valid_on(products[product_id], day)
    return Fraction(version["pack_cost"]) / Fraction(version["pack_g"])


def service_of_visit(row: Row, lines_of_visit: dict[str, list[Row]]) -> str | None:
    """For a bowl logged without a service: the first colour line of its visit, or else its first line."""
    lines = sorted(lines_of_visit.get(row.get("booking_id") or "", []), key=lambda line: line["line"])
    colour = [line for line in lines if line["kind"] in COLOUR_KINDS]
    return (colour or lines or [{"service_id": None}])[0]["service_id"]


def place_bowl(row: Row, products: dict[str, list[Row]], lines_of_visit: dict[str, list[Row]]) -> Row:
    """One row of the mixing log with its product found and its grams priced on its day."""
    bowl = dict(row)
    bowl["logged_service_id"] = row.get("service_id")
    bowl["service_id"] = row.get("service_id") or service_of_visit(row, lines_of_visit)
    bowl["product_id"] = find_key(row, "product_id", "product", products)
    bowl["month"] = month_of(row["logged_at"])
    per_gram = cost_per_gram(bowl["product_id"], row["logged_at"].date(), products)
    bowl["mixed_cost"] = Fraction(row["mixed_g"]) * per_gram
    if row.get("left_g") is not None:
        bowl["left_cost"] = Fraction(row["left_g"]) * per_gram
    return bowl


def place_sale(row: Row, book: Row) -> Row:
    """One retail sale with what was charged and its rate: the row's, else the product's that day, else the default."""
    sale = dict(row)
    sale["month"] = month_of(row["sold_at"])
    sale["charged"] = row["quantity"] * row["price"] - (row.get("discount") or Decimal(0))
    rate = row.get("tax_rate")
    product_id = find_key(row, "product_id", "product", book["products"])
    if rate is None and product_id in book["products"]:
        rate = valid_on(book["products"][product_id], row["sold_at"].date()).get("tax_rate")
    sale["tax_rate"] = book["settings"]["default_rate"] if rate is None else rate
    return sale


def read_book(folder: Path) -> Row:
    """Everything the figures need, worked out once."""
    tables, accounts = read_exports(folder)
    settings = read_settings(folder)
    book: Row = {
        "settings": settings,
        "tables": tables,
        "accounts": accounts,
        "menu": by_key(tables["services"], "service_id"),
        "products": by_key(tables["products"], "product_id"),
        "clients": {row["client_id"]: row for row in tables["clients"]},
    }
    book["lines"] = [place_line(row, book) for row in tables["bookings"]]
    book["completed"] = [line for line in book["lines"] if line["status"] == "completed"]
    book["stays"] = share_stays(book["completed"])
    tax_lines(book["completed"], settings["prices"], settings["round_per"], settings["minor"])
    lines_of_visit = by_key(book["lines"], "booking_id")
    book["bowls"] = [place_bowl(row, book["products"], lines_of_visit) for row in tables["product_log"]]
    book["sales"] = [place_sale(row, book) for row in tables["sales"]]
    # A sale is no line of a visit, so it shares its rounding with nothing: every sale is a bill of its own.
    numbered = [{**sale, "booking_id": place, "line": 1} for place, sale in enumerate(book["sales"])]
    tax_lines(numbered, settings["prices"], "line", settings["minor"])
    book["sales"] = numbered
    return book


def last_day_of(month_begin: date) -> date:
    return (month_begin + timedelta(days=31)).replace(day=1) - timedelta(days=1)
