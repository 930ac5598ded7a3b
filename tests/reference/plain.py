"""The salon's figures worked out a second time, from the text of their definitions and nothing else.

It shares no code with the product, so that both being right is the likely reason when both agree. Plain loops, exact
fractions, no thought for speed: read it beside the definitions. Where the text leaves something open, a comment says
what was decided. `figures` answers the tables chairs, occupancy, bowls, tax, takings and roots (without what is
predicted about behaviour); `python tests/reference/plain.py DIR --today YYYY-MM-DD` prints them as JSON.
"""

import argparse
import json
import sys
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

# The parts lie beside this file, however it is started or imported.
sys.path.insert(0, str(Path(__file__).resolve().parent))

from plain_book import COLOUR_KINDS, last_day_of, read_book, valid_on
from plain_roots import roots_table
from plain_tax import money, shorten
from plain_time import common, first_day, gone_by, hours, month_of, months_between, open_in_month, union

Row = dict[str, Any]


def ratio(above: Fraction | Decimal, below: Fraction | Decimal) -> float | None:
    return None if below == 0 else float(Fraction(above) / Fraction(below))


def chairs_row(month: str, service_id: str | None, lines: list[Row], bowls: list[Row], book: Row) -> Row:
    """One month of one service; product cost counts in the month and for the service its log row names."""
    minor, versions = book["settings"]["minor"], book["menu"].get(service_id)
    # Name and kind are those the menu has at the end of the month.
    menu = valid_on(versions, last_day_of(first_day(month))) if versions else None
    chair_hours = sum((line["chair_minutes"] for line in lines), Fraction(0)) / 60
    hands_on_min = [line["menu"]["hands_on_min"] for line in lines if line["menu"]]
    hands_on_hours = Fraction(sum(hands_on_min, Decimal(0))) / 60
    net = shorten(sum((line["net"] for line in lines), Decimal(0)), minor)
    product_cost = money(sum((bowl["mixed_cost"] for bowl in bowls), Fraction(0)), minor)
    return {
        "month": month,
        "service_id": service_id,
        "service": menu["service"] if menu else service_id,
        "kind": menu["kind"] if menu else None,
        "lines": len(lines),
        "chair_hours": float(chair_hours),
        "hands_on_hours": float(hands_on_hours),
        "gross": shorten(sum((line["gross"] for line in lines), Decimal(0)), minor),
        "net": net,
        "product_cost": product_cost,
        "net_per_chair_hour": ratio(net, chair_hours),
        "net_per_hands_on_hour": ratio(net, hands_on_hours),
        "after_product_per_chair_hour": ratio(net - product_cost, chair_hours),
    }


def chairs_table(book: Row) -> list[Row]:
    """One row per month and service with a completed line or product cost.

    A log row that names no service has a row of its own without a service, so that the costs still add up.
    """
    lines: dict[Any, list[Row]] = {}
    bowls: dict[Any, list[Row]] = {}
    for line in book["completed"]:
        lines.setdefault((line["month"], line["service_id"]), []).append(line)
    for bowl in book["bowls"]:
        bowls.setdefault((bowl["month"], bowl.get("service_id")), []).append(bowl)
    keys = sorted(set(lines) | set(bowls), key=lambda key: (key[0], key[1] or ""))
    return [chairs_row(month, service, lines.get((month, service), []), bowls.get((month, service), []), book)
            for month, service in keys]  # fmt: skip


def months_of_salon(book: Row) -> list[str]:
    """From the first to the last month in which something happened; what is only booked has not happened."""
    happened = [line["month"] for line in book["lines"] if line["status"] in ("completed", "no_show")]
    happened += [month_of(row["paid_at"]) for row in book["tables"]["payments"]]
    happened += [row["month"] for row in book["sales"] + book["bowls"]]
    return months_between(min(happened), max(happened)) if happened else []


def chair_names(book: Row) -> list[str]:
    """The settings' chairs, then those any booking names."""
    names = list(book["settings"]["chairs"])
    for name in sorted({line["chair"] for line in book["lines"] if line["chair"]}):
        if name not in names:
            names.append(name)
    return names


def occupancy_table(book: Row, today: date) -> list[Row]:
    """One row per month and chair: hours open, hours occupied at all, share of the open hours occupied."""
    settings, names = book["settings"], chair_names(book)
    occupied = {name: union([stay["span"] for stay in book["stays"] if stay["chair"] == name]) for name in names}
    rows = []
    for month in months_of_salon(book):
        days = [gone_by(month, today, settings["zone"])]
        open_spans = common(open_in_month(month, settings["opening"], settings["closed"], settings["zone"]), days)
        for name in names:
            in_month = common(occupied[name], days)
            rows.append(
                {
                    "month": month,
                    "chair": name,
                    "open_hours": float(hours(open_spans)),
                    "occupied_hours": float(hours(in_month)),
                    "occupied_share": ratio(hours(common(in_month, open_spans)), hours(open_spans)),
                }
            )
    return rows


