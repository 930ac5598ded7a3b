"""Several of one thing side by side (Service 1, Price 1, Service 2, Price 2): each becomes a row of its own."""

import re
from itertools import pairwise

import polars as pl

from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import cell_names, heading_at

NUMBERED = re.compile(r"(.*?\D)[\s_.\-#]*(\d{1,2})\.?$")
FEWEST_NUMBERS = 2


def into_rows(records: pl.DataFrame) -> pl.DataFrame:
    """The records with a row for each numbered group of cells that has something in it; as they are where the headings
    are not numbered from 1 on, each group with the same words."""
    at = heading_at(records)
    if at is None:
        return records
    headings = [str(records[name][at]).strip() for name in cell_names(records)]
    groups = _groups(headings)
    if not groups:
        return records
    members = {place for group in groups for place in group.values()}
    common = [place for place in range(len(headings)) if place not in members]
    titles = [*(headings[place] for place in common), *groups[0]]
    below = records.slice(at + 1)
    parts = [_part(below, common, list(group.values()), order) for order, group in enumerate(groups)]
    first_filled = pl.any_horizontal(
        pl.col(f"c{len(common) + n}").str.strip_chars() != "" for n in range(len(groups[0]))
    )
    rows = pl.concat(parts).sort("row", "_order", maintain_order=True)
    rows = rows.filter(first_filled | (pl.col("_order") == 0)).drop("_order")
    head = records.slice(at, 1).select(
        *(pl.col(name) for name in LEADING if name != "count"),
        pl.lit(len(titles), pl.Int64).alias("count"),
        *(pl.lit(title).alias(f"c{place}") for place, title in enumerate(titles)),
    )
    return pl.concat([head.select(rows.columns), rows])


def _groups(headings: list[str]) -> list[dict[str, int]]:
    """By number: of each numbered word its place. Empty unless at least two groups have the same words, one to n."""
    numbered: dict[int, dict[str, int]] = {}
    for place, heading in enumerate(headings):
        if match := NUMBERED.fullmatch(heading):
            numbered.setdefault(int(match[2]), {})[match[1].strip()] = place
    if len(numbered) < FEWEST_NUMBERS:
        return _repeated(headings)
    numbers = sorted(numbered)
    same = all(set(numbered[number]) == set(numbered[numbers[0]]) for number in numbers)
    return [numbered[number] for number in numbers] if same and numbers == list(range(1, len(numbers) + 1)) else []


def _repeated(headings: list[str]) -> list[dict[str, int]]:
    """The same for headings that stand twice and more in the same order: Service, Price, Service, Price."""
    twice = [heading for heading in dict.fromkeys(headings) if heading and headings.count(heading) > 1]
    if len(twice) < 2:
        return []
    places = {heading: [at for at, one in enumerate(headings) if one == heading] for heading in twice}
    often = {len(found) for found in places.values()}
    if len(often) != 1:
        return []
    groups = [{heading: found[number] for heading, found in places.items()} for number in range(often.pop())]
    apart = all(max(one.values()) < min(after.values()) for one, after in pairwise(groups))
    return groups if apart else []


def _part(below: pl.DataFrame, common: list[int], group: list[int], order: int) -> pl.DataFrame:
    cells = [pl.col(f"c{place}").alias(f"c{number}") for number, place in enumerate([*common, *group])]
    count = pl.lit(len(common) + len(group), pl.Int64).alias("count")
    return below.select("row", count, "spoilt", *cells, pl.lit(order).alias("_order"))