def colour_work(book: Row) -> dict[str, tuple[int, int]]:
    """Per month: completed colour lines, and how many of them the mixing log has something for."""
    logged = {(bowl["booking_id"], bowl.get("logged_service_id")) for bowl in book["bowls"] if bowl.get("booking_id")}
    counts: dict[str, tuple[int, int]] = {}
    for line in book["completed"]:
        if line["kind"] in COLOUR_KINDS:
            named = (line["booking_id"], line["service_id"]) in logged
            unnamed = (line["booking_id"], None) in logged
            total, covered = counts.get(line["month"], (0, 0))
            counts[line["month"]] = (total + 1, covered + (1 if named or unnamed else 0))
    return counts


def bowls_row(month: str, product_id: str, bowls: list[Row], book: Row, colour: tuple[int, int]) -> Row:
    versions = book["products"].get(product_id)
    product = valid_on(versions, last_day_of(first_day(month))) if versions else None
    weighed = [bowl for bowl in bowls if bowl.get("left_g") is not None]
    mixed_g = sum((bowl["mixed_g"] for bowl in bowls), Decimal(0))
    weighed_mixed_g = sum((bowl["mixed_g"] for bowl in weighed), Decimal(0))
    left_g = sum((bowl["left_g"] for bowl in weighed), Decimal(0))
    left_cost = sum((bowl["left_cost"] for bowl in weighed), Fraction(0))
    return {
        "month": month,
        "product_id": product_id,
        "product": product["product"] if product else product_id,
        "kind": product["kind"] if product else None,
        "bowls": len(bowls),
        "mixed_g": float(mixed_g),
        "weighed_mixed_g": float(weighed_mixed_g),
        # Not weighed is not zero: where nothing was weighed, nothing is known to be left.
        "left_g": float(left_g) if weighed else None,
        "left_share": ratio(left_g, weighed_mixed_g),
        "left_cost": money(left_cost, book["settings"]["minor"]) if weighed else None,
        "colour_lines": colour[0],
        "colour_lines_logged": colour[1],
    }


def bowls_table(book: Row) -> list[Row]:
    """One row per month and product in the mixing log; the colour lines are those of the whole month."""
    grouped: dict[Any, list[Row]] = {}
    for bowl in book["bowls"]:
        grouped.setdefault((bowl["month"], bowl["product_id"]), []).append(bowl)
    colour = colour_work(book)
    return [
        bowls_row(month, product_id, grouped[month, product_id], book, colour.get(month, (0, 0)))
        for month, product_id in sorted(grouped)
    ]


def tax_table(book: Row) -> list[Row]:
    """One row per month and rate, over completed booking lines and sales."""
    minor = book["settings"]["minor"]
    sums: dict[Any, list[Decimal]] = {}
    for line in book["completed"] + book["sales"]:
        amounts = sums.setdefault((line["month"], line["tax_rate"]), [Decimal(0), Decimal(0), Decimal(0)])
        amounts[0] += line["gross"]
        amounts[1] += line["net"]
        amounts[2] += line["tax"]
    return [
        {
            "month": month,
            "tax_rate": rate,
            "gross": shorten(sums[month, rate][0], minor),
            "net": shorten(sums[month, rate][1], minor),
            "tax": shorten(sums[month, rate][2], minor),
        }
        for month, rate in sorted(sums)
    ]


def takings_table(book: Row) -> list[Row]:
    """One row per month and method; a payment without a fee cost none."""
    minor = book["settings"]["minor"]
    sums: dict[Any, list[Decimal]] = {}
    for payment in book["tables"]["payments"]:
        key = (month_of(payment["paid_at"]), payment["method"])
        amounts = sums.setdefault(key, [Decimal(0), Decimal(0)])
        amounts[0] += payment["amount"]
        amounts[1] += payment.get("fee") or Decimal(0)
    return [
        {"month": month, "method": method, "amount": shorten(amounts[0], minor), "fees": shorten(amounts[1], minor)}
        for (month, method), amounts in sorted(sums.items())
    ]


def figures(folder: Path, today: date) -> dict[str, list[Row]]:
    """The tables of one salon folder, worked out for this day."""
    book = read_book(folder)
    return {
        "chairs": chairs_table(book),
        "occupancy": occupancy_table(book, today),
        "bowls": bowls_table(book),
        "tax": tax_table(book),
        "takings": takings_table(book),
        "roots": roots_table(book, today),
    }


def row_accounts(folder: Path) -> list[Row]:
    """Per file: rows read, used, repeats, superseded, set aside."""
    accounts: list[Row] = read_book(folder)["accounts"]
    return accounts


def main() -> None:
    parser = argparse.ArgumentParser(description="Print a salon's figures, worked out the plain way, as JSON.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--today", type=date.fromisoformat, required=True)
    given = parser.parse_args()
    answer = figures(given.folder, given.today)
    print(json.dumps(answer, default=str, ensure_ascii=False, indent=1))


if __name__ == "__main__":
    main()
